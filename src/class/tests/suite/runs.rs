//! Runs from their arrival to their mark, by the routes, with a judge at work.

use std::sync::Arc;
use std::time::Duration;

use axum::body::Body;
use coneyard_class::work::{Progress, work};
use coneyard_core::class::{Attempt, read_record};
use coneyard_core::course::shipped;
use coneyard_core::debrief::Ending;
use coneyard_core::pretest::draw;
use coneyard_core::rules::{Edit, SHIPPED, SiteRules};
use coneyard_core::run::DriveSetup;
use futures_util::StreamExt;
use serde_json::{Value, json};
use tokio::sync::watch;

use super::asking::{Asked, request};
use super::stores::{Kept, altered, file, id, on_both, setup};

on_both![
    what_arrives_is_driven_again_and_marked,
    a_part_of_a_handed_out_pretest_is_known_again,
    trainers_watch_it_as_it_comes,
    a_run_is_delivered_once_however_often_it_is_sent,
    drives_are_judged_by_the_rules_of_the_class,
    an_exercise_of_ones_own_counts_for_nothing,
];

/// A drive in which somebody is struck, by the rules as they ship.
fn struck() -> Vec<u8> {
    let course = shipped::text_of_any("person-ahead").unwrap();
    let checks = shipped::checks_of(course);
    let runs = (1..100).map(|seed| {
        let setup = DriveSetup { course: course.to_owned(), checks: checks.clone(), ..setup(seed) };
        coneyard_sim::ride(&setup, "runs-somebody-down").unwrap()
    });
    runs.into_iter()
        .find(|run| run.claimed.ending == Ending::Struck)
        .unwrap()
        .to_text()
        .into_bytes()
}

/// A judge at work until what is given back is dropped.
fn judging(kept: &Kept) -> (watch::Sender<bool>, Arc<Progress>) {
    let (ends, ending) = watch::channel(false);
    let progress = Arc::new(Progress::default());
    tokio::spawn(work(kept.store.clone(), 1, progress.clone(), ending));
    (ends, progress)
}

async fn until_judged(asked: &Asked, cookie: &str) -> Vec<Value> {
    for _ in 0..600 {
        let runs = asked.get("/api/runs", cookie).await.json().as_array().unwrap().clone();
        if runs.iter().all(|run| run["state"] != "waiting") {
            return runs;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    panic!("the judge has not come");
}

async fn what_arrives_is_driven_again_and_marked(kept: Kept) {
    let asked = Asked::host(kept.store.clone()).await;
    let (_ends, progress) = judging(&kept);
    let rowan = asked.join(&asked.class.code, "Rowan").await;
    let (good, bad, none) = (file(1, "Rowan", 200), altered(5), b"{\"no\":\"run\"}".to_vec());
    for (run, state) in [(&good, "waiting"), (&bad, "waiting"), (&none, "unreadable")] {
        let answer = asked.deliver(&rowan, run).await;
        assert_eq!(answer.status, 201, "{answer:?}");
        assert_eq!(answer.json(), json!({ "run": id(run), "state": state }));
    }
    let trainer = asked.enter(&asked.passphrase).await;
    let runs = until_judged(&asked, &trainer).await;
    let of = |run: &[u8]| runs.iter().find(|listed| listed["run"] == id(run).as_str()).unwrap();
    assert_eq!(of(&good)["state"], "judged");
    assert_eq!((&of(&good)["course"], &of(&good)["truck"]), (&json!("straight"), &json!("single")));
    assert_eq!(of(&good)["started"], "2026-03-02T08:00:00.000Z");
    assert!(of(&good)["arrived"].as_str().unwrap().ends_with('Z'));
    assert!(of(&good)["ending"].is_string() && of(&good)["findings"].is_u64());
    // What does not come out again is kept, and says why.
    assert_eq!(of(&bad)["state"], "differs");
    assert!(of(&bad)["reason"].as_str().unwrap().contains("driven again"), "{:?}", of(&bad));
    assert_eq!(of(&none)["state"], "unreadable");
    for run in [&good, &bad, &none] {
        assert_eq!(&asked.get(&format!("/api/runs/{}", id(run)), &trainer).await.bytes, run);
        let state = asked.deliver(&rowan, run).await;
        assert_eq!((state.status, &state.json()["state"]), (200, &of(run)["state"]));
    }
    // The record is core's own, and says what the command `judge` says.
    let record = asked.get(&format!("/api/runs/{}/attempt", id(&good)), &rowan).await.bytes;
    let record: Attempt = read_record(&String::from_utf8(record).unwrap()).unwrap();
    let run = coneyard_core::run::Run::parse("the run", &good).unwrap();
    assert_eq!(record.verdict, coneyard_sim::judge(&run).unwrap());
    assert!(!record.line.is_empty() && record.id == id(&good) && !record.imported);
    assert_eq!(asked.get(&format!("/api/runs/{}/attempt", id(&none)), &rowan).await.status, 404);
    let so_far = progress.so_far();
    assert_eq!((so_far.judged, so_far.not_as_said), (2, 1));
    assert!(so_far.times_real_time > 1.0, "{so_far:?}");
}

async fn a_part_of_a_handed_out_pretest_is_known_again(kept: Kept) {
    let asked = Asked::host(kept.store.clone()).await;
    let (_ends, _) = judging(&kept);
    let rowan = asked.join(&asked.class.code, "Rowan").await;
    let elm = asked.join(&asked.class.code, "Elm").await;
    let hand = async |cookie: &str| {
        let out = asked
            .ask("POST", "/api/sittings", cookie, json!({ "truck": "single" }).to_string())
            .await;
        assert_eq!(out.status, 201);
        out.json()
    };
    let (first, second, elms) = (hand(&rowan).await, hand(&rowan).await, hand(&elm).await);
    assert_ne!(first["attempt"], second["attempt"]);
    // Part 2 of each, driven for a moment, and one that anybody could drive.
    let drive = |sitting: &Value, part: usize, who: &str| {
        let seat = sitting["seed"].as_u64().unwrap() as u32;
        let parts = draw(sitting["class_word"].as_str().unwrap(), seat, "single");
        let setup = parts[part]
            .setup(who, "2026-03-02T08:00:00.000Z", coneyard_core::rules::SHIPPED)
            .unwrap();
        coneyard_sim::random_run(&setup, 8).unwrap().to_text().into_bytes()
    };
    // Whatever side they are drawn on: of some parts one is the mirror image.
    let (own, other, stolen) =
        (drive(&first, 1, "Rowan"), drive(&second, 4, "Rowan"), drive(&elms, 1, "Rowan"));
    for run in [&own, &other, &stolen, &file(3, "Rowan", 8)] {
        assert_eq!(asked.deliver(&rowan, run).await.status, 201);
    }
    let runs = until_judged(&asked, &rowan).await;
    let of = |run: &[u8]| runs.iter().find(|listed| listed["run"] == id(run).as_str()).unwrap();
    assert_eq!((&of(&own)["sitting"], &of(&own)["part"]), (&first["attempt"], &json!(1)));
    assert_eq!((&of(&other)["sitting"], &of(&other)["part"]), (&second["attempt"], &json!(4)));
    // Somebody else's pre-test, signed with one's own name, is practice.
    assert_eq!(of(&stolen)["sitting"], Value::Null);
    assert_eq!(of(&file(3, "Rowan", 8))["sitting"], Value::Null);
}

async fn trainers_watch_it_as_it_comes(kept: Kept) {
    let asked = Asked::host(kept.store.clone()).await;
    tokio::time::sleep(Duration::from_millis(400)).await;
    let (_ends, _) = judging(&kept);
    let trainer = asked.enter(&asked.passphrase).await;
    let elm = asked.join(&asked.class.code, "Elm").await;
    let note =
        json!({ "course": "bays", "truck": "single", "seconds": 12.5, "step": 2, "findings": 1 });
    let noted = asked.ask("PUT", "/api/live", &elm, note.to_string()).await;
    assert_eq!(noted.status, 204);
    let stream =
        asked.open(request("GET", "/api/live", &trainer).body(Body::empty()).unwrap()).await;
    assert_eq!(stream.headers()["content-type"], "text/event-stream");
    let mut pieces = stream.into_body().into_data_stream();
    let mut said = String::new();
    let mut until = async |word: &str| {
        let reading = async {
            while !said.contains(word) {
                said.push_str(str::from_utf8(&pieces.next().await.unwrap().unwrap()).unwrap());
            }
        };
        tokio::time::timeout(Duration::from_secs(10), reading).await.expect(word);
        std::mem::take(&mut said)
    };
    // What is driven already is said at once.
    let first = until("\n\n").await;
    assert!(
        first.contains("event: live")
            && first.contains("\"name\":\"Elm\"")
            && first.contains("12.5"),
        "{first}"
    );
    // Another class's is not said at all.
    asked.join(&asked.other.code, "Birch").await;
    let rowan = asked.join(&asked.class.code, "Rowan").await;
    // What was noted before may still be on its way from the database.
    let joined = until("Rowan").await;
    assert!(joined.contains("event: joined") && !joined.contains("Birch"), "{joined}");
    let run = file(1, "Rowan", 64);
    asked.deliver(&rowan, &run).await;
    let judged = until("\"waiting\":0").await;
    assert!(judged.contains("event: run-arrived") && judged.contains(&id(&run)), "{judged}");
    assert!(judged.contains("event: run-judged"), "{judged}");
    // At the end of the host the stream ends by itself.
    asked.ends.send(true).unwrap();
    let rest = async { while pieces.next().await.is_some() {} };
    tokio::time::timeout(Duration::from_secs(2), rest).await.expect("the stream ends");
}

async fn a_run_is_delivered_once_however_often_it_is_sent(kept: Kept) {
    let asked = Arc::new(Asked::host(kept.store.clone()).await);
    let rowan = asked.join(&asked.class.code, "Rowan").await;
    let run = Arc::new(file(1, "Rowan", 64));
    let tasks: Vec<_> = (0..200)
        .map(|_| {
            let (asked, rowan, run) = (asked.clone(), rowan.clone(), run.clone());
            tokio::spawn(async move { asked.deliver(&rowan, &run).await.status })
        })
        .collect();
    let mut statuses = Vec::new();
    for task in tasks {
        statuses.push(task.await.unwrap());
    }
    statuses.sort_unstable();
    assert_eq!(statuses, [[200; 199].as_slice(), &[201]].concat());
    assert_eq!(asked.get("/api/runs", &rowan).await.json().as_array().unwrap().len(), 1);
}

/// The name of a run is the BLAKE3 of its bytes, as others work it out: the values are those of @noble/hashes 2.4.0,
/// an implementation in JavaScript by other people, of the bytes 0, 1, ... 250, 0, 1, ... at lengths about the edges
/// of a chunk and of a subtree.
#[test]
fn a_run_has_the_name_that_another_implementation_gives_it() {
    let table = [
        (0, "af1349b9f5f9a1a6a0404dea36dcc9499bcb25c9adc112b7cc9a93cae41f3262"),
        (1, "2d3adedff11b61f14c886e35afa036736dcd87a74d27b5c1510225d0f592e213"),
        (1023, "10108970eeda3eb932baac1428c7a2163b0e924c9a9e25b35bba72b28f70bd11"),
        (1024, "42214739f095a406f3fc83deb889744ac00df831c10daa55189b5d121c855af7"),
        (1025, "d00278ae47eb27b34faecf67b4fe263f82d5412916c1ffd97c8cb7fb814b8444"),
        (2048, "e776b6028c7cd22a4d0ba182a8bf62205d2ef576467e838ed6f2529b85fba24a"),
        (2049, "5f4d72f40d7a5f82b15ca2b2e44b1de3c2ef86c426c95c1af0b6879522563030"),
        (3072, "b98cb0ff3623be03326b373de6b9095218513e64f1ee2edd2525c7ad1e5cffd2"),
        (3073, "7124b49501012f81cc7f11ca069ec9226cecb8a2c850cfe644e327d22d3e1cd3"),
        (65536, "68d647e619a930e7b1082f74f334b0c65a315725569bdc123f0ee11881717bfe"),
        (102_400, "bc3e3d41a1146b069abffad3c0d44860cf664390afce4d9661f7902e7943e085"),
    ];
    for (length, expected) in table {
        let bytes: Vec<u8> = (0..length).map(|i| (i % 251) as u8).collect();
        assert_eq!(super::stores::id(&bytes), expected, "{length}");
    }
}

/// Whoever loosens rules for themselves gains nothing: what arrives is judged by those of the class, a part of a pre-test
/// that was driven by others is practice, and where nobody can say how it would have come, it counts for nothing.
async fn drives_are_judged_by_the_rules_of_the_class(kept: Kept) {
    const FAULT: &str = "plugging-ran-back";
    let loose = SiteRules::shipped().edited("loose", &Edit::On(FAULT.to_owned(), false)).unwrap();
    let asked = Asked::host(kept.store.clone()).await;
    let (_ends, _) = judging(&kept);
    let rowan = asked.join(&asked.class.code, "Rowan").await;
    let trainer = asked.enter(&asked.passphrase).await;
    let drive = |seed: u32, rules: &SiteRules| {
        let setup = DriveSetup { rules: rules.to_whole_text(), ..setup(seed) };
        coneyard_sim::ride(&setup, "run-back").unwrap().to_text().into_bytes()
    };
    let delivered = async |run: &[u8]| {
        assert_eq!(asked.deliver(&rowan, run).await.status, 201);
        let runs = until_judged(&asked, &trainer).await;
        let listed = runs.into_iter().find(|listed| listed["run"] == id(run).as_str()).unwrap();
        let record = asked.get(&format!("/api/runs/{}/attempt", id(run)), &trainer).await.bytes;
        let record: Option<Attempt> =
            String::from_utf8(record).ok().and_then(|text| read_record(&text).ok());
        (listed, record)
    };
    let finds = |record: &Option<Attempt>| {
        let found = &record.as_ref().unwrap().verdict.debrief.findings;
        found.iter().any(|f| f.code == FAULT)
    };
    // Nobody has said by which rules: each goes by its own.
    let (_, record) = delivered(&drive(3, &loose)).await;
    assert!(!finds(&record) && record.unwrap().judged_again.is_none());

    // As when the site is served.
    kept.store.serve_rules(&asked.class.id, SHIPPED).await.unwrap();
    let now = asked.get("/api/class/rules", &rowan).await.json();
    assert_eq!((&now["set"], now["rules"].as_str()), (&json!(false), Some(SHIPPED)));
    let (_, record) = delivered(&drive(4, &SiteRules::shipped())).await;
    assert!(finds(&record) && record.unwrap().judged_again.is_none());
    let (listed, record) = delivered(&drive(5, &loose)).await;
    assert_eq!(listed["state"], "judged");
    assert!(finds(&record), "the class watches it");
    let again = record.unwrap().judged_again.unwrap();
    assert!(!again.first.findings.iter().any(|f| f.code == FAULT), "what it said itself is kept");

    // A part of a pre-test that was driven by loose rules is none.
    let out = asked.ask("POST", "/api/sittings", &rowan, json!({ "truck": "single" }).to_string());
    let out = out.await.json();
    let seat = out["seed"].as_u64().unwrap() as u32;
    let parts = draw(out["class_word"].as_str().unwrap(), seat, "single");
    let part = |rules: &str| {
        let setup = parts[1].setup("Rowan", "2026-03-02T08:00:00.000Z", rules).unwrap();
        coneyard_sim::random_run(&setup, 8).unwrap().to_text().into_bytes()
    };
    let (listed, _) = delivered(&part(&loose.to_whole_text())).await;
    assert_eq!(listed["sitting"], Value::Null);
    let (listed, _) = delivered(&part(SHIPPED)).await;
    assert_eq!(listed["sitting"], out["attempt"]);

    // A trainer sets others; what is no file of rules is refused in one sentence, and takes nothing back.
    let set = async |rules: Value| {
        asked.ask("PUT", "/api/class/rules", &trainer, json!({ "rules": rules }).to_string()).await
    };
    assert_eq!(set(json!(loose.to_whole_text())).await.status, 204);
    let refused = set(json!("{}")).await;
    assert_eq!(refused.status, 422);
    refused.sentence();
    assert_eq!(asked.get("/api/class/rules", &rowan).await.json()["set"], true);
    let (_, record) = delivered(&drive(7, &loose)).await;
    assert!(!finds(&record) && record.unwrap().judged_again.is_none());
    let (_, record) = delivered(&drive(8, &SiteRules::shipped())).await;
    assert!(!finds(&record), "the class does not watch it");

    // Where nobody can say how it would have gone on, it counts for nothing.
    let goes_on = Edit::On("person-struck".to_owned(), false);
    let goes_on = SiteRules::shipped().edited("goes on", &goes_on).unwrap();
    assert_eq!(set(json!(goes_on.to_whole_text())).await.status, 204);
    let (listed, record) = delivered(&struck()).await;
    assert_eq!((&listed["state"], record.is_none()), (&json!("differs"), true), "{listed}");
    assert!(listed["reason"].as_str().unwrap().contains("other rules than the class's"));
    assert_eq!(set(Value::Null).await.status, 204);
    assert_eq!(asked.get("/api/class/rules", &rowan).await.json()["rules"], SHIPPED);
}

/// A yard without its people, under its own name: what arrives is kept, and is on no board.
async fn an_exercise_of_ones_own_counts_for_nothing(kept: Kept) {
    let asked = Asked::host(kept.store.clone()).await;
    let (_ends, _) = judging(&kept);
    let rowan = asked.join(&asked.class.code, "Rowan").await;
    let trainer = asked.enter(&asked.passphrase).await;
    let drive = |seed: u32, course: String| {
        let setup = DriveSetup { course, ..setup(seed) };
        coneyard_sim::random_run(&setup, 100).unwrap().to_text().into_bytes()
    };
    let real = shipped::text("straight").unwrap().to_owned();
    let quiet = real.replacen("\"traffic\": true", "\"traffic\": false", 1);
    assert_ne!(real, quiet);
    let (known, own) = (drive(11, real), drive(12, quiet));
    for run in [&known, &own] {
        assert_eq!(asked.deliver(&rowan, run).await.status, 201);
    }
    let runs = until_judged(&asked, &trainer).await;
    let of = |run: &[u8]| runs.iter().find(|listed| listed["run"] == id(run).as_str()).unwrap();
    assert_eq!(of(&known)["state"], "judged");
    assert_eq!(of(&own)["state"], "differs");
    assert!(of(&own)["reason"].as_str().unwrap().starts_with("its exercise is another one"));
    let record = async |run: &[u8]| {
        asked.get(&format!("/api/runs/{}/attempt", id(run)), &trainer).await.status
    };
    assert_eq!((record(&known).await, record(&own).await), (200, 404));
}

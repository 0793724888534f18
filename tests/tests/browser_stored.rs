//! What stands in a browser's database: a drive of every kind is kept in it, and a database of an
//! older version opens.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::run::file::SIMULATION;
use coneyard_tests::browser::keyboard::{Keyboard, tap};
use coneyard_tests::browser::stored::{dump, fill, records};
use coneyard_tests::browser::{Size, Yard, places};
use coneyard_tests::drives::ridden;
use coneyard_tests::key_rider::Held;
use coneyard_tests::yards::{repo_file, repo_text};
use serde_json::{Value, json};

const STATUS: &str = "JSON.parse(coneyard.status())";

/// A database with a record of every kind: what was driven with keys, what came in as a file, a
/// pre-test of which one part is driven, and two drives that were cut off. With the variable
/// CONEYARD_WRITE_STORED it is written into that file, as test data for versions to come.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn what_is_driven_stands_in_the_database() {
    let yard = Yard::start(Size::SMALL, "en").await;
    for (course, rider, seed) in
        [("straight", "run-back", 3), ("figure-eight", "model", 1), ("slalom", "no-horn", 2)]
    {
        let file = yard.downloads.join(format!("{course}.json"));
        std::fs::write(&file, ridden(course, "single", rider, seed)).unwrap();
        yard.open("#/path").await;
        yard.wait_for(places::IMPORT).await.send_keys(&file.to_string_lossy()).await.unwrap();
        yard.debrief_opens().await;
    }
    driving(&yard, "#/drive/laps-clockwise/single").await;
    yard.ask_to_leave().await;
    yard.click(places::LEAVE_TO_DEBRIEF).await;
    yard.debrief_opens().await;

    driving(&yard, "#/drive/slalom/single").await;
    yard.crash_tab().await;

    yard.open("#/pre-test").await;
    yard.wait_for(places::BEGIN_PRE_TEST).await;
    yard.wait_for(places::CLASS_WORD).await.send_keys("heron").await.unwrap();
    yard.wait_for(places::SEAT).await.send_keys("4").await.unwrap();
    yard.click(places::BEGIN_PRE_TEST).await;
    yard.wait_until(&format!("{STATUS}.walk !== null")).await;
    yard.take_the_truck().await;
    yard.wait_for(places::NEXT_PART).await;
    yard.click(places::NEXT_PART).await;
    underway(&yard).await;
    yard.crash_tab().await;

    yard.open_bare().await;
    let database = dump(&yard).await;
    let count = |store| records(&database, store).len();
    assert_eq!((count("attempts"), count("runs")), (5, 5));
    assert_eq!((count("drives"), count("sittings")), (2, 1));
    assert!(count("controls") >= 4, "{}", count("controls"));
    if let Some(path) = std::env::var_os("CONEYARD_WRITE_STORED") {
        let mut text = json!(database).to_string();
        text.push('\n');
        std::fs::write(path, text).unwrap();
    }
}

/// Every database that a version of the site left, with its file's name and the version of the
/// simulation that made its runs.
fn stored() -> Vec<(String, Value, u32)> {
    let folder = std::fs::read_dir(repo_file("tests/stored")).unwrap();
    let mut names: Vec<String> =
        folder.map(|f| f.unwrap().file_name().into_string().unwrap()).collect();
    names.retain(|name| name.ends_with(".json"));
    names.sort();
    assert!(names.len() >= 2, "{names:?}");
    let read = |name: String| {
        let database: Value =
            serde_json::from_str(&repo_text(&format!("tests/stored/{name}"))).unwrap();
        let runs = records(&database, "runs");
        let made: Vec<u64> = runs.iter().map(|(_, run)| simulation(run)).collect();
        assert!(made.iter().all(|m| *m == made[0]), "{name}: {made:?}");
        let made = u32::try_from(made[0]).unwrap();
        (name, database, made)
    };
    names.into_iter().map(read).collect()
}

fn simulation(run: &Value) -> u64 {
    let run: Value = serde_json::from_str(run.as_str().unwrap()).unwrap();
    run["simulation"].as_u64().unwrap()
}

/// A database as one of another simulation than the one that is here: it is that by itself once the
/// simulation has changed, and until then its numbers are made lower.
fn of_another_simulation(mut database: Value, made: u32) -> (Value, u32) {
    if made != SIMULATION {
        return (database, made);
    }
    let lower = made - 1;
    let (from, to) = (format!("\"simulation\":{made},"), format!("\"simulation\":{lower},"));
    for store in ["attempts", "runs", "drives"] {
        for record in database["stores"][store].as_array_mut().unwrap() {
            let text = record[1].as_str().unwrap();
            assert!(text.contains(&from), "{store}: {text:.80}");
            record[1] = json!(text.replacen(&from, &to, 1));
        }
    }
    (database, lower)
}

async fn text_of(yard: &Yard, css: &str) -> String {
    yard.wait_for(css).await.text().await.unwrap()
}

/// Both versions are named in a sentence.
fn assert_names(said: &str, made: u32) {
    for version in [made, SIMULATION] {
        assert!(said.contains(&version.to_string()), "{version} in {said:?}");
    }
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_database_of_an_older_version_opens_and_says_what_cannot_be_driven_again() {
    for (name, database, made) in stored() {
        println!("{name}");
        let (database, made) = of_another_simulation(database, made);
        opens_but_cannot_be_driven_again(&database, made).await;
    }
}

/// Its runs are of the simulation that is here: all that can be done with what was just driven can
/// be done with what was driven then.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn what_an_older_version_kept_of_this_simulation_is_driven_again_and_gone_on_with() {
    for (name, database, made) in stored() {
        if made == SIMULATION {
            println!("{name}");
            opens_and_goes_on(&database).await;
        }
    }
}

async fn opens_and_goes_on(database: &Value) {
    let value = |store: &str, n: usize| -> Value {
        serde_json::from_str(records(database, store)[n].1.as_str().unwrap()).unwrap()
    };
    let id = |record: &Value| record["id"].as_str().unwrap().to_owned();
    let yard = Yard::start(Size::SMALL, "en").await;
    fill(&yard, database).await;
    yard.open("#/path").await;
    yard.wait_for(places::GO_ON).await;
    // The file in which the database was filled names no icon, and the browser looked for one.
    yard.console_errors().await;
    assert!(!yard.has(places::UNREADABLE).await);
    let runs: Vec<Value> = records(database, "runs").into_iter().map(|(_, r)| r.clone()).collect();
    let judge = "await coneyard.load(); return args[0].map((run) => coneyard.judge(run));";
    let judged = yard.script(judge, vec![json!(runs)]).await.unwrap();
    for (n, judged) in judged.as_array().unwrap().iter().enumerate() {
        let judged: Value = serde_json::from_str(judged.as_str().unwrap()).unwrap();
        let kept = value("attempts", n);
        yard.open(&format!("#/debrief/{}", id(&kept))).await;
        yard.wait_for(places::REPRODUCES).await;
        assert!(!yard.has(places::OTHER_SIMULATION).await);
        assert!(yard.has(places::TO_REPLAY).await);
        assert_eq!(judged, kept["verdict"], "it is judged as it was judged then");
    }
    let cut = [value("drives", 0), value("drives", 1)];
    let cut = cut.iter().find(|d| d["place"].is_null()).unwrap();
    yard.open(&format!("#/drive-on/{}", id(cut))).await;
    yard.wait_for(places::DRIVING).await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive' && {STATUS}.tick > 64")).await;
    yard.open(&format!("#/pre-test/{}", id(&value("sittings", 0)))).await;
    yard.wait_for(places::NEXT_PART).await;
    assert!(!yard.has(places::PRE_TEST_CANNOT_GO_ON).await);
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
    let after = dump(&yard).await;
    assert_eq!(records(&after, "runs"), records(database, "runs"), "no run is written over");
}

async fn opens_but_cannot_be_driven_again(database: &Value, made: u32) {
    let attempts: Vec<String> =
        records(database, "attempts").iter().map(|(id, _)| (*id).to_owned()).collect();
    assert!(attempts.len() >= 5);
    let value = |store: &str, n: usize| -> Value {
        serde_json::from_str(records(database, store)[n].1.as_str().unwrap()).unwrap()
    };
    let who = |n| value("attempts", n)["who"].as_str().unwrap().to_owned();
    let nameless = (0..attempts.len()).filter(|n| who(*n).is_empty()).count();
    let (sitting, drives) = (value("sittings", 0), [value("drives", 0), value("drives", 1)]);
    let sitting = sitting["id"].as_str().unwrap().to_owned();
    let cut =
        drives.iter().find(|d| d["place"].is_null()).unwrap()["id"].as_str().unwrap().to_owned();
    // What nobody can read is counted, and left as it is.
    let mut with_odd = database.clone();
    for (store, odd) in [("attempts", "{"), ("drives", "7"), ("sittings", "null")] {
        with_odd["stores"][store].as_array_mut().unwrap().push(json!(["odd", odd]));
    }

    let yard = Yard::start(Size::SMALL, "en").await;
    fill(&yard, &with_odd).await;
    yard.open("#/progress").await;
    // The file in which the database was filled names no icon, and the browser looked for one.
    yard.console_errors().await;
    yard.wait_until(&format!("document.querySelectorAll('tbody tr').length === {nameless}")).await;
    assert!(text_of(&yard, places::UNREADABLE).await.contains('3'));
    yard.open("#/").await;
    yard.wait_for("input[type=text]").await.send_keys("Alder\n").await.unwrap();
    yard.go("#/progress").await;
    let named = attempts.len() - nameless;
    yard.wait_until(&format!("document.querySelectorAll('tbody tr').length === {named}")).await;

    for (n, id) in attempts.iter().enumerate() {
        let kept = value("attempts", n);
        yard.open(&format!("#/debrief/{id}")).await;
        yard.wait_for(places::ENDING).await;
        assert_names(&text_of(&yard, places::OTHER_SIMULATION).await, made);
        assert!(!yard.has(places::TO_REPLAY).await, "there is nothing to replay");
        let digest: String =
            kept["verdict"]["final_digest"].as_str().unwrap().chars().take(16).collect();
        assert!(text_of(&yard, places::REPRODUCES).await.contains(&digest), "as it was judged");
        if let Some(total) = kept["verdict"]["debrief"]["total"].as_f64() {
            let shown = text_of(&yard, ".total .big").await;
            assert_eq!(shown, format!("{total:.0}"), "{id}");
        }
    }
    yard.open(&format!("#/replay/{}", attempts[0])).await;
    assert_names(&text_of(&yard, places::WHY_NOT).await, made);

    yard.open("#/path").await;
    assert_names(&text_of(&yard, places::CANNOT_GO_ON).await, made);
    assert!(!yard.has(places::GO_ON).await);
    assert!(yard.is("document.querySelectorAll('.cut-off li button').length === 1").await);
    yard.open(&format!("#/drive-on/{cut}")).await;
    assert_names(&text_of(&yard, places::WHY_NOT).await, made);
    yard.open(&format!("#/pre-test/{sitting}")).await;
    assert_names(&text_of(&yard, places::PRE_TEST_CANNOT_GO_ON).await, made);
    assert!(!yard.has(places::NEXT_PART).await);
    yard.open(&format!("#/pre-test/{sitting}/2")).await;
    assert_names(&text_of(&yard, places::WHY_NOT).await, made);

    // What can be done is done.
    yard.open("#/path").await;
    let delete = format!("{} {}", places::CUT_OFF, places::DELETE);
    yard.click(&delete).await;
    yard.click(&delete).await;
    yard.wait_until(&format!("!document.querySelector('{}')", places::CUT_OFF)).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());

    let after = dump(&yard).await;
    let left = |store| -> Vec<String> {
        records(&after, store).iter().map(|(id, _)| (*id).to_owned()).collect()
    };
    assert!(!left("drives").contains(&cut) && left("drives").contains(&"odd".to_owned()));
    let mut all = attempts.clone();
    all.push("odd".to_owned());
    assert_eq!(left("attempts"), all, "nothing is lost");
    assert_eq!(records(&after, "runs"), records(database, "runs"), "no run is written over");
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn what_the_browser_has_no_room_for_is_said_until_it_is_kept() {
    let yard = Yard::start(Size::SMALL, "en").await;
    let file = yard.downloads.join("given.json");
    let given = ridden("straight", "single", "run-back", 3);
    std::fs::write(&file, &given).unwrap();
    yard.open_bare().await;
    quota(&yard, Some(1)).await;
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&file.to_string_lossy()).await.unwrap();
    yard.debrief_opens().await;
    yard.wait_for(places::REPRODUCES).await;
    let imported = address(&yard).await;
    assert!(text_of(&yard, places::LOOSE).await.contains("Quota"), "it is said why");
    // On any page, and although the lists are read again.
    yard.go("#/path").await;
    yard.wait_for(places::EXERCISE).await;
    yard.click(places::SAVE_LOOSE).await;
    yard.go("#/progress").await;
    yard.wait_for(places::LOOSE).await;
    assert_eq!(yard.downloaded(".run.json").await, given);

    quota(&yard, None).await;
    yard.click(places::KEEP_AGAIN).await;
    yard.wait_until(&format!("!document.querySelector('{}')", places::LOOSE)).await;
    yard.open(&imported).await;
    yard.wait_for(places::REPRODUCES).await;
    assert_eq!(counts(&yard).await, [1, 1, 0, 0]);
}

/// Attempts, runs, drives and pieces of drives in the database.
async fn counts(yard: &Yard) -> [usize; 4] {
    let now = dump(yard).await;
    ["attempts", "runs", "drives", "controls"].map(|store| records(&now, store).len())
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_finished_drive_that_is_not_kept_is_shown_once_and_stays_under_way_in_the_database() {
    let yard = Yard::start(Size::SMALL, "en").await;
    driving(&yard, "#/drive/laps-clockwise/single").await;
    refuses(&yard, "put", "runs").await;
    yard.ask_to_leave().await;
    yard.click(places::LEAVE_TO_DEBRIEF).await;
    yard.debrief_opens().await;
    assert!(text_of(&yard, places::LOOSE).await.contains("not today"));
    yard.go("#/path").await;
    yard.wait_for(places::EXERCISE).await;
    yard.settle().await;
    assert!(yard.has(places::LOOSE).await);
    assert!(!yard.has(places::CUT_OFF).await, "what is among the attempts is not also cut off");
    let [attempts, runs, drives, pieces] = counts(&yard).await;
    assert_eq!([attempts, runs, drives], [0, 0, 1], "all of it or nothing");
    assert!(pieces > 2, "{pieces}");
    refuses(&yard, "put", "").await;
    yard.click(places::KEEP_AGAIN).await;
    yard.wait_until(&format!("!document.querySelector('{}')", places::LOOSE)).await;
    assert_eq!(counts(&yard).await, [1, 1, 0, 0], "the drive has become an attempt");
}

/// Leaves the site so many bytes of room; None as much as there is.
async fn quota(yard: &Yard, bytes: Option<u32>) {
    let params = match bytes {
        Some(bytes) => json!({ "origin": yard.address, "quotaSize": bytes }),
        None => json!({ "origin": yard.address }),
    };
    yard.devtools("Storage.overrideQuotaForOrigin", params).await;
}

async fn address(yard: &Yard) -> String {
    let hash = yard.script("return location.hash;", Vec::new()).await.unwrap();
    hash.as_str().unwrap().to_owned()
}

/// Lets the browser refuse to put into this store, or to delete from it; from none, all is well again.
async fn refuses(yard: &Yard, method: &str, store: &str) {
    let body = "
        const [method, name] = args;
        const stores = IDBObjectStore.prototype;
        const real = (stores.coneyard_real ??= stores[method]);
        stores[method] = function (...given) {
            if (this.name === name) throw new DOMException('not today', 'UnknownError');
            return real.apply(this, given);
        };";
    yard.script(body, vec![json!(method), json!(store)]).await.unwrap();
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_deletion_that_fails_is_said_and_leaves_all_as_it_was() {
    let yard = Yard::start(Size::SMALL, "en").await;
    let file = yard.downloads.join("given.json");
    std::fs::write(&file, ridden("straight", "single", "run-back", 3)).unwrap();
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&file.to_string_lossy()).await.unwrap();
    yard.debrief_opens().await;
    let debrief = address(&yard).await;
    refuses(&yard, "delete", "runs").await;
    delete(&yard).await;
    assert!(text_of(&yard, places::UNDONE).await.contains("not today"));
    assert_eq!(counts(&yard).await, [1, 1, 0, 0]);
    refuses(&yard, "delete", "").await;
    yard.go(&debrief).await;
    delete(&yard).await;
    yard.wait_until(&format!("!document.querySelector('{}')", places::UNDONE)).await;
    assert_eq!(counts(&yard).await, [0, 0, 0, 0]);
}

/// Deletes the attempt whose debrief is shown.
async fn delete(yard: &Yard) {
    yard.wait_for(places::REPRODUCES).await;
    yard.click(places::DELETE).await;
    yard.click(places::DELETE).await;
    yard.wait_until("location.hash === '#/path'").await;
}

/// Opens a drive and drives a while.
async fn driving(yard: &Yard, page: &str) {
    yard.open(page).await;
    underway(yard).await;
}

/// Drives a while in the drive that has been opened, and turns the key off.
async fn underway(yard: &Yard) {
    yard.wait_for(places::DRIVING).await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive'")).await;
    let mut keyboard = Keyboard::default();
    keyboard.hold(yard, &Held::from(['w'])).await;
    yard.wait_until(&format!("{STATUS}.tick > 160 && {STATUS}.truck.speed > 0.5")).await;
    keyboard.hold(yard, &Held::new()).await;
    tap(yard, KEY).await;
    yard.wait_until(&format!("!{STATUS}.truck.key_on")).await;
    // Longer than a piece of the record.
    let now = yard.script(&format!("return {STATUS}.tick;"), Vec::new()).await.unwrap();
    yard.wait_until(&format!("{STATUS}.tick > {now} + 64")).await;
}

/// Turns the truck's key.
const KEY: char = 'o';

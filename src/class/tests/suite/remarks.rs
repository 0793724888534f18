//! What is said of runs and what is written of people, as it is asked for and sent.

use coneyard_class::clock;
use coneyard_class::judging::judge;
use coneyard_core::run::file::SIMULATION;
use serde_json::{Value, json};

use super::asking::Asked;
use super::stores::{Kept, file, id, on_both};

on_both![
    what_is_said_of_a_run_reaches_rider_and_trainer,
    a_training_record_is_kept_and_what_is_due_follows_from_it,
];

fn note(text: &str, by: &str) -> Value {
    json!({ "at": 64, "answers": "said", "text": text, "by": by, "written": "2026-03-02T08:00:00Z" })
}

async fn what_is_said_of_a_run_reaches_rider_and_trainer(kept: Kept) {
    let asked = Asked::host(kept.store.clone()).await;
    let (code, trainer) = (asked.class.code.clone(), asked.enter(&asked.passphrase).await);
    let (rowan, elm) = (asked.join(&code, "Rowan").await, asked.join(&code, "Elm").await);
    let run = file(1, "Rowan", 80);
    asked.deliver(&rowan, &run).await;
    let claim = kept.store.claim(SIMULATION).await.unwrap().unwrap();
    let about = judge(claim.job());
    claim.done(&about, clock::now()).await.unwrap();
    let path = format!("/api/runs/{}/remarks", id(&run));
    let nothing = asked.get(&path, &rowan).await.json();
    assert_eq!(
        (nothing["edition"].clone(), nothing["is"]["notes"].clone()),
        (json!(0), Value::Null)
    );
    let own = json!({ "fine": { "people": true }, "closed": true });
    let said = json!({ "edition": 0, "is": { "own": own, "notes": [note("Too fast.", "Elm"), note("I slid.", "")] } });
    assert_eq!(
        asked.ask("PUT", &path, &rowan, said.to_string()).await.json(),
        json!({ "edition": 1 })
    );
    // The rider wrote under no name but their own.
    let there = asked.get(&path, &trainer).await.json();
    assert_eq!(there["is"]["notes"], json!([note("I slid.", "Rowan")]));
    // The trainer adds a note, and leaves the rider's own word as it is.
    let mut more = there.clone();
    more["is"]["notes"].as_array_mut().unwrap().push(note("Look left.", "Hazel"));
    more["is"]["own"] = json!({ "fine": { "people": false }, "closed": true });
    assert_eq!(asked.ask("PUT", &path, &trainer, more.to_string()).await.status, 200);
    // Whoever has seen the edition before is told.
    let late = asked.ask("PUT", &path, &rowan, said.to_string()).await;
    assert_eq!(late.status, 409);
    assert!(late.sentence().contains("somebody else"));
    // Both see it, in the list of attempts too; nobody else does.
    for who in [&rowan, &trainer] {
        let attempt = asked.get("/api/attempts", who).await.json()[0].clone();
        let texts: Vec<&str> = attempt["notes"]
            .as_array()
            .unwrap()
            .iter()
            .filter_map(|n| n["text"].as_str())
            .collect();
        assert_eq!(texts, ["I slid.", "Look left."]);
        assert_eq!(attempt["own"], own);
    }
    assert_eq!(asked.get(&path, &elm).await.status, 404);
    let stolen = json!({ "edition": 2, "is": {} }).to_string();
    assert_eq!(asked.ask("PUT", &path, &elm, stolen).await.status, 404);
    for bad in [
        json!({ "edition": 2 }),
        json!({ "edition": 2, "is": { "notes": [note("", "Rowan")] } }),
        json!({ "edition": 2, "is": { "notes": [note(&"x".repeat(401), "Rowan")] } }),
        json!({ "edition": 2, "is": { "version": 9 } }),
        json!({ "edition": 2, "is": { "more": 1 } }),
    ] {
        let answer = asked.ask("PUT", &path, &rowan, bad.to_string()).await;
        assert_eq!(answer.status, 422, "{bad}");
        answer.sentence();
    }
    let large = format!("{{\"edition\": 2, \"is\": {{}}{}}}", " ".repeat(256 * 1024));
    assert_eq!(asked.ask("PUT", &path, &rowan, large).await.status, 413);
    // How well people know themselves is a figure of the class.
    let figures = asked.get("/api/figures?clean=0.8", &trainer).await.json();
    assert_eq!(figures["runs"], 1);
    for wrong in
        ["/api/figures", "/api/figures?clean=2", "/api/figures?clean=NaN", "/api/figures?clean=a"]
    {
        let answer = asked.get(wrong, &trainer).await;
        assert_eq!(answer.status, 422, "{wrong}");
        answer.sentence();
    }
}

async fn a_training_record_is_kept_and_what_is_due_follows_from_it(kept: Kept) {
    let asked = Asked::host(kept.store.clone()).await;
    let (code, trainer) = (asked.class.code.clone(), asked.enter(&asked.passphrase).await);
    let rowan = asked.join(&code, "Rowan").await;
    let person = asked.get("/api/people", &trainer).await.json()[0]["person"].clone();
    let path = format!("/api/people/{}/training", person.as_str().unwrap());
    let mut seen = asked.get(&path, &trainer).await.json();
    assert_eq!((&seen["edition"], &seen["is"]["operator"]), (&json!(0), &json!("Rowan")));
    seen["is"]["person"] = json!("somebody else");
    seen["is"]["happened"] = json!([{
        "on": "2026-03-10", "cause": "unsafe-seen", "truck": "single", "codes": ["stop-line-run"], "by": "Hazel"
    }]);
    assert_eq!(
        asked.ask("PUT", &path, &trainer, seen.to_string()).await.json(),
        json!({ "edition": 1 })
    );
    let kept_now = asked.get(&path, &trainer).await.json();
    assert_eq!(kept_now["is"]["person"], person, "it is of whoever it is kept for");
    assert_eq!(asked.ask("PUT", &path, &trainer, seen.to_string()).await.status, 409);
    let all = asked.get("/api/trainings", &trainer).await.json();
    assert_eq!((&all[0][0], &all[0][1]), (&person, &kept_now));
    let due = asked.get("/api/due", &trainer).await.json();
    assert_eq!((&due[0]["who"], &due[0]["truck"]), (&json!("Rowan"), &json!("single")));
    assert_eq!(due[0]["due"][1]["cause"], "unsafe-seen", "{due}");
    let bad = json!({ "edition": 1, "is": { "person": "p", "operator": "" } });
    let answer = asked.ask("PUT", &path, &trainer, bad.to_string()).await;
    assert_eq!(answer.status, 422);
    answer.sentence();
    let nobody =
        asked.ask("PUT", "/api/people/none/training", &trainer, kept_now.to_string()).await;
    assert_eq!(nobody.status, 404);
    assert_eq!(asked.get("/api/people/none/training", &trainer).await.status, 404);
    let elsewhere = asked.enter(&asked.others_passphrase).await;
    assert_eq!(asked.get(&path, &elsewhere).await.status, 404);
    assert_eq!(asked.get(&path, &rowan).await.status, 403);
}

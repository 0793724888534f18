//! The class as one file: out of one store and into another, by its schema, with every byte of its runs.

use axum::body::Body;
use coneyard_class::clock;
use coneyard_core::rules::{Edit, SiteRules};
use coneyard_core::run::file::SIMULATION;
use serde_json::{Value, json};

use super::asking::Asked;
use super::stores::{Kept, file, id, judged, on_both};

on_both![a_class_goes_out_and_comes_in_whole, a_damaged_class_file_changes_nothing];

fn schema() -> jsonschema::Validator {
    let schema: Value =
        serde_json::from_str(include_str!("../../src/class-file.schema.json")).unwrap();
    jsonschema::validator_for(&schema).unwrap()
}

/// Rules by which nobody looks for this.
fn without(code: &str) -> String {
    let off = Edit::On(code.to_owned(), false);
    SiteRules::shipped().edited("off", &off).unwrap().to_whole_text()
}

async fn a_class_goes_out_and_comes_in_whole(kept: Kept) {
    let asked = Asked::host(kept.store.clone()).await;
    let (code, trainer) = (asked.class.code.clone(), asked.enter(&asked.passphrase).await);
    let empty = asked.get("/api/class/file", &trainer).await.json();
    assert!(schema().is_valid(&empty), "{empty}");
    let rowan = asked.join(&code, "Rowan").await;
    let elm = asked.join(&code, "Elm").await;
    let runs = [file(1, "Rowan", 8), b"\xff\0 no text".to_vec(), file(2, "Rowan", 8)];
    for run in &runs {
        asked.deliver(&rowan, run).await;
    }
    asked.ask("POST", "/api/sittings", &elm, json!({ "truck": "double" }).to_string()).await;
    kept.store
        .claim(SIMULATION)
        .await
        .unwrap()
        .unwrap()
        .done(&judged(), clock::now())
        .await
        .unwrap();
    // What was said of a run, and a training record, go with it.
    let rowans = asked.get("/api/people", &trainer).await.json()[1]["person"].clone();
    let training = format!("/api/people/{}/training", rowans.as_str().unwrap());
    let record = json!({ "edition": 0, "is": {
        "person": "p", "operator": "Rowan Ash",
        "trainings": [{ "on": "2026-03-02", "kind": "first", "by": "Hazel", "truck": "single" }],
    }});
    assert_eq!(asked.ask("PUT", &training, &trainer, record.to_string()).await.status, 200);
    let remarks = format!("/api/runs/{}/remarks", id(&runs[0]));
    let said =
        json!({ "edition": 0, "is": { "own": { "fine": { "people": true }, "closed": true } } });
    assert_eq!(asked.ask("PUT", &remarks, &rowan, said.to_string()).await.status, 200);
    // And the rules that were handed out.
    let rules = without("plugging-jerk");
    let set = json!({ "rules": rules }).to_string();
    assert_eq!(asked.ask("PUT", "/api/class/rules", &trainer, set).await.status, 204);
    let whole = asked.get("/api/class/file", &trainer).await;
    assert!(whole.headers["content-disposition"].to_str().unwrap().starts_with("attachment"));
    let out = whole.json();
    let wrong: Vec<String> = schema().iter_errors(&out).map(|e| e.to_string()).collect();
    assert!(wrong.is_empty(), "{wrong:?}");
    // Into another host, twice: the second time there is nothing new.
    let there = Kept::sqlite().await;
    let host = Asked::host(there.store.clone()).await;
    let trainer = host.enter(&host.passphrase).await;
    for new in [3, 0] {
        let taken = host.ask("PUT", "/api/class/file", &trainer, whole.bytes.clone()).await;
        assert_eq!(taken.status, 200, "{taken:?}");
        assert_eq!(taken.json(), json!({ "people": 2, "runs": 3, "new": new }));
    }
    let back = host.get("/api/class/file", &trainer).await.json();
    assert_eq!(out["rules"], json!(rules));
    for part in ["rules", "people", "sittings", "trainings"] {
        assert_eq!(back[part], out[part], "{part}");
    }
    let runs_of = |file: &Value| {
        let mut runs = file["runs"].as_array().unwrap().clone();
        // Judged anew there.
        runs.iter_mut().for_each(|run| drop(run.as_object_mut().unwrap().remove("record")));
        runs
    };
    assert_eq!(runs_of(&back), runs_of(&out));
    assert_eq!(back["trainings"][0]["operator"], "Rowan Ash");
    assert_eq!(back["runs"][0]["remarks"]["own"]["closed"], true);
    // Rules that were handed out there stay.
    let theirs = without("corner-speed");
    let set = json!({ "rules": theirs }).to_string();
    assert_eq!(host.ask("PUT", "/api/class/rules", &trainer, set).await.status, 204);
    let again = host.ask("PUT", "/api/class/file", &trainer, whole.bytes.clone()).await;
    assert_eq!(again.status, 200);
    assert_eq!(host.get("/api/class/rules", &trainer).await.json()["rules"], json!(theirs));
    // A class file from before there were any is read as well.
    let mut old = out.clone();
    old["coneyard_class"] = json!(1);
    for part in ["trainings", "rules"] {
        old.as_object_mut().unwrap().remove(part);
    }
    for run in old["runs"].as_array_mut().unwrap() {
        run.as_object_mut().unwrap().remove("remarks");
    }
    assert!(schema().is_valid(&old));
    let taken = host.ask("PUT", "/api/class/file", &trainer, old.to_string()).await;
    assert_eq!((taken.status, taken.json()["new"].clone()), (200, json!(0)));
    for run in &runs {
        assert_eq!(&host.get(&format!("/api/runs/{}", id(run)), &trainer).await.bytes, run);
    }
    // Whoever joins there by the same name goes on with what is theirs.
    let rowan = host.join(&host.class.code, "rowan").await;
    assert_eq!(host.get("/api/runs", &rowan).await.json().as_array().unwrap().len(), 3);
    assert_eq!(there.store.check().await.unwrap(), Vec::<String>::new());
}

async fn a_damaged_class_file_changes_nothing(kept: Kept) {
    let asked = Asked::host(kept.store.clone()).await;
    let trainer = asked.enter(&asked.passphrase).await;
    let rowan = asked.join(&asked.other.code, "Rowan").await;
    asked.deliver(&rowan, &file(1, "Rowan", 8)).await;
    let there = asked.enter(&asked.others_passphrase).await;
    let good = asked.get("/api/class/file", &there).await.json();
    let with = |change: &dyn Fn(&mut Value)| {
        let mut file = good.clone();
        change(&mut file);
        file.to_string()
    };
    let cases = [
        (with(&|f| f["coneyard_class"] = json!(4)), "version 4"),
        (with(&|f| f["rules"] = json!("{}")), "rules"),
        (with(&|f| f["trainings"] = json!([{ "person": "x", "operator": "Rowan" }])), "nobody"),
        (with(&|f| f["trainings"] = json!([{ "person": "x" }])), "trainings[0]"),
        (with(&|f| f["runs"][0]["remarks"] = json!({ "notes": [{ "at": 1 }] })), "cannot be read"),
        (with(&|f| f["runs"][0]["text"] = json!("{}")), "damaged"),
        (with(&|f| f["runs"][0]["person"] = json!("x")), "nobody"),
        (with(&|f| f["runs"][0]["arrived"] = json!("today")), "no time"),
        (with(&|f| f["runs"][0]["base64"] = json!("e30=")), "either"),
        (with(&|f| f["people"][0]["name"] = json!("")), "a name has"),
        (with(&|f| f["more"] = json!(1)), "more"),
        ("[]".to_owned(), "no class file"),
        (good.to_string()[..200].to_owned(), "no class file"),
    ];
    for (file, word) in cases {
        let answer = asked.ask("PUT", "/api/class/file", &trainer, Body::from(file)).await;
        assert_eq!(answer.status, 422, "{word}");
        assert!(answer.sentence().contains(word), "{word}: {}", answer.sentence());
    }
    assert_eq!(asked.get("/api/people", &trainer).await.json(), json!([]));
    assert_eq!(asked.get("/api/runs", &trainer).await.json(), json!([]));
}

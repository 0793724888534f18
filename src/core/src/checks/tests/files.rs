//! Check lists that cannot be used: each gets one sentence with the place and what would do.

use serde_json::{Value, json};

use crate::checks::list::{CheckList, SHIPPED};

const SCHEMA: &str = include_str!("../../../../../levels/checks/checks.schema.json");

fn shipped() -> Value {
    serde_json::from_str(SHIPPED).expect("the shipped list is JSON")
}

/// A list of two points, as small as one can be.
pub(super) fn small() -> Value {
    let said = |en: &str| json!({ "en": en, "es": en });
    let defect = json!({
        "id": "bent", "severity": "stop", "reasons": ["bent"], "name": said("Bent"),
        "seen": said("It points up."), "why": said("It breaks."), "citation": "common practice",
        "seen_from": ["left"], "changes": { "upper_brake": 0.5 }
    });
    let point = |id: &str, (part, how): (&str, &str), defects: Value| {
        json!({
            "id": id, "name": said("A part"), "part": part, "asks": said("Look at it."),
            "citation": "common practice", "how": how, "sound": said("It is straight."),
            "views": [{ "view": "left", "at": [10, 20] }, { "view": "tips", "at": [30, 40] }],
            "defects": defects
        })
    };
    let tried = json!([{
        "id": "dead", "severity": "note", "reasons": ["bent"], "name": said("Dead"),
        "seen": said("Nothing."), "why": said("It is needed."), "citation": "common practice",
        "noise": "click", "changes": { "horn_dead": true }, "trucks": ["single"]
    }]);
    json!({
        "format": 1, "name": said("Small"), "shares": { "practice": 0.6, "daily": 0.1 },
        "most_defects": 2,
        "severities": [
            { "id": "note", "may_run": true, "missed": "minor", "name": said("note") },
            { "id": "stop", "may_run": false, "missed": "major", "name": said("stop") }
        ],
        "reasons": [{ "id": "bent", "name": said("bent") }],
        "points": [point("fork", ("outside", "look"), json!([defect])), point("horn", ("tried", "try"), tried)]
    })
}

fn refused(change: impl Fn(&mut Value)) -> String {
    let mut list = small();
    change(&mut list);
    let text = list.to_string();
    let sentence = CheckList::parse("list.json", text.as_bytes()).expect_err("refused").to_string();
    assert!(sentence.starts_with("list.json") && !sentence.contains('\n'), "{sentence}");
    assert!(sentence.chars().count() < 400, "{sentence}");
    sentence
}

#[test]
fn a_small_list_is_read() {
    let list = CheckList::parse("list.json", small().to_string().as_bytes()).expect("valid");
    assert_eq!((list.points.len(), list.grades.len()), (2, 2));
    assert_eq!(list.possible("double").count(), 1);
    assert_eq!(list.possible("single").count(), 2);
}

#[test]
fn each_refusal_names_the_place() {
    let said = |place: &str, change: &dyn Fn(&mut Value)| {
        let sentence = refused(change);
        assert!(sentence.contains(place), "{place}: {sentence}");
    };
    said("format", &|l| l["format"] = json!(2));
    said("points", &|l| l["points"] = json!([]));
    said("severities[1].id", &|l| l["severities"][1]["id"] = json!("note"));
    said("severities[0].missed", &|l| l["severities"][0]["missed"] = json!("critical"));
    said("severity", &|l| l["points"][0]["defects"][0]["severity"] = json!("worse"));
    said("reasons[0]", &|l| l["points"][0]["defects"][0]["reasons"] = json!(["old"]));
    said("reasons", &|l| l["points"][0]["defects"][0]["reasons"] = json!([]));
    said("points[1].id", &|l| l["points"][1]["id"] = json!("fork"));
    said("points[0].id", &|l| l["points"][0]["id"] = json!("Fork Left"));
    said("seen_from[0]", &|l| l["points"][0]["defects"][0]["seen_from"] = json!(["desk"]));
    said("points[1].defects[0]", &|l| l["points"][1]["defects"][0]["glance"] = json!(true));
    said("views[1].at", &|l| l["points"][0]["views"][1]["at"] = json!([1e9, 0]));
    said("points[0].views", &|l| l["points"][0]["views"] = json!([]));
    said("points[0].views", &|l| l["points"][0]["views"][1]["view"] = json!("left"));
    said("upper_brake", &|l| {
        l["points"][0]["defects"][0]["changes"]["upper_brake"] = json!(-1);
    });
    said("changes", &|l| l["points"][0]["defects"][0]["changes"] = json!({ "wings": 2 }));
    said("sound", &|l| l["points"][0]["sound"] = json!({}));
    said("sound.es", &|l| l["points"][0]["sound"]["es"] = json!(" "));
    said("citation", &|l| l["points"][0]["citation"] = json!(""));
    said("shares.daily", &|l| l["shares"]["daily"] = json!(1.5));
    said("most_defects", &|l| l["most_defects"] = json!(3));
    said("part", &|l| l["points"][0]["part"] = json!("inside"));
    said("wheels", &|l| l["wheels"] = json!(1));
    let many = |l: &mut Value| l["points"] = json!(vec![l["points"][0].clone(); 65]);
    said("64", &many);
}

#[test]
fn the_schema_and_the_program_agree() {
    let schema: Value = serde_json::from_str(SCHEMA).expect("JSON");
    let schema = jsonschema::draft202012::new(&schema).expect("a schema");
    assert!(schema.is_valid(&shipped()), "{:?}", schema.validate(&shipped()));
    assert!(schema.is_valid(&small()), "{:?}", schema.validate(&small()));
    let bad: [fn(&mut Value); 6] = [
        |l| l["format"] = json!(2),
        |l| l["points"] = json!([]),
        |l| l["points"][0]["defects"][0]["changes"]["upper_brake"] = json!(-1),
        |l| l["points"][0]["part"] = json!("inside"),
        |l| l["points"][0]["views"][1]["at"] = json!([1e9, 0]),
        |l| l["wheels"] = json!(1),
    ];
    for change in bad {
        let mut list = small();
        change(&mut list);
        assert!(!schema.is_valid(&list), "{list}");
        assert!(CheckList::parse("l", list.to_string().as_bytes()).is_err(), "{list}");
    }
}

/// What 29 CFR 1910.178(q)(7) leaves to the employer, and DGUV Vorschrift 68 §9 with its notes names (both
/// from memory, paraphrased), has its points.
#[test]
fn every_subject_of_the_rules_has_a_point() {
    let list = CheckList::shipped();
    let has = |id: &str| list.points.iter().any(|p| p.id == id);
    let subjects: [(&str, &[&str]); 12] = [
        ("play of the steering", &["steering"]),
        ("tyres and wheels", &["drive-wheel", "casters", "load-wheels-left", "load-wheels-right"]),
        ("safety device at the tiller head", &["safety-switch"]),
        ("brakes", &["upper-brake", "lower-brake", "arm-spring"]),
        ("forks: cracks, wear, bent", &["fork-left", "fork-right"]),
        ("forks: uneven height", &["forks-level"]),
        ("leaks", &["floor-under"]),
        ("horn", &["horn"]),
        ("lift", &["forks-lift"]),
        ("battery held (1910.178(g)(5))", &["retainer-left", "retainer-right"]),
        ("cables and connectors", &["cables"]),
        ("markings (1910.178(a)(6))", &["data-plate"]),
    ];
    for (subject, points) in subjects {
        assert!(points.iter().all(|p| has(p)), "{subject}");
    }
}

proptest::proptest! {
    /// Damage anywhere in a list is refused in one line, or is still a list; nothing panics. More cases:
    /// `PROPTEST_CASES=1000000 cargo test`.
    #[test]
    fn damaged_lists_never_panic(
        cuts in proptest::collection::vec((0_usize..2400, 0_u8..=255), 1..4),
        cut in 0_usize..3000,
    ) {
        let mut text = small().to_string().into_bytes();
        for (at, byte) in cuts {
            let n = text.len();
            text[at % n] = byte;
        }
        text.truncate(cut.max(1));
        if let Err(e) = CheckList::parse("list.json", &text) {
            proptest::prop_assert!(!e.to_string().contains('\n'));
        }
    }
}

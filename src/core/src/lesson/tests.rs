//! Lessons that cannot be used, and whether the one that is shipped covers the whole trade.

use serde_json::{Value, json};

use super::{Known, Lesson, SHIPPED, Show, shipped as lesson};
use crate::checks::list::CheckList;
use crate::course::{Course, shipped};
use crate::rider;
use crate::rules::DUTIES;

const SCHEMA: &str = include_str!("../../../../levels/lesson.schema.json");

fn file() -> Value {
    serde_json::from_str(SHIPPED).expect("the shipped lesson is JSON")
}

/// A lesson of one topic, as small as one can be.
fn small() -> Value {
    let said = |en: &str| json!({ "en": en, "es": en });
    let way = |rider: &str| json!({ "rider": rider, "from_s": 1, "says": said("Look here.") });
    let mut wrong = way("snatch-throttle");
    wrong["finds"] = json!(["throttle-snatched"]);
    let question = json!({ "ask": said("Why?"), "hear": said("Because.") });
    json!({
        "format": 1, "name": said("Small"), "caution": said("Take care."),
        "topics": [{
            "id": "start", "title": said("Start"), "say": [said("One."), said("Two."), said("Three.")],
            "show": [
                { "ways": { "course": "straight", "truck": "single", "seed": 1, "for_s": 8,
                            "watch": ["speed"], "right": way("model"), "wrong": wrong } },
                { "part": { "point": "horn", "defect": "dead" } },
                { "trucks": { "course": "figure-eight", "rider": "model", "seed": 1, "for_s": 8,
                    "watch": ["look"], "trucks": [
                        { "truck": "single", "from_s": 0, "says": said("Short.") },
                        { "truck": "double", "from_s": 0, "says": said("Long.") }] } }
            ],
            "ask": [question, question], "drive": ["straight"], "at_truck": [said("Show it.")]
        }]
    })
}

fn refused(change: impl Fn(&mut Value)) -> String {
    let mut lesson = small();
    change(&mut lesson);
    let text = lesson.to_string();
    let sentence = Lesson::parse("a.json", text.as_bytes()).expect_err("refused").to_string();
    assert!(sentence.starts_with("a.json") && !sentence.contains('\n'), "{sentence}");
    assert!(sentence.chars().count() < 400, "{sentence}");
    sentence
}

#[test]
fn a_small_lesson_is_read() {
    let lesson = Lesson::parse("a.json", small().to_string().as_bytes()).expect("valid");
    let names: Vec<String> = lesson.scenes().map(|(name, _)| name).collect();
    assert_eq!(names, ["start-1", "start-3"]);
    assert_eq!(lesson.topic("start").map(|(n, _)| n), Some(0));
    assert!(lesson.topic("end").is_none());
}

#[test]
fn each_refusal_names_the_place() {
    let said = |place: &str, change: &dyn Fn(&mut Value)| {
        let sentence = refused(change);
        assert!(sentence.contains(place), "{place}: {sentence}");
    };
    let t = |l: &mut Value| l["topics"][0].take();
    said("format", &|l| l["format"] = json!(2));
    said("topics", &|l| l["topics"] = json!([]));
    said("topics[1].id", &|l| {
        let topic = t(l);
        l["topics"] = json!([topic, topic]);
    });
    said("topics[0].id", &|l| l["topics"][0]["id"] = json!("Start here"));
    said("topics[0].say", &|l| l["topics"][0]["say"] = json!([{ "en": "One." }]));
    said("topics[0].say[1].en", &|l| l["topics"][0]["say"][1]["en"] = json!("x".repeat(401)));
    said("topics[0].caution", &|l| l["topics"][0]["caution"] = json!({}));
    said("topics[0].show", &|l| l["topics"][0]["show"] = json!([]));
    said("film", &|l| l["topics"][0]["show"][0] = json!({ "film": 1 }));
    said("topics[0].ask", &|l| l["topics"][0]["ask"] = json!([]));
    said("topics[0].drive", &|l| l["topics"][0]["drive"] = json!([]));
    said("topics[0].at_truck", &|l| l["topics"][0]["at_truck"] = json!([]));
    let ways = "topics[0].show[0].ways";
    said(&format!("{ways}.for_s"), &|l| l["topics"][0]["show"][0]["ways"]["for_s"] = json!(1e9));
    said(&format!("{ways}.watch"), &|l| {
        l["topics"][0]["show"][0]["ways"]["watch"] = json!(["speed", "speed"]);
    });
    said(&format!("{ways}.right.finds"), &|l| {
        l["topics"][0]["show"][0]["ways"]["right"]["finds"] = json!(["over-speed"]);
    });
    said(&format!("{ways}.wrong.finds"), &|l| {
        l["topics"][0]["show"][0]["ways"]["wrong"]["finds"] = json!([]);
    });
    said(&format!("{ways}.wrong.from_s"), &|l| {
        l["topics"][0]["show"][0]["ways"]["wrong"]["from_s"] = json!(-1);
    });
    said(&format!("{ways}.right.says.en"), &|l| {
        l["topics"][0]["show"][0]["ways"]["right"]["says"]["en"] = json!("x".repeat(121));
    });
    said("topics[0].show[1].part.point", &|l| {
        l["topics"][0]["show"][1]["part"]["point"] = json!("");
    });
    said("wheels", &|l| l["wheels"] = json!(1));
}

fn course((name, text): &(&str, &str)) -> Course {
    Course::parse(name, text.as_bytes()).expect("a shipped file is valid")
}

fn named(list: &[(&str, &str)]) -> Vec<(String, Vec<String>)> {
    list.iter().map(|file| (file.0.to_owned(), course(file).trucks)).collect()
}

fn is_exercise(file: &&(&str, &str)) -> bool {
    course(file).part_of.is_none()
}

/// Holds a lesson against what is shipped.
fn held(text: &Value) -> Result<(), crate::outside::BadInput> {
    let exercises: Vec<_> = shipped::ALL.iter().filter(is_exercise).copied().collect();
    let yards: Vec<_> = shipped::ALL.iter().chain(shipped::CORPUS).copied().collect();
    let (exercises, yards) = (named(&exercises), named(&yards));
    let riders: Vec<String> = rider::names().collect();
    let checks = CheckList::shipped();
    let known = Known { exercises: &exercises, yards: &yards, riders: &riders, checks: &checks };
    Lesson::parse("a.json", text.to_string().as_bytes())
        .and_then(|lesson| lesson.names_what_there_is("a.json", &known))
}

#[test]
fn what_is_not_there_is_named_with_its_place() {
    assert_eq!(held(&small()), Ok(()));
    assert_eq!(held(&file()), Ok(()));
    let refused = |place: &str, change: &dyn Fn(&mut Value)| {
        let mut lesson = small();
        change(&mut lesson["topics"][0]);
        let sentence = held(&lesson).expect_err("refused").to_string();
        assert!(sentence.contains(place) && sentence.contains("gone"), "{place}: {sentence}");
    };
    refused("topics[0].drive[0]", &|t| t["drive"] = json!(["gone"]));
    refused("topics[0].show[0]", &|t| t["show"][0]["ways"]["course"] = json!("gone"));
    refused("topics[0].show[0]", &|t| t["show"][0]["ways"]["truck"] = json!("gone"));
    refused("topics[0].show[0]", &|t| t["show"][0]["ways"]["right"]["rider"] = json!("gone"));
    refused("topics[0].show[1].part.point", &|t| t["show"][1]["part"]["point"] = json!("gone"));
    refused("topics[0].show[1].part.defect", &|t| t["show"][1]["part"]["defect"] = json!("gone"));
    // A part of a pre-test is no exercise.
    let mut lesson = small();
    lesson["topics"][0]["drive"] = json!(["pretest-laps"]);
    assert!(held(&lesson).is_err());
}

#[test]
fn the_schema_and_the_program_agree() {
    let schema: Value = serde_json::from_str(SCHEMA).expect("JSON");
    let schema = jsonschema::draft202012::new(&schema).expect("a schema");
    assert!(schema.is_valid(&file()), "{:?}", schema.validate(&file()));
    assert!(schema.is_valid(&small()), "{:?}", schema.validate(&small()));
    let bad: [fn(&mut Value); 8] = [
        |l| l["format"] = json!(2),
        |l| l["topics"] = json!([]),
        |l| l["topics"][0]["say"] = json!([{ "en": "One." }]),
        |l| l["topics"][0]["show"][0] = json!({ "film": 1 }),
        |l| l["topics"][0]["show"][0]["ways"]["for_s"] = json!(1),
        |l| l["topics"][0]["show"][0]["ways"]["right"]["finds"] = json!(["over-speed"]),
        |l| l["topics"][0]["show"][0]["ways"]["wrong"]["finds"] = json!([]),
        |l| l["wheels"] = json!(1),
    ];
    for change in bad {
        let mut lesson = small();
        change(&mut lesson);
        assert!(!schema.is_valid(&lesson), "{lesson}");
        assert!(Lesson::parse("l", lesson.to_string().as_bytes()).is_err(), "{lesson}");
    }
}

/// What a class has to cover, each time (common practice, no source), with topics that do.
const TRADE: [(&str, &[&str]); 19] = [
    ("the truck and its two lengths", &["truck"]),
    ("walk-round and sheet", &["walk-round"]),
    ("start-up and lights", &["start-up"]),
    ("four contacts and stance", &["contacts"]),
    ("gentle starts", &["gentle-starts"]),
    ("plugging", &["plugging"]),
    ("both emergency stops", &["emergency"]),
    ("turning with the body from either side", &["turning"]),
    ("forks trailing and low", &["forks"]),
    ("horn", &["horn"]),
    ("signs", &["signs"]),
    ("people first", &["people"]),
    ("speed and what is seen", &["speed"]),
    ("loads", &["loads"]),
    ("slopes and docks", &["slopes-docks"]),
    ("parking", &["parking"]),
    ("laps and figure-eights both ways", &["laps"]),
    ("what to do when something is wrong", &["something-wrong"]),
    ("saying no", &["saying-no"]),
];

#[test]
fn the_shipped_lesson_covers_the_whole_trade() {
    let lesson = lesson();
    for (subject, topics) in TRADE {
        assert!(topics.iter().all(|id| lesson.topic(id).is_some()), "{subject}");
    }
    // Every exercise is given to drive in some topic.
    for (name, _) in shipped::ALL.iter().filter(is_exercise) {
        let driven = lesson.topics.iter().any(|t| t.drive.iter().any(|id| id == name));
        assert!(driven, "no topic has {name} driven");
    }
    // Of every skill some fault is shown.
    let shown = |code: &str| {
        lesson.topics.iter().flat_map(|t| &t.shows).any(|show| match show {
            Show::Ways(ways) => ways.wrong.finds.iter().any(|c| c == code),
            _ => false,
        })
    };
    let rules = crate::rules::SiteRules::shipped();
    for skill in crate::score::points::SKILLS {
        let of_it = |code: &str| rules.rules.get(code).is_some_and(|rule| rule.skill == skill);
        let any = DUTIES.iter().filter(|d| !d.good && of_it(d.code)).any(|d| shown(d.code));
        assert!(any, "no fault of {skill:?} is shown");
    }
    // Both ways of laps and eights.
    let laps = &lesson.topic("laps").expect("a topic").1.drive;
    for id in ["laps-counter-clockwise", "laps-clockwise", "figure-eight"] {
        assert!(laps.iter().any(|d| d == id), "{id}");
    }
}

#[test]
fn every_text_of_the_shipped_lesson_stands_in_both_languages() {
    fn look(value: &Value, place: &str) {
        match value {
            Value::Object(map) if map.contains_key("en") || map.contains_key("es") => {
                assert_eq!(map.len(), 2, "{place}");
                let (en, es) = (map["en"].as_str(), map["es"].as_str());
                assert!(en.is_some() && es.is_some() && en != es, "{place}: {value}");
            }
            Value::Object(map) => map.iter().for_each(|(k, v)| look(v, &format!("{place}.{k}"))),
            Value::Array(list) => list.iter().for_each(|v| look(v, place)),
            _ => {}
        }
    }
    look(&file(), "");
}

/// What is said has to be short enough to be said: about fifteen seconds a point at 130 words a minute, at which
/// people speak to a class (a value from memory).
#[test]
fn every_point_can_be_said_in_a_breath_or_two() {
    for topic in lesson().topics {
        for said in topic.say.iter().flat_map(|s| s.values()) {
            assert!(said.split_whitespace().count() <= 34, "{}: {said}", topic.id);
        }
    }
}

proptest::proptest! {
    /// Damage anywhere in a lesson is refused in one line, or is still a lesson; nothing panics. More cases:
    /// `PROPTEST_CASES=1000000 cargo test`.
    #[test]
    fn damaged_lessons_never_panic(
        cuts in proptest::collection::vec((0_usize..2400, 0_u8..=255), 1..4),
        cut in 0_usize..3000,
    ) {
        let mut text = small().to_string().into_bytes();
        for (at, byte) in cuts {
            let n = text.len();
            text[at % n] = byte;
        }
        text.truncate(cut.max(1));
        if let Err(e) = Lesson::parse("a.json", &text) {
            proptest::prop_assert!(!e.to_string().contains('\n'));
        }
    }
}

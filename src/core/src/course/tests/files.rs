//! Every shipped course is valid for its schema and its reader; broken ones are refused by both.

use proptest::prelude::*;
use serde_json::{Value, json};

use crate::course::shipped::{ALL, text};
use crate::course::{Course, MAX_BYTES};
use crate::truck::spec::shipped as trucks;

pub(super) fn schema() -> jsonschema::Validator {
    let text = include_str!("../../../../../levels/course.schema.json");
    let schema: Value = serde_json::from_str(text).unwrap();
    jsonschema::draft202012::meta::validate(&schema).expect("the schema is a schema");
    jsonschema::draft202012::new(&schema).unwrap()
}

pub(super) fn value(name: &str) -> Value {
    serde_json::from_str(text(name).unwrap()).unwrap()
}

pub(super) fn refusal(text: &[u8]) -> String {
    let e = Course::parse("c.json", text).expect_err("this is broken").to_string();
    assert!(e.starts_with("c.json"), "{e}");
    assert!(e.len() < 400 && !e.contains('\n'), "one sentence: {e}");
    e
}

#[test]
fn every_shipped_course_is_valid_and_can_be_driven() {
    let schema = schema();
    for (name, text) in ALL {
        let course = Course::parse(name, text.as_bytes()).unwrap_or_else(|e| panic!("{e}"));
        assert_eq!(course.id, *name);
        let json = value(name);
        if let Err(e) = schema.validate(&json) {
            panic!("{name}: {e} at {}", e.instance_path());
        }
        for truck in [trucks::single(), trucks::double()] {
            if course.trucks.contains(&truck.id) {
                let problems = crate::course::check::check(&course, &truck);
                assert!(problems.is_empty(), "{name}, {}: {problems:?}", truck.id);
            }
        }
        for said in course.steps.iter().map(|s| &s.say).chain([&course.title, &course.trains]) {
            assert!(["en", "es"].iter().all(|l| said.contains_key(*l)), "{name}: {said:?}");
        }
    }
}

#[test]
fn every_course_is_listed() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../levels");
    let mut on_disk: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .filter_map(|f| f.unwrap().file_name().into_string().ok())
        .filter(|f| f.ends_with(".json") && !f.ends_with(".schema.json"))
        .filter(|f| {
            let text = std::fs::read_to_string(format!("{folder}/{f}")).unwrap();
            text.contains("\"course.schema.json\"")
        })
        .map(|f| f.trim_end_matches(".json").to_owned())
        .collect();
    on_disk.sort();
    let mut listed: Vec<String> = ALL.iter().map(|(n, _)| (*n).to_owned()).collect();
    listed.sort();
    assert_eq!(on_disk, listed);
}

/// Puts `to` at a JSON pointer, or takes the entry out.
pub(super) fn with(name: &str, pointer: &str, to: Option<Value>) -> Value {
    let mut course = value(name);
    match to {
        Some(to) => {
            if let Some(place) = course.pointer_mut(pointer) {
                *place = to;
            } else {
                let (parent, key) = pointer.rsplit_once('/').unwrap();
                let parent = course.pointer_mut(parent).unwrap();
                parent.as_object_mut().unwrap().insert(key.to_owned(), to);
            }
        }
        None => {
            let (parent, key) = pointer.rsplit_once('/').unwrap();
            let parent = course.pointer_mut(parent).unwrap();
            assert!(parent.as_object_mut().unwrap().remove(key).is_some(), "{pointer}");
        }
    }
    course
}

/// Broken in a way that a schema can say: the schema and the reader both refuse.
#[test]
fn schema_and_reader_refuse_the_same() {
    let schema = schema();
    let points = |n: usize| Value::Array(vec![json!([0.0, 0.0]); n]);
    let broken = [
        ("format", "/format", Some(json!(2))),
        ("format", "/format", None),
        ("format", "/format", Some(json!("1"))),
        ("colour", "/colour", Some(json!("red"))),
        ("id", "/id", Some(json!("Straight On"))),
        ("id", "/id", Some(json!(""))),
        ("id", "/id", Some(json!("x".repeat(41)))),
        ("title", "/title", Some(json!({}))),
        ("title", "/title", Some(json!({ "english": "Straight" }))),
        ("title", "/title/en", Some(json!(" "))),
        ("title", "/title/en", Some(json!("two\nlines"))),
        ("trains", "/trains/en", Some(json!("x".repeat(401)))),
        ("trains", "/trains", None),
        ("trucks", "/trucks", Some(json!([]))),
        ("trucks", "/trucks", Some(json!(["single", "single"]))),
        ("floor", "/floor", None),
        ("floor", "/floor/surface", Some(json!("ice"))),
        ("floor.south_west_m", "/floor/south_west_m", Some(json!([-501, 0]))),
        ("floor.south_west_m", "/floor/south_west_m", Some(json!([1]))),
        ("floor.south_west_m", "/floor/south_west_m", Some(json!([1, 2, 3]))),
        ("floor.south_west_m", "/floor/south_west_m", Some(json!([1, null]))),
        ("lanes[0].area_m", "/lanes/0/area_m", Some(json!([[0, 0], [1, 0]]))),
        ("lanes[0].area_m", "/lanes/0/area_m", Some(points(257))),
        ("lanes[0].holes_m", "/lanes/0/holes_m", Some(json!([[[0, 0], [1, 0]]]))),
        ("cones_m", "/cones_m", Some(points(501))),
        ("structures[0].kind", "/structures/0/kind", Some(json!("tree"))),
        ("structures[0].length_m", "/structures/0/length_m", Some(json!(0))),
        ("structures[0].depth_m", "/structures/0/depth_m", Some(json!(-1))),
        ("structures[0].heading_deg", "/structures/0/heading_deg", Some(json!(400))),
        ("lines[0].kind", "/lines/0/kind", Some(json!("arrow"))),
        ("lines[0].id", "/lines/0/id", Some(json!("A B"))),
        ("gates", "/gates", Some(json!([{ "id": "g", "left_m": [0, 1] }]))),
        ("boxes[0].width_m", "/boxes/0/width_m", Some(json!(0.4))),
        ("zones", "/zones", Some(json!([{ "area_m": [[0, 0], [1, 0], [1, 1]], "limit_mps": 0 }]))),
        ("spawn", "/spawn/stance", Some(json!("middle"))),
        ("spawn", "/spawn/heading_deg", None),
        ("traffic", "/traffic", Some(json!("yes"))),
        ("steps", "/steps", Some(json!([]))),
        ("steps[0].travel", "/steps/0/travel", Some(json!("sideways"))),
        ("steps[0].say", "/steps/0/say", Some(json!("Go."))),
        ("steps[0]", "/steps/0/hint", Some(json!("Go."))),
        ("steps[0].what", "/steps/0/what", Some(json!({ "fly": {} }))),
        ("steps[0].what", "/steps/0/what", Some(json!({}))),
        (
            "steps[0].what",
            "/steps/0/what",
            Some(json!({ "park": { "stop_box": "parking" }, "gates": {} })),
        ),
        (
            "steps[0].what.gates",
            "/steps/0/what",
            Some(json!({ "gates": { "in_order": [], "laps": 1 } })),
        ),
        (
            "steps[0].what.stop-at-mark.within_m",
            "/steps/0/what/stop-at-mark/within_m",
            Some(json!(0)),
        ),
        ("time_limit_s", "/time_limit_s", Some(json!(0))),
        ("time_limit_s", "/time_limit_s", Some(json!(-5))),
        ("par_s", "/par_s", Some(json!({ "single": 0 }))),
        ("weights", "/weights", Some(json!({ "juggling": 1 }))),
        ("weights", "/weights", Some(json!({ "steering": 11 }))),
    ];
    for (place, pointer, to) in broken {
        let course = with("straight", pointer, to);
        assert!(!schema.is_valid(&course), "the schema accepts {pointer} {course}");
        let said = refusal(course.to_string().as_bytes());
        let named = place.rsplit(['.', ']']).next().unwrap();
        assert!(said.contains(place) || said.contains(named), "{pointer}: {said}");
    }
    for (pointer, to) in [
        ("/steps/0/what/gates/laps", json!(0)),
        ("/steps/0/what/gates/laps", json!(51)),
        ("/steps/0/what/gates/laps", json!(1.5)),
        ("/gates/0/left_m", json!([0, 1e300])),
    ] {
        let course = with("laps-clockwise", pointer, Some(to));
        assert!(!schema.is_valid(&course), "the schema accepts {pointer}");
        refusal(course.to_string().as_bytes());
    }
}

/// What only the reader can see, each with its sentence.
#[test]
fn the_reader_says_what_is_wrong_and_where() {
    let cases = [
        (
            with("straight", "/lines/1/id", Some(json!("first"))),
            "c.json, at lines[1].id: the name \"first\" is used twice; rename one",
        ),
        (
            with("straight", "/steps/1/what/stop-at-mark/line", Some(json!("nowhere"))),
            "c.json, at steps[1].what.stop-at-mark.line: the course has no line named \"nowhere\"",
        ),
        (
            with("emergency-stops", "/lines/0/kind", Some(json!("mark"))),
            "c.json, at steps[0].what.emergency-stop.trigger: the line \"south-trigger\" is not of the kind \"trigger\"",
        ),
        (
            with("straight", "/lines/0/to_m", Some(json!([18, -1.5]))),
            "c.json, at lines[0]: its ends are 0.00 m apart; use 0.2 m to 200 m",
        ),
        (
            with("straight", "/lanes/0/area_m", Some(json!([[0, 0], [2, 2], [2, 0], [0, 2]]))),
            "c.json, at lanes[0].area_m[0]: the edge that starts here crosses another edge of the same area",
        ),
        (
            with("straight", "/floor/north_east_m", Some(json!([-2, 6]))),
            "c.json, at floor.north_east_m: the floor's north-east corner must lie at least 2 m east and 2 m north of its south-west corner",
        ),
        (
            with("emergency-stops", "/steps/0/what/emergency-stop/delay_min_s", Some(json!(2))),
            "c.json, at steps[0].what.emergency-stop.delay_min_s: 2 is more than delay_max_s, 1.5",
        ),
        (
            with("straight", "/par_s", Some(json!({ "triple": 60 }))),
            "c.json, at par_s.triple: this truck is not in the course's list of trucks",
        ),
        (
            with("straight", "/format", Some(json!(7))),
            "c.json, at format: this is format 7, and this program reads format 1",
        ),
    ];
    for (course, said) in cases {
        assert_eq!(refusal(course.to_string().as_bytes()), said);
    }
}

#[test]
fn text_that_is_no_course_is_refused_in_a_sentence() {
    let straight = text("straight").unwrap();
    assert!(refusal(b"").contains("EOF"));
    assert!(refusal(&straight.as_bytes()[..straight.len() / 2]).contains("EOF"));
    assert!(refusal(format!("{straight} x").as_bytes()).contains("trailing"));
    let deep = format!("{}{}", "[".repeat(100_000), "]".repeat(100_000));
    refusal(deep.as_bytes());
    let hidden = straight.replace("\"format\": 1,", &format!("\"format\": 1, \"x\": {deep},"));
    refusal(hidden.as_bytes());
    let at = |number: &str| {
        straight.replace("\"load_axle_m\": [1, 0]", &format!("\"load_axle_m\": [{number}, 0]"))
    };
    assert!(refusal(at("1e999").as_bytes()).contains("number out of range"));
    refusal(at("NaN").as_bytes());
    refusal(at("Infinity").as_bytes());
    assert!(refusal(at("1e308").as_bytes()).contains("1e308 lies more than 500 m"));
    let twice = straight.replace("\"format\": 1,", "\"format\": 1, \"format\": 1,");
    assert!(refusal(twice.as_bytes()).contains("duplicate field"));
    let twice = straight.replacen("\"title\": {", "\"title\": { \"en\": \"A\",", 1);
    assert!(refusal(twice.as_bytes()).contains("comes twice"));
    let huge = vec![b' '; MAX_BYTES + 1];
    assert!(refusal(&huge).contains("more than the 1048576 allowed"));
    let many =
        straight.replace("\"cones_m\": [", &format!("\"cones_m\": [{}", "[0,0],".repeat(100_000)));
    assert!(refusal(many.as_bytes()).contains("more than 500 entries"));
}

fn some_course() -> impl Strategy<Value = &'static str> {
    (0..ALL.len()).prop_map(|i| ALL[i].1)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn random_bytes_never_panic(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
        prop_assert!(Course::parse("c.json", &bytes).is_err());
    }

    /// What still parses after some bytes were changed can be checked without a panic.
    #[test]
    fn changed_bytes_never_panic(
        text in some_course(),
        changes in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6),
    ) {
        let mut bytes = text.as_bytes().to_vec();
        for (at, to) in changes {
            let at = at.index(bytes.len());
            bytes[at] = to;
        }
        read_and_check(&bytes)?;
    }

    /// The same with digits only, so that most of it still parses.
    #[test]
    fn changed_digits_never_panic(
        text in some_course(),
        changes in proptest::collection::vec((any::<prop::sample::Index>(), b'0'..=b'9'), 1..40),
    ) {
        let mut bytes = text.as_bytes().to_vec();
        let digits: Vec<usize> =
            (0..bytes.len()).filter(|i| bytes[*i].is_ascii_digit()).collect();
        for (at, to) in changes {
            bytes[digits[at.index(digits.len())]] = to;
        }
        read_and_check(&bytes)?;
    }

    #[test]
    fn cut_files_are_refused(text in some_course(), at in any::<prop::sample::Index>()) {
        let whole = text.trim_end().as_bytes();
        prop_assert!(Course::parse("c.json", &whole[..at.index(whole.len())]).is_err());
    }
}

fn read_and_check(bytes: &[u8]) -> Result<(), TestCaseError> {
    match Course::parse("c.json", bytes) {
        Ok(course) => {
            for problem in crate::course::check::check(&course, &trucks::single()) {
                prop_assert!(!problem.to_string().contains('\n'));
            }
        }
        Err(e) => {
            let said = e.to_string();
            prop_assert!(said.starts_with("c.json") && said.len() < 400, "{}", said);
        }
    }
    Ok(())
}

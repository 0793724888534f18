//! The site-rules file: the schema, the defaults, and all that can be wrong with a file.

use proptest::prelude::*;
use serde_json::{Value, json};

use crate::finding::Unit;
use crate::rules::{DUTIES, Need, TERMS};
use crate::rules::{SHIPPED, SiteRules};

const SCHEMA: &str = include_str!("../../../../../levels/site-rules.schema.json");

pub(crate) fn schema() -> jsonschema::Validator {
    let schema: Value = serde_json::from_str(SCHEMA).expect("JSON");
    jsonschema::draft202012::meta::validate(&schema).expect("the schema is a schema");
    jsonschema::draft202012::new(&schema).expect("it can be used")
}

pub(crate) fn shipped() -> Value {
    serde_json::from_str(SHIPPED).expect("JSON")
}

pub(crate) fn parse(v: &Value) -> Result<SiteRules, String> {
    SiteRules::parse("my.json", v.to_string().as_bytes()).map_err(|e| e.to_string())
}

/// The shipped file with one value changed; None takes it out.
pub(crate) fn changed(pointer: &str, value: Option<Value>) -> Value {
    let mut v = shipped();
    let (parent, name) = pointer.rsplit_once('/').expect("a pointer");
    let map = v
        .pointer_mut(parent)
        .and_then(Value::as_object_mut)
        .unwrap_or_else(|| panic!("nothing at {pointer}"));
    match value {
        Some(value) => map.insert(name.to_owned(), value),
        None => map.remove(name),
    };
    v
}

pub(crate) fn refusal(pointer: &str, value: Option<Value>) -> String {
    parse(&changed(pointer, value)).expect_err(pointer)
}

#[test]
fn the_shipped_file_is_valid_by_schema_and_by_reader() {
    assert!(schema().is_valid(&shipped()));
    assert_eq!(parse(&shipped()), Ok(SiteRules::shipped()));
}

#[test]
fn schema_and_reader_agree_on_every_number() {
    let schema = schema();
    let rows = DUTIES.iter().flat_map(|d| {
        let own = d.limits.iter().map(move |n| (format!("/rules/{}/limits/{}", d.code, n.name), n));
        let graver =
            d.graver.iter().map(move |n| (format!("/rules/{}/graver/{}", d.code, n.name), n));
        own.chain(graver)
    });
    let terms = TERMS.iter().map(|n| (format!("/terms/{}", n.name), n));
    let rows: Vec<(String, &Need)> = rows.chain(terms).collect();
    assert!(rows.len() > 30);
    for (pointer, need) in rows {
        for (value, good) in [
            (need.least, true),
            (need.most, true),
            (need.least - 1e-6, false),
            (need.most + 1e-6, false),
            (1e300, false),
        ] {
            let v = changed(&format!("{pointer}/value"), Some(json!(value)));
            assert_eq!(schema.is_valid(&v), good, "schema: {pointer} {value}");
            assert_eq!(parse(&v).is_ok(), good, "reader: {pointer} {value}");
        }
        let other = if need.unit == Unit::Count { "m" } else { "count" };
        let v = changed(&format!("{pointer}/unit"), Some(json!(other)));
        assert!(!schema.is_valid(&v) && parse(&v).is_err(), "{pointer}");
    }
}

#[test]
fn a_site_says_only_what_it_changes() {
    assert_eq!(parse(&json!({ "format": 1 })), Ok(SiteRules::shipped()));
    let rules = parse(&json!({
        "format": 1,
        "site": "Cold store at the ford",
        "speed_limit": { "value": 2.0, "unit": "m/s", "source": "site rule 4" },
        "terms": { "stretch": { "value": 20, "unit": "m", "source": "site rule 5" } },
        "rules": { "throttle-snatched": shipped()["rules"]["throttle-snatched"] },
    }))
    .expect("valid");
    assert_eq!(rules.site, "Cold store at the ford");
    assert_eq!(rules.changed(), ["over-speed", "stretch"]);
}

/// What a pre-test asks for has its unit and its source like every limit; files from before have the
/// number alone, and what is left out is as shipped.
#[test]
fn the_marks_of_a_pre_test_are_read_with_their_source_alone_or_left_out() {
    let (schema, shipped) = (schema(), SiteRules::shipped());
    let own = json!({ "value": 90, "unit": "count", "source": "site rule 9" });
    let pass = |pass: Value| {
        let file = json!({ "format": 1, "pass": pass });
        assert!(schema.is_valid(&file), "{file}");
        parse(&file).expect("valid").pass
    };
    let whole = pass(json!({ "skill": own, "total": 85 }));
    assert_eq!((whole.skill.value, whole.skill.source.as_str()), (90.0, "site rule 9"));
    assert_eq!((whole.total.value, whole.total.unit), (85.0, Unit::Count));
    let half = pass(json!({ "total": own }));
    assert_eq!((half.total.value, &half.skill), (90.0, &shipped.pass.skill));
    for bad in [
        json!({ "value": 90, "unit": "m", "source": "site rule" }),
        json!({ "value": 101, "unit": "count", "source": "site rule" }),
        json!({ "value": 90, "unit": "count" }),
        json!("90"),
    ] {
        let file = json!({ "format": 1, "pass": { "total": bad } });
        assert!(!schema.is_valid(&file), "{file}");
        let said = parse(&file).unwrap_err().to_string();
        assert!(said.starts_with("my.json, at pass") && !said.contains('\n'), "{said}");
    }
    // Another source judges nobody otherwise.
    let elsewhere = json!({ "value": 80, "unit": "count", "source": "our board" });
    let rules = parse(&changed("/pass/total", Some(elsewhere))).expect("valid");
    assert!(rules.changed().is_empty());
}

#[test]
fn what_a_site_changes_is_listed_and_what_it_only_says_is_not() {
    let listed = |pointer: &str, value: Value| {
        parse(&changed(pointer, Some(value))).expect(pointer).changed()
    };
    assert!(SiteRules::shipped().changed().is_empty());
    assert_eq!(listed("/rules/clean-lap/on", json!(false)), ["clean-lap"]);
    assert_eq!(listed("/rules/contact-cone/severity", json!("major")), ["contact-cone"]);
    assert_eq!(listed("/rules/over-speed/graver/above/value", json!(0.4)), ["over-speed"]);
    assert_eq!(listed("/rules/left-the-lane/limits/for/value", json!(0.4)), ["left-the-lane"]);
    assert_eq!(listed("/points/minor", json!(5)), ["points"]);
    assert_eq!(listed("/pass/total", json!(90)), ["points"]);
    assert_eq!(listed("/rules/over-speed/note", json!("Rule 7 on the board")), ["notes"]);
    assert_eq!(listed("/terms/cause-within/value", json!(1)), ["cause-within"]);
    assert_eq!(listed("/terms/ready-from/value", json!(0.8)), ["ready-from"]);
    assert!(listed("/rules/over-speed/citation", json!("state code 12")).is_empty());
    let never_graver = parse(&changed("/rules/over-speed/graver", None)).expect("valid");
    assert_eq!(never_graver.changed(), ["over-speed"]);
}

/// A file from before a limit was thought of is read with the shipped one.
#[test]
fn a_limit_that_a_rule_leaves_out_is_the_shipped_one() {
    let old = parse(&changed("/rules/contact-structure/limits/sliding", None)).expect("valid");
    assert_eq!(old, SiteRules::shipped());
}

#[test]
fn each_fault_in_a_file_is_one_sentence_with_its_place() {
    let limits = "/rules/left-the-lane/limits";
    for (pointer, value, said) in [
        (
            "/rules/left-the-lan",
            Some(json!(shipped()["rules"]["left-the-lane"])),
            "my.json, at rules: there is no \"left-the-lan\"; there is contact-cone, ",
        ),
        (
            "/rules/left-the-lane/limits/far",
            Some(json!({ "value": 1, "unit": "m", "source": "site rule" })),
            "my.json, at rules.left-the-lane.limits: there is no \"far\"; there is for",
        ),
        (
            "/rules/contact-cone/limits/far",
            Some(json!({ "value": 1, "unit": "m", "source": "site rule" })),
            "my.json, at rules.contact-cone.limits: there is no \"far\"; leave it out",
        ),
        (
            "/rules/left-the-lane/limits/for/unit",
            Some(json!("m")),
            "my.json, at rules.left-the-lane.limits.for.unit: the unit is \"s\" here",
        ),
        (
            "/rules/left-the-lane/limits/for/value",
            Some(json!(-0.1)),
            "my.json, at rules.left-the-lane.limits.for.value: -0.1 lies outside 0 to 10",
        ),
        (
            "/rules/left-the-lane/limits/for/source",
            Some(json!("  ")),
            "my.json, at rules.left-the-lane.limits.for.source: say where this comes from, such as \"site rule\"",
        ),
        (
            "/rules/left-the-lane/severity",
            Some(json!("good")),
            "my.json, at rules.left-the-lane.severity: this is a fault; its severity is \"minor\", \"major\" or \"critical\"",
        ),
        (
            "/rules/clean-lap/severity",
            Some(json!("minor")),
            "my.json, at rules.clean-lap.severity: this is a good deed; its severity is \"good\"",
        ),
        (
            "/rules/over-speed/graver/severity",
            Some(json!("minor")),
            "my.json, at rules.over-speed.graver.severity: this must be graver than the rule's own severity",
        ),
        (
            "/rules/contact-cone/graver",
            Some(json!(shipped()["rules"]["over-speed"]["graver"])),
            "my.json, at rules.contact-cone.graver: nothing makes this finding graver; leave this out",
        ),
        (
            "/rules/body-gap-closing/graver",
            Some(json!(shipped()["rules"]["contact-structure"]["graver"])),
            "my.json, at rules.body-gap-closing.graver: there is no \"above\"; there is below",
        ),
        (
            "/rules/body-gap-closing/graver/below",
            None,
            "my.json, at rules.body-gap-closing.graver.below: this is missing; add it",
        ),
        (
            "/rules/contact-cone/note",
            Some(json!("two\nlines")),
            "my.json, at rules.contact-cone.note: use one line of at most 300 characters",
        ),
        (
            "/format",
            Some(json!(2)),
            "my.json, at format: this is format 2, and this program reads format 1",
        ),
        ("/points/major", Some(json!(3)), "my.json, at points.major: 3 lies outside 4 to 100"),
        ("/pass/skill", Some(json!(101)), "my.json, at pass.skill: 101 lies outside 0 to 100"),
        (
            "/terms/strech",
            Some(json!(shipped()["terms"]["stretch"])),
            "my.json, at terms: there is no \"strech\"; there is again-after, ",
        ),
        (
            "/speed_limit/value",
            Some(json!(null)),
            "my.json, at speed_limit.value: invalid type: null",
        ),
        (
            "/rules/contact-cone/on",
            Some(json!("yes")),
            "my.json, at rules.contact-cone.on: invalid type: string",
        ),
        (
            "/rules/contact-cone/skil",
            Some(json!("steering")),
            "my.json, at rules.contact-cone.skil: unknown field",
        ),
        ("/ruels", Some(json!({})), "my.json, at ruels: unknown field"),
    ] {
        let got = refusal(pointer, value);
        assert!(got.starts_with(said), "{pointer}:\n  {got}\n  {said}");
        assert!(!got.contains('\n'));
    }
    assert!(refusal(limits, Some(json!([]))).contains("rules.left-the-lane.limits"));
}

#[test]
fn a_file_of_the_future_says_so_whatever_else_is_in_it() {
    let e = parse(&json!({ "format": 2, "moods": [1, 2] })).expect_err("format 2");
    assert_eq!(e, "my.json, at format: this is format 2, and this program reads format 1");
}

#[test]
fn a_name_that_stands_twice_is_refused() {
    let twice = SHIPPED.replacen("\"contact-structure\"", "\"contact-cone\"", 1);
    let e = SiteRules::parse("my.json", twice.as_bytes()).expect_err("twice").to_string();
    assert!(e.contains("at rules") && e.contains("twice"), "{e}");
}

#[test]
fn numbers_that_are_none_and_files_that_are_too_large_or_cut_off_are_refused() {
    for text in ["NaN", "Infinity", "-Infinity", "1e999", "0x10"] {
        let bad = SHIPPED.replacen("\"value\": 2.7", &format!("\"value\": {text}"), 1);
        assert!(SiteRules::parse("my.json", bad.as_bytes()).is_err(), "{text}");
    }
    let large = format!("{SHIPPED}{}", " ".repeat(300_000));
    let e = SiteRules::parse("my.json", large.as_bytes()).expect_err("too large").to_string();
    assert!(e.contains("more than the 262144 allowed"), "{e}");
    let deep = format!("{}{}", "[".repeat(100_000), "]".repeat(100_000));
    assert!(SiteRules::parse("my.json", deep.as_bytes()).is_err());
    let end = SHIPPED.trim_end().len();
    for cut in (0..end).step_by(3) {
        assert!(SiteRules::parse("my.json", &SHIPPED.as_bytes()[..cut]).is_err(), "{cut}");
    }
}

proptest! {
    #[test]
    fn random_bytes_never_panic(bytes in proptest::collection::vec(any::<u8>(), 0..2000)) {
        prop_assert!(SiteRules::parse("my.json", &bytes).is_err());
    }

    /// A file with a few bytes changed is refused in one line, or is still made of good values.
    #[test]
    fn mutated_files_never_panic(
        changes in proptest::collection::vec((0..SHIPPED.len(), any::<u8>()), 1..4)
    ) {
        let mut bytes = SHIPPED.as_bytes().to_vec();
        for (at, byte) in changes {
            bytes[at] = byte;
        }
        match SiteRules::parse("my.json", &bytes) {
            Err(e) => {
                let said = e.to_string();
                prop_assert!(said.starts_with("my.json") && !said.contains('\n'));
            }
            Ok(rules) => {
                for d in DUTIES {
                    for n in d.limits {
                        let v = rules.rules[d.code].limits[n.name].value;
                        prop_assert!((n.least..=n.most).contains(&v));
                    }
                }
            }
        }
    }
}

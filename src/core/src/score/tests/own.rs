//! What a site adds of its own: speed zones in courses and sentences beside findings.

use serde_json::{Value, json};

use crate::course::place::place;
use crate::course::shipped as courses;
use crate::debrief::Ending;
use crate::math::{Pose, vec2};
use crate::rules::SiteRules;
use crate::rules::tests::reading::{parse, refusal, schema};
use crate::score::tests::judging::{course, judged};
use crate::truck::spec::shipped as trucks;
use crate::watch::test_support::Drive;
use crate::words::Words;

/// A square of 20 m about the origin with this limit, m/s.
fn zone(course: &str, limit: f64) -> Value {
    json!({
        "course": course,
        "area_m": [[-10, -10], [10, -10], [10, 10], [-10, 10]],
        "limit": { "value": limit, "unit": "m/s", "source": "site rule 9" },
    })
}

fn with_zones(zones: &[Value]) -> SiteRules {
    parse(&json!({ "format": 1, "zones": zones })).expect("valid")
}

#[test]
fn a_zone_of_the_site_holds_like_one_of_the_course_and_the_lower_one_counts() {
    let (mut own, truck) = (courses::parse("straight"), trucks::single());
    own.zones.clear();
    let limit = |rules: &SiteRules, own: &crate::course::Course, x: f64| {
        let course = rules.add_zones(own.clone());
        place(&course, &Pose { at: vec2(x, 0.0), heading: 0.0 }, &truck).zone_limit
    };
    let rules = with_zones(&[zone("straight", 1.2), zone("slalom", 0.5)]);
    assert_eq!(limit(&rules, &own, 0.0), Some(1.2));
    // The platform stands 1.3 m before the load axle.
    assert_eq!(limit(&rules, &own, 9.5), None);
    assert_eq!(limit(&SiteRules::shipped(), &own, 0.0), None);
    own.zones = with_zones(&[zone("straight", 0.9)]).add_zones(own.clone()).zones;
    assert_eq!(limit(&rules, &own, 0.0), Some(0.9));
    assert_eq!(limit(&with_zones(&[zone("straight", 0.7)]), &own, 0.0), Some(0.7));
}

#[test]
fn zones_and_notes_are_listed_among_what_a_site_changed() {
    assert_eq!(with_zones(&[zone("straight", 1.2)]).changed(), ["zones"]);
    let notes = json!({ "contact-cone": { "en": "Tell the foreman." } });
    let rules = parse(&json!({ "format": 1, "notes": notes })).expect("valid");
    assert_eq!(rules.changed(), ["notes"]);
    let all = json!({ "format": 1, "notes": notes, "zones": [zone("straight", 1.2)] });
    let rules = parse(&all).expect("valid");
    let debrief = judged(&course(), &rules, &Drive::new().still(9), Ending::Broken);
    assert_eq!(debrief.changed_rules, ["zones", "notes"]);
    for lang in ["en", "es"] {
        let words = Words::new(lang);
        for what in &debrief.changed_rules {
            assert!(!words.changed(what).contains('['), "{lang} {what}");
        }
    }
}

#[test]
fn a_note_is_said_in_the_readers_language_where_there_is_one() {
    let rules = parse(&json!({
        "format": 1,
        "notes": {
            "contact-cone": { "es": "Avise al encargado.", "en": "Tell the foreman." },
            "over-speed": { "fr": "Dix pas derriere." },
            "left-the-lane": { "de": "Bleib hier.", "en": "Stay here." },
        },
    }))
    .expect("valid");
    let (en, es) = (Words::new("en-GB"), Words::new("es-MX"));
    assert_eq!(en.note(&rules, "contact-cone"), Some("Tell the foreman."));
    assert_eq!(es.note(&rules, "contact-cone"), Some("Avise al encargado."));
    assert_eq!(es.note(&rules, "left-the-lane"), Some("Stay here."));
    assert_eq!(en.note(&rules, "over-speed"), Some("Dix pas derriere."));
    assert_eq!(en.note(&rules, "clean-lap"), None);
    let mut rules = rules;
    rules.rules.get_mut("clean-lap").expect("a code").note = Some("As on the board.".to_owned());
    assert_eq!(es.note(&rules, "clean-lap"), Some("As on the board."));
}

#[test]
fn each_fault_in_them_is_one_sentence_with_its_place() {
    let but = |pointer: &str, value: Value| {
        let mut z = zone("straight", 1.2);
        *z.pointer_mut(pointer).expect("a place") = value;
        json!([zone("slalom", 1.0), z])
    };
    let long = "x".repeat(401);
    for (pointer, value, said) in [
        (
            "/zones",
            but("/course", json!("The yard")),
            "my.json, at zones[1].course: use 1 to 40 lower-case letters, digits and dashes",
        ),
        (
            "/zones",
            but("/limit/value", json!(0)),
            "my.json, at zones[1].limit.value: 0 lies outside 0.1 to 6",
        ),
        (
            "/zones",
            but("/limit/unit", json!("s")),
            "my.json, at zones[1].limit.unit: the unit is \"m/s\" here",
        ),
        (
            "/zones",
            but("/limit/source", json!("")),
            "my.json, at zones[1].limit.source: say where this comes from",
        ),
        (
            "/zones",
            but("/area_m", json!([[0, 0], [1, 0]])),
            "my.json, at zones[1].area_m: an area needs at least 3 corners",
        ),
        (
            "/zones",
            but("/area_m", json!([[0, 0], [4, 4], [4, 0], [0, 4]])),
            "my.json, at zones[1].area_m[0]: the edge that starts here crosses another edge",
        ),
        ("/zones", but("/area_m/2", json!([1e6, 0])), "my.json, at zones[1].area_m[2]: "),
        (
            "/zones",
            json!(vec![zone("straight", 1.0); 65]),
            "my.json, at zones: more than 64 entries; leave some out",
        ),
        (
            "/zones",
            json!([{ "course": "straight", "limit_mps": 1 }]),
            "my.json, at zones[0].limit_mps: unknown field",
        ),
        (
            "/notes",
            json!({ "contact-con": { "en": "Tell the foreman." } }),
            "my.json, at notes: there is no \"contact-con\"; there is contact-cone, ",
        ),
        (
            "/notes",
            json!({ "contact-cone": {} }),
            "my.json, at notes.contact-cone: give the text in at least one language",
        ),
        (
            "/notes",
            json!({ "contact-cone": { "English": "Tell the foreman." } }),
            "my.json, at notes.contact-cone: \"English\" is no language code",
        ),
        (
            "/notes",
            json!({ "contact-cone": { "en": long } }),
            "my.json, at notes.contact-cone.en: use 1 to 400 characters on one line",
        ),
        (
            "/notes",
            json!({ "contact-cone": { "en": "two\nlines" } }),
            "my.json, at notes.contact-cone.en: use 1 to 400 characters on one line",
        ),
        (
            "/notes",
            json!({ "contact-cone": "Tell the foreman." }),
            "my.json, at notes.contact-cone: invalid type: string",
        ),
    ] {
        let got = refusal(pointer, Some(value));
        assert!(got.starts_with(said), "{got}\n  {said}");
        assert!(!got.contains('\n'));
    }
}

/// What the schema can say, it says as the reader does; crossings of edges it cannot.
#[test]
fn schema_and_reader_agree_on_zones_and_notes() {
    let schema = schema();
    let note = |text: &str| json!({ "format": 1, "notes": { "contact-cone": { "en": text } } });
    let zones = |z: Value| json!({ "format": 1, "zones": [z] });
    let without = |name: &str| {
        let mut z = zone("straight", 1.0);
        z.as_object_mut().expect("an object").remove(name);
        zones(z)
    };
    for (file, good) in [
        (zones(zone("straight", 0.1)), true),
        (zones(zone("straight", 6.0)), true),
        (zones(zone("straight", 6.1)), false),
        (zones(zone("straight", 0.09)), false),
        (zones(zone("", 1.0)), false),
        (without("course"), false),
        (without("area_m"), false),
        (without("limit"), false),
        (note("x"), true),
        (note(&"x".repeat(400)), true),
        (note(&"x".repeat(401)), false),
        (note(" "), false),
        (json!({ "format": 1, "notes": { "contact-con": { "en": "x" } } }), false),
        (json!({ "format": 1, "notes": { "contact-cone": {} } }), false),
        (json!({ "format": 1, "zones": [], "notes": {} }), true),
    ] {
        assert_eq!(schema.is_valid(&file), good, "schema: {file}");
        assert_eq!(parse(&file).is_ok(), good, "reader: {file}");
    }
    // Every code may have a note.
    for d in crate::rules::DUTIES {
        let file = json!({ "format": 1, "notes": { d.code: { "en": "x" } } });
        assert!(schema.is_valid(&file) && parse(&file).is_ok(), "{}", d.code);
    }
}

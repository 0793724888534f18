//! Every text is there in both languages, with the same values in it, and none is there for
//! nothing.

use std::collections::{BTreeMap, BTreeSet};

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource};

use super::*;
use crate::finding::Unit;
use crate::math::vec2;
use crate::rules::{CHANGED_NOTES, CHANGED_POINTS, CHANGED_ZONES};
use crate::rules::{DUTIES, TERMS};
use crate::score::points::SKILLS;

/// Keys of a file with their texts.
fn messages(text: &str) -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    let mut key = String::new();
    for line in text.lines().filter(|l| !l.starts_with('#')) {
        if let Some((name, rest)) = line.split_once(" =")
            && !line.starts_with(' ')
        {
            name.clone_into(&mut key);
            let before = all.insert(key.clone(), rest.trim().to_owned());
            assert_eq!(before, None, "{key} stands twice");
        } else if let Some(said) = all.get_mut(&key) {
            said.push('\n');
            said.push_str(line);
        }
    }
    all
}

/// Names of the values that a text puts in.
fn values(text: &str) -> BTreeSet<&str> {
    let names = text.split('$').skip(1);
    names.filter_map(|t| t.split(|c: char| !c.is_ascii_alphanumeric()).next()).collect()
}

/// Every key that the findings' texts must have, and no other.
fn expected() -> BTreeSet<String> {
    let mut keys = BTreeSet::new();
    for duty in DUTIES {
        for part in ["", "-what", "-why", "-instead"] {
            keys.insert(format!("{}{part}", duty.code));
        }
    }
    keys.extend(WHAT_BY_UNIT.iter().map(|what| what.2.to_owned()));
    keys.extend(SKILLS.iter().map(|s| skill_key(*s).to_owned()));
    for s in [Severity::Good, Severity::Minor, Severity::Major, Severity::Critical] {
        keys.insert(severity_key(s).to_owned());
    }
    for units in [Units::Metric, Units::Imperial] {
        for (value, unit) in ALL_UNITS {
            keys.insert(units.show(value, unit).unit.to_owned());
        }
    }
    keys.remove("");
    for source in ["common practice, no source", "course task", "site rule"] {
        keys.extend(source_key(source).map(str::to_owned));
    }
    keys.extend(TERMS.iter().map(|t| format!("changed-{}", t.name)));
    for what in [CHANGED_POINTS, CHANGED_ZONES, CHANGED_NOTES] {
        keys.insert(format!("changed-{what}"));
    }
    for r in [Readiness::Ready, Readiness::PractiseMore, Readiness::NotEnoughShown] {
        keys.insert(readiness_key(r).to_owned());
    }
    for key in ["debrief-changed-rules", "caution", "just-before", "because-of"] {
        keys.insert(key.to_owned());
    }
    keys.extend(super::pretest::KEYS.map(str::to_owned));
    keys
}

const ALL_UNITS: [(f64, Unit); 11] = [
    (0.1, Unit::Metre),
    (5.0, Unit::Metre),
    (1.0, Unit::MetrePerSecond),
    (1.0, Unit::MetrePerSecondSquared),
    (1.0, Unit::MetrePerSecondCubed),
    (1.0, Unit::Gravity),
    (1.0, Unit::Second),
    (1.0, Unit::NewtonMetreSecond),
    (1.0, Unit::Share),
    (1.0, Unit::Degree),
    (1.0, Unit::Count),
];

/// What was driven in the second before a spill is told with it.
#[test]
fn a_spill_tells_how_it_was_driven_just_before() {
    use crate::finding::JustBefore;
    let words = Words::new("en");
    let before =
        JustBefore { speed: 2.0, side: 0.3 * crate::math::G, along: 0.0, fork_height: 0.1 };
    let finding = Finding {
        code: "load-spilled".to_owned(),
        severity: Severity::Major,
        from: 0,
        to: 0,
        measured: 2.0,
        limit: 0.0,
        unit: Unit::Count,
        at: vec2(0.0, 0.0),
        before: Some(before),
        cause: None,
        point: None,
    };
    let told = words.tell(&finding, Units::Metric).what;
    for part in ["7.2\u{a0}km/h", "0.3\u{a0}g", "10\u{a0}cm"] {
        assert!(told.contains(part), "{part} is missing from {told}");
    }
    let without = words.tell(&Finding { before: None, ..finding }, Units::Metric).what;
    assert!(told.starts_with(&without) && told.len() > without.len());
}

/// A fault that came of another names it by its title.
#[test]
fn what_was_measured_in_another_unit_has_a_sentence_of_its_own() {
    for lang in LANGUAGES {
        let words = Words::new(lang);
        for (code, unit, key) in WHAT_BY_UNIT {
            let finding = |unit| Finding {
                code: code.to_owned(),
                severity: Severity::Minor,
                from: 0,
                to: 0,
                measured: 2.0,
                limit: 1.0,
                unit,
                at: vec2(0.0, 0.0),
                before: None,
                cause: None,
                point: None,
            };
            let told = |unit| words.tell(&finding(unit), Units::Metric).what;
            assert!(words.has(key), "{lang}: {key}");
            assert_ne!(told(unit), told(Unit::Share), "{lang}: {key}");
        }
    }
}

#[test]
fn a_fault_that_came_of_another_says_so() {
    for (lang, title) in [("en", "Too fast in a turn"), ("es", "Demasiado rápido en una curva")] {
        let words = Words::new(lang);
        assert_eq!(words.say("corner-speed", &[]), title);
        let alone = Finding {
            code: "load-spilled".to_owned(),
            severity: Severity::Major,
            from: 0,
            to: 0,
            measured: 2.0,
            limit: 0.0,
            unit: Unit::Count,
            at: vec2(0.0, 0.0),
            before: None,
            cause: None,
            point: None,
        };
        let caused = Finding { cause: Some("corner-speed".to_owned()), ..alone.clone() };
        let (alone, caused) =
            (words.tell(&alone, Units::Metric).what, words.tell(&caused, Units::Metric).what);
        let said = caused.strip_prefix(&alone).expect("it is added at the end");
        assert!(said.contains(title), "{said}");
    }
}

#[test]
fn the_findings_texts_are_all_there_and_none_is_unused() {
    for (lang, text) in [("en", ENGLISH[0].1), ("es", SPANISH[0].1)] {
        let there: BTreeSet<String> = messages(text).into_keys().collect();
        let missing: Vec<_> = expected().difference(&there).cloned().collect();
        let unused: Vec<_> = there.difference(&expected()).cloned().collect();
        assert!(missing.is_empty(), "{lang}: missing {missing:?}");
        assert!(unused.is_empty(), "{lang}: unused {unused:?}");
    }
}

#[test]
fn both_languages_have_the_same_keys_with_the_same_values() {
    for ((_, en), (_, es)) in ENGLISH.into_iter().zip(SPANISH) {
        let (en, es) = (messages(en), messages(es));
        assert_eq!(en.keys().collect::<Vec<_>>(), es.keys().collect::<Vec<_>>());
        for (key, text) in &en {
            assert_eq!(values(text), values(&es[key]), "{key}");
            assert!(!text.trim().is_empty() && !es[key].trim().is_empty(), "{key}");
        }
    }
}

#[test]
fn how_a_drive_ended_is_among_the_pages_texts() {
    use crate::debrief::Ending;
    for lang in LANGUAGES {
        let words = Words::new(lang);
        for e in [Ending::Done, Ending::Failed, Ending::Tipped, Ending::TimeOut, Ending::Broken] {
            assert!(words.has(ending_key(e)), "{lang}: {}", ending_key(e));
        }
    }
}

#[test]
fn no_key_stands_in_two_files() {
    for [(_, findings), (_, shell)] in [ENGLISH, SPANISH] {
        let (findings, shell) = (messages(findings), messages(shell));
        let both: Vec<_> = findings.keys().filter(|k| shell.contains_key(*k)).collect();
        assert!(both.is_empty(), "{both:?}");
    }
}

/// All texts of a language as the reference library for Fluent says them.
fn reference(lang: &str) -> FluentBundle<FluentResource> {
    let mut bundle = FluentBundle::new_concurrent(vec![lang.parse().unwrap()]);
    bundle.set_use_isolating(false);
    for (file, text) in if lang == "es" { SPANISH } else { ENGLISH } {
        let resource = FluentResource::try_new(text.to_owned());
        bundle.add_resource(resource.unwrap_or_else(|(_, e)| panic!("{file}: {e:?}"))).unwrap();
    }
    bundle
}

/// Every text, with texts and with numbers that choose in it, is said as Fluent says it.
#[test]
fn a_table_says_what_fluent_says() {
    let numbers = [0.0, 1.0, 2.0, 7.0, 1.5, 0.25, -1.0, 1e6, 123_456.789];
    for lang in LANGUAGES {
        let (bundle, table) = (reference(lang), shipped(lang).unwrap());
        let mut tried = 0;
        for (_, text) in if lang == "es" { SPANISH } else { ENGLISH } {
            for (key, text) in messages(text) {
                let pattern = bundle.get_message(&key).and_then(|m| m.value()).unwrap();
                let names = values(&text);
                let as_text = names.iter().map(|n| (*n, Value::from(format!("<{n} ábc>"))));
                let mut given: Vec<Vec<(&str, Value)>> = vec![as_text.collect(), vec![]];
                given.extend(numbers.map(|n| names.iter().map(|name| (*name, n.into())).collect()));
                for given in given {
                    let mut args = FluentArgs::new();
                    for (name, value) in &given {
                        match value {
                            Value::Text(text) => args.set(*name, text.as_str()),
                            Value::Number(number) => args.set(*name, *number),
                        }
                    }
                    let by_fluent = bundle.format_pattern(pattern, Some(&args), &mut vec![]);
                    assert_eq!(table.say(&key, &given).unwrap(), by_fluent, "{lang} {key}");
                    tried += 1;
                }
            }
        }
        assert!(tried > 5_000, "{tried}");
    }
}

/// What a browser fetches is all of it.
#[test]
fn a_table_read_from_its_file_is_the_same() {
    for lang in LANGUAGES {
        let table = shipped(lang).unwrap();
        assert_eq!(Table::read(&table.to_text()), Ok(table));
    }
}

#[test]
fn what_happened_tells_the_measured_value_and_the_limit_of_a_fault_with_limits() {
    let texts = messages(ENGLISH[0].1);
    for duty in DUTIES {
        let told = values(&texts[&format!("{}-what", duty.code)]);
        if !duty.limits.is_empty() && duty.code != "clean-lap" {
            assert_eq!(told, BTreeSet::from(["measured", "limit"]), "{}", duty.code);
        }
        assert!(told.iter().all(|v| ["measured", "limit"].contains(v)), "{}", duty.code);
    }
}

#[test]
fn a_finding_is_told_with_its_values_in_every_language() {
    for lang in LANGUAGES {
        let words = Words::new(lang);
        for duty in DUTIES {
            let finding = Finding {
                code: duty.code.to_owned(),
                severity: Severity::Minor,
                from: 0,
                to: 0,
                measured: 2.0,
                limit: 1.5,
                unit: Unit::Second,
                at: vec2(0.0, 0.0),
                before: None,
                cause: None,
                point: None,
            };
            let told = words.tell(&finding, Units::Metric);
            for text in [&told.title, &told.what, &told.why, &told.instead] {
                assert!(!text.contains(['[', '{', '$']), "{lang} {}: {text}", duty.code);
            }
        }
    }
}

#[test]
fn values_are_shown_in_the_units_and_the_writing_of_the_reader() {
    let (en, es) = (Words::new("en-US"), Words::new("es-MX"));
    let m = Units::Metric;
    let i = Units::Imperial;
    let speed = |w: &Words, u| w.quantity(2.7, Unit::MetrePerSecond, u);
    assert_eq!(speed(&en, m), "9.7\u{a0}km/h");
    assert_eq!(speed(&en, i), "6\u{a0}mph");
    assert_eq!(speed(&es, m), "9,7\u{a0}km/h");
    let length = |x, u| es.quantity(x, Unit::Metre, u);
    assert_eq!(length(0.061, m), "6,1\u{a0}cm");
    assert_eq!(length(0.0508, i), "2\u{a0}in");
    assert_eq!(length(1.5, m), "1,5\u{a0}m");
    assert_eq!(length(1.524, i), "5\u{a0}ft");
    assert_eq!(en.quantity(0.8, Unit::Share, m), "80\u{a0}%");
    assert_eq!(en.quantity(-30.0, Unit::Degree, m), "-30°");
    assert_eq!(en.quantity(3.0, Unit::Count, m), "3");
    // 1 N m is 0.737562 lbf ft (NIST SP 811, Appendix B.8: 1 lbf ft = 1.355818 N m).
    assert_eq!(en.quantity(135.5818, Unit::NewtonMetreSecond, i), "100\u{a0}lbf ft s");
    assert_eq!(en.number(-0.001, 1), "0");
    assert_eq!(en.number(100.0, 0), "100");
}

#[test]
fn a_missing_text_is_seen() {
    assert_eq!(Words::new("en").say("there-is-none", &[]), "[there-is-none]");
    assert_eq!(
        Words::new("fr").say("severity-good", &[]),
        Words::new("en").say("severity-good", &[])
    );
}

#[test]
fn sources_are_put_into_the_language_part_by_part() {
    let es = Words::new("es");
    assert_eq!(
        es.source("common practice, no source; 29 CFR 1910.178(n)(4)"),
        "práctica habitual, sin fuente escrita; 29 CFR 1910.178(n)(4)"
    );
    assert_eq!(es.changed("over-speed"), es.say("over-speed", &[]));
    assert_eq!(es.changed("points"), es.say("changed-points", &[]));
}

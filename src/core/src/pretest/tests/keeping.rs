//! The record of a sitting and its file.

use super::run;
use crate::pretest::{MAX_BYTES, Outcome, Reason, Sitting, count};
use crate::rules::SHIPPED;

const STARTED: &str = "2026-01-05T08:00:00Z";

fn sitting() -> Sitting {
    Sitting::new("Grey heron", 4, "single", "Alder", STARTED, SHIPPED).unwrap()
}

/// With so many parts driven.
fn driven(parts: usize) -> Sitting {
    let mut s = sitting();
    for i in 0..parts {
        let setup = s.next_setup(STARTED).unwrap();
        s.done(i, run(setup)).unwrap();
    }
    s
}

#[test]
fn parts_are_due_one_after_the_other_until_none_is_left() {
    let s = driven(0);
    assert_eq!(s.next_part().unwrap(), (0, s.parts()[0].clone()));
    let s = driven(count());
    assert_eq!((s.next_part(), s.next_setup(STARTED)), (None, None));
    assert_eq!(s.runs().len(), count());
    let mut full = s.clone();
    let again = full.done(count(), s.runs()[0].clone()).unwrap_err();
    assert_eq!(again.to_string(), "the run: all parts of this sitting are driven already");
}

#[test]
fn a_run_that_is_not_of_the_part_that_is_due_is_refused() {
    let mut s = driven(2);
    let before = s.clone();
    let setup = s.next_setup(STARTED).unwrap();
    let twice = s.done(1, s.runs()[1].clone()).unwrap_err().to_string();
    assert_eq!(twice, "the run: part 2 is driven already; part 3 is due");
    let early = s.done(4, run(setup.clone())).unwrap_err().to_string();
    assert_eq!(early, "the run: part 5 cannot come before part 3, which is due");
    let mut refused = |place: &str, change: fn(&mut crate::run::DriveSetup)| {
        let mut other = setup.clone();
        change(&mut other);
        let bad = s.done(2, run(other)).unwrap_err();
        assert_eq!(bad.place, place, "{bad}");
        assert!(bad.reason.contains("drive the part that is due"), "{bad}");
    };
    refused("course", |s| s.course.push(' '));
    refused("truck", |s| s.truck.push(' '));
    refused("site_rules", |s| s.rules.push(' '));
    refused("seed", |s| s.seed ^= 1);
    refused("who", |s| s.who.push('x'));
    assert_eq!(s, before);
    // When it began is the part's own.
    let mut later = setup;
    later.started = "2026-01-05T09:00:00Z".into();
    s.done(2, run(later)).unwrap();
}

#[test]
fn what_is_written_can_be_read_at_every_part() {
    for parts in [0, 1, count() - 1, count()] {
        let mut s = driven(parts);
        s.pauses = 1;
        assert_eq!(Sitting::parse("s.sitting.json", s.to_text().as_bytes()).unwrap(), s);
    }
}

fn refusal(change: impl Fn(&mut serde_json::Value)) -> String {
    let mut file: serde_json::Value = serde_json::from_str(&driven(3).to_text()).unwrap();
    change(&mut file);
    Sitting::parse("s", file.to_string().as_bytes()).unwrap_err().to_string()
}

#[test]
fn a_file_that_was_changed_is_refused_in_one_sentence() {
    use serde_json::{Value, json};
    let at = |change: fn(&mut Value), sentence: &str| {
        let said = refusal(change);
        assert!(said.starts_with(sentence), "{said}");
        assert!(!said.contains('\n'));
    };
    at(|f| f["format"] = json!(2), "s, at format: this sitting has format version 2");
    at(|f| f["draw"] = json!(99), "s, at draw: this sitting has draw version 99");
    at(|f| f["seat"] = json!(5), "s, at parts[0].part: this is not what is drawn");
    at(|f| f["seat"] = json!(10_000), "s, at seat: 10000 lies outside 0 to 9999");
    at(
        |f| f["class_word"] = json!("Grey Heron"),
        "s, at class_word: write this word as \"grey-heron\"",
    );
    at(|f| f["who"] = json!("Birch"), "s, at parts[0].run, who: this is not the who of part 1");
    at(|f| f["site_rules"] = json!("{}"), "s, at site_rules: missing field");
    at(|f| f["truck"] = json!("crane"), "s, at truck: a pre-test is taken on one of these trucks");
    at(|f| f["truck"] = json!("double"), "s, at parts[0].part: this is not what is drawn");
    at(|f| f["pauses"] = json!(10_001), "s, at pauses: 10001 lies outside 0 to 10000");
    at(|f| f["more"] = json!(1), "s, at more: unknown field");
    at(
        |f| drop(f["parts"].as_array_mut().unwrap().pop()),
        "s, at parts: a sitting has 11 parts, not 10",
    );
    at(
        |f| f["parts"][1]["run"] = Value::Null,
        "s, at parts[2].run: part 3 cannot come before part 2",
    );
    at(
        |f| f["parts"][1]["part"]["seed"] = json!(1),
        "s, at parts[1].part: this is not what is drawn",
    );
    at(|f| f["parts"][1]["run"] = json!("{}"), "s, at parts[1].run: missing field `format`");
    at(
        |f| f["parts"][1]["run"] = f["parts"][0]["run"].clone(),
        "s, at parts[1].run, course: this is not the course of part 2",
    );
}

#[test]
fn a_file_is_bounded() {
    let large = vec![b' '; MAX_BYTES + 1];
    let sentence = Sitting::parse("s", &large).unwrap_err().to_string();
    assert!(sentence.contains("more than the"), "{sentence}");
    assert!(Sitting::parse("s", b"[").is_err());
}

#[test]
fn nobody_with_a_name_of_two_lines_takes_a_sitting() {
    for (who, started) in [("a\nb", STARTED), (&*"x".repeat(101), STARTED), ("", &*"9".repeat(41))]
    {
        assert!(Sitting::new("7", 1, "single", who, started, SHIPPED).is_err());
    }
    assert!(Sitting::new("7", 1, "single", "", "", "no rules").is_err());
}

#[test]
fn a_part_in_slowed_time_is_not_as_driven_at_full_pace() {
    let slow = |pace, time_ratio| {
        let mut s = sitting();
        for i in 0..count() {
            let mut part = run(s.next_setup(STARTED).unwrap());
            if i == 3 {
                (part.pace, part.time_ratio) = (pace, time_ratio);
            }
            s.done(i, part).unwrap();
        }
        let again = Sitting::parse("a file", s.to_text().as_bytes()).unwrap();
        again.joined().unwrap()
    };
    assert_eq!(slow(1.0, 0.95).result, Outcome::Passed);
    for (pace, time_ratio) in [(1.0, 0.949), (0.949, 1.0), (0.97, 0.97), (0.5, 1.0)] {
        let joined = slow(pace, time_ratio);
        assert_eq!(joined.result, Outcome::Incomplete, "{pace} {time_ratio}");
        let too_slow = Reason::TooSlow { part: 3, ratio: pace * time_ratio, limit: 0.95 };
        assert_eq!(joined.reasons, [too_slow]);
    }
}

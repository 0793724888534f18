//! A rule takes no value that nobody could keep to, or that its sensor cannot see: the model rider
//! drives under every limit at both ends of its range, on a course where it matters, and the rule
//! finds nothing; and there a good deed is still found at one of its ends.

use coneyard_core::course::{Course, shipped};
use coneyard_core::debrief::Ending;
use coneyard_core::finding::Severity;
use coneyard_core::rider::{MODEL, faults};
use coneyard_core::rules::{DUTIES, Need, TERMS};
use coneyard_core::rules::{SHIPPED, SiteRules};
use coneyard_core::run::DriveSetup;
use coneyard_sim::ride;
use coneyard_tests::drives::setup;
use rayon::prelude::*;
use serde_json::{Value, json};

/// Where a deed is done, or a term matters most: course and seed.
const COURSES: [(&str, &str, u32); 18] = [
    ("person-near-miss", "person-beside", 1),
    ("not-looking", "cross-aisles", 1),
    ("clean-plug", "straight", 1),
    ("quick-emergency-stop", "emergency-stops", 1),
    ("gentle-start", "straight", 1),
    ("horn-before-moving", "open-traffic", 1),
    ("gave-way", "crossing-busy", 1),
    ("full-stop", "cross-aisles", 1),
    ("horn-at-blind-spot", "cross-aisles", 1),
    ("quick-reaction", "rack-end", 5),
    ("clean-set-down", "bays", 1),
    ("clean-lap", "laps-clockwise", 1),
    ("called-near", "rack-end", 5),
    ("called-soon", "rack-end", 5),
    ("called-out", "rack-end", 5),
    ("called-for", "rack-end", 5),
    ("steps-on", "crossing-busy", 1),
    ("check", "dock-ahead", 1),
];

/// The course on which a rule comes out: that of the rider who breaks it.
fn course_of(code: &str) -> (&'static str, u32) {
    let own = COURSES.iter().find(|(c, ..)| *c == code).map(|(_, course, seed)| (*course, *seed));
    let breaks = || faults::all().find(|f| f.codes.contains(&code));
    own.or_else(|| Some((breaks()?.inside.on[0].0, 1))).unwrap_or(("cross-aisles", 1))
}

fn trucks_of(course: &str) -> Vec<String> {
    let text = shipped::text_of_any(course).expect("a course of the repository");
    Course::parse(course, text.as_bytes()).expect("it is valid").trucks
}

/// A drive with one number of the rules changed.
struct Case {
    code: &'static str,
    pointer: String,
    course: (&'static str, u32),
    truck: String,
    value: f64,
    good: bool,
}

/// Both ends of every range. What makes a finding graver makes none; terms do not hang on the truck.
fn cases() -> Vec<Case> {
    let mut cases = Vec::new();
    let mut add = |code: &'static str, pointer: String, need: &Need, good: bool, course| {
        let course: (&'static str, u32) = course;
        let trucks = if code.is_empty() { 1 } else { 2 };
        for truck in trucks_of(course.0).into_iter().take(trucks) {
            for value in [need.least, need.most] {
                let (pointer, truck) = (pointer.clone(), truck.clone());
                cases.push(Case { code, pointer, course, truck, value, good });
            }
        }
    };
    for duty in DUTIES {
        let course = course_of(duty.code);
        for need in duty.limits {
            let pointer = format!("/rules/{}/limits/{}/value", duty.code, need.name);
            add(duty.code, pointer, need, duty.good, course);
        }
    }
    for need in TERMS {
        let what = if need.name.starts_with("check-") { "check" } else { need.name };
        let course = course_of(what);
        add("", format!("/terms/{}/value", need.name), need, false, course);
    }
    cases
}

/// The same slope the other way: no rider can turn round where a course leads straight up with the
/// load behind.
fn downhill(course: &str) -> String {
    let mut course: Value = serde_json::from_str(course).expect("JSON");
    course["ramps"][0]["uphill_deg"] = json!(180);
    course.to_string()
}

/// The drive's end, and the codes of its findings, faults first.
fn driven(case: &Case) -> (Ending, Vec<String>, Vec<String>) {
    let mut rules: Value = serde_json::from_str(SHIPPED).expect("JSON");
    let number = rules.pointer_mut(&case.pointer).expect("every number is in the shipped rules");
    *number = json!(case.value);
    let text = rules.to_string();
    SiteRules::parse("my.json", text.as_bytes()).expect("both ends are within the range");
    let plain = setup(case.course.0, &case.truck, case.course.1);
    let course =
        if case.code == "load-not-upgrade" { downhill(&plain.course) } else { plain.course };
    let setup = DriveSetup { rules: text, course, ..plain };
    let debrief = ride(&setup, MODEL).expect("it can be driven").claimed;
    let (good, faults): (Vec<_>, Vec<_>) =
        debrief.findings.into_iter().partition(|f| f.severity == Severity::Good);
    let codes = |list: Vec<coneyard_core::finding::Finding>| {
        list.into_iter().map(|f| f.code).collect::<Vec<_>>()
    };
    (debrief.ending, codes(faults), codes(good))
}

#[test]
fn the_model_rider_keeps_every_rule_at_both_ends_of_its_range() {
    let cases = cases();
    let driven: Vec<_> = cases.par_iter().map(driven).collect();
    let (mut wrong, mut deeds) = (Vec::new(), Vec::new());
    for (case, (ending, faults, good)) in cases.iter().zip(&driven) {
        let Case { pointer, course: (course, _), truck, value, .. } = case;
        if case.good {
            deeds.push((format!("{pointer}, {truck}"), good.iter().any(|c| c == case.code)));
        }
        let broken = faults.iter().any(|c| case.code.is_empty() || c == case.code);
        // Somebody stands in the only way there: who keeps the rules waits until the time is over.
        let waits = *course == "person-ahead" && *ending == Ending::TimeOut;
        if broken || (*ending != Ending::Done && !waits) {
            wrong.push(format!("{pointer} {value} on {course}, {truck}: {ending:?}, {faults:?}"));
        }
    }
    for (pointer, _) in &deeds {
        if !deeds.iter().any(|(p, done)| p == pointer && *done) {
            wrong.push(format!("{pointer}: the good deed is not found at either end"));
        }
    }
    wrong.sort();
    wrong.dedup();
    println!("{} drives", cases.len());
    assert!(wrong.is_empty(), "{wrong:#?}");
}

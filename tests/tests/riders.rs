//! Scripted riders in the whole simulation: the model rider drives every shipped course clean, and
//! each rider with a fault is found out by exactly that fault.

use std::collections::BTreeSet;

use coneyard_core::debrief::{Debrief, Ending};
use coneyard_core::finding::Severity;
use coneyard_core::rider::{MODEL, faults};
use coneyard_sim::ride;
use coneyard_tests::drives::{offered, setup};

fn debrief(course: &str, truck: &str, rider: &str, seed: u32) -> Debrief {
    ride(&setup(course, truck, seed), rider).expect("shipped files are valid").claimed
}

fn codes(debrief: &Debrief, good: bool) -> BTreeSet<&str> {
    debrief
        .findings
        .iter()
        .filter(|f| (f.severity == Severity::Good) == good)
        .map(|f| f.code.as_str())
        .collect()
}

#[test]
fn the_model_rider_is_clean_on_every_course() {
    for (course, truck) in offered() {
        for seed in 1..=8 {
            let d = debrief(course, &truck, MODEL, seed);
            let faults = codes(&d, false);
            assert!(faults.is_empty(), "{course} {truck} {seed}: {faults:?}");
            assert_eq!(d.ending, Ending::Done, "{course} {truck} {seed}");
            assert_eq!(d.total, Some(100.0), "{course} {truck} {seed}");
        }
    }
}

/// All the deeds that a course gives an opportunity for.
#[test]
fn the_model_rider_does_every_good_deed() {
    let all = |course: &str| -> BTreeSet<String> {
        let d = debrief(course, "single", MODEL, 1);
        codes(&d, true).into_iter().map(str::to_owned).collect()
    };
    for (course, deeds) in [
        ("straight", vec!["clean-plug", "full-task", "gentle-start", "horn-before-moving"]),
        ("emergency-stops", vec!["full-task", "gentle-start", "quick-emergency-stop"]),
        ("figure-eight", vec!["clean-lap", "full-task", "gentle-start", "horn-before-moving"]),
    ] {
        let done = all(course);
        for deed in deeds {
            assert!(done.contains(deed), "{course}: {deed} is missing from {done:?}");
        }
    }
}

#[test]
fn each_rider_with_a_fault_is_found_out_by_exactly_that_fault() {
    for fault in faults::ALL {
        let mut times = 0;
        for seed in 1..=if fault.by_chance { 12 } else { 4 } {
            let d = debrief(fault.course, "single", fault.name, seed);
            let found = codes(&d, false);
            times += u32::from(!found.is_empty());
            if !(fault.by_chance && found.is_empty()) {
                assert_eq!(found, BTreeSet::from([fault.code]), "{} {seed}", fault.name);
            }
        }
        assert!(times > 0, "{} never comes out", fault.name);
    }
}

//! The model rider in the whole simulation: it drives every shipped course clean and earns the good
//! deeds. Riders with faults are in `corpus`.

use std::collections::BTreeSet;

use coneyard_core::debrief::{Debrief, Ending};
use coneyard_core::finding::Severity;
use coneyard_core::rider::MODEL;
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

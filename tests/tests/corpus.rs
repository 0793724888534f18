//! The labelled corpus, all of it judged: what is intended is found, and nothing else.

use coneyard_core::rider::corpus::rides;
use coneyard_core::rules::DUTIES;
use coneyard_sim::corpus::{Judged, count, judge_ride};
use rayon::prelude::*;

/// Seeds for each rider on each course with each truck: enough for more than 500 rides.
const SEEDS: u32 = 3;

#[test]
fn what_is_intended_is_found_and_nothing_else() {
    let labels = rides(SEEDS);
    assert!(labels.len() >= 500, "{} rides", labels.len());
    let judge = |label| judge_ride(label).expect("a ride of the corpus can be driven");
    let judged: Vec<Judged> = labels.par_iter().map(judge).collect();
    let wrong: Vec<String> = labels
        .iter()
        .zip(&judged)
        .filter(|(_, j)| !j.is_right())
        .map(|(label, j)| format!("{label:?}: missed {:?}, false {:?}", j.missed, j.false_alarms))
        .collect();
    for (code, c) in count(&judged) {
        println!(
            "{code:<26} intended {:>3}, found {:>3}, missed {:>2}, false {:>2}",
            c.intended, c.found, c.missed, c.false_alarms
        );
    }
    assert!(wrong.is_empty(), "{} of {}: {wrong:#?}", wrong.len(), labels.len());
}

/// Codes that no rider of the corpus can bring about: the truck does not tip on a level floor within
/// its speeds, and its motor is cut when nobody is aboard. They are tested on Moments.
const NOT_DRIVEN: [&str; 6] = [
    "tipped-over",
    "walked-the-truck",
    "horn-misused",
    "passed-truck-hidden",
    "grade-too-fast",
    "false-report",
];

#[test]
fn every_fault_of_the_rule_book_is_committed_by_somebody() {
    let labels = rides(1);
    for duty in DUTIES.iter().filter(|d| !d.good) {
        let driven = labels.iter().any(|label| label.codes.contains(&duty.code));
        assert_ne!(driven, NOT_DRIVEN.contains(&duty.code), "{}", duty.code);
    }
}

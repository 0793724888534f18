//! The labelled corpus, a sample of it judged: every ride comes out as its label says.

use coneyard_core::rider::corpus::{Labelled, by_attackers, by_faults, rides};
use coneyard_core::rules::DUTIES;
use coneyard_sim::corpus::{Judged, count, judge_ride};
use rayon::prelude::*;

/// Seeds for each rider with a fault on each course with each truck: enough for more than 400 rides.
const SEEDS: u32 = 3;

#[test]
fn what_is_intended_is_found_and_nothing_else() {
    let labels = by_faults(SEEDS);
    assert!(labels.len() >= 400, "{} rides", labels.len());
    come_out_as_labelled(&labels);
}

/// One ride of each, the slow ones with them: the whole corpus is a command.
#[test]
fn who_attacks_the_score_gets_what_they_must_and_who_is_careful_gets_nothing() {
    let mut labels = by_attackers(1);
    labels.retain(|l| l.seed == 1);
    for bad in [true, false] {
        let count = labels.iter().filter(|l| l.label.is_bad() == bad).count();
        assert!(count >= 10, "{count} rides");
    }
    come_out_as_labelled(&labels);
}

#[test]
fn the_corpus_has_three_thousand_rides() {
    let labels = rides(6);
    assert!(labels.len() >= 3000, "{} rides", labels.len());
}

fn come_out_as_labelled(labels: &[Labelled]) {
    let judge = |label| judge_ride(label).expect("a ride of the corpus can be driven");
    let judged: Vec<Judged> = labels.par_iter().map(judge).collect();
    let wrong: Vec<String> = labels
        .iter()
        .zip(&judged)
        .filter(|(_, j)| !j.is_right())
        .map(|(label, j)| {
            let Labelled { rider, course, truck, seed, .. } = label;
            let Judged { missed, false_alarms, otherwise, .. } = j;
            format!("{rider} {course} {truck} {seed}: {missed:?} {false_alarms:?} {otherwise:?}")
        })
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
const NOT_DRIVEN: [&str; 2] = ["tipped-over", "walked-the-truck"];

#[test]
fn every_fault_of_the_rule_book_is_committed_by_somebody() {
    let labels = rides(1);
    for duty in DUTIES.iter().filter(|d| !d.good) {
        let driven = labels.iter().any(|l| l.label.codes().contains(&duty.code));
        assert_ne!(driven, NOT_DRIVEN.contains(&duty.code), "{}", duty.code);
    }
}

//! A run proves its own walk-round: whatever of it is altered, the run no longer is what it says it is.

use coneyard_core::acts::{Act, Done};
use coneyard_core::checks::draw::{Drawn, Mode};
use coneyard_core::checks::list::CheckList;
use coneyard_core::checks::sheet::Sheet;
use coneyard_core::rider::MODEL;
use coneyard_core::run::Run;
use coneyard_core::time::Tick;
use coneyard_sim::{judge, ride};
use coneyard_tests::drives::setup;
use rayon::prelude::*;

/// How many alterations of each run are tried.
const ALTERED: usize = 300;

fn driven(course: &str, seed: u32) -> Run {
    ride(&setup(course, "single", seed), MODEL).expect("a shipped course")
}

/// A plain generator, so that every alteration can be made again (Knuth's MMIX constants).
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, n: usize) -> usize {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as usize) % n
    }
}

/// Something else in its place.
fn other(act: &Act, by: u8) -> Act {
    let next = |x: u8| x.wrapping_add(1 + by % 40);
    match act.clone() {
        Act::LookCloser { point, view } => Act::LookCloser { point: next(point), view },
        Act::Try { point } => Act::Try { point: next(point) },
        Act::Answer { point, answer: 0, .. } => {
            Act::Answer { point, answer: 1 + by % 3, reason: None }
        }
        Act::Answer { point, reason, .. } => Act::Answer { point, answer: 0, reason },
        Act::Note { point, text } => Act::Note { point, text: format!("{text}.") },
        Act::ReadHours { tenths } => Act::ReadHours { tenths: tenths + 1 + u32::from(by) },
        Act::Shift { number } => Act::Shift { number: next(number) },
        Act::Take => Act::TagOut,
        Act::TagOut => Act::Take,
        Act::Report | Act::TouchSettings => Act::Try { point: by },
    }
}

/// Drops an act, changes it, does it twice, or a little sooner or later.
fn alter(run: &Run, numbers: &mut Numbers) -> Run {
    let mut altered = run.clone();
    let i = numbers.below(run.acts.len());
    let by = numbers.below(256) as u8;
    let moved = |tick: Tick| tick.saturating_sub(1 + Tick::from(by % 5)).max(1);
    match numbers.below(5) {
        0 => drop(altered.acts.remove(i)),
        1 => altered.acts[i].act = other(&run.acts[i].act, by),
        2 => altered.acts.insert(i, run.acts[i].clone()),
        3 => altered.acts[i].tick = moved(run.acts[i].tick),
        _ => {
            let touch = Done { tick: run.acts[i].tick, act: Act::TouchSettings };
            altered.acts.insert(i, touch);
        }
    }
    altered
}

#[test]
fn a_run_whose_walk_round_was_altered_does_not_reproduce() {
    // A truck with three defects that is tagged out, and one that is taken and driven.
    for (course, seed) in [("walk-round", 5), ("morning", 6)] {
        let run = driven(course, seed);
        assert!(judge(&run).expect("a run").reproduces, "{course}");
        let mut numbers = Numbers(u64::from(seed));
        let altered: Vec<Run> = (0..ALTERED).map(|_| alter(&run, &mut numbers)).collect();
        let passed: Vec<usize> = altered
            .par_iter()
            .enumerate()
            .filter(|(_, run)| {
                let text = run.to_text();
                // Refused, or reported: nothing else.
                let read = Run::parse("altered.run.json", text.as_bytes());
                read.is_ok_and(|run| judge(&run).is_ok_and(|v| v.reproduces))
            })
            .map(|(i, _)| i)
            .collect();
        assert!(passed.is_empty(), "{course}: {passed:?}");
    }
}

#[test]
fn another_seed_is_another_truck_and_no_longer_the_same_run() {
    let mut run = driven("walk-round", 5);
    run.setup.seed = 6;
    assert!(!judge(&run).expect("a run").reproduces);
}

#[test]
fn the_sheet_of_a_run_comes_of_its_acts_alone() {
    let run = driven("walk-round", 5);
    let list = CheckList::shipped();
    let drawn = Drawn::new(&list, Mode::Practice, "single", 5);
    let sheet = Sheet::of(&list, &drawn, &run.acts);
    let counts = sheet.counts(&list);
    assert_eq!(sheet.taken, Some(false));
    assert_eq!((counts.defects, counts.hits, counts.right_grade), (3, 3, 3));
    assert_eq!((counts.false_reports, counts.left_out), (0, 0));
    assert_eq!((counts.further, counts.further_hits), (2, 2));
    assert_eq!(sheet.hours_read, Some(sheet.hours));
    // Without its last answers it is another sheet.
    let cut = Sheet::of(&list, &drawn, &run.acts[..run.acts.len() / 2]);
    assert!(cut.taken.is_none() && cut.counts(&list).left_out > 0);
}

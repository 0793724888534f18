//! A sample of what `coneyard-workshop attack` drives: no harm goes unfound, and nothing is critical that
//! the oracle does not see. The oracle is a crate of its own (`tests/oracle`).

use std::collections::BTreeMap;

use coneyard_oracle::answers::Held;
use coneyard_oracle::notes::Kind;
use coneyard_oracle::ride::{drive, look_at, rides};
use rayon::prelude::*;

/// As many as take about 20 s of one processor.
const RIDES: u32 = 120;
const SEED: u32 = 7;

#[test]
fn no_harm_goes_unfound_and_nothing_critical_is_harmless() {
    let rides = rides(RIDES, SEED);
    let held: Vec<Held> =
        rides.par_iter().map(|r| drive(r).expect("a shipped course can be driven").1).collect();
    let mut seen: BTreeMap<Kind, u32> = BTreeMap::new();
    let mut wrong = Vec::new();
    for (ride, held) in rides.iter().zip(&held) {
        held.harms.iter().for_each(|(note, _)| *seen.entry(note.kind).or_default() += 1);
        for note in held.unfound() {
            wrong.push(format!("{ride:?}: unfound {note:?}"));
        }
        for finding in held.harmless() {
            wrong.push(format!("{ride:?}: harmless {finding:?}"));
        }
    }
    println!("{seen:?}");
    assert!(wrong.is_empty(), "{wrong:#?}");
    // A sample in which nothing happens shows nothing.
    for kind in [Kind::Struck, Kind::StruckHard, Kind::PersonPassed, Kind::NoRoom] {
        assert!(seen.contains_key(&kind), "no {}", kind.name());
    }
}

/// A run that is kept shows the same when it is looked at again.
#[test]
fn what_is_seen_in_a_ride_is_seen_in_its_run() {
    let ride = &rides(40, SEED)[1];
    let (run, held) = drive(ride).expect("a shipped course can be driven");
    let again = look_at(&run).expect("the run is whole");
    assert_eq!(held, again);
}

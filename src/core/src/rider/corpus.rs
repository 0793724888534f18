//! The labelled corpus: rides on which it is known beforehand what must be found.
//!
//! Every fault on every course and truck where it comes out, the near side of each, on which nothing
//! may be found, the attackers of the score with what they must get, and the model rider on all shipped
//! courses.

use super::attackers::{self, Gets, Least};
use super::{MODEL, faults};
use crate::course::shipped;

/// One ride and its label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Labelled {
    /// Name of the course: shipped, or a yard of the corpus.
    pub course: &'static str,
    /// Name of the truck.
    pub truck: String,
    /// Name of the rider.
    pub rider: String,
    /// Seed of the course's draws, of the rider's ways and of the amount.
    pub seed: u32,
    /// What must come of it.
    pub label: Label,
}

/// What must come of a ride.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Label {
    /// These codes are found, each at least once, and no other.
    Exactly(&'static [&'static str]),
    /// At least this is found, whatever else.
    AtLeast(Least),
    /// Nothing is found, and the drive comes to its end.
    CleanToTheEnd,
}

impl Label {
    /// Codes that must be found, each at least once.
    pub fn codes(&self) -> &'static [&'static str] {
        match self {
            Self::Exactly(codes) => codes,
            Self::AtLeast(least) => least.found,
            Self::CleanToTheEnd => &[],
        }
    }

    /// Something must be found.
    pub fn is_bad(&self) -> bool {
        match self {
            Self::Exactly(codes) => !codes.is_empty(),
            Self::AtLeast(_) => true,
            Self::CleanToTheEnd => false,
        }
    }
}

/// Rides with this many seeds each.
pub fn rides(seeds: u32) -> Vec<Labelled> {
    let mut list = by_faults(seeds);
    list.extend(by_attackers(seeds));
    for (course, _) in shipped::ALL {
        for truck in shipped::parse(course).trucks {
            let label = Label::CleanToTheEnd;
            list.extend((1..=seeds).map(|seed| of(MODEL, (course, &truck), seed, label)));
        }
    }
    list
}

/// Every fault and its near side, with this many seeds each.
pub fn by_faults(seeds: u32) -> Vec<Labelled> {
    let mut list = Vec::new();
    for fault in faults::all() {
        let inside = fault.name.to_owned() + faults::INSIDE;
        let sides: [(String, &faults::LimitSide, &[&str]); 2] =
            [(fault.name.to_owned(), &fault.over, fault.codes), (inside, &fault.inside, &[])];
        for (rider, way, codes) in sides {
            let some = fault.seeds.filter(|_| !codes.is_empty());
            let label = Label::Exactly(codes);
            for place in way.on {
                list.extend(drawn(seeds, some).into_iter().map(|s| of(&rider, *place, s, label)));
            }
        }
    }
    list
}

/// Every attacker, with this many seeds each, or several times as many.
pub fn by_attackers(seeds: u32) -> Vec<Labelled> {
    let mut list = Vec::new();
    for attacker in attackers::all() {
        let label = match attacker.gets {
            Gets::AtLeast(least) => Label::AtLeast(least),
            Gets::CleanToTheEnd => Label::CleanToTheEnd,
        };
        for place in attacker.on {
            let seeds = drawn(attacker.times * seeds, attacker.seeds);
            list.extend(seeds.into_iter().map(|s| of(attacker.name, *place, s, label)));
        }
    }
    list
}

/// The seeds that are driven: the first ones, or of the chosen ones all.
fn drawn(seeds: u32, chosen: Option<&[u32]>) -> Vec<u32> {
    chosen.map_or_else(|| (1..=seeds).collect(), <[u32]>::to_vec)
}

fn of(rider: &str, (course, truck): (&'static str, &str), seed: u32, label: Label) -> Labelled {
    Labelled { course, truck: truck.to_owned(), rider: rider.to_owned(), seed, label }
}

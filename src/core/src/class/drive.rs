//! A drive under way or cut off: its set-up, and what was driven of it in pieces as they were made.

use serde::{Deserialize, Serialize};

use super::form::{Form, first};
use crate::controls::{Controls, Look};
use crate::run::file::SIMULATION;
use crate::run::{DriveSetup, Driven, Timing};
use crate::time::Tick;

/// The simulation that drives of before it was kept were begun under.
pub(super) const SIMULATION_UNSAID: u32 = 2;

fn simulation_unsaid() -> u32 {
    SIMULATION_UNSAID
}

/// Which part of which pre-test a drive is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Place {
    /// Name of the sitting's record.
    pub sitting: String,
    /// From 0.
    pub part: usize,
}

/// A drive under way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Drive {
    /// Version of this form.
    #[serde(default = "first")]
    pub version: u32,
    /// Name of the record.
    pub id: String,
    /// Course id.
    pub course: String,
    /// Truck id.
    pub truck: String,
    /// The part of a pre-test that it is, if so.
    #[serde(default)]
    pub place: Option<Place>,
    /// Version of the simulation that it was begun under.
    #[serde(default = "simulation_unsaid")]
    pub simulation: u32,
    /// What is driven.
    pub setup: DriveSetup,
}

impl Form for Drive {
    const NEWEST: u32 = Self::FORM;

    fn version(&self) -> u32 {
        self.version
    }
}

impl Drive {
    /// Version of the form that is written.
    pub const FORM: u32 = 2;

    /// A drive from the start of its course, under the simulation that is here.
    pub fn new(
        id: String,
        course: String,
        truck: String,
        place: Option<Place>,
        setup: DriveSetup,
    ) -> Self {
        Self { version: Self::FORM, id, course, truck, place, simulation: SIMULATION, setup }
    }

    /// It can be gone on with and judged: the same controls still give the same drive.
    pub fn can_go_on(&self) -> bool {
        self.simulation == SIMULATION
    }
}

/// What was driven from one look at it to the next, and how real time had gone by at its end.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Piece {
    /// Version of this form.
    #[serde(default = "first")]
    pub version: u32,
    /// What was driven.
    #[serde(flatten)]
    pub driven: Driven,
    /// From the start of the drive; None in a piece from before it was kept.
    pub timing: Option<Timing>,
}

impl Form for Piece {
    const NEWEST: u32 = Self::FORM;

    fn version(&self) -> u32 {
        self.version
    }
}

impl Piece {
    /// Version of the form that is written.
    pub const FORM: u32 = 3;

    /// The last form in which the controls held what is an act now.
    const WITHOUT_ACTS: u32 = 2;

    /// What was just driven, with how real time has gone by up to its end.
    pub fn new(driven: Driven, timing: Timing) -> Self {
        Self { version: Self::FORM, driven, timing: Some(timing) }
    }

    /// A piece from before times were kept: pairs and nothing else.
    pub fn without_times(pairs: Vec<u32>) -> Self {
        let driven = Driven { pairs, acts: Vec::new() };
        Self { version: first(), driven, timing: None }
    }

    /// What was driven in it, `after` this tick on.
    fn driven(self, after: Tick) -> Driven {
        if self.version <= Self::WITHOUT_ACTS {
            Driven::of_format_1(&self.driven.pairs, after)
        } else {
            self.driven
        }
    }
}

/// A drive that was cut off, with what was driven of it.
#[derive(Clone, Debug, PartialEq)]
pub struct CutDrive {
    /// The drive.
    pub drive: Drive,
    /// What was driven.
    pub driven: Driven,
    /// How real time went by in them.
    pub timing: Timing,
    /// How many pieces of it are kept.
    pub pieces: u32,
}

impl CutDrive {
    /// A drive of its pieces, in their order.
    pub fn of(drive: Drive, pieces: Vec<Piece>) -> Self {
        // Of a drive nobody knows how slow it was if nobody knows it of its last piece.
        let timing = pieces.last().map(|last| last.timing);
        let count = u32::try_from(pieces.len()).unwrap_or(u32::MAX);
        let mut driven = Driven::default();
        for piece in pieces {
            let after = driven.ticks();
            driven.extend(piece.driven(after));
        }
        let timing = match timing {
            Some(Some(timing)) => timing,
            Some(None) => Timing::unknown(driven.ticks()),
            None => Timing::START,
        };
        Self { drive, driven, timing, pieces: count }
    }

    /// Ticks driven.
    pub fn ticks(&self) -> u32 {
        self.driven.ticks()
    }

    /// The hands did nothing from the first tick on, not even at the key: the drive was only looked at.
    pub fn was_only_looked_at(&self) -> bool {
        let pairs = self.driven.pairs.as_chunks::<2>().0;
        let mut hands = pairs.iter().map(|[bits, _]| {
            Controls::from_bits(*bits).map(|c| Controls { look: Look::Ahead, ..c })
        });
        let first = hands.next().flatten();
        let does_nothing = first.is_some_and(|c| c.throttle == 0) && hands.all(|c| c == first);
        self.driven.acts.is_empty() && does_nothing
    }
}

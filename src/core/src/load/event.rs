//! What happens to a load, as it is reported: plain data for watchers and for the engine.

use crate::math::{G, Vec2};

/// Which surfaces slid on each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Interface {
    /// Pallet on forks.
    Forks,
    /// The case of this layer, counted from 0, on what is under it: the pallet under layer 0.
    Layer {
        /// Column, row by row from the backrest, in a row from left to right.
        column: usize,
        /// From 0.
        layer: usize,
    },
}

/// Which way something leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Towards {
    /// Towards the backrest, +x.
    Backrest,
    /// Towards the fork tips, -x.
    Tips,
    /// +y.
    Left,
    /// -y.
    Right,
}

impl Towards {
    /// Leans along x.
    pub fn is_lengthwise(self) -> bool {
        matches!(self, Towards::Backrest | Towards::Tips)
    }
}

/// What a load ran against.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stop {
    /// The backrest.
    Backrest,
    /// The pallet in front of it on the forks.
    Pallet,
}

/// A thing that leaves the forks, at that instant. The place where it lands follows from
/// `fall_seconds` and its velocity in the yard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leaving {
    /// Its middle, body frame, m.
    pub at: Vec2,
    /// Height of its middle over the pallet's underside, m.
    pub height: f64,
    /// Velocity relative to the truck, body frame, m/s.
    pub velocity: Vec2,
}

impl Leaving {
    /// Seconds until it lies on the floor, falling freely from rest: the pallet's underside is
    /// `underside` m over the floor, and its middle is `lies_at` m over the floor when it lies.
    pub fn fall_seconds(&self, underside: f64, lies_at: f64) -> f64 {
        (2.0 * (self.height + underside - lies_at).max(0.0) / G).sqrt()
    }
}

/// What happened in one tick to the pallet of this index, 0 next to the backrest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoadEvent {
    /// Index of the pallet on the forks.
    pub pallet: usize,
    /// What happened.
    pub what: Happened,
}

/// What can happen. `column` counts row by row from the backrest, in a row from left to right; a
/// wrapped load has column 0 only.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Happened {
    /// It began to slide.
    SlideBegan {
        /// Where.
        interface: Interface,
    },
    /// It stopped sliding.
    SlideEnded {
        /// Where.
        interface: Interface,
        /// How far it now is from where it was put, m, body frame.
        by: Vec2,
    },
    /// It ran against something that held it.
    Struck {
        /// What it was.
        stop: Stop,
        /// Speed with which it met it, m/s, at the end of the tick: up to one tick of friction
        /// off.
        speed: f64,
        /// It was this case, not the pallet.
        case: Option<Interface>,
    },
    /// A column, or the wrapped load, lifted off.
    RockBegan {
        /// Which.
        column: usize,
        /// Which way it leans.
        way: Towards,
    },
    /// It stands again.
    RockEnded {
        /// Which.
        column: usize,
        /// The farthest it leaned, over the angle from which it does not come back.
        peak: f64,
    },
    /// It leans so far that it falls.
    RockLost {
        /// Which.
        column: usize,
        /// Which way it leans.
        way: Towards,
    },
    /// A case leaves the load.
    CaseFell {
        /// Its column.
        column: usize,
        /// Its layer, from 0.
        layer: usize,
        /// Where and how.
        leaving: Leaving,
    },
    /// The pallet with all that is still on it leaves the forks; its middle of mass is meant.
    LoadFell {
        /// Where and how.
        leaving: Leaving,
        /// It fell over, leaning this way; None when it slid off.
        over: Option<Towards>,
    },
}

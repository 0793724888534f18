//! What makes a yard a warehouse: loads and bays, people and other trucks, blind spots, crossings,
//! ramps, docks and places to pick from. Types after parsing; `parse_warehouse` reads them.

use serde::{Deserialize, Serialize};

use crate::floor::Ramp;
use crate::load::pallet::PalletLoad;
use crate::math::{Pose, Vec2};
use crate::people::walk::{HoldBack, Route};

/// All of it. Everything may be empty.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Warehouse {
    /// Kinds of loads.
    pub loads: Vec<PalletLoad>,
    /// Pallets, each with one of the loads.
    pub pallets: Vec<Pallet>,
    /// Where pallets may be set down.
    pub bays: Vec<Bay>,
    /// People on foot.
    pub people: Vec<Walker>,
    /// Other trucks.
    pub others: Vec<OtherTruck>,
    /// Places where a rack or a wall hides what comes.
    pub blind_spots: Vec<BlindSpot>,
    /// Where people on foot cross the trucks' way, and have the right of way.
    pub crossings: Vec<Crossing>,
    /// Slopes.
    pub ramps: Vec<Ramp>,
    /// Dock plates with what has to be checked before the first crossing.
    pub docks: Vec<Dock>,
    /// Places to pick from, on foot.
    pub stops: Vec<PickStop>,
}

/// A pallet with its load.
#[derive(Clone, Debug, PartialEq)]
pub struct Pallet {
    /// Name that steps use.
    pub id: String,
    /// Index into `loads`.
    pub load: usize,
    /// Middle and direction of its length on the floor; None for on the forks at the start. Forks
    /// enter along its length, from either end.
    pub floor: Option<Pose>,
}

/// A marked rectangle for one pallet.
#[derive(Clone, Debug, PartialEq)]
pub struct Bay {
    /// Name that steps use.
    pub id: String,
    /// Middle, and the direction into which the forks point when they set down.
    pub pose: Pose,
    /// Length and width.
    pub size: Vec2,
}

/// When somebody sets off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SetsOff {
    /// After a time drawn from the seed between these, s from the start of the drive.
    After {
        /// Earliest, s.
        least_s: f64,
        /// Latest, s.
        most_s: f64,
    },
    /// When the truck's platform comes near a place.
    Near {
        /// Where, yard frame, m.
        at: Vec2,
        /// How near, m.
        within_m: f64,
    },
    /// In front of a truck that comes along, as near as a rider who keeps the rules can still stop.
    InFront {
        /// Near edge of the person's way on the truck's way, and the way the truck goes there.
        at: Pose,
        /// A greater distance than the computed one, m.
        distance_m: Option<f64>,
    },
}

/// Someone on foot.
#[derive(Clone, Debug, PartialEq)]
pub struct Walker {
    /// Name.
    pub id: String,
    /// The way.
    pub route: Route,
    /// When.
    pub sets_off: SetsOff,
    /// How likely a horn makes this person hold back; None as people mostly do.
    pub hold_back: Option<HoldBack>,
    /// Of all with the same word here only one is there, drawn from the seed.
    pub one_of: Option<String>,
}

/// Another truck on a fixed way. It stops for what stands before it and goes on when that is gone.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherTruck {
    /// Name.
    pub id: String,
    /// Length and width, m.
    pub size: Vec2,
    /// Places that its middle goes over, m.
    pub way: Vec<Vec2>,
    /// Speed, m/s.
    pub speed: f64,
    /// Goes on to the first place from the last.
    pub starts_over: bool,
    /// When.
    pub sets_off: SetsOff,
    /// Of all with the same word here only one is there, drawn from the seed.
    pub one_of: Option<String>,
}

/// A line across the way from which on something may come that was hidden. It counts when driven
/// over with `left` on the left hand.
#[derive(Clone, Debug, PartialEq)]
pub struct BlindSpot {
    /// Name.
    pub id: String,
    /// End on the left hand of the direction of travel.
    pub left: Vec2,
    /// End on the right hand.
    pub right: Vec2,
}

/// A piece of floor on which people cross.
#[derive(Clone, Debug, PartialEq)]
pub struct Crossing {
    /// Name.
    pub id: String,
    /// Outline.
    pub area: Vec<Vec2>,
}

/// What has to be checked at a dock.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DockCheck {
    /// The vehicle is held: wheel chocks or a lock.
    VehicleHeld,
    /// The plate lies firmly on both sides.
    PlateSeated,
    /// The open edge is closed off.
    EdgeClosed,
}

/// A dock plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Dock {
    /// Name that steps use.
    pub id: String,
    /// The plate and what lies behind it: what may not be driven onto before the checks.
    pub area: Vec<Vec2>,
    /// Where each check is seen, m.
    pub checks: Vec<(DockCheck, Vec2)>,
    /// How likely it is that one of them, drawn from the seed, is false.
    pub false_chance: f64,
}

/// A place to pick from: stop within reach, step off, and back on.
#[derive(Clone, Debug, PartialEq)]
pub struct PickStop {
    /// Name that steps use.
    pub id: String,
    /// Where the goods stand, m.
    pub at: Vec2,
}

/// The platform stands at most this far from a place to pick from, m (course task).
pub const PICK_REACH_M: f64 = 2.0;

/// A check at a dock stands no farther than this from the dock, m (course task): no site may ask
/// for it to be made from nearer.
pub const CHECK_REACH_M: f64 = 6.0;

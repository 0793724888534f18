//! The course file: what stands in the yard and what is to be driven there.
//!
//! This file holds the types after parsing; they cannot hold a wrong value. `parse` reads the
//! JSON at the border, `check` says what a course asks for that cannot be driven. Lengths in metres, speeds in m/s, angles in radians (the
//! file has degrees), positions in the yard frame: x east, y north.

pub mod check;
pub(crate) mod file;
pub mod mirror;
pub(crate) mod parse;
mod parse_warehouse;
pub mod place;
pub mod shipped;
pub mod step_out;
#[cfg(test)]
mod tests;
pub mod warehouse;

pub use parse::{FORMAT, MAX_BYTES};

use std::collections::BTreeMap;

use serde::de::IgnoredAny;
use serde::{Deserialize, Serialize};

use crate::checks::draw::Mode;
use crate::controls::Side;
use crate::course::warehouse::Warehouse;
use crate::finding::Skill;
use crate::floor::{Patch, Surface};
use crate::math::{Pose, Vec2};
use crate::outside::Said;

/// A course, ready to be driven.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// Short name: lower-case letters, digits and dashes.
    pub id: String,
    /// What it is only a part of; None for an exercise of its own.
    pub part_of: Option<PartOf>,
    /// What people call it.
    pub title: Said,
    /// What it trains, in a sentence.
    pub trains: Said,
    /// The trucks it may be driven with ("single", "double").
    pub trucks: Vec<String>,
    /// South-west corner of the floor.
    pub floor_min: Vec2,
    /// North-east corner of the floor.
    pub floor_max: Vec2,
    /// What the floor is where no patch says otherwise.
    pub surface: Surface,
    /// Floor that differs; the last one that holds a point wins.
    pub patches: Vec<Patch>,
    /// Where wheels may be. Empty: everywhere.
    pub lanes: Vec<Lane>,
    /// Middles of the cones' bases.
    pub cones: Vec<Vec2>,
    /// Racks, walls and parked loads.
    pub structures: Vec<Structure>,
    /// Painted lines.
    pub lines: Vec<Line>,
    /// Gates, in no order: the steps name them.
    pub gates: Vec<Gate>,
    /// Boxes to stop in.
    pub boxes: Vec<StopBox>,
    /// Speed zones.
    pub zones: Vec<Zone>,
    /// Loads, people, other trucks, blind spots, crossings, ramps and docks.
    pub warehouse: Warehouse,
    /// Where the middle of the load axle stands at the start, and the heading.
    pub spawn: Pose,
    /// The side of the platform the rider stands on at the start.
    pub spawn_stance: Side,
    /// Others are about: the horn is expected before moving off.
    pub traffic: bool,
    /// What is to be done, in order. Never empty.
    pub steps: Vec<Step>,
    /// The drive ends by itself after this time, s.
    pub time_limit_s: f64,
    /// Time of the model rider by truck, s, for comparison; empty when not yet measured.
    pub par_s: BTreeMap<String, f64>,
    /// Weight of each skill in the total; 1 where none is given.
    pub weights: BTreeMap<Skill, f64>,
}

impl Course {
    /// What the walk-round is for with which it begins, where it does.
    pub fn walk_round(&self) -> Option<Mode> {
        match self.steps.first()?.what {
            StepKind::WalkRound { mode } => Some(mode),
            _ => None,
        }
    }
}

/// Of this check list what a drive of this course needs, by their texts: all of it where the course begins
/// with a walk-round, nothing elsewhere.
pub fn checks_for<'a>(course: &str, list: &'a str) -> &'a str {
    #[derive(Deserialize)]
    struct Steps {
        steps: Vec<OfStep>,
    }
    #[derive(Deserialize)]
    struct OfStep {
        what: What,
    }
    #[derive(Deserialize)]
    struct What {
        #[serde(rename = "walk-round")]
        walk_round: Option<IgnoredAny>,
    }
    let first = serde_json::from_str::<Steps>(course).ok().and_then(|f| f.steps.into_iter().next());
    if first.is_some_and(|s| s.what.walk_round.is_some()) { list } else { "" }
}

/// What a course that is no exercise of its own belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PartOf {
    /// The pre-test; lists of exercises leave it out.
    Pretest,
}

/// An area that wheels may be in: a polygon, less its holes.
#[derive(Clone, Debug, PartialEq)]
pub struct Lane {
    /// Outer edge.
    pub area: Vec<Vec2>,
    /// Islands in it where wheels may not be.
    pub holes: Vec<Vec<Vec2>>,
}

/// Something solid: a turned rectangle.
#[derive(Clone, Debug, PartialEq)]
pub struct Structure {
    /// What it is drawn as.
    pub kind: StructureKind,
    /// Middle, and the direction of its length.
    pub pose: Pose,
    /// Length along its own x, and depth along its own y.
    pub size: Vec2,
    /// Height of the underside over the floor, m; a beam only.
    pub underside: Option<f64>,
}

/// Kinds of solid things.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum StructureKind {
    /// Pallet racking.
    Rack,
    /// A wall.
    Wall,
    /// A pallet load standing on the floor.
    Load,
    /// A low rail or barrier: one sees over it.
    Rail,
    /// A box, cabinet or panel that stands out, lower than the eye.
    Panel,
    /// A strip curtain: trucks go through it, nobody sees through it.
    Curtain,
    /// A beam overhead.
    Beam,
}

impl StructureKind {
    /// Stands in the way of trucks.
    pub fn is_solid(self) -> bool {
        !matches!(self, Self::Curtain | Self::Beam)
    }

    /// Hides what is behind it.
    pub fn is_opaque(self) -> bool {
        matches!(self, Self::Rack | Self::Wall | Self::Load | Self::Curtain)
    }
}

/// A painted line.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Name that steps use.
    pub id: String,
    /// What it means.
    pub kind: LineKind,
    /// One end.
    pub from: Vec2,
    /// Other end.
    pub to: Vec2,
}

/// Kinds of painted lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LineKind {
    /// A mark to stop at, by plugging or braking.
    Mark,
    /// Where an exercise's signal is armed.
    Trigger,
    /// Only paint: an edge, a walkway.
    Paint,
    /// Stop before going over it with `from` on the left hand.
    Stop,
    /// Slow down and look both ways before going over it with `from` on the left hand.
    Yield,
}

/// A gate to drive through with `left` on the left hand and `right` on the right. It counts when
/// the middle of the platform crosses the segment.
#[derive(Clone, Debug, PartialEq)]
pub struct Gate {
    /// Name that steps use.
    pub id: String,
    /// Post on the left hand of the direction of travel.
    pub left: Vec2,
    /// Post on the right hand.
    pub right: Vec2,
}

/// Radius of a cone's base, m: a cone of 0.75 m height (typical, no source).
pub const CONE_RADIUS: f64 = 0.18;

impl Gate {
    /// Half-way between the posts.
    pub fn middle(&self) -> Vec2 {
        (self.left + self.right) * 0.5
    }

    /// Unit vector through the gate, with `left` on the left hand.
    pub fn direction(&self) -> Vec2 {
        (self.right - self.left).left().normalized()
    }
}

/// A rectangle to stop in: the whole outline of the truck inside it.
#[derive(Clone, Debug, PartialEq)]
pub struct StopBox {
    /// Name that steps use.
    pub id: String,
    /// Middle and direction of its length.
    pub pose: Pose,
    /// Length and width.
    pub size: Vec2,
}

/// An area with its own speed limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// Outline.
    pub area: Vec<Vec2>,
    /// Limit, m/s.
    pub limit_mps: f64,
}

/// Which end of the truck leads.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Travel {
    /// Power unit first, forks trailing: the normal way.
    PowerUnitFirst,
    /// Forks first, where an exercise asks for it.
    ForksFirst,
}

/// Which end of the arm's swing is asked for in an emergency stop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BrakeZone {
    /// Arm let go: upright.
    Upper,
    /// Arm pushed right down.
    Lower,
}

/// One thing to do, and how to say it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What to do.
    pub what: StepKind,
    /// The sentence on the dashboard.
    pub say: Said,
    /// Which end leads in this step.
    pub travel: Travel,
}

/// What a step asks for. Indices point into the course's own lists.
#[derive(Clone, Debug, PartialEq)]
pub enum StepKind {
    /// Drive through these gates in this order, so many times.
    Gates {
        /// Indices into `gates`.
        gates: Vec<usize>,
        /// Rounds.
        laps: u32,
    },
    /// Stop by plugging with the leading end at the mark.
    StopAtMark {
        /// Index into `lines`.
        line: usize,
        /// Good within this distance of the mark, m.
        within_m: f64,
    },
    /// Cross the trigger line at speed; a signal comes after a time drawn from the seed; stop with
    /// the arm.
    EmergencyStop {
        /// Index into `lines`.
        trigger: usize,
        /// The end of the arm's swing to use.
        brake: BrakeZone,
        /// Least speed at the trigger line, m/s; slower, the step waits for another try.
        min_speed_mps: f64,
        /// The signal comes this long after the trigger line at the earliest, s.
        delay_min_s: f64,
        /// And at the latest, s.
        delay_max_s: f64,
    },
    /// Come to rest inside a box with the forks down and the throttle in neutral, for one second.
    Park {
        /// Index into `boxes`.
        stop_box: usize,
        /// And leave it: key off, and off the platform.
        leave: bool,
    },
    /// Take up a pallet with the forks.
    PickUp {
        /// Index into the warehouse's `pallets`.
        pallet: usize,
    },
    /// Set a pallet down in a bay.
    SetDown {
        /// Index into the warehouse's `bays`.
        bay: usize,
    },
    /// Stop at each of these places in this order, step off and back on.
    Picks {
        /// Indices into the warehouse's `stops`.
        stops: Vec<usize>,
    },
    /// Inspect the truck, and take it or tag it out. Only at the start.
    WalkRound {
        /// What it is for.
        mode: Mode,
    },
    /// Look at all checks of a dock; when one is false, say so instead of going on.
    CheckDock {
        /// Index into the warehouse's `docks`.
        dock: usize,
    },
}

//! What a picture of one tick needs, and nothing else. Plain data in the yard frame, metres and
//! radians. The canvas draws between two of these and never writes simulation state.

use std::sync::Arc;

use crate::checks::list::Noise;
use crate::controls::{Look, Side};
use crate::math::{Pose, Vec2};
use crate::moment::DockMoment;
use crate::time::Tick;
use crate::truck::arm::ArmZone;

/// The yard in one tick.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    /// The tick shown.
    pub tick: Tick,
    /// Middle of the load axle and heading.
    pub truck: Pose,
    /// Speed of the load axle's middle along +x, m/s.
    pub speed: f64,
    /// What the service brake would reach now, m/s^2.
    pub deceleration: f64,
    /// Drive wheel angle, left positive.
    pub steer: f64,
    /// Tiller arm from upright.
    pub arm: f64,
    /// Part of the arm's arc.
    pub arm_zone: ArmZone,
    /// Fork height over lowered, m.
    pub fork_height: f64,
    /// Side the rider stands on or is stepping to.
    pub stance: Side,
    /// How far the step across has gone, 0 to 1; 1 when standing.
    pub step_phase: f64,
    /// Where the rider looks.
    pub look: Look,
    /// Horn sounding.
    pub horn: bool,
    /// The service brake is on.
    pub braking: bool,
    /// Motor braking by the throttle.
    pub plugging: bool,
    /// The drive wheel slides or spins.
    pub drive_wheel_slips: bool,
    /// A load wheel slides sideways.
    pub load_wheels_slip: bool,
    /// Twist of the throttle, percent.
    pub throttle: i8,
    /// Where each cone's base is now, in the order of the course, and whether it lies. Shared by
    /// all frames in which nothing was moved, so that a replay's frames stay small.
    pub cones: Arc<[ConeFrame]>,
    /// The rider is on the platform.
    pub aboard: bool,
    /// The key is on.
    pub key_on: bool,
    /// Speed with which the truck moves into what stands fast, into another truck or a pallet in this
    /// tick, m/s; 0 when it does not.
    pub knock: f64,
    /// Where the head is turned, from the truck's +x axis, left positive.
    pub head: f64,
    /// The eye.
    pub eye: Vec2,
    /// Far boundary of what the rider sees, counter-clockwise; with the eye as one more corner it
    /// is the visibility polygon. Shared by frames with the same view.
    pub view: Arc<[[f32; 2]]>,
    /// People that are there, seen or not.
    pub people: Arc<[PersonFrame]>,
    /// Other trucks that are there.
    pub others: Arc<[OtherFrame]>,
    /// Every pallet of the course, in its order.
    pub pallets: Arc<[PalletFrame]>,
    /// Cases on the floor.
    pub cases: Arc<[CaseFrame]>,
    /// Docks: what was looked at, and what was found to be false.
    pub docks: Arc<[DockMoment]>,
    /// What sounds as a point of the walk-round is tried, in the tick in which it is.
    pub tried: Option<Noise>,
}

/// Someone on foot in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PersonFrame {
    /// Index among the people of the course.
    pub person: u32,
    /// Middle.
    pub at: Vec2,
    /// The way they face.
    pub heading: f64,
    /// Speed, m/s.
    pub speed: f64,
    /// The rider sees them.
    pub seen: bool,
    /// They look up because of a horn.
    pub looks_up: bool,
    /// They hold back because of a horn.
    pub holds_back: bool,
}

/// Another truck in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OtherFrame {
    /// Index among the other trucks of the course.
    pub other: u32,
    /// Middle and heading.
    pub pose: Pose,
    /// The rider sees some of it.
    pub seen: bool,
    /// Its horn sounds.
    pub horn: bool,
}

/// A pallet in one tick.
#[derive(Clone, Debug, PartialEq)]
pub struct PalletFrame {
    /// Index among the pallets of the course.
    pub pallet: u32,
    /// Middle, and the direction of its length.
    pub pose: Pose,
    /// It stands on the forks.
    pub carried: bool,
    /// For each column of its load, row by row from the backrest: how many cases are left, and how
    /// far the topmost has slid from its place, pallet frame, m.
    pub columns: Arc<[(u8, Vec2)]>,
    /// How far the load leans, as a share of the angle from which it does not come back, along the
    /// pallet's x and y.
    pub lean: Vec2,
}

/// A case on the floor in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CaseFrame {
    /// Middle and heading.
    pub pose: Pose,
    /// Length and width, m.
    pub size: Vec2,
}

/// A cone in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ConeFrame {
    /// Middle of its base.
    pub at: Vec2,
    /// Direction in which it fell, or None while it stands.
    pub fallen_towards: Option<f64>,
}

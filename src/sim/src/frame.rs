//! What a picture of one tick needs, and nothing else. Plain data in the yard frame, metres and
//! radians. The yard crate draws between two of these and never writes simulation state.

use std::sync::Arc;

use coneyard_core::controls::{Look, Side};
use coneyard_core::finding::Tick;
use coneyard_core::math::{Pose, Vec2};
use coneyard_core::truck::arm::ArmZone;

/// The yard in one tick.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    /// The tick shown.
    pub tick: Tick,
    /// Middle of the load axle and heading.
    pub truck: Pose,
    /// Speed of the load axle's middle along +x, m/s.
    pub speed: f64,
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
}

/// A cone in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ConeFrame {
    /// Middle of its base.
    pub at: Vec2,
    /// Direction in which it fell, or None while it stands.
    pub fallen_towards: Option<f64>,
}

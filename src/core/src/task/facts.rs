//! What a task is told once a tick.

use crate::checks::walk::Walk;
use crate::math::{Pose, Vec2};
use crate::moment::{DockMoment, TruckMoment};
use crate::time::{TICK_RATE, Tick};

/// At rest means no faster than this, m/s ...
pub const REST_SPEED: f64 = 0.05;
/// ... for this many ticks.
pub const REST_TICKS: u32 = TICK_RATE / 4;
/// Forks are down below this height, m.
pub const FORKS_DOWN: f64 = 0.005;
/// What the simulation hands in each tick.
#[derive(Clone, Copy, Debug)]
pub struct Facts<'a> {
    /// Number of the tick.
    pub tick: Tick,
    /// The truck after this tick.
    pub truck: &'a TruckMoment,
    /// What the throttle asks for, percent.
    pub throttle: i8,
    /// The key is on.
    pub key_on: bool,
    /// Corners of the truck's outline, yard frame, m.
    pub outline_in_yard: &'a [Vec2],
    /// What is around it.
    pub around: Around<'a>,
}

/// What is around the truck, as far as steps ask for it.
#[derive(Clone, Copy, Debug)]
pub struct Around<'a> {
    /// The rider is on the platform.
    pub aboard: bool,
    /// Pallets on the forks, by their index in the course.
    pub carried: &'a [u32],
    /// Pallets on the floor: index in the course and where.
    pub floor: &'a [(u32, Pose)],
    /// Docks.
    pub docks: &'a [DockMoment],
    /// The walk-round, where there is one.
    pub walk: Option<&'a Walk>,
}

impl Default for Around<'_> {
    fn default() -> Self {
        Self { aboard: true, carried: &[], floor: &[], docks: &[], walk: None }
    }
}

//! Marks that sliding wheels leave on the floor, tick by tick.

use bevy::math::Vec2;
use bevy::prelude::Resource;
use coneyard_core::course::place::wheels;
use coneyard_core::time::Tick;
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::yard::frame::Frame;

use crate::picture::v;

/// What one wheel left in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Streak {
    /// The tick after which it lay there.
    pub(crate) tick: Tick,
    /// Where the wheel was, m.
    pub(crate) from: Vec2,
    /// Where it slid to, m.
    pub(crate) to: Vec2,
    /// Width of the wheel, m.
    pub(crate) width: f32,
}

/// All streaks of what is open, in the order of their ticks.
#[derive(Resource, Default)]
pub(crate) struct Streaks(pub(crate) Vec<Streak>);

/// What the wheels left from one tick to the next.
pub(crate) fn streaks(before: &Frame, now: &Frame, spec: &TruckSpec) -> Vec<Streak> {
    let slides = [now.drive_wheel_slips, now.load_wheels_slip, now.load_wheels_slip];
    let width = spec.geometry.drive_wheel_width_m as f32;
    wheels(spec)
        .into_iter()
        .zip(slides)
        .filter(|(_, slides)| *slides)
        .map(|(wheel, _)| Streak {
            tick: now.tick,
            from: v(before.truck.to_yard(wheel)),
            to: v(now.truck.to_yard(wheel)),
            width,
        })
        .collect()
}

//! How the forks move, and what a thing that stands on them feels.

use crate::math::{Vec2, vec2};

/// The forks of a truck as far as a load meets them, body frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Forks {
    /// Tips at x, m.
    pub tips_x: f64,
    /// Backrest at x, m.
    pub backrest_x: f64,
    /// How far it gives way before it holds anything, m; 0 on a sound truck.
    pub gives: f64,
    /// Top of the backrest over the underside of a pallet on the forks, m.
    pub backrest_top: f64,
    /// Outer width over both forks, m.
    pub spread: f64,
    /// How much more side acceleration a load feels for each metre of fork height over lowered,
    /// 1/m: 7.5 for the factor 1 + 1.5 (h / 0.20).
    pub sway_per_m: f64,
}

/// The truck's motion in one tick, mean of it, body frame.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Felt {
    /// Acceleration of a point of the truck, m/s^2, in an unaccelerated frame.
    pub acceleration: Vec2,
    /// That point, m: the centre of mass in a `TruckMoment`.
    pub about: Vec2,
    /// Yaw rate, rad/s, counter-clockwise.
    pub yaw_rate: f64,
    /// Its change, rad/s^2.
    pub yaw_acceleration: f64,
    /// Forks over lowered, m.
    pub fork_height: f64,
}

impl Felt {
    /// Acceleration of a point of the forks: dv/dt + w x (w x r) + (dw/dt) x r, m/s^2.
    pub fn at(&self, point: Vec2) -> Vec2 {
        let r = point - self.about;
        self.acceleration + r.left() * self.yaw_acceleration - r * (self.yaw_rate * self.yaw_rate)
    }

    /// The same with the side part as a load feels it, which sways the more the higher it is
    /// raised.
    pub fn felt_at(&self, point: Vec2, forks: &Forks) -> Vec2 {
        let a = self.at(point);
        vec2(a.x, a.y * (1.0 + forks.sway_per_m * self.fork_height))
    }

    /// What moves in a turning frame feels more: 2 w x v (Coriolis), for a velocity relative to
    /// the truck, m/s^2.
    pub fn turning(&self, velocity: Vec2) -> Vec2 {
        velocity.left() * (2.0 * self.yaw_rate)
    }
}

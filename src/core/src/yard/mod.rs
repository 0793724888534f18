//! The yard, one tick at a time: a pure machine ([`Yard`]) over the truck's motion (`motion`), the load on
//! its forks and the pallets on the floor (`loads`), people (`foot`) and other trucks (`trucks`), what the
//! rider sees (`eye`), lines, crossings and docks (`ways`), what is touched (`touch`, `touching`), and the
//! room beside and over the rider (`room`). `observe` says in a Moment what is true after a tick, `shown`
//! what a picture of it shows.
//!
//! It is moved by plain numbers and knows no engine: bodies on the floor move behind the port
//! [`contacts::Contacts`].

pub mod contacts;
mod draws;
pub mod eye;
pub mod foot;
pub mod frame;
pub mod level;
pub mod loads;
mod machine;
mod motion;
mod now;
mod observe;
pub mod room;
mod setting;
mod shown;
pub mod touch;
mod touching;
pub mod trucks;
pub mod ways;

pub use machine::Yard;
pub use setting::{Reckoned, Setting};

use crate::course::warehouse::SetsOff;
use crate::math::{Pose, Vec2};
use crate::time::{DT, Tick};

/// The truck as the rest of the yard meets it in one tick.
#[derive(Clone, Copy, Debug)]
pub struct TruckNow<'a> {
    /// Number of the tick.
    pub tick: Tick,
    /// Load axle and heading.
    pub pose: Pose,
    /// Velocity of the load axle's middle, yard frame, m/s.
    pub velocity: Vec2,
    /// Speed along +x, m/s.
    pub speed: f64,
    /// Yaw rate, rad/s.
    pub yaw_rate: f64,
    /// Middle of the platform, yard frame, m.
    pub platform: Vec2,
    /// Middle of the nose, and middle between the fork tips, yard frame, m.
    pub ends: [Vec2; 2],
    /// The end that leads, yard frame, m.
    pub leading: Vec2,
    /// Unit vector of travel, yard frame: that of the last motion while at rest.
    pub along: Vec2,
    /// Convex parts of truck and load, yard frame, m.
    pub parts: &'a [[Vec2; 4]],
    /// The horn sounds.
    pub horn: bool,
}

impl SetsOff {
    /// Whether this is the tick to set off, for what waits for a time or for the truck to come
    /// near. `after` is the time that was drawn, s. Stepping out in front is `foot`'s own.
    fn is_now(&self, after_s: f64, truck: &TruckNow<'_>) -> bool {
        match *self {
            Self::After { .. } => f64::from(truck.tick) * DT >= after_s,
            Self::Near { at, within_m } => (truck.platform - at).length() <= within_m,
            Self::InFront { .. } => false,
        }
    }
}

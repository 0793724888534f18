//! Findings: what a watcher saw, a fault or a good deed, with the measured value beside its limit.

use serde::{Deserialize, Serialize};

use crate::math::Vec2;
use crate::time::Tick;

/// What a rider has to master.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Skill {
    /// Walk-round, start-up, taking a bad truck out of service.
    Checking,
    /// Four contacts, stance, stepping across only when stopped.
    Mounting,
    /// Gentle starts, plugging, both emergency stops.
    StartingAndStopping,
    /// Smooth tiller, no touching, tail and fork sweep.
    Steering,
    /// Travel height, picking up, setting down, keeping the load on.
    ForksAndLoad,
    /// Horn, stop and yield, people first, looking.
    RightOfWay,
    /// Limits, corners, wet floor, being able to stop in the clear distance.
    SpeedAndRoom,
    /// Forks down, neutral, power off.
    Leaving,
}

/// How grave a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// Something done well.
    Good,
    /// A fault of technique.
    Minor,
    /// A fault that can hurt someone.
    Major,
    /// A fault that ends a test.
    Critical,
}

/// Unit of a measured value, for the screen to convert.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Unit {
    /// Metres.
    #[serde(rename = "m")]
    Metre,
    /// Metres per second.
    #[serde(rename = "m/s")]
    MetrePerSecond,
    /// Metres per second squared.
    #[serde(rename = "m/s^2")]
    MetrePerSecondSquared,
    /// Metres per second cubed.
    #[serde(rename = "m/s^3")]
    MetrePerSecondCubed,
    /// Multiples of standard gravity.
    #[serde(rename = "g")]
    Gravity,
    /// Seconds.
    #[serde(rename = "s")]
    Second,
    /// Newton metre seconds: effort at the tiller summed over time.
    #[serde(rename = "N m s")]
    NewtonMetreSecond,
    /// Share of one, shown as percent.
    #[serde(rename = "1")]
    Share,
    /// Degrees of angle.
    #[serde(rename = "deg")]
    Degree,
    /// A count.
    #[serde(rename = "count")]
    Count,
}

/// A fault or a good deed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Finding {
    /// Which rule, by its code in the site rules ("contact-cone").
    pub code: String,
    /// How grave.
    pub severity: Severity,
    /// First tick.
    pub from: Tick,
    /// Last tick.
    pub to: Tick,
    /// What was measured, in `unit`.
    pub measured: f64,
    /// The limit it is held against, in `unit`.
    pub limit: f64,
    /// Unit of both.
    pub unit: Unit,
    /// Where the middle of the platform was, yard frame, m.
    pub at: Vec2,
    /// What the rider did just before, where that is what a trainer points at.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub before: Option<JustBefore>,
    /// Code of the earlier fault that this one came of; see `watch::causes`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cause: Option<String>,
    /// Which point of the check list it is about, by its number there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub point: Option<u8>,
}

/// How the truck was driven in the second before something happened to the load.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JustBefore {
    /// Highest speed either way, m/s.
    pub speed: f64,
    /// Highest side acceleration, m/s^2.
    pub side: f64,
    /// Highest acceleration or deceleration, m/s^2.
    pub along: f64,
    /// Fork height over lowered, m.
    pub fork_height: f64,
}

//! What a wheel stands on: kinds of floor, patches of another kind, and slopes.

pub mod slope;

use serde::{Deserialize, Serialize};

use crate::math::Vec2;

/// Kinds of floor; the truck specification says how each one grips.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Surface {
    /// Sealed concrete, dry.
    Dry,
    /// Wet.
    Wet,
    /// Dusty.
    Dusty,
    /// A steel dock plate.
    Plate,
}

/// A polygon of different floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Patch {
    /// What it is.
    pub surface: Surface,
    /// Its outline, counter-clockwise or clockwise, not closed by repetition.
    pub area: Vec<Vec2>,
}

/// A slope.
#[derive(Clone, Debug, PartialEq)]
pub struct Ramp {
    /// Outline.
    pub area: Vec<Vec2>,
    /// Unit vector uphill, yard frame.
    pub uphill: Vec2,
    /// Rise over way along the floor.
    pub grade: f64,
}

//! Measured values in the units that are set: kilometres an hour and centimetres, or miles an
//! hour and inches. Inside everything is SI; only what is shown is turned.

use serde::{Deserialize, Serialize};

use crate::finding::Unit;

/// A family of units for the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Units {
    /// km/h, cm, m.
    Metric,
    /// mph, in, ft.
    Imperial,
}

/// The international foot, m (exact, 1959).
const FOOT: f64 = 0.3048;
/// The international inch, m.
const INCH: f64 = 0.0254;
/// The international mile, m.
const MILE: f64 = 1609.344;
/// A pound-force, N (exact: 0.45359237 kg times standard gravity).
const POUND_FORCE: f64 = 0.45359237 * crate::math::G;

/// A value as it is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shown {
    /// The number, in the unit.
    pub value: f64,
    /// Decimals worth showing.
    pub decimals: usize,
    /// Key of the unit's sign; empty for a bare count.
    pub unit: &'static str,
}

impl Units {
    /// A value in an SI unit as it is shown in these units.
    pub fn show(self, value: f64, unit: Unit) -> Shown {
        let metric = self == Self::Metric;
        // Lengths under a metre are told in the small unit: fork heights differ by millimetres.
        let small = value.abs() < 1.0;
        let (value, decimals, unit) = match unit {
            Unit::Metre if metric && small => (value * 100.0, 1, "unit-cm"),
            Unit::Metre if metric => (value, 2, "unit-m"),
            Unit::Metre if small => (value / INCH, 1, "unit-in"),
            Unit::Metre => (value / FOOT, 1, "unit-ft"),
            Unit::MetrePerSecond if metric => (value * 3.6, 1, "unit-kmh"),
            Unit::MetrePerSecond => (value * 3600.0 / MILE, 1, "unit-mph"),
            Unit::MetrePerSecondSquared if metric => (value, 2, "unit-m-s2"),
            Unit::MetrePerSecondSquared => (value / FOOT, 1, "unit-ft-s2"),
            Unit::MetrePerSecondCubed if metric => (value, 1, "unit-m-s3"),
            Unit::MetrePerSecondCubed => (value / FOOT, 1, "unit-ft-s3"),
            Unit::NewtonMetreSecond if metric => (value, 0, "unit-nms"),
            Unit::NewtonMetreSecond => (value / (POUND_FORCE * FOOT), 0, "unit-lbfts"),
            Unit::Gravity => (value, 2, "unit-g"),
            Unit::Second => (value, 2, "unit-s"),
            Unit::Share => (value * 100.0, 0, "unit-percent"),
            Unit::Degree => (value, 0, "unit-deg"),
            Unit::Count => (value, 0, ""),
        };
        Shown { value, decimals, unit }
    }
}

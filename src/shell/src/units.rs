//! Measured values in the units that are set: mph and inches, or km/h and centimetres.

use coneyard_core::finding::{TICK_RATE, Tick, Unit};
use serde::{Deserialize, Serialize};

use crate::browser::number_text;
use crate::words::{k, say};

/// A family of units for the screen; everything inside is SI.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Units {
    /// km/h, centimetres, metres.
    Metric,
    /// mph, inches, feet.
    Customary,
}

/// The international mile, 1,609.344 m.
const METRES_IN_MILE: f64 = 1_609.344;
/// The international foot, 0.3048 m.
const METRES_IN_FOOT: f64 = 0.3048;

/// A value ready to be shown.
pub(crate) struct Shown {
    /// The number in the unit.
    pub(crate) value: f64,
    /// Decimals worth showing.
    pub(crate) decimals: u32,
    /// Key of the unit's sign; empty for a bare count.
    pub(crate) unit: &'static str,
}

impl Shown {
    /// Number and unit.
    pub(crate) fn text(&self) -> String {
        let number = self.number();
        if self.unit.is_empty() {
            return number;
        }
        format!("{number}\u{a0}{}", say(self.unit))
    }

    /// The number alone.
    pub(crate) fn number(&self) -> String {
        number_text(self.value, self.decimals)
    }
}

impl Units {
    /// What a person with this language setting of the browser most likely reads.
    pub(crate) fn likely(language: &str) -> Self {
        if language.ends_with("-US") || language == "en" { Self::Customary } else { Self::Metric }
    }

    /// Turns a value in an SI unit into what is shown.
    pub(crate) fn show(self, value: f64, unit: Unit) -> Shown {
        let feet = value / METRES_IN_FOOT;
        let (value, decimals, unit) = match (unit, self) {
            // Fork heights are told apart by millimetres.
            (Unit::Metre, Self::Metric) if value.abs() < 0.3 => (value * 100.0, 1, k("unit-cm")),
            (Unit::Metre, Self::Metric) if value.abs() < 2.0 => (value * 100.0, 0, k("unit-cm")),
            (Unit::Metre, Self::Metric) => (value, 1, k("unit-m")),
            (Unit::Metre, Self::Customary) if value.abs() < 2.0 => (feet * 12.0, 1, k("unit-in")),
            (Unit::Metre, Self::Customary) => (feet, 1, k("unit-ft")),
            (Unit::MetrePerSecond, Self::Metric) => (value * 3.6, 1, k("unit-kmh")),
            (Unit::MetrePerSecond, Self::Customary) => {
                (value * 3_600.0 / METRES_IN_MILE, 1, k("unit-mph"))
            }
            (Unit::MetrePerSecondSquared, Self::Metric) => (value, 2, k("unit-m-s2")),
            (Unit::MetrePerSecondSquared, Self::Customary) => (feet, 1, k("unit-ft-s2")),
            (Unit::MetrePerSecondCubed, Self::Metric) => (value, 1, k("unit-m-s3")),
            (Unit::MetrePerSecondCubed, Self::Customary) => (feet, 1, k("unit-ft-s3")),
            (Unit::Gravity, _) => (value, 2, k("unit-g")),
            (Unit::Second, _) => (value, 2, k("unit-s")),
            (Unit::NewtonMetreSecond, _) => (value, 0, k("unit-nms")),
            (Unit::Share, _) => (value * 100.0, 0, k("unit-percent")),
            (Unit::Degree, _) => (value, 0, k("unit-deg")),
            (Unit::Count, _) => (value, 0, ""),
        };
        Shown { value, decimals, unit }
    }

    /// Number and unit of a value in an SI unit.
    pub(crate) fn text(self, value: f64, unit: Unit) -> String {
        self.show(value, unit).text()
    }
}

/// Minutes and seconds of so many ticks, "1:05".
pub(crate) fn time_text(ticks: Tick) -> String {
    let seconds = ticks / TICK_RATE;
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

/// The same with tenths, "1:05.3".
pub(crate) fn fine_time_text(ticks: Tick) -> String {
    let tenths = u64::from(ticks) * 10 / u64::from(TICK_RATE);
    format!("{}.{}", time_text(ticks), tenths % 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn speeds_and_lengths_convert_by_the_exact_definitions() {
        let mph = Units::Customary.show(METRES_IN_MILE / 3_600.0, Unit::MetrePerSecond);
        assert!((mph.value - 1.0).abs() < 1e-12);
        let kmh = Units::Metric.show(1.0, Unit::MetrePerSecond);
        assert!((kmh.value - 3.6).abs() < 1e-12);
        let inch = Units::Customary.show(0.0254, Unit::Metre);
        assert!((inch.value - 1.0).abs() < 1e-12);
        let feet = Units::Customary.show(3.048, Unit::Metre);
        assert!((feet.value - 10.0).abs() < 1e-12);
        assert_eq!(feet.unit, "unit-ft");
    }

    #[test]
    fn time_counts_whole_seconds() {
        assert_eq!(time_text(64 * 65 + 63), "1:05");
        assert_eq!(fine_time_text(64 * 65 + 32), "1:05.5");
    }
}

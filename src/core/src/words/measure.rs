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
pub const FOOT: f64 = 0.3048;
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

/// What turns a value in its SI unit into the number of a field, and back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Number in the field for one of the SI unit.
    pub factor: f64,
    /// Decimals worth showing where no fewer say it all.
    pub decimals: usize,
    /// Key of the unit's sign; empty for a bare count.
    pub unit: &'static str,
}

impl Scale {
    /// The number as it stands in the field: all of it where few decimals do, else as far as it is worth showing, and
    /// to a twentieth of itself at least.
    pub fn written(self, value: f64) -> String {
        let number = value * self.factor;
        // As far as `read` may have rounded it.
        let hair = 1e-9 * self.factor.max(1.0).max(number.abs());
        let whole = |decimals: &usize| {
            let read = format!("{number:.decimals$}").parse::<f64>();
            read.is_ok_and(|read| (read - number).abs() <= hair)
        };
        let near = |decimals: &usize| {
            let read = format!("{number:.decimals$}").parse::<f64>();
            read.is_ok_and(|read| (read - number).abs() <= 0.05 * number.abs())
        };
        let shown = || (self.decimals..=FIELD_DECIMALS).find(near);
        let decimals = (0..=FIELD_DECIMALS).find(whole).or_else(shown).unwrap_or(FIELD_DECIMALS);
        format!("{number:.decimals$}")
    }

    /// What somebody typed, in the SI unit, with a point or a comma before the decimals; None when it is no number.
    pub fn read(self, typed: &str) -> Option<f64> {
        let plain = typed.trim().replace(',', ".");
        let is_plain = plain.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-'));
        let number: f64 = plain.parse().ok().filter(|_| is_plain)?;
        // A thousandth of a millionth of any of these units matters to nobody, and reads better in a file.
        let value = (number / self.factor * 1e9).round() / 1e9;
        value.is_finite().then_some(value)
    }
}

/// So many decimals a field has at most for a number that they say in full.
const FIELD_DECIMALS: usize = 4;

/// Findings are kept to four decimals: with so many no two of them read alike in any unit.
const MOST_DECIMALS: usize = 6;

/// Lengths under a metre are told in the small unit: fork heights differ by millimetres.
fn is_small(value: f64) -> bool {
    value.abs() < 1.0
}

impl Shown {
    /// With all its decimals, without sign of the unit.
    pub fn text(&self) -> String {
        format!("{:.*}", self.decimals, self.value)
    }
}

impl Units {
    /// A value in an SI unit as it is shown in these units.
    pub fn show(self, value: f64, unit: Unit) -> Shown {
        self.show_as(value, unit, is_small(value))
    }

    /// How a value is written into a field and read from it: in the unit in which `like` is shown, so that the
    /// unit beside the field stays while the value changes.
    pub fn field(self, like: f64, unit: Unit) -> Scale {
        let Shown { value, decimals, unit } = self.show_as(1.0, unit, is_small(like));
        Scale { factor: value, decimals, unit }
    }

    /// What was measured and its limit, in SI units, as they are shown beside each other: with so many
    /// decimals that they differ where they do.
    pub fn show_both(self, measured: f64, limit: f64, unit: Unit) -> [Shown; 2] {
        let near = (measured - limit).abs() <= 0.01 * limit.abs();
        let small = is_small(if near { limit } else { measured });
        let mut both = [self.show_as(measured, unit, small), self.show(limit, unit)];
        let reads_alike = |[a, b]: &[Shown; 2]| a.text() == b.text() && a.unit == b.unit;
        while measured != limit && reads_alike(&both) && both[0].decimals < MOST_DECIMALS {
            both.iter_mut().for_each(|shown| shown.decimals += 1);
        }
        both
    }

    fn show_as(self, value: f64, unit: Unit, small: bool) -> Shown {
        let metric = self == Self::Metric;
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

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Unit; 10] = [
        Unit::Metre,
        Unit::MetrePerSecond,
        Unit::MetrePerSecondSquared,
        Unit::MetrePerSecondCubed,
        Unit::NewtonMetreSecond,
        Unit::Gravity,
        Unit::Second,
        Unit::Share,
        Unit::Degree,
        Unit::Count,
    ];

    proptest::proptest! {
        /// However near to its limit, what is read says what is so.
        #[test]
        fn what_was_measured_reads_as_far_from_its_limit_as_it_is(
            limit in 0u32..40_000,
            off in -300i32..300,
            unit in 0usize..10,
            imperial in proptest::bool::ANY,
        ) {
            let (limit, measured) = (f64::from(limit) / 1e4, (f64::from(limit) + f64::from(off)) / 1e4);
            let units = if imperial { Units::Imperial } else { Units::Metric };
            let [m, l] = units.show_both(measured, limit, ALL[unit]);
            if m.unit == l.unit {
                let read = |s: &Shown| s.text().parse::<f64>().expect("a number");
                let (was, reads) = (measured.total_cmp(&limit), read(&m).total_cmp(&read(&l)));
                proptest::prop_assert!(was == reads || measured == limit, "{m:?} {l:?}");
            } else {
                // In another unit it is far from it.
                proptest::prop_assert!((measured - limit).abs() > 0.01 * limit, "{m:?} {l:?}");
            }
        }
    }

    proptest::proptest! {
        /// What is written into a field with up to three decimals is read as it was meant and stands there again.
        #[test]
        fn what_is_typed_stands_in_the_field_again(
            thousandths in 0u32..90_000,
            like in 0u32..3,
            unit in 0usize..10,
            imperial in proptest::bool::ANY,
        ) {
            let units = if imperial { Units::Imperial } else { Units::Metric };
            let scale = units.field(f64::from(like), ALL[unit]);
            let typed = f64::from(thousandths) / 1e3;
            let value = scale.read(&format!("{typed}")).expect("a number");
            let back: f64 = scale.written(value).parse().expect("a number");
            proptest::prop_assert!((back - typed).abs() < 1e-6, "{typed} {back} {scale:?}");
        }
    }

    #[test]
    fn a_field_takes_numbers_in_its_unit_and_nothing_else() {
        // 1 mile is 1609.344 m, 1 inch 25.4 mm: exact since 1959.
        let mph = Units::Imperial.field(2.7, Unit::MetrePerSecond);
        assert_eq!((mph.read("10"), mph.unit), (Some(4.4704), "unit-mph"));
        assert_eq!(Units::Imperial.field(0.15, Unit::Metre).read("10"), Some(0.254));
        assert_eq!(Units::Metric.field(0.15, Unit::Metre).read("7,5"), Some(0.075));
        assert_eq!(Units::Metric.field(2.0, Unit::Metre).read(" 0.5 "), Some(0.5));
        for typed in ["", "fast", "1e3", "inf", "NaN", "1.2.3", "1,000.5", "--1", "0x10"] {
            assert_eq!(mph.read(typed), None, "{typed}");
        }
        assert_eq!(mph.written(2.7), "6.0");
        assert_eq!(
            (mph.written(0.2), mph.written(0.001)),
            ("0.45".to_owned(), "0.0022".to_owned())
        );
        assert_eq!(Units::Metric.field(2.7, Unit::MetrePerSecond).written(2.7), "9.72");
        assert_eq!(Units::Metric.field(0.3, Unit::Share).written(0.3), "30");
    }

    #[test]
    fn a_hair_over_the_limit_is_told_to_the_hair() {
        let both = |m, l, u: Unit| Units::Metric.show_both(m, l, u).map(|s| s.text());
        assert_eq!(both(0.2004, 0.2, Unit::Gravity), ["0.2004", "0.2000"]);
        assert_eq!(both(0.9999, 1.0, Unit::Metre), ["0.9999", "1.0000"]);
        assert_eq!(both(60.3, 60.0, Unit::Degree), ["60.3", "60.0"]);
        assert_eq!(both(3.2, 0.05, Unit::Metre), ["3.20", "5.0"]);
    }
}

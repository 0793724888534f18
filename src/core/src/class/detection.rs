//! How well somebody tells what has something the matter from what has nothing (d'), and how readily they
//! say that something is (c). Where little is ever the matter people miss more, and it is c that moves, not
//! d': so both are told.

use serde::{Deserialize, Serialize};
use statrs::function::erf::erfc_inv;

use crate::score::certainty::Z_95;

/// What was reported where something was the matter, and where nothing was.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Trials {
    /// Where something was the matter.
    pub signals: u32,
    /// Of these, where something was reported.
    pub hits: u32,
    /// Where nothing was the matter.
    pub noises: u32,
    /// Of these, where something was reported.
    pub false_alarms: u32,
}

/// A value with its 95 % interval.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Estimate {
    /// The value.
    pub value: f64,
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// Both measures, in standard deviations.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Detection {
    /// Sensitivity: 0 is guessing, more is better.
    pub d: Estimate,
    /// Criterion: above 0 somebody is reluctant to report, below it ready to.
    pub c: Estimate,
}

/// The share of so many trials, log-linear: never 0 or 1, and applied always.
///
/// M. J. Hautus, Behavior Research Methods, Instruments and Computers 27(1), 1995, 46-51.
fn rate(of: u32, trials: u32) -> f64 {
    (f64::from(of) + 0.5) / (f64::from(trials) + 1.0)
}

/// The quantile of the standard normal distribution.
fn z(p: f64) -> f64 {
    -core::f64::consts::SQRT_2 * erfc_inv(2.0 * p)
}

/// Standard error of d' at these rates over so many trials.
///
/// V. Gourevitch and E. Galanter, Psychometrika 32, 1967, 25-33.
pub fn error_of_d(hit_rate: f64, signals: f64, false_rate: f64, noises: f64) -> f64 {
    let variance = |p: f64, n: f64| {
        // The density at the quantile, squared.
        let density_2 = libm::exp(-z(p) * z(p)) / core::f64::consts::TAU;
        p * (1.0 - p) / (n * density_2)
    };
    libm::sqrt(variance(hit_rate, signals) + variance(false_rate, noises))
}

impl Detection {
    /// What these trials come to; None where nothing was ever the matter, or always.
    pub fn of(trials: Trials) -> Option<Self> {
        let Trials { signals, hits, noises, false_alarms } = trials;
        if signals == 0 || noises == 0 || hits > signals || false_alarms > noises {
            return None;
        }
        let (h, f) = (rate(hits, signals), rate(false_alarms, noises));
        let error = error_of_d(h, signals.into(), f, noises.into());
        let about = |value: f64, error: f64| Estimate {
            value,
            low: value - Z_95 * error,
            high: value + Z_95 * error,
        };
        // c is half the sum of what d' is the difference of, so its error is half as large.
        Some(Self { d: about(z(h) - z(f), error), c: about(-(z(h) + z(f)) / 2.0, error / 2.0) })
    }
}

#[cfg(test)]
mod tests {
    use statrs::distribution::{ContinuousCDF, Normal};

    use super::*;

    fn of(hits: u32, misses: u32, false_alarms: u32, right: u32) -> Detection {
        let (signals, noises) = (hits + misses, false_alarms + right);
        Detection::of(Trials { signals, hits, noises, false_alarms }).unwrap()
    }

    /// The first is the worked example of the function `signal` of the R package statpsych,
    /// `signal(82, 46, 100, 100)`; the others were computed with another library's normal quantile.
    #[test]
    fn the_worked_cases_come_out() {
        for (case, d, c) in [
            ([82, 18, 46, 54], 1.002_792_688, -0.401_960_317),
            ([20, 5, 10, 15], 1.044_498_707, -0.278_845_176),
            ([10, 0, 0, 10], 3.381_243_259, 0.0),
            ([18, 2, 3, 17], 2.147_182_684, -0.106_169_776),
            ([7, 3, 1, 29], 2.133_486_732, 0.593_954_245),
            ([0, 12, 0, 12], 0.0, 1.768_825_039),
        ] {
            let [hits, misses, false_alarms, right] = case;
            let is = of(hits, misses, false_alarms, right);
            assert!((is.d.value - d).abs() < 1e-9, "{case:?}: {is:?}");
            assert!((is.c.value - c).abs() < 1e-9, "{case:?}: {is:?}");
        }
        assert!((rate(82, 100) - 0.816_831_683).abs() < 1e-9);
        assert!((rate(46, 100) - 0.460_396_040).abs() < 1e-9);
    }

    #[test]
    fn the_quantile_undoes_the_distribution() {
        let normal = Normal::standard();
        for n in 1..1000 {
            let p = f64::from(n) / 1000.0;
            assert!((normal.cdf(z(p)) - p).abs() < 1e-9, "{p}");
        }
        assert!((z(0.975) - Z_95).abs() < 1e-12);
    }

    /// The figures by which ten walk-rounds were chosen, for a list of 28 points of which 1.3 have something
    /// on the average of practice: 0.8 of those found, 0.03 of the others reported.
    #[test]
    fn ten_walk_rounds_are_needed_before_it_says_anything() {
        for (walks, error) in [(1.0, 1.34), (5.0, 0.60), (10.0, 0.42), (20.0, 0.30)] {
            let is = error_of_d(0.8, 1.3 * walks, 0.03, 26.7 * walks);
            assert!((is - error).abs() <= 0.005, "{walks}: {is}");
        }
    }

    #[test]
    fn the_interval_holds_the_value_and_narrows_with_trials() {
        let (few, many) = (of(8, 2, 8, 260), of(80, 20, 80, 2600));
        for is in [few.d, few.c, many.d, many.c] {
            assert!(is.low < is.value && is.value < is.high);
        }
        let width = |e: Estimate| e.high - e.low;
        assert!((width(few.d) / width(few.c) - 2.0).abs() < 1e-9);
        let narrower = width(few.d) / width(many.d);
        assert!((2.8..3.4).contains(&narrower), "about the root of ten: {narrower}");
    }

    #[test]
    fn where_nothing_could_be_told_apart_nothing_is_said() {
        let none = |signals, hits, noises, false_alarms| {
            Detection::of(Trials { signals, hits, noises, false_alarms }).is_none()
        };
        assert!(none(0, 0, 360, 1), "nothing was ever the matter");
        assert!(none(5, 1, 0, 0));
        assert!(none(2, 3, 30, 0) && none(2, 1, 30, 31), "such counts cannot be");
    }
}

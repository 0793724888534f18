//! How real time went by while a drive was driven: a slow computer must not make it easier.

use serde::{Deserialize, Serialize};

use crate::run::FULL_PACE;
use crate::time::{DT, Tick};

/// How real time went by in a drive so far. It is kept with what was driven: a drive that is gone on
/// with is no faster than it was.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Timing {
    /// Time that was simulated, s.
    pub simulated_s: f64,
    /// Time that should have been simulated at the chosen pace, s.
    pub asked_s: f64,
    /// Slowest pace at which any of it was driven, simulated seconds for one second on the wall.
    pub pace: f64,
}

impl Timing {
    /// Nothing has gone by.
    pub const START: Self = Self { simulated_s: 0.0, asked_s: 0.0, pace: FULL_PACE };

    /// Of a stretch of so many ticks of which nobody knows how real time went by: it cannot show that
    /// the computer was fast enough.
    pub fn unknown(ticks: Tick) -> Self {
        Self { asked_s: f64::from(ticks) * DT, ..Self::START }
    }

    /// Simulated time over the time that should have been simulated, 0 to 1.
    pub fn ratio(&self) -> f64 {
        // Before the first tick is due nothing can be slow.
        if self.asked_s < DT { 1.0 } else { (self.simulated_s / self.asked_s).clamp(0.0, 1.0) }
    }

    /// No drive can have taken such times.
    pub fn is_impossible(&self) -> bool {
        let times = self.simulated_s >= 0.0 && self.asked_s >= 0.0 && self.asked_s.is_finite();
        let fits = self.simulated_s <= self.asked_s + DT;
        !(times && fits && self.pace > 0.0 && self.pace <= FULL_PACE)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_of_time_is_of_all_that_was_asked_for() {
        assert_eq!(Timing::START.ratio(), 1.0);
        let timing = Timing { simulated_s: 9.5, asked_s: 10.0, pace: 0.5 };
        assert_eq!(timing.ratio(), 0.95);
        assert_eq!(Timing::unknown(64).ratio(), 0.0);
        assert_eq!(Timing::unknown(0), Timing::START);
    }

    #[test]
    fn times_that_cannot_be_are_told() {
        let good = Timing { simulated_s: 1.0, asked_s: 1.0, pace: 1.0 };
        assert!(!good.is_impossible() && !Timing::START.is_impossible());
        // A fraction of a tick may still be owed.
        assert!(!Timing { simulated_s: 1.0 + DT, ..good }.is_impossible());
        for bad in [
            Timing { simulated_s: 1.0 + 1.01 * DT, ..good },
            Timing { simulated_s: -1e-9, ..good },
            Timing { asked_s: f64::INFINITY, ..good },
            Timing { asked_s: f64::NAN, ..good },
            Timing { pace: 0.0, ..good },
            Timing { pace: 1.0 + 1e-9, ..good },
        ] {
            assert!(bad.is_impossible(), "{bad:?}");
        }
    }
}

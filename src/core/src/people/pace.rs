//! How fast people walk.
//!
//! The normal distribution is drawn by Box and Muller's method through `crate::math`. The crate
//! `rand_distr` would be the usual choice, but its ziggurat calls the exponential and the logarithm
//! of `num-traits`, which are the platform's own as soon as any crate in the build switches on
//! the feature `std` there: then a server and a browser may draw different people.

use core::f64::consts::PI;

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::Rng;

use crate::math::{cos, ln};

/// A normal distribution of speeds, cut off on either side: a draw outside is drawn again.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paces {
    /// Mean before the cut, m/s.
    pub mean: f64,
    /// Standard deviation before the cut, m/s.
    pub deviation: f64,
    /// Slowest, m/s.
    pub least: f64,
    /// Fastest, m/s.
    pub most: f64,
}

/// Free walking on the level: 1.34 m/s, standard deviation 0.26 m/s (U. Weidmann, Transporttechnik
/// der Fussgaenger, ETH IVT Schriftenreihe 90, 1993: that attribution from memory, the values seen
/// in a secondary source). The cut at 0.6 and 2.2 m/s is ours: it leaves out 0.27 %.
pub const WALKING: Paces = Paces { mean: 1.34, deviation: 0.26, least: 0.6, most: 2.2 };

/// More draws in a row than this outside the cut do not happen: with WALKING one in 373 is.
const DRAWS: u32 = 64;

impl Paces {
    /// The speed of one person, m/s.
    pub fn draw(&self, dice: &mut ChaCha8Rng) -> f64 {
        for _ in 0..DRAWS {
            let speed = self.mean + self.deviation * normal(dice);
            if (self.least..=self.most).contains(&speed) {
                return speed;
            }
        }
        // Only for a cut far from the mean, which asks for one speed in effect.
        self.mean.clamp(self.least, self.most)
    }
}

/// A number from the normal distribution with mean 0 and deviation 1 (G. E. P. Box and M. E.
/// Muller, A Note on the Generation of Random Normal Deviates, 1958: from memory).
fn normal(dice: &mut ChaCha8Rng) -> f64 {
    // From the first the logarithm is taken, so it must not be 0.
    let (u, v) = (1.0 - share(dice), share(dice));
    (-2.0 * ln(u)).sqrt() * cos(2.0 * PI * v)
}

/// A number from 0 up to but not 1, in steps of 2^-53.
pub(super) fn share(dice: &mut ChaCha8Rng) -> f64 {
    const STEP: f64 = 1.0 / (1u64 << 53) as f64;
    (dice.next_u64() >> 11) as f64 * STEP
}

#[cfg(test)]
mod tests {
    use super::*;
    use rand_chacha::rand_core::SeedableRng;

    const PEOPLE: usize = 10_000;

    fn people() -> Vec<f64> {
        let mut dice = ChaCha8Rng::seed_from_u64(1993);
        let mut list: Vec<f64> = (0..PEOPLE).map(|_| WALKING.draw(&mut dice)).collect();
        list.sort_by(f64::total_cmp);
        list
    }

    /// Reference: scipy 1.17.1, `truncnorm((0.6 - 1.34) / 0.26, (2.2 - 1.34) / 0.26, 1.34, 0.26)`.
    /// Tolerances are three standard errors of 10,000 people: deviation / 100 = 0.0026 for the mean,
    /// deviation / sqrt(20,000) = 0.0018 for the deviation (the cut distribution's tails are lighter
    /// than normal, so it is a little less), sqrt(p (1 - p)) / 100 = 0.0035 for the share.
    #[test]
    fn ten_thousand_people_walk_as_weidmann_says() {
        let list = people();
        let n = PEOPLE as f64;
        let mean = list.iter().sum::<f64>() / n;
        let deviation = (list.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / n).sqrt();
        assert!((mean - 1.341_373_657).abs() < 3.0 * 0.002_6, "{mean}");
        assert!((deviation - 0.256_673_179).abs() < 3.0 * 0.001_8, "{deviation}");
        assert!(list[0] >= 0.6 && list[PEOPLE - 1] <= 2.2);
        assert!(list[0] < 0.75 && list[PEOPLE - 1] > 2.05, "the tails are there");
        // Slower than signals are timed for, 3.5 ft/s (FHWA, FAQ on MUTCD 2009 4E.06): 0.1466823 of
        // the whole normal distribution, 0.1448584 of the cut one.
        let slow = list.iter().filter(|v| **v < 1.0668).count() as f64 / n;
        assert!((slow - 0.144_858_393).abs() < 3.0 * 0.003_5, "{slow}");
    }

    /// Quantiles of the cut distribution by scipy; of the whole one they are 0.9123, 1.0705, 1.6095
    /// and 1.7677. Three standard errors, sqrt(q (1 - q)) / (100 f), f the density there.
    #[test]
    fn the_shape_is_normal_and_not_only_its_width() {
        let list = people();
        for (share, speed, error) in [
            (0.05, 0.917_493, 0.005_3),
            (0.15, 1.072_538, 0.003_9),
            (0.85, 1.609_397, 0.004_0),
            (0.95, 1.766_817, 0.005_5),
        ] {
            let got = list[(share * PEOPLE as f64) as usize];
            assert!((got - speed).abs() < 3.0 * error, "{share}: {got} against {speed}");
        }
    }

    #[test]
    fn a_cut_that_leaves_next_to_nothing_still_ends() {
        let odd = Paces { mean: 1.0, deviation: 0.1, least: 5.0, most: 6.0 };
        assert_eq!(odd.draw(&mut ChaCha8Rng::seed_from_u64(1)), 5.0);
    }

    /// The very bits of the first draws: they may change only with the run format.
    #[test]
    fn the_draws_of_a_seed_stay_what_they_are() {
        let mut dice = ChaCha8Rng::seed_from_u64(7);
        let bits: Vec<u64> = (0..3).map(|_| WALKING.draw(&mut dice).to_bits()).collect();
        assert_eq!(
            bits,
            [4_609_051_811_119_489_167, 4_608_447_478_951_328_891, 4_607_706_400_718_961_010]
        );
    }
}

//! The shares of many people seen together: each is drawn towards the middle of the class, the more so the less
//! the person has shown and the more alike people are.
//!
//! For views of a class only. What one person can do is told from what that person has shown (`board`): a
//! class's middle flatters the weak.
//!
//! Everybody's true share is taken as drawn from a beta distribution; nobody knows which, so all of them are weighed by
//! how well they agree with what was shown, over a grid (the most likely one alone pools nearly everything).
//! The weights beforehand are those of A. Gelman et al., Bayesian Data Analysis, section on hierarchical models of
//! proportions: even in the middle m = a / (a + b) and in u = (a + b)^(-1/2).

use std::collections::BTreeMap;

use super::detection::Estimate;
use crate::math::{exp, ln};

/// Of fewer people nothing can be told of how alike they are.
pub const PEOPLE_LEAST: usize = 3;

/// Steps of the middle of a class, 0 to 1.
const MIDDLES: usize = 96;
/// Steps of u. A finer grid moves a share by less than 0.0003, the end of an interval by less than 0.004.
const SPREADS: usize = 32;
/// Largest u: the class then weighs as much as a quarter of an opportunity.
const SPREAD_MOST: f64 = 2.0;
/// Cells of the grid that weigh less than this share of the heaviest tell nothing of an interval.
const LIGHT: f64 = 1e-4;
/// Steps of a share, evenly by the logarithm of its odds between -`ODDS` and `ODDS`.
const STEPS: usize = 400;
const ODDS: f64 = 15.0;
/// What weighs less than this, as a logarithm, is nothing beside the rest.
const NOTHING: f64 = -30.0;

/// People's shares seen together.
#[derive(Clone, Debug, PartialEq)]
pub struct Pooled {
    /// Each person's share with its 95 % interval, in their order; None of who has shown nothing.
    pub people: Vec<Option<Estimate>>,
    /// The middle of the people, 0 to 1.
    pub middle: f64,
    /// How far people are from it, as a standard deviation.
    pub apart: f64,
}

/// One beta distribution that people may be drawn from, and how much it weighs.
struct Cell {
    a: f64,
    b: f64,
    weight: f64,
}

/// Logarithm of the beta function.
fn ln_beta(a: f64, b: f64) -> f64 {
    libm::lgamma(a) + libm::lgamma(b) - libm::lgamma(a + b)
}

/// What people have shown, hits of trials each, seen together; None of fewer than [`PEOPLE_LEAST`] who have
/// shown anything. More hits than trials are nothing shown.
pub fn pooled(shown: &[(u32, u32)]) -> Option<Pooled> {
    let of = |(r, n): &(u32, u32)| (*n > 0 && r <= n).then_some((*r, *n));
    // Whoever shows the same is seen as the same.
    let mut kinds = BTreeMap::<(u32, u32), f64>::new();
    for kind in shown.iter().filter_map(of) {
        *kinds.entry(kind).or_default() += 1.0;
    }
    if kinds.values().sum::<f64>() < PEOPLE_LEAST as f64 {
        return None;
    }
    let cells = weighed(&kinds);
    let sum = |of: &dyn Fn(&Cell) -> f64| cells.iter().map(|c| c.weight * of(c)).sum::<f64>();
    let middle = sum(&|c| c.a / (c.a + c.b));
    let variance = sum(&|c| {
        let all = c.a + c.b;
        c.a * c.b / (all * all * (all + 1.0))
    });
    let told: BTreeMap<(u32, u32), Estimate> =
        kinds.keys().map(|kind| (*kind, estimate(&cells, *kind))).collect();
    let people = shown.iter().map(|p| of(p).and_then(|kind| told.get(&kind).copied())).collect();
    Some(Pooled { people, middle, apart: variance.sqrt() })
}

fn weighed(kinds: &BTreeMap<(u32, u32), f64>) -> Vec<Cell> {
    let step = |i: usize, of: usize| (i as f64 + 0.5) / of as f64;
    let mut cells = Vec::with_capacity(MIDDLES * SPREADS);
    for spread in 0..SPREADS {
        let u = SPREAD_MOST * step(spread, SPREADS);
        for middle in 0..MIDDLES {
            let (m, all) = (step(middle, MIDDLES), 1.0 / (u * u));
            let (a, b) = (m * all, (1.0 - m) * all);
            let alone = ln_beta(a, b);
            let of = |(&(r, n), times): (&(u32, u32), &f64)| {
                let (r, n) = (f64::from(r), f64::from(n));
                times * (ln_beta(a + r, b + n - r) - alone)
            };
            // As a logarithm at first.
            cells.push(Cell { a, b, weight: kinds.iter().map(of).sum() });
        }
    }
    let most = cells.iter().map(|c| c.weight).fold(f64::NEG_INFINITY, f64::max);
    cells.iter_mut().for_each(|c| c.weight = exp(c.weight - most));
    let sum: f64 = cells.iter().map(|c| c.weight).sum();
    cells.iter_mut().for_each(|c| c.weight /= sum);
    cells
}

fn estimate(cells: &[Cell], (r, n): (u32, u32)) -> Estimate {
    let (hits, misses) = (f64::from(r), f64::from(n - r));
    let value = cells.iter().map(|c| c.weight * (c.a + hits) / (c.a + c.b + hits + misses)).sum();
    let (low, high) = ends(cells, hits, misses);
    Estimate { value, low, high }
}

/// Ends of the middle 95 % of a person's share.
fn ends(cells: &[Cell], hits: f64, misses: f64) -> (f64, f64) {
    let heaviest = cells.iter().map(|c| c.weight).fold(0.0, f64::max);
    let heavy = || cells.iter().filter(|c| c.weight >= LIGHT * heaviest);
    let weight: f64 = heavy().map(|c| c.weight).sum();
    let width = 2.0 * ODDS / (STEPS - 1) as f64;
    let odds = |i: usize| -ODDS + i as f64 * width;
    // Per step of the odds' logarithm the density has no edge at a share of 0 or 1.
    let mut mass = [0.0; STEPS];
    let logarithm = |odds: f64| -ln(1.0 + exp(-odds));
    let shares: Vec<(f64, f64)> =
        (0..STEPS).map(|i| (logarithm(odds(i)), logarithm(-odds(i)))).collect();
    for c in heavy() {
        let (a, b) = (c.a + hits, c.b + misses);
        let of_cell = ln(c.weight / weight * width) - ln_beta(a, b);
        for (m, (share, rest)) in mass.iter_mut().zip(&shares) {
            let here = of_cell + a * share + b * rest;
            if here > NOTHING {
                *m += exp(here);
            }
        }
    }
    let sum: f64 = mass.iter().sum();
    // Who only ever missed may have a share of next to nothing, who never did one of next to all: what lies
    // beyond the steps is at that end.
    let before = if hits == 0.0 { (1.0 - sum).max(0.0) } else { 0.0 };
    let all = if hits == 0.0 || misses == 0.0 { sum.max(1.0) } else { sum };
    let at = |part: f64| {
        let (mut passed, mut last) = (before, 0.0);
        if passed >= part * all {
            return 0.0;
        }
        for (i, m) in mass.iter().enumerate() {
            // Half of a step lies before its middle.
            let here = passed + m / 2.0;
            if here >= part * all {
                let back = if here > last { (here - part * all) / (here - last) } else { 0.0 };
                return 1.0 / (1.0 + exp(-(odds(i) - back * width)));
            }
            (passed, last) = (passed + m, here);
        }
        1.0
    };
    (at(0.025), at(0.975))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Eighteen batters of one season, hits in their first 45 times at bat: B. Efron and C. Morris, Data analysis
    /// using Stein's estimator, JASA 70, 1975, 311-319; and Stein's paradox in statistics, Scientific American
    /// 236(5), 1977, 119-127.
    const HITS: [u32; 18] = [18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7];
    /// The share that each had over the whole season, as printed there.
    const SEASON: [f64; 18] = [
        0.346, 0.298, 0.276, 0.222, 0.273, 0.270, 0.263, 0.210, 0.269, 0.230, 0.264, 0.256, 0.303,
        0.264, 0.226, 0.285, 0.316, 0.200,
    ];

    fn batters() -> Vec<(u32, u32)> {
        HITS.into_iter().map(|hits| (hits, 45)).collect()
    }

    /// Holds the values, and the ends of the intervals within half a step in a hundred.
    fn holds(shown: &[(u32, u32)], reference: &[(usize, f64, f64, f64)]) {
        let is = pooled(shown).unwrap();
        for &(i, value, low, high) in reference {
            let e = is.people[i].unwrap();
            assert!((e.value - value).abs() < 3e-4, "{i}: {e:?}, {value}");
            assert!((e.low - low).abs() < 0.004, "{i}: {e:?}, {low}");
            assert!((e.high - high).abs() < 0.004, "{i}: {e:?}, {high}");
        }
    }

    /// The published factor of 0.212 towards 0.265 is James and Stein's, by their formula; the grid comes near it by a
    /// way of its own.
    #[test]
    fn the_batters_are_drawn_together_as_published() {
        let shares: Vec<f64> = HITS.into_iter().map(|h| f64::from(h) / 45.0).collect();
        let mean = shares.iter().sum::<f64>() / 18.0;
        let squares: f64 = shares.iter().map(|y| (y - mean) * (y - mean)).sum();
        let factor = 1.0 - (18.0 - 3.0) * (mean * (1.0 - mean) / 45.0) / squares;
        assert!((mean - 0.265).abs() < 0.0005, "{mean}");
        assert!((factor - 0.212).abs() < 0.0005, "{factor}");
        let is = pooled(&batters()).unwrap();
        let pooled: Vec<f64> = is.people.iter().map(|e| e.unwrap().value).collect();
        let drawn = (pooled[0] - pooled[17]) / (shares[0] - shares[17]);
        assert!((drawn - factor).abs() < 0.02, "{drawn}");
        assert!((is.middle - mean).abs() < 0.002, "{}", is.middle);
        // Published: all squared errors against the season together are 0.077, of James and Stein's 0.022.
        let error = |of: &[f64]| -> f64 {
            of.iter().zip(SEASON).map(|(p, season)| (p - season) * (p - season)).sum()
        };
        // (By fractions instead of three decimals the first is 0.075.)
        assert!((error(&shares) - 0.077).abs() < 0.002, "{}", error(&shares));
        assert!((error(&pooled) - 0.022).abs() < 0.001, "{}", error(&pooled));
    }

    /// References by `tests/outside/pooling.py` (scipy 1.17.1): a grid of 400 by 200, and the ends by halving over
    /// the exact mixture of beta distributions.
    #[test]
    fn values_and_intervals_agree_with_a_finer_grid() {
        holds(
            &batters(),
            &[
                (0, 0.29388, 0.23287, 0.39645),
                (8, 0.26199, 0.19393, 0.32891),
                (17, 0.24377, 0.15938, 0.30434),
            ],
        );
        holds(
            &[(9, 10), (12, 12), (3, 10), (20, 21), (0, 4), (7, 9), (5, 5)],
            &[
                (0, 0.87850, 0.64054, 0.99321),
                (1, 0.97340, 0.83838, 1.0),
                (2, 0.33679, 0.09871, 0.63035),
                (3, 0.93877, 0.80854, 0.99681),
                (4, 0.13644, 0.0, 0.55874),
                (5, 0.76720, 0.47633, 0.95901),
                (6, 0.94449, 0.67877, 1.0),
            ],
        );
        holds(
            &[(5, 5), (8, 8), (10, 10)],
            &[(0, 0.98337, 0.83819, 1.0), (1, 0.98808, 0.88374, 1.0), (2, 0.98985, 0.90047, 1.0)],
        );
        holds(
            &[(5, 50), (40, 50), (1, 2)],
            &[
                (0, 0.11263, 0.04086, 0.21385),
                (1, 0.78812, 0.66578, 0.88881),
                (2, 0.48531, 0.06037, 0.93053),
            ],
        );
    }

    #[test]
    fn who_has_shown_nothing_is_told_nothing_and_moves_nobody() {
        let with = pooled(&[(9, 10), (0, 0), (3, 10), (7, 9), (5, 4)]).unwrap();
        let without = pooled(&[(9, 10), (3, 10), (7, 9)]).unwrap();
        assert_eq!((with.people[1], with.people[4]), (None, None));
        assert_eq!((with.people[0], with.people[2]), (without.people[0], without.people[1]));
        assert_eq!(pooled(&[(9, 10), (3, 10), (0, 0)]), None, "two have shown something");
        assert_eq!(pooled(&[]), None);
    }

    proptest::proptest! {
        #![proptest_config(proptest::prelude::ProptestConfig::with_cases(8))]
        #[test]
        fn more_hits_of_as_many_never_tell_less(n in 1_u32..60, r in 0_u32..60, others in proptest::collection::vec((0_u32..20, 20_u32..21), 3..8)) {
            proptest::prop_assume!(r < n);
            let mut shown = others;
            shown.extend([(r, n), (r + 1, n)]);
            let people = pooled(&shown).unwrap().people;
            let (less, more) = (people[shown.len() - 2].unwrap(), people[shown.len() - 1].unwrap());
            proptest::prop_assert!(less.value < more.value && less.low <= more.low && less.high <= more.high);
            for e in people.into_iter().flatten() {
                proptest::prop_assert!(0.0 <= e.low && e.low <= e.value && e.value <= e.high && e.high <= 1.0);
            }
        }
    }
}

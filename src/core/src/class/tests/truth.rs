//! People whose true chance of a clean opportunity is known, driven by dice: whether what is said of them is true.
//!
//! Opportunities within a run hang together: the chance of each run is drawn about the person's own (a beta
//! distribution, here by Polya's urn), with the correlation `rho` of any two opportunities of a run. Nobody knows how
//! large it is among people; so it is tried. The table of DEVELOPERS.md is what `-- --nocapture` prints.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

use super::*;
use crate::class::Brief;
use crate::class::board::{LATELY, Lately, RUNS_LEAST, lately};
use crate::score::certainty::{Readiness, wilson};

/// What the interval's lower end must reach; as shipped.
const READY_FROM: f64 = 0.7;

struct Dice(ChaCha8Rng);

impl Dice {
    /// From 0 up to 1.
    fn share(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Clean ones of so many opportunities of one run of somebody with this chance.
    fn run(&mut self, chance: f64, rho: f64, opportunities: u32) -> u32 {
        let weight = if rho > 0.0 { 1.0 / rho - 1.0 } else { f64::INFINITY };
        let mut clean = 0;
        for before in 0..opportunities {
            let now = if weight.is_finite() {
                (chance * weight + f64::from(clean)) / (weight + f64::from(before))
            } else {
                chance
            };
            clean += u32::from(self.share() < now);
        }
        clean
    }
}

/// What is said of somebody after so many runs with so many opportunities each.
fn said(dice: &mut Dice, chance: f64, rho: f64, (runs, each): (usize, u32)) -> Lately {
    let attempts: Vec<Attempt> = (0..runs)
        .map(|i| {
            let mut attempt = contract::attempt("run");
            attempt.started = format!("2026-01-{:02}T08:00:00Z", i + 1);
            attempt.verdict.debrief.skills = vec![SkillResult {
                skill: Skill::Steering,
                points: None,
                opportunities: each,
                clean: dice.run(chance, rho, each),
                weight: 1.0,
            }];
            attempt
        })
        .collect();
    let briefs: Vec<Brief> = attempts.iter().map(Brief::of).collect();
    lately(&briefs.iter().collect::<Vec<_>>()).remove(0)
}

fn ranks(values: &[f64]) -> Vec<f64> {
    let rank = |v: &f64| {
        let below = values.iter().filter(|o| *o < v).count() as f64;
        let same = values.iter().filter(|o| *o == v).count() as f64;
        // Equals share the middle of their places.
        below + (same - 1.0) / 2.0
    };
    values.iter().map(rank).collect()
}

fn spearman(a: &[f64], b: &[f64]) -> f64 {
    let (a, b) = (ranks(a), ranks(b));
    let mean = (a.len() - 1) as f64 / 2.0;
    let by = |x: &[f64], y: &[f64]| -> f64 {
        x.iter().zip(y).map(|(x, y)| (x - mean) * (y - mean)).sum()
    };
    by(&a, &b) / (by(&a, &a) * by(&b, &b)).sqrt()
}

/// What came of a thousand people, or as many.
#[derive(Debug)]
struct Shown {
    /// Share of the intervals that hold the truth.
    covered: f64,
    /// The same of Wilson's interval, as if each opportunity stood for itself.
    covered_plain: f64,
    /// Share of those of whom it is said that they are ready,
    ready: f64,
    /// and of these, who are not.
    wrong: f64,
    /// Mean over classes of 40: Spearman's correlation between true and shown shares.
    order: f64,
}

fn tried(seed: u64, people: usize, rho: f64, runs: (usize, u32)) -> Shown {
    let mut dice = Dice(ChaCha8Rng::seed_from_u64(seed));
    let (mut covered, mut plain, mut ready, mut wrong) = (0, 0, 0, 0);
    let (mut truth, mut shown) = (Vec::new(), Vec::new());
    for _ in 0..people {
        let chance = 0.3 + 0.68 * dice.share();
        let is = said(&mut dice, chance, rho, runs);
        let (least, most) = wilson(is.clean, is.all).unwrap();
        covered += usize::from((is.least..=is.most).contains(&chance));
        plain += usize::from((least..=most).contains(&chance));
        if is.readiness(READY_FROM) == Readiness::Ready {
            ready += 1;
            wrong += usize::from(chance < READY_FROM);
        }
        truth.push(chance);
        shown.push(f64::from(is.clean) / f64::from(is.all));
    }
    let classes = truth.as_chunks::<40>().0.iter().zip(shown.as_chunks::<40>().0);
    let orders: Vec<f64> = classes.map(|(t, s)| spearman(t, s)).collect();
    let of = |n: usize, all: usize| n as f64 / all.max(1) as f64;
    Shown {
        covered: of(covered, people),
        covered_plain: of(plain, people),
        ready: of(ready, people),
        wrong: of(wrong, ready),
        order: orders.iter().sum::<f64>() / orders.len() as f64,
    }
}

#[test]
fn what_is_said_of_people_is_true_as_often_as_it_says() {
    println!("| rho | runs | each | covered | by Wilson alone | ready | wrongly | order |");
    for rho in [0.0, 0.05, 0.1, 0.2, 0.3] {
        for runs in [(RUNS_LEAST, 5), (LATELY, 3), (LATELY, 5), (LATELY, 10)] {
            let is = tried(1, 4000, rho, runs);
            println!(
                "| {rho} | {} | {} | {:.3} | {:.3} | {:.3} | {:.3} | {:.3} |",
                runs.0, runs.1, is.covered, is.covered_plain, is.ready, is.wrong, is.order
            );
            // That somebody is ready is wrong in fewer than one case in twenty, however much it hangs together.
            assert!(is.wrong < 0.05, "{rho} {runs:?}: {is:?}");
        }
    }
}

/// The same for a thousand people over ten runs, as long as opportunities hang together no more than a tenth.
#[test]
fn intervals_hold_the_truth_of_a_thousand_people() {
    for rho in [0.0, 0.05, 0.1] {
        for each in [3, 5] {
            let is = tried(2, 1000, rho, (LATELY, each));
            println!("{rho} {each}: {is:?}");
            assert!((0.93..=0.97).contains(&is.covered), "{rho} {each}: {is:?}");
        }
    }
    // As if each stood for itself is not enough then: that is why misses in bunches widen the interval.
    let bunched = tried(2, 1000, 0.1, (LATELY, 5));
    assert!(bunched.covered_plain < 0.93, "{bunched:?}");
}

/// Forty people are put in their true order by seventy opportunities each (sixty: 0.950), not by thirty.
#[test]
fn shown_skill_orders_people_as_their_true_skill_does() {
    let order = |runs| tried(3, 4000, 0.0, runs).order;
    let (enough, half) = (order((LATELY, 7)), order((LATELY, 3)));
    println!("{enough} {half}, of fifty and sixty {} {}", order((LATELY, 5)), order((LATELY, 6)));
    assert!(enough >= 0.95, "{enough}");
    assert!(half < 0.95, "{half}");
}

/// Spearman's formula for ranks without equals: 1 - 6 sum d^2 / (n (n^2 - 1)).
#[test]
fn the_order_is_spearmans() {
    let (a, b) = ([3.0, 1.0, 4.0, 1.5, 9.0], [2.0, 7.0, 1.0, 8.0, 2.5]);
    // Ranks 2 0 3 1 4 and 1 3 0 4 2: differences 1, -3, 3, -3, 2, squares 32 in all.
    assert!((spearman(&a, &b) - (1.0 - 6.0 * 32.0 / 120.0)).abs() < 1e-12);
    assert!((spearman(&a, &a) - 1.0).abs() < 1e-12);
}

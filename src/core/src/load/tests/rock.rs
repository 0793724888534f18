//! Housner's rocking block (G. W. Housner, The behavior of inverted pendulum structures during
//! earthquakes, Bulletin of the Seismological Society of America 53(2), 1963, 403-417). The pulse
//! formula and the impact ratio in his notation are from memory; the values below are of the full
//! equation, computed independently by bisection on an adaptive integration to 1e-9 s.

use crate::load::rock::{Block, Lean};
use crate::math::G;
use crate::time::DT;

/// Width, height (m), a (m/s^2), R, alpha, p, true uplift a, critical t1 of the full equation (s).
#[allow(clippy::type_complexity)] // a table as it is published
const BLOCKS: [(f64, f64, f64, f64, f64, f64, f64, f64); 6] = [
    (0.30, 1.50, 2.5, 0.764853, 0.197396, 3.101002, 1.96133, 0.494457),
    (0.40, 1.80, 2.5, 0.921954, 0.218669, 2.824465, 2.17926, 0.725076),
    (0.20, 1.60, 1.6, 0.806226, 0.124355, 3.020387, 1.22583, 0.480921),
    (0.60, 1.80, 4.0, 0.948683, 0.321751, 2.784392, 3.26888, 0.607913),
    (0.80, 2.00, 5.0, 1.077033, 0.380506, 2.613223, 3.92266, 0.584799),
    (0.40, 2.00, 3.0, 1.019804, 0.197396, 2.685546, 1.96133, 0.395032),
];

/// Ticks under a pulse of `t1`; the tick in which it ends is cut there, or takes the mean.
/// Returns the peak lean over alpha; None when the block overturns.
fn pulse(block: &Block, a: f64, t1: f64, by_means: bool) -> Option<f64> {
    let mut lean = Lean::default();
    let mut peak = 0.0_f64;
    for tick in 0..20_000 {
        let start = f64::from(tick) * DT;
        let inside = (t1 - start).clamp(0.0, DT);
        if by_means {
            lean.step(block, a * inside / DT, DT);
        } else {
            lean.step(block, a, inside);
            lean.step(block, 0.0, DT - inside);
        }
        if lean.is_over() {
            return None;
        }
        if lean.over_minus || (lean.is_standing() && start > t1) {
            return Some(peak / block.edges[0].alpha);
        }
        peak = peak.max(lean.angle);
    }
    panic!("it neither returns nor falls");
}

#[test]
fn numbers_of_the_block() {
    for (w, h, _, r, alpha, p, uplift, _) in BLOCKS {
        for edge in Block::rectangle(w, h).edges {
            assert!((edge.alpha - alpha).abs() < 1e-6);
            assert!((edge.p2.sqrt() - p).abs() < 1e-6);
            assert!((edge.p2 - 3.0 * G / (4.0 * r)).abs() < 1e-5);
            assert!((edge.uplift * G - uplift).abs() < 1e-5);
        }
    }
}

#[test]
fn uplift_and_impact_numbers() {
    // Width, height, true uplift g b / h, share of angular speed kept, share of energy kept.
    for (w, h, uplift, keeps, energy) in [
        (0.30, 1.50, 1.961330, 0.942308, 0.887944),
        (0.60, 1.80, 3.268883, 0.850000, 0.722500),
        (0.80, 2.00, 3.922660, 0.793103, 0.629013),
        (1.00, 1.20, 8.172208, 0.385246, 0.148414),
    ] {
        let edge = Block::rectangle(w, h).edges[0];
        assert!((edge.uplift * G - uplift).abs() < 1e-6);
        assert!((edge.keeps - keeps).abs() < 1e-6);
        assert!((edge.keeps * edge.keeps - energy).abs() < 1e-6);
    }
}

#[test]
fn it_lifts_off_at_the_tangent_not_at_the_angle() {
    for (w, h, .., uplift, _) in BLOCKS {
        let block = Block::rectangle(w, h);
        for sign in [1.0, -1.0] {
            let mut lean = Lean::default();
            lean.step(&block, sign * (uplift - 1e-4), DT);
            assert!(lean.is_standing());
            lean.step(&block, sign * (uplift + 1e-4), DT);
            assert!(lean.angle > 0.0 && lean.over_minus == (sign < 0.0));
        }
    }
}

#[test]
fn the_critical_pulse_is_that_of_the_full_equation() {
    for (w, h, a, .., t1c) in BLOCKS {
        let block = Block::rectangle(w, h);
        let (mut returns, mut overturns) = (0.5 * t1c, 2.0 * t1c);
        while overturns - returns > 1e-7 {
            let t1 = 0.5 * (returns + overturns);
            match pulse(&block, a, t1, false) {
                Some(_) => returns = t1,
                None => overturns = t1,
            }
        }
        // Asked for: 1 %. Reached at 64 Hz: better than 0.001 %.
        assert!((returns / t1c - 1.0).abs() < 1e-5, "{w} x {h}: {returns} s, not {t1c}");
    }
}

#[test]
fn just_below_it_returns_with_the_published_peak_and_just_above_it_overturns() {
    // Block, t1, peak over alpha by the full equation; None overturns. The first two of each block
    // lie about the slender theory's critical pulse, which calls overturning too early.
    let outcomes = [
        (0, 0.4752, Some(0.6997)),
        (0, 0.4848, Some(0.7856)),
        (0, 0.4895, Some(0.8458)),
        (0, 0.4994, None),
        (1, 0.6836, Some(0.6201)),
        (1, 0.6974, Some(0.6865)),
        (1, 0.7178, Some(0.8368)),
        (1, 0.7323, None),
        (2, 0.4708, Some(0.7797)),
        (2, 0.4803, Some(0.9450)),
        (2, 0.4761, Some(0.8473)),
        (2, 0.4857, None),
        (3, 0.5529, Some(0.5436)),
        (3, 0.5641, Some(0.5892)),
        (3, 0.6018, Some(0.8420)),
        (3, 0.614, None),
        (4, 0.5196, Some(0.5037)),
        (4, 0.5301, Some(0.5418)),
        (4, 0.579, Some(0.8452)),
        (4, 0.5906, None),
        (5, 0.3821, Some(0.7349)),
        (5, 0.3898, Some(0.8303)),
        (5, 0.3911, Some(0.8527)),
        (5, 0.399, None),
    ];
    for (i, t1, published) in outcomes {
        let (w, h, a, ..) = BLOCKS[i];
        let block = Block::rectangle(w, h);
        for by_means in [false, true] {
            let what = format!("{w} x {h}, {t1} s, by means {by_means}");
            match (pulse(&block, a, t1, by_means), published) {
                (Some(peak), Some(p)) => {
                    assert!((peak - p).abs() < 0.01, "{what}: {peak}, not {p}");
                }
                (None, None) => {}
                (ours, _) => panic!("{what}: {ours:?}, not {published:?}"),
            }
        }
    }
}

#[test]
fn free_rocking_has_the_period_of_the_full_equation() {
    // Width, height, first lean over alpha, period without loss at impacts, s.
    for (w, h, share, period) in
        [(0.30, 1.50, 0.5, 1.700695), (0.30, 1.50, 0.9, 3.862112), (0.60, 1.80, 0.5, 1.897675)]
    {
        let mut block = Block::rectangle(w, h);
        for edge in &mut block.edges {
            edge.keeps = 1.0;
        }
        let first = share * block.edges[0].alpha;
        let mut lean = Lean { over_minus: false, angle: first, rate: 0.0 };
        // Whole ticks, and the rest of the period in one step.
        let ticks = (period / DT).floor();
        for _ in 0..ticks as u32 {
            lean.step(&block, 0.0, DT);
        }
        lean.step(&block, 0.0, period - ticks * DT);
        assert!(!lean.over_minus);
        assert!((lean.angle - first).abs() < 1e-6, "{} {first}", lean.angle);
        // At its peak the speed tells how far it is from the instant: v = -theta'' t.
        assert!(lean.rate.abs() < 1e-5, "{}", lean.rate);
    }
}

#[test]
fn each_impact_keeps_its_share_and_it_comes_to_rest() {
    let block = Block::rectangle(0.60, 1.80);
    let mut lean = Lean { over_minus: false, angle: 0.5 * 0.321751, rate: 0.0 };
    // Energy over the weight times R, and so a pure number.
    let energy = |l: &Lean| {
        let e = block.edges[0];
        l.rate * l.rate / (2.0 * e.p2) + crate::math::cos(e.alpha - l.angle)
            - crate::math::cos(e.alpha)
    };
    let (mut before, mut side, mut impacts) = (energy(&lean), false, 0);
    for _ in 0..4000 {
        lean.step(&block, 0.0, DT);
        if lean.is_standing() {
            break;
        }
        if lean.over_minus != side && lean.angle > 1e-4 {
            let kept = energy(&lean) / before;
            assert!((kept - 0.7225).abs() < 1e-6, "{kept} after impact {impacts}");
            (before, side, impacts) = (energy(&lean), lean.over_minus, impacts + 1);
        }
    }
    assert!(impacts >= 8);
    assert!(lean.is_standing());
}

#[test]
fn what_leans_too_far_is_lost_unless_it_is_pushed_back() {
    let block = Block::rectangle(0.30, 1.50);
    let lean = Lean { over_minus: false, angle: 0.2, rate: 0.01 };
    assert!(lean.is_lost(&block, 0.0));
    assert!(!lean.is_lost(&block, -3.0));
    let near = Lean { angle: 0.19, ..lean };
    assert!(!near.is_lost(&block, 0.0));
    let mut back = lean;
    for _ in 0..64 {
        back.step(&block, if back.over_minus { 0.0 } else { -3.0 }, DT);
    }
    assert!(!back.is_over());
}

#[test]
fn an_uneven_block_keeps_the_angular_momentum_about_its_new_edge() {
    // Middle of mass 0.2 m from one edge and 0.5 m from the other, 0.9 m high; of a rectangle of
    // 0.7 x 1.8 m. About the new edge: I w' = (k^2 + h^2 - b b') w, worked by hand.
    let k2 = (0.7 * 0.7 + 1.8 * 1.8) / 12.0;
    let block = Block::new([0.2, 0.5], 0.9, k2);
    let about = |b: f64| k2 + b * b + 0.81;
    let momentum = k2 + 0.81 - 0.2 * 0.5;
    assert!((block.edges[0].keeps - momentum / about(0.2)).abs() < 1e-12);
    assert!((block.edges[1].keeps - momentum / about(0.5)).abs() < 1e-12);
    assert!((block.edges[0].uplift - 0.2 / 0.9).abs() < 1e-12);
}

//! Newmark's block under a rectangular pulse (N. M. Newmark, Effects of earthquakes on dams and
//! embankments, Geotechnique 15(2), 1965): d = V^2 / (2 mu g) (1 - mu g / a). The printed form is
//! from memory; the values below were computed independently with an adaptive integrator, and
//! agree with it to 1e-13 m.

use crate::load::friction::Friction;
use crate::load::slide::Slide;
use crate::math::{G, Vec2, vec2};
use crate::time::DT;

/// mu_k, a (m/s^2), t1 (s), d (m), slip ends at (s), peak slip speed (m/s); g = 9.80665.
const ROWS: [(f64, f64, f64, f64, f64, f64); 4] = [
    (0.225, 3.0, 0.5, 0.134858106, 0.679811, 0.396752),
    (0.1125, 2.0, 1.0, 0.812828823, 1.812829, 0.896752),
    (0.375, 5.0, 0.3, 0.080914864, 0.407886, 0.396752),
    (0.15, 1.6, 1.25, 0.109621617, 1.359622, 0.161253),
];

fn same(mu: f64) -> Friction {
    Friction { at_rest: mu, sliding: mu }
}

/// Ticks of a pulse from `from` for `t1`, each cut at the pulse's ends.
fn run(mu: Friction, push: Vec2, from: f64, t1: f64) -> (Slide, f64, f64) {
    let mut slide = Slide::default();
    let (mut peak, mut ended) = (0.0_f64, 0.0);
    for tick in 0..400 {
        let (start, end) = (f64::from(tick) * DT, f64::from(tick + 1) * DT);
        let mut cuts = vec![start, end];
        cuts.extend([from, from + t1].into_iter().filter(|&t| t > start && t < end));
        cuts.sort_by(f64::total_cmp);
        for w in cuts.windows(2) {
            let inside = w[0] >= from && w[1] <= from + t1 + 1e-12;
            let felt = if inside { push } else { Vec2::default() };
            let before = slide;
            slide.step(felt, mu, w[1] - w[0]);
            peak = peak.max(slide.velocity.length());
            if before.is_moving() && !slide.is_moving() {
                // Uniform slowing down: the time to the stop follows from the speed before it.
                ended = w[0] + before.velocity.length() / (mu.sliding * G);
            }
        }
    }
    (slide, peak, ended)
}

#[test]
fn newmarks_displacement_comes_out_of_ticks() {
    for (mu, a, t1, d, ends, peak_speed) in ROWS {
        let (slide, peak, ended) = run(same(mu), vec2(a, 0.0), 0.0, t1);
        assert!((slide.offset.x - d).abs() < 1e-9, "{mu}: {}", slide.offset.x);
        assert!((peak - peak_speed).abs() < 1e-6, "{mu}: {peak}");
        assert!((ended - ends).abs() < 1e-6, "{mu}: {ended}");
        assert!(!slide.is_moving());
    }
}

#[test]
fn it_is_the_same_when_the_pulse_begins_and_ends_inside_ticks() {
    for (mu, a, t1, d, ..) in ROWS {
        for from in [0.003, 0.5 * DT, 0.1234, 0.999 * DT] {
            let (slide, ..) = run(same(mu), vec2(a, 0.0), from, t1);
            assert!((slide.offset.x - d).abs() < 1e-9, "{mu} from {from}: {}", slide.offset.x);
        }
    }
}

/// What a session knows is the mean acceleration of each tick.
fn run_by_means(mu: f64, a: f64, from: f64, t1: f64) -> f64 {
    let mut slide = Slide::default();
    for tick in 0..400 {
        let (start, end) = (f64::from(tick) * DT, f64::from(tick + 1) * DT);
        let inside = (end.min(from + t1) - start.max(from)).max(0.0);
        slide.step(vec2(a * inside / DT, 0.0), same(mu), DT);
    }
    slide.offset.x
}

#[test]
fn by_mean_accelerations_a_pulse_that_ends_inside_a_tick_is_right_to_a_millimetre() {
    for (mu, a, t1, d, ..) in ROWS {
        let by_means = run_by_means(mu, a, 0.0, t1);
        assert!((by_means - d).abs() < 1e-3, "{mu}: {by_means}");
    }
}

#[test]
fn by_mean_accelerations_a_pulse_that_begins_inside_a_tick_counts_from_the_next_at_the_latest() {
    // The mean of its first tick may stay below what sticks: then that tick is lost, and no more.
    let newmark = |mu: f64, a: f64, t1: f64| 0.5 * (a - mu * G) * t1 * t1 * a / (mu * G);
    for (mu, a, t1, d, ..) in ROWS {
        for share in [0.1, 0.4, 0.7, 0.95] {
            let by_means = run_by_means(mu, a, share * DT, t1);
            assert!(by_means < d + 1e-3, "{mu}, {share}: {by_means}");
            assert!(by_means > newmark(mu, a, t1 - DT) - 1e-3, "{mu}, {share}: {by_means}");
        }
    }
}

#[test]
fn below_the_resting_friction_nothing_slides() {
    let mu = Friction { at_rest: 0.30, sliding: 0.225 };
    // 2.94 < 0.30 g = 2.941995.
    let (slide, ..) = run(mu, vec2(2.94, 0.0), 0.0, 0.5);
    assert_eq!(slide, Slide::default());
}

#[test]
fn above_it_only_the_sliding_friction_counts() {
    let mu = Friction { at_rest: 0.30, sliding: 0.225 };
    let (slide, ..) = run(mu, vec2(2.95, 0.0), 0.0, 0.5);
    assert!((slide.offset.x - 0.124254464).abs() < 1e-9, "{}", slide.offset.x);
}

#[test]
fn every_direction_is_alike() {
    for (mu, a, t1, d, ..) in ROWS {
        for angle in [0.3, 1.9, 3.6, 5.5] {
            let (slide, ..) = run(same(mu), Vec2::from_angle(angle) * a, 0.0, t1);
            assert!((slide.offset - Vec2::from_angle(angle) * d).length() < 1e-9);
        }
    }
}

/// A fine integration of dv/dt = push - mu g v / |v|, from outside of the closed form.
fn finely(mut v: Vec2, push: Vec2, mu: f64, t: f64) -> (Vec2, Vec2) {
    let n = 200_000;
    let h = t / f64::from(n);
    let slope = |v: Vec2| push - v.normalized() * (mu * G);
    let mut way = Vec2::default();
    for _ in 0..n {
        let k1 = slope(v);
        let k2 = slope(v + k1 * (0.5 * h));
        let k3 = slope(v + k2 * (0.5 * h));
        let k4 = slope(v + k3 * h);
        way = way + (v + (k1 + k2 + k3) * (h / 6.0)) * h;
        v = v + (k1 + k2 * 2.0 + k3 * 2.0 + k4) * (h / 6.0);
    }
    (v, way)
}

#[test]
fn a_curved_slide_agrees_with_a_fine_integration() {
    // Strong and weak pushes, at every angle to the motion, fast and slow, close to turning round.
    let mu = 0.225;
    for push in [0.0, 0.7, 0.5 * mu * G, mu * G, 2.5, 4.0, 2.0 * mu * G] {
        for angle in [0.0, 0.6, 1.6, 2.8, 3.1, 3.13] {
            for speed in [0.004, 0.05, 0.4] {
                let v = vec2(speed, 0.0);
                let a = Vec2::from_angle(angle) * push;
                let mut slide = Slide { offset: Vec2::default(), velocity: v };
                slide.step(a, Friction { at_rest: 9.0, sliding: mu }, DT);
                if !slide.is_moving() {
                    continue; // the next test
                }
                let (fine, way) = finely(v, a, mu, DT);
                let what = format!("push {push} at {angle}, {speed} m/s");
                assert!((slide.velocity - fine).length() < 2e-7, "{what}: {slide:?} {fine:?}");
                assert!((slide.offset - way).length() < 1e-8, "{what}: {slide:?} {way:?}");
            }
        }
    }
}

#[test]
fn a_curved_slide_that_stops_inside_a_step_agrees_with_a_fine_integration() {
    let mu = 0.225;
    let mut stops = 0;
    for push in [0.0, 0.7, 1.5, 2.0] {
        for angle in [0.4, 1.6, 2.8, 3.1] {
            for speed in [0.004, 0.01, 0.02] {
                let (v, a) = (vec2(speed, 0.0), Vec2::from_angle(angle) * push);
                let mut slide = Slide { offset: Vec2::default(), velocity: v };
                slide.step(a, same(mu), DT);
                if slide.is_moving() {
                    continue;
                }
                // The fine one shakes about rest once it is there: its way to then is what counts.
                let (fine, way) = finely(v, a, mu, DT);
                assert!(fine.length() < 1e-5);
                assert!((slide.offset - way).length() < 1e-7, "{push} {angle} {speed}");
                stops += 1;
            }
        }
    }
    assert!(stops > 20);
}

#[test]
fn two_half_steps_are_one_step() {
    let mu = Friction { at_rest: 0.3, sliding: 0.225 };
    let start = Slide { offset: Vec2::default(), velocity: vec2(0.08, -0.03) };
    let push = vec2(-1.1, 2.9);
    let (mut once, mut twice) = (start, start);
    once.step(push, mu, DT);
    twice.step(push, mu, 0.3 * DT);
    twice.step(push, mu, 0.7 * DT);
    assert!((once.offset - twice.offset).length() < 1e-14);
    assert!((once.velocity - twice.velocity).length() < 1e-14);
}

proptest::proptest! {
    /// A crash pushes hard for a tick, and what moves may move straight against it: nothing that
    /// comes of it is ever anything but a number, and friction never adds speed beyond the push's.
    #[test]
    fn whatever_pushes_the_slide_stays_a_number(
        push in (-400f64..400.0, -400f64..400.0),
        scale in proptest::sample::select(vec![1.0, 1e-3, 0.0]),
        velocity in (-4f64..4.0, -4f64..4.0),
        shrink in proptest::sample::select(vec![1.0, 1e-6, 1e-12, 1e-200, 0.0]),
        along in proptest::bool::ANY,
    ) {
        let push = vec2(push.0, push.1 * scale);
        let velocity = if along {
            push * (velocity.0 * shrink / 400.0)
        } else {
            vec2(velocity.0, velocity.1 * shrink)
        };
        let mut slide = Slide { offset: vec2(0.0, 0.0), velocity };
        slide.step(push, Friction { at_rest: 0.3, sliding: 0.225 }, DT);
        let all = [slide.offset.x, slide.offset.y, slide.velocity.x, slide.velocity.y];
        proptest::prop_assert!(all.iter().all(|x| x.is_finite()), "{slide:?} from {velocity:?} by {push:?}");
        let most = velocity.length() + push.length() * DT;
        proptest::prop_assert!(slide.velocity.length() <= most * (1.0 + 1e-9) + 1e-12);
    }
}

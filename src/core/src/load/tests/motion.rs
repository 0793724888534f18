//! What a thing on the forks feels, against paths of points in the yard.

use super::forks;
use crate::load::friction::Friction;
use crate::load::motion::Felt;
use crate::load::slide::Slide;
use crate::math::{Vec2, vec2};
use crate::time::DT;

#[test]
fn acceleration_of_a_point_is_that_of_its_path() {
    // A truck whose point (1, 0.2) goes along a curve while its heading changes: the second
    // difference of where a point is in the yard, against the formula.
    let about = vec2(1.0, 0.2);
    let heading = |t: f64| 0.4 + 0.7 * t - 0.3 * t * t;
    let origin = |t: f64| vec2(2.0 * t + 0.5 * t * t, 0.3 * t * t * t);
    let point = vec2(-0.1, -0.5);
    let path = |t: f64| origin(t) + (point - about).rotated(heading(t));
    let (t, h) = (0.8, 1e-4);
    let second = (path(t + h) - path(t) * 2.0 + path(t - h)) * (1.0 / (h * h));
    let motion = Felt {
        acceleration: vec2(1.0, 1.8 * t).rotated(-heading(t)),
        about,
        yaw_rate: 0.7 - 0.6 * t,
        yaw_acceleration: -0.6,
        fork_height: 0.0,
    };
    let in_body = second.rotated(-heading(t));
    assert!((motion.at(point) - in_body).length() < 1e-6);
    assert_eq!(motion.felt_at(point, &forks()), motion.at(point));
}

#[test]
fn a_raised_load_sways() {
    // 1 + 1.5 (h / 0.20) on the side acceleration: typical of the trade, from memory.
    let motion = |h| Felt { acceleration: vec2(1.0, 2.0), fork_height: h, ..Felt::default() };
    for (h, factor) in [(0.0, 1.0), (0.05, 1.375), (0.20, 2.5)] {
        let felt = motion(h).felt_at(Vec2::default(), &forks());
        assert!((felt - vec2(1.0, 2.0 * factor)).length() < 1e-12);
    }
}

#[test]
fn without_friction_a_thing_goes_straight_on_in_the_yard() {
    // The truck turns on the spot about (2, 0) and speeds up; a thing without friction stays where
    // it is in the yard, and so is carried round backwards in the truck's frame.
    let (w, about) = (0.8, vec2(2.0, 0.0));
    let free = Friction { at_rest: 0.0, sliding: 0.0 };
    let mut slide =
        Slide { offset: Vec2::default(), velocity: -(Vec2::default() - about).left() * w };
    for _ in 0..64 {
        let motion = Felt { about, yaw_rate: w, ..Felt::default() };
        let push = -motion.at(slide.offset) - motion.turning(slide.velocity);
        slide.step(push, free, DT);
    }
    let expected = about + (Vec2::default() - about).rotated(-w);
    // First order in the tick: 1.6 m of way in 64 ticks.
    assert!((slide.offset - expected).length() < 0.02, "{:?} {expected:?}", slide.offset);
}

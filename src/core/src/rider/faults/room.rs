//! Speed and room: limits, corners, wet floor, sight, the rider's own body.

use super::*;
use crate::controls::Controls;
use crate::math::{G, vec2};
use crate::moment::Moment;

const BY_A_PILLAR: &[(&str, &str)] = &[("pillar-beside", "single"), ("pillar-beside", "double")];
const BOTH_ON_OPEN: &[(&str, &str)] = &[("open-floor", "single"), ("open-floor", "double")];

pub(super) const FAULTS: &[Fault] = &[
    fault(
        "forks-first",
        &["forks-first-travel"],
        side(&[("straight", "single")], (2.0, 3.0), |h, a| h.backs_up = Some((1, a))),
        side(&[("straight", "single")], (0.6, 1.2), |h, a| h.backs_up = Some((1, a))),
    ),
    fault(
        "over-speed",
        &["over-speed"],
        side(&[("laps-clockwise", "single")], (1.18, 1.26), faster),
        side(&[("laps-clockwise", "single")], (0.98, 1.03), faster),
    ),
    fault(
        "fast-corner",
        &["corner-speed"],
        side(&[("slalom", "single")], (0.26, 0.29), corner),
        side(&[("slalom", "single")], (0.11, 0.14), corner),
    ),
    fault(
        "fast-at-corners",
        &["too-fast-at-blind-spot"],
        side(&[("cross-aisles", "single")], (1.5, 2.2), |h, a| h.at_blind_spots = a),
        side(&[("cross-aisles", "single")], (0.85, 1.0), |h, a| h.at_blind_spots = a),
    ),
    fault(
        "fast-on-wet",
        &["wet-not-slowed"],
        side(&[("wet-stop", "single"), ("wet-stop", "double")], (1.7, 2.2), |h, a| h.on_wet = a),
        side(&[("wet-stop", "single"), ("wet-stop", "double")], (1.2, 1.4), |h, a| h.on_wet = a),
    ),
    fault(
        "holds-high-speed",
        &["high-speed-in-traffic"],
        side(&[("open-traffic", "single"), ("open-traffic", "double")], (11.0, 14.0), high_speed),
        side(&[("open-traffic", "single"), ("open-traffic", "double")], (26.0, 29.0), high_speed),
    ),
    fault(
        "follows-close",
        &["too-close-behind"],
        side(&[("follow", "single"), ("follow", "double")], (5.0, 8.0), |h, a| h.behind = a),
        side(&[("follow", "single"), ("follow", "double")], (9.9, 10.4), |h, a| h.behind = a),
    ),
    fault(
        "outruns-what-is-seen",
        &["outruns-sight"],
        side(BOTH_ON_OPEN, (1.05, 1.15), brake_at),
        side(BOTH_ON_OPEN, (2.2, 2.6), brake_at),
    ),
    fault(
        "brushes-a-pillar",
        &["body-gap-closing"],
        side(BY_A_PILLAR, (0.6, 0.7), beside),
        side(BY_A_PILLAR, (0.0, 0.3), beside),
    ),
    fault(
        "goes-under-a-beam",
        &["headroom"],
        side(&[("beam-beside", "single"), ("beam-beside", "double")], (1.0, 1.3), under),
        side(&[("beam-beside", "single"), ("beam-beside", "double")], (0.0, 0.3), under),
    ),
    fault(
        "drives-blind-with-a-load",
        &["load-hides-view"],
        side(&[("tall-stack", "single"), ("tall-stack", "double")], (1.2, 1.4), blind),
        side(&[("tall-stack", "single"), ("tall-stack", "double")], (0.4, 0.8), blind),
    ),
];

/// Drives at so many times the limit.
fn faster(h: &mut Habits, share: f64) {
    (h.share_of_limit, h.cruise, h.pace) = (share, 2.7, 1.0);
}

/// Takes corners at so many g.
fn corner(h: &mut Habits, g: f64) {
    (h.side_acceleration, h.high_speed, h.share_of_limit) = (g * G, true, 1.01);
    (h.cruise, h.pace) = (2.72, 1.0);
}

/// Holds the button from so far east, for as long as no speed comes of it that is too high.
fn high_speed(h: &mut Habits, from: f64) {
    let does = |c: &mut Controls, _: &Moment, _: f64| (c.throttle, c.high_speed) = (100, true);
    let when = When::Fast(1.0, from);
    h.slip = Some(Slip { when, for_s: 0.8, amount: 0.0, does, then_stops_s: None });
}

/// On towards the wall behind the box, and plugs where it is so near.
fn brake_at(h: &mut Habits, clear: f64) {
    let does = |c: &mut Controls, m: &Moment, clear: f64| {
        c.throttle = match (m.sight.clear_ahead < clear, m.truck.speed) {
            (false, v) => {
                if v < 1.35 {
                    60
                } else {
                    8
                }
            }
            (true, v) if v > 0.25 => -100,
            (true, _) => 0,
        };
    };
    let when = When::Near(vec2(46.0, 0.0), 0.5);
    h.slip = Some(Slip { when, for_s: 14.0, amount: clear, does, then_stops_s: Some(0.0) });
}

/// Passes so much nearer to a pillar than the way does.
fn beside(h: &mut Habits, aside: f64) {
    h.swerve = Some(Swerve { step: 0, near: vec2(28.0, 0.0), aside, half_length: 9.0 });
}

/// Swerves under a beam beside the way.
fn under(h: &mut Habits, aside: f64) {
    h.swerve = Some(Swerve { step: 0, near: vec2(28.0, 0.0), aside, half_length: 9.0 });
}

/// Creeps forks first for so many metres whatever is seen.
fn blind(h: &mut Habits, metres: f64) {
    (h.cruise, h.minds_sight, h.backs_up) = (0.24, false, Some((0, metres)));
}

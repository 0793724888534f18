//! Steering: cones, structures, lanes and gates.

use super::*;
use crate::controls::Controls;
use crate::math::vec2;
use crate::moment::Moment;

const fn swerve(step: usize, x: f64, y: f64, aside: f64, half_length: f64) -> Option<Swerve> {
    Some(Swerve { step, near: vec2(x, y), aside, half_length })
}

pub(super) const FAULTS: &[Fault] = &[
    fault(
        "hit-a-cone",
        &["contact-cone"],
        side(&[("slalom", "single")], (0.55, 0.65), |h, a| {
            h.swerve = swerve(0, 26.0, -1.1, a, 6.0)
        }),
        side(&[("slalom", "single")], (0.05, 0.2), |h, a| h.swerve = swerve(0, 26.0, -1.1, a, 6.0)),
    ),
    fault(
        "touches-a-wall",
        &["contact-structure"],
        side(&[("open-floor", "single"), ("open-floor", "double")], (0.18, 0.27), creep_on),
        side(&[("open-floor", "single"), ("open-floor", "double")], (0.06, 0.09), creep_on),
    ),
    fault(
        "leaves-lane",
        &["left-the-lane"],
        side(&[("straight", "single")], (1.5, 1.6), |h, a| h.swerve = swerve(1, 25.0, 0.0, a, 6.5)),
        side(&[("straight", "single")], (0.6, 0.9), |h, a| h.swerve = swerve(1, 25.0, 0.0, a, 6.5)),
    ),
    fault(
        "misses-a-gate",
        &["gate-missed"],
        side(&[("open-floor", "single"), ("open-floor", "double")], (2.8, 3.4), |h, a| {
            h.swerve = swerve(0, 20.0, 0.0, a, 12.0);
        }),
        side(&[("open-floor", "single"), ("open-floor", "double")], (0.8, 1.1), |h, a| {
            h.swerve = swerve(0, 20.0, 0.0, a, 12.0);
        }),
    ),
    fault(
        "gate-wrong-way",
        &["gate-wrong-way"],
        side(&[("laps-counter-clockwise", "single")], (0.9, 1.2), |h, a| {
            h.backs_up = Some((0, a));
        }),
        side(&[("laps-counter-clockwise", "single")], (0.2, 0.35), |h, a| {
            h.backs_up = Some((0, a));
        }),
    ),
];

/// Past the box and on, at so many m/s, until the nose meets the wall.
fn creep_on(h: &mut Habits, speed: f64) {
    let does = |c: &mut Controls, m: &Moment, a: f64| {
        c.throttle = match m.truck.speed {
            v if v < a => 16,
            v if v > a + 0.3 => -40,
            _ => 0,
        };
    };
    let when = When::Near(vec2(50.0, 0.0), 0.5);
    h.slip = Some(Slip { when, for_s: 7.0 / speed, amount: speed, does, then_stops_s: Some(0.0) });
}

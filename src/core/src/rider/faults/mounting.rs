//! Mounting: stance, contacts, stepping on and off.

use super::*;
use crate::controls::{Controls, Side};
use crate::moment::Moment;

pub(super) const FAULTS: &[Fault] = &[
    fault(
        "wrong-stance",
        &["arm-strength-turn"],
        side(&[("figure-eight", "single")], (0.0, 0.0), |h, _| h.stepping = Stepping::Never),
        side(&[("figure-eight", "single")], (0.2, 0.6), |h, a| h.steps_late = a),
    ),
    fault(
        "step-across-moving",
        &["stepped-across-moving"],
        side(&[("figure-eight", "single")], (0.0, 0.0), |h, _| h.stepping = Stepping::Rolling),
        side(&[("figure-eight", "single")], (0.26, 0.29), |h, a| h.steps_below = a),
    ),
    fault(
        "speeds-up-stepping",
        &["contact-lost"],
        side(&[("open-floor", "single"), ("open-floor", "double")], (70.0, 90.0), across),
        side(&[("open-floor", "single"), ("open-floor", "double")], (10.0, 14.0), across),
    ),
    fault(
        "steps-off-rolling",
        &["stepped-off-rolling"],
        side(&[("pick-run", "single"), ("pick-run", "double")], (0.2, 0.6), |h, a| {
            h.steps_off_below = Some(a);
        }),
        side(&[("pick-run", "single"), ("pick-run", "double")], (0.01, 0.04), |h, a| {
            h.steps_off_below = Some(a);
        }),
    ),
];

/// Steps across as the truck moves off, while the throttle asks for so many percent.
fn across(h: &mut Habits, throttle: f64) {
    let does = |c: &mut Controls, _: &Moment, a: f64| {
        (c.stance, c.throttle) = (Side::Right, a as i8);
    };
    let when = When::MovesOff;
    h.slip = Some(Slip { when, for_s: 2.0, amount: throttle, does, then_stops_s: Some(0.0) });
}

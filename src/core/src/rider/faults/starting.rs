//! Starting and stopping.

use super::*;
use crate::controls::{ArmAsk, Controls};
use crate::moment::Moment;

pub(super) const FAULTS: &[Fault] = &[
    fault(
        "snatch-throttle",
        &["throttle-snatched"],
        side(&[("straight", "single"), ("open-floor", "double")], (85.0, 100.0), |h, a| {
            h.snatches = Some(a);
        }),
        side(&[("straight", "single"), ("open-floor", "double")], (62.0, 78.0), |h, a| {
            h.snatches = Some(a);
        }),
    ),
    fault(
        "arm-as-service-brake",
        &["brake-arm-as-service", "missed-mark"],
        side(&[("straight", "single")], (0.8, 1.2), |h, a| h.stopping = Stopping::Arm(a)),
        side(&[("straight", "single")], (0.3, 0.42), |h, a| h.stopping = Stopping::Arm(a)),
    ),
    fault(
        "run-back",
        &["plugging-ran-back", "missed-mark"],
        side(&[("straight", "single")], (0.2, 0.4), |h, a| {
            h.stopping = Stopping::PluggingTooLong(a);
        }),
        side(&[("straight", "single")], (0.0, 0.02), |h, a| {
            h.stopping = Stopping::PluggingTooLong(a);
        }),
    ),
    fault(
        "plugs-hard",
        &["plugging-jerk"],
        side(&[("wrapped-stack", "single")], (90.0, 100.0), plug),
        side(&[("wrapped-stack", "single")], (30.0, 50.0), plug),
    ),
    fault(
        "late-emergency",
        &["emergency-late"],
        side(&[("emergency-stops", "single")], (1.6, 2.2), |h, a| h.reaction_s = a),
        side(&[("emergency-stops", "single")], (0.85, 1.1), |h, a| h.reaction_s = a),
    ),
    fault(
        "other-brake",
        &["other-brake-used"],
        side(&[("emergency-stops", "single")], (0.35, 0.6), |h, a| {
            (h.other_brake, h.reaction_s) = (true, a);
        }),
        side(&[("emergency-stops", "single")], (0.6, 0.9), |h, a| h.reaction_s = a),
    ),
    Fault {
        // With others the person is seen before stepping out, which is no surprise.
        seeds: Some(&[1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 12, 13, 14, 15]),
        ..fault(
            "reverses-at-a-fright",
            &["wrong-first-reaction"],
            side(&[("rack-end", "single"), ("rack-end", "double")], (66.0, 76.0), reverse),
            side(&[("rack-end", "single"), ("rack-end", "double")], (25.0, 45.0), reverse),
        )
    },
    fault(
        "starts-the-wrong-way",
        &["wrong-way-command"],
        side(&[("open-floor", "single"), ("open-floor", "double")], (1.1, 1.4), wrong_way),
        side(&[("open-floor", "single"), ("open-floor", "double")], (0.2, 0.36), wrong_way),
    ),
];

/// Full throttle up to 1.5 m/s, and from there so much throttle the other way, percent, let go before
/// the truck runs back.
fn plug(h: &mut Habits, throttle: f64) {
    let does = |c: &mut Controls, m: &Moment, a: f64| {
        let speeds_up = m.controls.throttle > 0 && m.truck.speed < 1.5;
        c.throttle = match m.truck.speed {
            _ if speeds_up => m.controls.throttle.saturating_add(2).min(100),
            v if v > 0.25 => -a as i8,
            _ => 0,
        };
    };
    let when = When::Fast(0.3, -1.0);
    h.slip = Some(Slip { when, for_s: 5.0, amount: throttle, does, then_stops_s: None });
}

/// The other direction with so much throttle until the truck begins to go there.
fn reverse(h: &mut Habits, throttle: f64) {
    let does = |c: &mut Controls, m: &Moment, a: f64| {
        let turned = m.truck.speed < -0.055;
        c.throttle = if turned { 0 } else { -a as i8 };
        c.arm = if turned { ArmAsk::LetGo } else { ArmAsk::Hold };
    };
    let when = When::StepOut(0.05);
    h.slip = Some(Slip { when, for_s: 2.8, amount: throttle, does, then_stops_s: None });
}

/// Some throttle forks first for so many seconds, before moving off.
fn wrong_way(h: &mut Habits, for_s: f64) {
    let does = |c: &mut Controls, _: &Moment, a: f64| c.throttle = -a as i8;
    let when = When::Start(0.2);
    h.slip = Some(Slip { when, for_s, amount: 25.0, does, then_stops_s: None });
}

//! Forks and load, and checks before a crossing to a vehicle.

use super::*;
use crate::controls::{Controls, Look, TillerAsk};
use crate::math::vec2;
use crate::moment::Moment;

const BAYS: &[(&str, &str)] = &[("bays", "single"), ("bays", "double")];
const LOOSE: &[(&str, &str)] = &[("loose-stack", "single")];
const LOW: &[(&str, &str)] = &[("low-stack", "single")];
const FREE_SLOPE: &[(&str, &str)] = &[("slope-free", "single"), ("slope-free", "double")];
const DOCK: &[(&str, &str)] = &[("dock-ahead", "single"), ("dock-ahead", "double")];

pub(super) const FAULTS: &[Fault] = &[
    fault(
        "forks-high",
        &["forks-high-in-travel"],
        side(&[("laps-clockwise", "single")], (0.07, 0.12), |h, a| h.forks_to = Some(a)),
        side(&[("laps-clockwise", "single")], (0.045, 0.056), |h, a| h.forks_to = Some(a)),
    ),
    fault(
        "drags-forks",
        &["forks-dragged"],
        side(&[("laps-clockwise", "single")], (0.002, 0.006), |h, a| h.forks_to = Some(a)),
        side(&[("laps-clockwise", "single")], (0.013, 0.018), |h, a| h.forks_to = Some(a)),
    ),
    fault(
        "forks-too-high-for-pallets",
        &["pallet-pushed"],
        side(BAYS, (0.028, 0.034), |h, a| h.enters_at = a),
        side(BAYS, (0.0115, 0.0135), |h, a| h.enters_at = a),
    ),
    fault(
        "sets-down-beside",
        &["set-down-off"],
        side(BAYS, (0.14, 0.18), |h, a| h.sets_down_aside = a),
        side(BAYS, (0.02, 0.06), |h, a| h.sets_down_aside = a),
    ),
    fault(
        "lifts-too-much",
        &["over-capacity"],
        side(&[("heavy-pallet", "single")], (4.0, 8.0), lift),
        side(&[("full-pallet", "single")], (4.0, 8.0), lift),
    ),
    fault(
        "shakes-the-load",
        &["corner-speed", "load-shifted"],
        side(LOW, (0.9, 1.1), |h, a| swing(h, a, 0.6)),
        side(LOW, (0.02, 0.05), |h, a| swing(h, a, 3.0)),
    ),
    fault(
        "spills-the-load",
        &["corner-speed", "load-spilled", "loose-object-run-over"],
        side(LOOSE, (1.2, 1.4), |h, a| swing(h, a, 3.0)),
        side(LOOSE, (0.02, 0.05), |h, a| swing(h, a, 3.0)),
    ),
    fault(
        "load-downhill",
        &["load-not-upgrade"],
        side(&[("ramp", "single"), ("ramp", "double")], (0.0, 0.0), |_, _| {}),
        side(&[("slope", "single"), ("slope", "double")], (0.0, 0.0), |_, _| {}),
    ),
    fault(
        "fast-on-a-slope",
        &["grade-too-fast"],
        side(FREE_SLOPE, (1.5, 2.2), |h, a| h.on_grade.0 = a),
        side(FREE_SLOPE, (0.9, 1.15), |h, a| h.on_grade.0 = a),
    ),
    fault(
        "leaves-checks-out",
        &["unchecked-crossing"],
        side(DOCK, (0.4, 0.7), |h, a| {
            (h.checks_docks, h.on_dock) = (false, a);
            let (when, does) = (When::Near(vec2(34.0, 0.0), 1.0), nothing);
            h.slip = Some(Slip { when, for_s: 0.0, amount: 0.0, does, then_stops_s: Some(0.0) });
        }),
        side(DOCK, (0.4, 0.7), |h, a| h.on_dock = a),
    ),
    fault(
        "crosses-a-plate-fast",
        &["unchecked-crossing"],
        side(DOCK, (1.0, 1.4), |h, a| h.on_dock = a),
        side(DOCK, (0.6, 0.74), |h, a| h.on_dock = a),
    ),
];

fn nothing(_: &mut Controls, _: &Moment, _: f64) {}

/// Swings the tiller to full lock at speed for so many seconds, and back.
fn swing(h: &mut Habits, for_s: f64, then_s: f64) {
    h.cruise = 2.4;
    h.pace = 1.0;
    let does = |c: &mut Controls, _: &Moment, _: f64| c.tiller = TillerAsk::Swing(100);
    let when = When::Fast(2.1, 12.0);
    h.slip = Some(Slip { when, for_s, amount: 0.0, does, then_stops_s: Some(then_s) });
}

/// Backs into the pallet straight behind, whichever that is, and holds the fork-up button for so
/// many seconds.
fn lift(h: &mut Habits, for_s: f64) {
    let does = |c: &mut Controls, m: &Moment, _: f64| {
        let (x, v, height) = (m.truck.pose.at.x, m.truck.speed, m.truck.fork_height);
        let there = x < -6.85;
        *c = Controls { look: Look::Behind, ..Controls::default() };
        c.forks_down = x > -3.2 && height > 0.0125;
        c.throttle = if c.forks_down || there || v < -0.4 { 0 } else { -25 };
        c.forks_up = there && v.abs() < 0.01;
    };
    let (when, for_s) = (When::Start(0.0), 18.0 + for_s);
    h.slip = Some(Slip { when, for_s, amount: 0.0, does, then_stops_s: Some(0.0) });
}

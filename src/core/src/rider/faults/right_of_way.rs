//! Right of way: horn, lines, people, looking, other trucks.

use super::*;
use crate::controls::Controls;
use crate::math::vec2;
use crate::moment::Moment;

const CROSS_AISLES: &[(&str, &str)] = &[("cross-aisles", "single"), ("cross-aisles", "double")];
const PERSON_AHEAD: &[(&str, &str)] = &[("person-ahead", "single"), ("person-ahead", "double")];
const PERSON_BESIDE: &[(&str, &str)] = &[("person-beside", "single"), ("person-beside", "double")];

pub(super) const FAULTS: &[Fault] = &[
    fault(
        "passes-a-truck-where-nothing-is-seen",
        &["passed-truck-hidden"],
        side(&[("passed-hidden", "single"), ("passed-hidden", "double")], (0.0, 0.0), |_, _| {}),
        side(&[("passed-clear", "single"), ("passed-clear", "double")], (0.0, 0.0), |_, _| {}),
    ),
    fault(
        "no-horn",
        &["no-horn-moving-off"],
        side(&[("emergency-stops", "single")], (0.0, 0.0), |h, _| h.horn_then_waits = None),
        side(&[("emergency-stops", "single")], (2.5, 4.0), |h, a| h.horn_then_waits = Some(a)),
    ),
    fault(
        "horn-too-early",
        &["no-horn-moving-off"],
        side(&[("open-traffic", "single"), ("open-traffic", "double")], (5.2, 9.0), |h, a| {
            h.horn_then_waits = Some(a);
        }),
        side(&[("open-traffic", "single"), ("open-traffic", "double")], (2.5, 4.2), |h, a| {
            h.horn_then_waits = Some(a);
        }),
    ),
    fault(
        "no-horn-at-corners",
        &["no-horn-at-blind-spot"],
        side(CROSS_AISLES, (0.0, 0.0), |h, _| h.horn_from = None),
        side(CROSS_AISLES, (3.5, 5.0), |h, a| h.horn_from = Some(a)),
    ),
    fault(
        "rolls-over-stop-lines",
        &["stop-line-run"],
        side(CROSS_AISLES, (0.3, 0.8), |h, a| h.rolls_over_lines = Some(a)),
        side(CROSS_AISLES, (0.8, 1.1), |h, a| h.short_of_line = a),
    ),
    fault(
        "looks-straight-on",
        &["yield-not-slowed", "not-looked-before-entry"],
        side(CROSS_AISLES, (0.0, 0.0), |h, _| h.looks = false),
        side(&[("cross-aisles", "single")], (0.76, 0.84), |h, a| h.at_yields = a),
    ),
    fault(
        "never-minds-people",
        &["person-near-miss"],
        side(PERSON_BESIDE, (0.4, 0.55), pass),
        side(PERSON_BESIDE, (-0.3, -0.1), pass),
    ),
    fault(
        "runs-somebody-down",
        &["person-struck"],
        side(PERSON_AHEAD, (0.2, 0.26), |h, a| creep_to(h, a, 0.0)),
        side(PERSON_AHEAD, (0.2, 0.26), |h, a| creep_to(h, a, 0.75)),
    ),
    fault(
        "never-gives-way",
        &["person-not-given-way"],
        side(&[("crossing-busy", "single"), ("crossing-busy", "double")], (0.0, 0.0), |h, _| {
            h.gives_way = false;
        }),
        side(&[("crossing-busy", "single"), ("crossing-busy", "double")], (0.0, 0.0), |_, _| {}),
    ),
    fault(
        "looks-away",
        &["not-looking"],
        side(&[("straight", "single")], (1.2, 1.9), |h, a| h.looks_away_s = a),
        side(&[("straight", "single")], (0.4, 0.85), |h, a| h.looks_away_s = a),
    ),
    Fault {
        // With these the other truck comes on instead of turning off or pulling over.
        seeds: Some(&[3, 7, 14]),
        ..fault(
            "never-minds-trucks",
            &["meeting-not-stopped"],
            side(&[("head-on", "single")], (0.0, 0.0), |h, _| h.minds_trucks = false),
            side(&[("head-on", "single")], (12.0, 15.0), |h, a| h.waits_from = a),
        )
    },
];

/// Passes a person who stands beside the way, so much nearer than the way is.
fn pass(h: &mut Habits, aside: f64) {
    h.gives_way = false;
    let near = vec2(24.0, 0.0);
    h.swerve = Some(Swerve { step: 0, near, aside, half_length: 9.0 });
}

/// Creeps towards a person on the way, up to so near, m.
fn creep_to(h: &mut Habits, speed: f64, gap: f64) {
    (h.cruise, h.gives_way, h.minds_sight) = (speed, false, false);
    let does = |c: &mut Controls, m: &Moment, gap: f64| {
        if m.people.iter().any(|p| p.gap < gap) {
            c.throttle = 0;
        }
    };
    h.slip = Some(Slip {
        when: When::Start(0.0),
        for_s: 40.0,
        amount: gap,
        does,
        then_stops_s: Some(0.0),
    });
}

//! Leaving the truck.

use super::*;
use crate::controls::Controls;
use crate::math::vec2;
use crate::moment::Moment;

const OPEN: &[(&str, &str)] = &[("open-floor", "single"), ("open-floor", "double")];
const QUIET: &[(&str, &str)] = &[("crossing-quiet", "single"), ("crossing-quiet", "double")];

pub(super) const FAULTS: &[Fault] = &[
    fault(
        "leaves-the-key-on",
        &["unattended"],
        side(OPEN, (31.0, 40.0), away),
        side(OPEN, (15.0, 29.0), away),
    ),
    fault(
        "leaves-the-forks-up",
        &["left-unsecured"],
        side(OPEN, (4.0, 9.0), forks_up),
        side(OPEN, (1.0, 2.5), forks_up),
    ),
    fault(
        "leaves-it-on-a-crossing",
        &["parked-in-the-way"],
        side(QUIET, (6.0, 9.0), stand),
        side(QUIET, (2.0, 4.0), stand),
    ),
];

/// Steps off at the start for so many seconds, with the forks down.
fn away(h: &mut Habits, for_s: f64) {
    let does = |c: &mut Controls, _: &Moment, _: f64| {
        (c.aboard, c.throttle) = (false, 0);
        (c.forks_up, c.forks_down) = (false, true);
    };
    h.slip = Some(Slip { when: When::Start(0.1), for_s, amount: 0.0, does, then_stops_s: None });
}

/// The same with the forks as they are for driving.
fn forks_up(h: &mut Habits, for_s: f64) {
    let does = |c: &mut Controls, _: &Moment, _: f64| (c.aboard, c.throttle) = (false, 0);
    h.slip = Some(Slip { when: When::Start(0.1), for_s, amount: 0.0, does, then_stops_s: None });
}

/// Stops on a crossing and leaves the truck in order there, for so many seconds.
fn stand(h: &mut Habits, for_s: f64) {
    let does = |c: &mut Controls, m: &Moment, _: f64| {
        c.throttle = if m.truck.speed > 0.25 { -60 } else { 0 };
        let stands = m.truck.speed.abs() < 0.02;
        (c.forks_up, c.forks_down) = (c.forks_up && !stands, stands);
        // Forks go down with the key on.
        let down = m.truck.fork_height < 0.001;
        (c.aboard, c.key_on) = (!stands, !(stands && down));
    };
    // Stopping takes about two seconds of it.
    let (when, for_s) = (When::Near(vec2(18.5, 0.0), 0.5), for_s + 2.0);
    h.slip = Some(Slip { when, for_s, amount: 0.0, does, then_stops_s: None });
}

//! The cunning: they do what looks like care, leave before it counts, or do only as much as the rules let
//! pass.

use super::*;
use crate::acts::{Act, Input};
use crate::controls::{Controls, Look};
use crate::moment::Moment;
use crate::time::{TICK_RATE, Tick};

/// Long enough for a habit to be seen many times.
const TRAFFIC: &[(&str, &str)] = &[
    ("cross-aisles", "single"),
    ("cross-aisles", "double"),
    ("pretest-circuit", "single"),
    ("laps-clockwise", "single"),
    ("figure-eight", "double"),
];
const OPEN: &[(&str, &str)] = &[
    ("open-floor", "single"),
    ("open-floor", "double"),
    ("open-traffic", "single"),
    ("open-traffic", "double"),
];
/// Something comes in the first thirty metres.
const SOON: &[(&str, &str)] = &[
    ("emergency-stops", "single"),
    ("pretest-stops", "single"),
    ("crossing-busy", "single"),
    ("crossing-busy", "double"),
    ("person-ahead", "single"),
];

/// Courses on which the limits that are gone under are met.
const EVERYWHERE: &[(&str, &str)] = &[
    ("straight", "single"),
    ("emergency-stops", "single"),
    ("laps-clockwise", "single"),
    ("figure-eight", "single"),
    ("cross-aisles", "single"),
    ("rack-end", "single"),
    ("wet-stop", "single"),
    ("bays", "single"),
    ("pretest-circuit", "single"),
];

pub(super) const ATTACKERS: &[Attacker] = &[
    bad(
        "holds-the-horn",
        TRAFFIC,
        Least::found(&["horn-misused"]).fails(&[Skill::RightOfWay]),
        as_the_model,
    )
    .with(Trick::always(never_lets_go)),
    bad(
        "swings-the-head",
        TRAFFIC,
        Least::found(&["not-looking"]).fails(&[Skill::RightOfWay]),
        as_the_model,
    )
    .with(Trick::always(swings)),
    bad(
        "reports-always",
        TRAFFIC,
        Least::found(&["false-report"]).fails(&[Skill::Checking]),
        as_the_model,
    )
    .with(Trick::always(reports)),
    bad("hops-off", OPEN, Least::found(&["left-unsecured"]).fails(&[Skill::Leaving]), as_the_model)
        .with(Trick::first(hops)),
    bad("breaks-off", SOON, Least { shows_nothing: true, ..Least::found(&[]) }, |h, _, _| {
        (h.gives_way, h.minds_sight) = (false, false)
    })
    .with(Trick::leaves(it_begins_to_count)),
    good("under-every-limit", EVERYWHERE, |h, rules, _| h.go_under(rules)),
];

/// The horn is held from the first tick to the last.
fn never_lets_go(_: &mut Memory, _: &Moment, input: &mut Input) {
    input.controls.horn = true;
}

/// Left, right and left again, half a second each, whether there is anything to see or not.
fn swings(_: &mut Memory, m: &Moment, input: &mut Input) {
    const SIDE: Tick = TICK_RATE / 2;
    input.controls.look = if (m.tick / SIDE).is_multiple_of(2) { Look::Left } else { Look::Right };
}

/// Reports something every four seconds, whatever there is.
fn reports(_: &mut Memory, m: &Moment, input: &mut Input) {
    if m.tick.is_multiple_of(4 * TICK_RATE) {
        input.acts.push(Act::Report);
    }
}

/// Before the drive: off for four seconds and on for one, ten times, with the key on and the forks up.
fn hops(_: &mut Memory, m: &Moment) -> Option<Controls> {
    const ON: Tick = TICK_RATE;
    const OFF: Tick = 4 * TICK_RATE;
    const TIMES: Tick = 10;
    if m.tick >= TIMES * (ON + OFF) {
        return None;
    }
    let aboard = m.tick % (ON + OFF) < ON;
    Some(Controls { aboard, stance: m.truck.stance, ..Controls::default() })
}

/// A signal comes, or somebody is near: what is done now would be judged.
fn it_begins_to_count(m: &Moment) -> bool {
    m.task.signal_since.is_some() || m.people.iter().any(|p| p.gap < 6.0)
}

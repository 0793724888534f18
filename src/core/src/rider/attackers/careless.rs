//! The careless: each leaves one duty out everywhere, and drives like the model otherwise.

use super::*;
use crate::acts::Input;
use crate::controls::Look;
use crate::moment::Moment;

const SIDE_WAYS: &[(&str, &str)] =
    &[("cross-aisles", "single"), ("cross-aisles", "double"), ("pretest-circuit", "single")];
const STOP_LINES: &[(&str, &str)] =
    &[("cross-aisles", "single"), ("cross-aisles", "double"), ("pretest-circuit", "single")];
/// Yards in which somebody is always in the way.
const SOMEBODY: &[(&str, &str)] = &[
    ("crossing-busy", "single"),
    ("crossing-busy", "double"),
    ("person-ahead", "single"),
    ("person-ahead", "double"),
];

pub(super) const ATTACKERS: &[Attacker] = &[
    bad(
        "never-looks",
        SIDE_WAYS,
        Least::found(&["yield-not-slowed", "not-looked-before-entry"]).fails(&[Skill::RightOfWay]),
        as_the_model,
    )
    .with(Trick::always(looks_ahead)),
    bad(
        "never-horns",
        SIDE_WAYS,
        Least::found(&["no-horn-at-blind-spot", "no-horn-moving-off"]).fails(&[Skill::RightOfWay]),
        as_the_model,
    )
    .with(Trick::always(is_silent)),
    bad(
        "never-brakes-for-people",
        SOMEBODY,
        Least { one_of: &["person-struck", "person-near-miss", "person-not-given-way"], ..NOTHING },
        |h, _, _| (h.gives_way, h.minds_sight) = (false, false),
    ),
    bad("never-stops", STOP_LINES, Least::found(&["stop-line-run"]), |h, _, _| {
        h.rolls_over_lines = Some(f64::INFINITY);
    }),
];

const NOTHING: Least = Least::found(&[]);

/// The head is never turned.
fn looks_ahead(_: &mut Memory, _: &Moment, input: &mut Input) {
    input.controls.look = Look::Ahead;
}

/// The horn is never sounded.
fn is_silent(_: &mut Memory, _: &Moment, input: &mut Input) {
    input.controls.horn = false;
}

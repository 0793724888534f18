//! The cunning: they do what looks like care, or only as much as the rules let pass.

use super::*;

/// Courses on which the limits that are gone under are met.
const EVERYWHERE: &[(&str, &str)] = &[
    ("straight", "single"),
    ("emergency-stops", "single"),
    ("laps-clockwise", "single"),
    ("figure-eight", "single"),
    ("cross-aisles", "single"),
    ("rack-end", "single"),
    ("wet-stop", "single"),
    ("doorway", "double"),
    ("bays", "single"),
    ("pretest-circuit", "single"),
];

pub(super) const ATTACKERS: &[Attacker] =
    &[good("under-every-limit", EVERYWHERE, |h, rules, _| h.go_under(rules))];

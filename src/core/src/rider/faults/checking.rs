//! The walk-round. What is the matter with a truck hangs on the seed, so most of these have seeds of their own.

use super::super::inspecting::Inspecting;
use super::*;
use crate::time::Tick;

const MORNING: &[(&str, &str)] = &[("morning", "single"), ("morning", "double")];
const PRACTICE: &[(&str, &str)] = &[("walk-round", "single")];
/// The trucks of these seeds have nothing, in practice and in the morning.
const SOUND: &[u32] = &[1, 2];

pub(super) const FAULTS: &[Fault] = &[
    // So long a look, ticks: two more pass until the next one begins.
    Fault {
        seeds: Some(SOUND),
        ..fault(
            "glances-at-points",
            &["not-checked"],
            side(MORNING, (8.0, 29.0), |h, n| h.inspects = Inspecting::Looks(n as Tick)),
            side(MORNING, (30.0, 45.0), |h, n| h.inspects = Inspecting::Looks(n as Tick)),
        )
    },
    Fault {
        seeds: Some(SOUND),
        ..fault(
            "leaves-points-out",
            &["not-checked"],
            side(MORNING, (2.0, 12.9), |h, n| h.inspects = Inspecting::LeavesOut(n as usize)),
            whole(MORNING),
        )
    },
    Fault {
        seeds: Some(SOUND),
        ..fault(
            "signs-without-looking",
            &["not-checked"],
            side(MORNING, (0.0, 0.0), |h, _| h.inspects = Inspecting::LooksAtNothing),
            whole(MORNING),
        )
    },
    // An open cover and forks that sink; an oily mat after a missing screw.
    Fault {
        seeds: Some(&[18, 36]),
        ..fault(
            "stops-at-the-first-find",
            &["defect-missed", "not-checked"],
            side(PRACTICE, (0.0, 0.0), |h, _| h.inspects = Inspecting::StopsAtTheFirst),
            whole(PRACTICE),
        )
    },
    Fault {
        seeds: Some(SOUND),
        ..fault(
            "calls-everything-faulty",
            &["false-report", "tagged-out-sound"],
            side(PRACTICE, (0.0, 0.0), |h, _| h.inspects = Inspecting::CallsAllFaulty),
            whole(PRACTICE),
        )
    },
    // The upper brake is dead, and who never tries it does not know.
    Fault {
        seeds: Some(&[12]),
        ..fault(
            "tries-nothing",
            &["defect-missed", "not-checked"],
            side(PRACTICE, (0.0, 0.0), |h, _| h.inspects = Inspecting::TriesNothing),
            whole(PRACTICE),
        )
    },
    // A bent fork shows from the tips alone.
    Fault {
        seeds: Some(&[7]),
        ..fault(
            "looks-from-one-side",
            &["defect-missed"],
            side(PRACTICE, (0.0, 0.0), |h, _| h.inspects = Inspecting::OneSide),
            whole(PRACTICE),
        )
    },
    // A dead gauge, seen and not said.
    Fault {
        seeds: Some(&[6]),
        ..fault(
            "keeps-it-quiet",
            &["defect-missed"],
            side(PRACTICE, (0.0, 0.0), |h, _| h.inspects = Inspecting::KeepsQuiet),
            whole(PRACTICE),
        )
    },
    // A loose grab bar, found, reported, and taken out all the same.
    Fault {
        seeds: Some(&[32]),
        ..fault(
            "takes-a-bad-truck",
            &["bad-truck-taken"],
            side(&[("morning", "single")], (0.0, 0.0), |h, _| {
                h.inspects = Inspecting::TakesItAnyway;
            }),
            whole(&[("morning", "single")]),
        )
    },
    Fault {
        seeds: Some(SOUND),
        ..fault(
            "tags-out-every-truck",
            &["tagged-out-sound"],
            side(MORNING, (0.0, 0.0), |h, _| h.inspects = Inspecting::TagsOutAll),
            whole(MORNING),
        )
    },
    Fault {
        seeds: Some(SOUND),
        ..fault(
            "touches-the-settings",
            &["speed-settings-touched"],
            side(MORNING, (0.0, 0.0), |h, _| h.inspects = Inspecting::TouchesSettings),
            whole(MORNING),
        )
    },
];

/// The near side: every point, as long as counts and from every side.
const fn whole(on: &'static [(&'static str, &'static str)]) -> LimitSide {
    side(on, (30.0, 31.0), |h, n| h.inspects = Inspecting::Looks(n as Tick))
}

//! What is painted on the floor: stop lines, crossings, docks.

use coneyard_core::math::Vec2;
use coneyard_core::time::DT;

use crate::notes::{Kind, Notes};
use crate::people::moved;
use crate::seen::{Fixed, Seen};
use crate::shapes::{Shape, goes_over};

/// Faster than this over a stop line is not stopping at all, m/s; known to that.
const RUNS: f64 = 1.0;
const RUNS_ERROR: f64 = 0.05;

pub(crate) fn look(
    fixed: &Fixed,
    (before, here): (&Seen, &Seen),
    (parts_before, parts): (&[Shape], &[Shape]),
    notes: &mut Notes,
) {
    stop_lines(fixed, before, here, notes);
    crossings(fixed, (before, here), (parts_before, parts), notes);
    docks(fixed, here, parts, notes);
}

fn stop_lines(fixed: &Fixed, before: &Seen, here: &Seen, notes: &mut Notes) {
    for end in fixed.truck.ends {
        let way = [before.truck.to_yard(end), here.truck.to_yard(end)];
        let step = way[1] - way[0];
        let outwards = way[1] - here.truck.to_yard(fixed.truck.wheels[0] * 0.5);
        // The end that follows goes over every line that the other one was led over.
        if step.dot(outwards) <= 0.0 {
            continue;
        }
        for (i, line) in &fixed.stop_lines {
            let through = (line[1] - line[0]).left();
            let speed = step.length() / DT;
            if speed > RUNS - RUNS_ERROR && step.dot(through) > 0.0 && goes_over(way, *line) {
                notes.add(Kind::StopLineRun, *i, here.tick, (speed, speed > RUNS + RUNS_ERROR));
            }
        }
    }
}

fn crossings(
    fixed: &Fixed,
    (before, here): (&Seen, &Seen),
    (parts_before, parts): (&[Shape], &[Shape]),
    notes: &mut Notes,
) {
    for (i, area) in fixed.crossings.iter().enumerate() {
        if !is_on(parts, area) || is_on(parts_before, area) {
            continue;
        }
        let on = |seen: &Seen, who: u32| {
            let at = seen.people.iter().find(|(other, _)| *other == who).map(|(_, at)| *at);
            at.is_some_and(|at: Vec2| area.holds(at))
        };
        if here.people.iter().any(|(who, _)| on(here, *who)) {
            let sure = here.people.iter().any(|(who, _)| on(here, *who) && on(before, *who));
            let middle = here.truck.to_yard(fixed.truck.wheels[0] * 0.5);
            let speed = moved(before.truck, here.truck, middle).length() / DT;
            notes.add(Kind::CrossingTaken, i as u32, here.tick, (speed, sure));
        }
    }
}

fn docks(fixed: &Fixed, here: &Seen, parts: &[Shape], notes: &mut Notes) {
    for i in &here.unsafe_docks {
        let Some(area) = fixed.docks.get(*i as usize) else { continue };
        if is_on(parts, area) {
            let wheels = fixed.truck.wheels.iter().map(|w| here.truck.to_yard(*w));
            let sure = wheels.into_iter().any(|w| area.holds(w));
            notes.add(Kind::UnsafeDock, *i, here.tick, (1.0, sure));
        }
    }
}

fn is_on(parts: &[Shape], area: &Shape) -> bool {
    parts.iter().any(|p| p.meets(area))
}

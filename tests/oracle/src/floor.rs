//! What is painted on the floor: stop lines, crossings, docks.

use std::collections::BTreeSet;

use coneyard_core::math::Vec2;
use coneyard_core::time::DT;

use crate::notes::{Kind, Notes};
use crate::people::moved;
use crate::seen::{Fixed, Seen};
use crate::shapes::{Shape, distance_to, goes_over};

/// Faster than this over a stop line is not stopping at all, m/s; known to that.
const RUNS: f64 = 1.0;
const RUNS_ERROR: f64 = 0.05;
/// Who stood this near to it, m, at no more than this, m/s, stopped for it; known to these.
const STOOD_WITHIN: f64 = 1.5;
const STOOD_WITHIN_ERROR: f64 = 0.05;
const STANDS: f64 = 0.05;
const STANDS_ERROR: f64 = 0.01;

/// Slower than this a truck that stands only leans onto a crossing, m/s.
const MOVES: f64 = 0.1;

/// Before which lines, by end of the truck and number of the line, it stood.
pub(crate) type Stood = BTreeSet<(usize, u32)>;

pub(crate) fn look(
    fixed: &Fixed,
    (before, here): (&Seen, &Seen),
    (parts_before, parts): (&[Shape], &[Shape]),
    (stood, notes): (&mut Stood, &mut Notes),
) {
    stop_lines(fixed, before, here, (stood, notes));
    crossings(fixed, (before, here), (parts_before, parts), notes);
    docks(fixed, here, parts, notes);
}

fn stop_lines(fixed: &Fixed, before: &Seen, here: &Seen, (stood, notes): (&mut Stood, &mut Notes)) {
    // A truck stands though its end still swings a little.
    let axle = (here.truck.at - before.truck.at).length() / DT;
    for (e, end) in fixed.truck.ends.into_iter().enumerate() {
        let way = [before.truck.to_yard(end), here.truck.to_yard(end)];
        let step = way[1] - way[0];
        let speed = step.length() / DT;
        let outwards = way[1] - here.truck.to_yard(fixed.truck.wheels[0] * 0.5);
        // The end that follows goes over every line that the other one was led over.
        let leads = step.dot(outwards) > 0.0;
        for (i, line) in &fixed.stop_lines {
            let through = (line[1] - line[0]).left();
            if leads
                && speed > RUNS - RUNS_ERROR
                && step.dot(through) > 0.0
                && goes_over(way, *line)
            {
                let sure = speed > RUNS + RUNS_ERROR && !stood.contains(&(e, *i));
                notes.add(Kind::StopLineRun, *i, here.tick, (speed, sure));
            }
            if distance_to(way[1], *line) > STOOD_WITHIN + STOOD_WITHIN_ERROR {
                stood.remove(&(e, *i));
            } else if speed.min(axle) < STANDS + STANDS_ERROR {
                stood.insert((e, *i));
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
            notes.add(Kind::CrossingTaken, i as u32, here.tick, (speed, sure && speed > MOVES));
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

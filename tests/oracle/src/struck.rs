//! What the truck drives into: structures, other trucks, cases on the floor.

use coneyard_core::math::{Pose, Vec2};

use crate::closing::{Meeting, meets};
use crate::notes::{Kind, Notes};
use crate::seen::{Fixed, Seen};
use crate::shapes::{Motion, Shape};

/// Slower than this is leaning on it, m/s; faster than that is hard.
pub(crate) const STRIKES: f64 = 0.1;
pub(crate) const HARD: f64 = 1.0;
/// The speed is that of the tick before: within a tick the strongest brake takes off so much, m/s (3 m/s^2
/// and a little).
pub(crate) const ERROR: f64 = 0.06;
/// And spares so much of the way, m.
const SPARED: f64 = 0.0006;

/// Looks at two ticks that follow each other, and says what is met in the next.
pub(crate) fn look(
    fixed: &Fixed,
    (before, here): (&Seen, &Seen),
    parts: &[Shape],
    notes: &mut Notes,
) {
    let own = Motion::of(before.truck, here.truck);
    // No point of truck or load is farther from the axle than this, m.
    let most = 1.2 * own.most(6.0);
    let near = |thing: &Shape, moves: f64| {
        parts.iter().any(|p| p.apart_at_least(thing) <= most + moves + 0.001)
    };
    let way = (before.truck, here.truck);
    if most > 1e-6 {
        for (i, thing) in &fixed.solid {
            if near(thing, 0.0)
                && let Some(met) = meets(parts, way, |_| thing.clone())
            {
                note(&met, *i, here, notes);
            }
        }
        for (i, (pose, size)) in here.cases.iter().enumerate() {
            let case = Shape::rectangle(*pose, *size);
            if near(&case, 0.0)
                && let Some(met) = meets(parts, way, |_| case.clone())
            {
                let sure = met.speed > STRIKES + ERROR && met.depth > SPARED;
                if met.speed > STRIKES - ERROR {
                    notes.add(Kind::CaseRunOver, i as u32, here.tick + 1, (met.speed, sure));
                }
            }
        }
    }
    for (i, pose) in &here.others {
        let Some(size) = fixed.others.get(*i as usize) else { continue };
        let was = before.others.iter().find(|(j, _)| j == i).map_or(*pose, |(_, was)| *was);
        let its = Motion::of(was, *pose);
        if near(&Shape::rectangle(*pose, *size), 1.2 * its.most(size.length()))
            && let Some(met) = meets(parts, way, |t| at(&its, t, *size))
        {
            note(&met, OTHERS + i, here, notes);
        }
    }
}

/// Other trucks are numbered from here on, behind all structures.
pub(crate) const OTHERS: u32 = 1000;

fn at(its: &Motion, ticks: f64, size: Vec2) -> Shape {
    let pose: Pose = its.at(ticks);
    Shape::rectangle(pose, size)
}

fn note(met: &Meeting, whom: u32, here: &Seen, notes: &mut Notes) {
    // What is met in the next tick is known by then.
    let tick = here.tick + 1;
    for (kind, limit) in [(Kind::Struck, STRIKES), (Kind::StruckHard, HARD)] {
        if met.speed > limit - ERROR {
            let sure = met.speed > limit + ERROR && met.depth > SPARED;
            notes.add(kind, whom, tick, (met.speed, sure));
        }
    }
}

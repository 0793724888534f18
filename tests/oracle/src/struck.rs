//! What the truck drives into: structures, other trucks, cases on the floor.

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
    // No point of truck or load goes farther, all of them being nearer to the axle than 6 m.
    let most = 1.2 * own.most(6.0) + 0.001;
    let way = (before.truck, here.truck);
    for (i, thing) in &fixed.solid {
        let met = parts.iter().any(|p| p.apart_at_least(thing) <= most);
        if met && let Some(met) = meets(parts, way, most, |_| thing.clone()) {
            note(&met, *i, here, notes);
        }
    }
    for (i, (pose, size)) in here.cases.iter().enumerate() {
        let case = Shape::rectangle(*pose, *size);
        if let Some(met) = meets(parts, way, most, |_| case.clone())
            && met.speed > STRIKES - ERROR
        {
            let sure = met.speed > STRIKES + ERROR && met.depth > SPARED;
            notes.add(Kind::CaseRunOver, i as u32, here.tick + 1, (met.speed, sure));
        }
    }
    for (i, pose) in &here.others {
        let Some(size) = fixed.others.get(*i as usize) else { continue };
        let was = before.others.iter().find(|(j, _)| j == i).map_or(*pose, |(_, was)| *was);
        let its = Motion::of(was, *pose);
        let together = most + 1.2 * its.most(size.length());
        if let Some(met) = meets(parts, way, together, |t| Shape::rectangle(its.at(t), *size)) {
            note(&met, OTHERS + i, here, notes);
        }
    }
}

/// Other trucks are numbered from here on, behind all structures.
pub(crate) const OTHERS: u32 = 1000;

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

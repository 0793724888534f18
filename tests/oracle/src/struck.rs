//! What the truck drives into: structures, other trucks, cases on the floor.

use coneyard_core::math::{Vec2, vec2};

use crate::closing::{AROUND, Meeting, NEXT, meets};
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
    let most = 1.1 * own.most(6.0) + 0.001;
    let way = (before.truck, here.truck);
    for (i, thing) in &fixed.solid {
        let met = parts.iter().any(|p| p.apart_at_least(thing) <= most);
        if met && let Some(met) = meets(parts, way, (NEXT, most), |_| thing.clone()) {
            note(&met, *i, here, notes, || {
                BESIDE.map(|by| meets(parts, way, (AROUND, most + 0.01), |_| thing.beside(by)))
            });
        }
    }
    for (i, (pose, size)) in here.cases.iter().enumerate() {
        let case = Shape::rectangle(*pose, *size);
        if let Some(met) = meets(parts, way, (NEXT, most), |_| case.clone())
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
        let together = most + 1.1 * its.most(size.length());
        if let Some(met) =
            meets(parts, way, (NEXT, together), |t| Shape::rectangle(its.at(t), *size))
        {
            note(&met, OTHERS + i, here, notes, || {
                let thing = |t, by| Shape::rectangle(its.at(t), *size).beside(by);
                BESIDE.map(|by| meets(parts, way, (AROUND, together + 0.01), |t| thing(t, by)))
            });
        }
    }
}

/// Other trucks are numbered from here on, behind all structures.
pub(crate) const OTHERS: u32 = 1000;

/// How fast a corner is driven into hangs on which side of it is met, which some millimetres decide: a
/// blow is hard for sure when it is with the thing moved by so much.
const BESIDE: [Vec2; 4] =
    [vec2(0.005, 0.0), vec2(-0.005, 0.0), vec2(0.0, 0.005), vec2(0.0, -0.005)];

fn note(
    met: &Meeting,
    whom: u32,
    here: &Seen,
    notes: &mut Notes,
    beside: impl FnOnce() -> [Option<Meeting>; 4],
) {
    // What is met in the next tick is known by then.
    let tick = here.tick + 1;
    if met.speed > STRIKES - ERROR {
        let sure = met.speed > STRIKES + ERROR && met.depth > SPARED;
        notes.add(Kind::Struck, whom, tick, (met.speed, sure));
    }
    // Only what is met at some speed can be hard on another side.
    if met.speed > 0.3 * HARD {
        let speeds = beside().map(|m| m.map_or(0.0, |m| m.speed));
        let least = speeds.iter().copied().fold(met.speed, f64::min);
        let most = speeds.iter().copied().fold(met.speed, f64::max);
        if most > HARD - ERROR {
            let sure = least > HARD + ERROR && met.depth > SPARED;
            notes.add(Kind::StruckHard, whom, tick, (most, sure));
        }
    }
}

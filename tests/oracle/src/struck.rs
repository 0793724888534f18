//! What the truck drives into: structures, other trucks, cases on the floor.

use coneyard_core::math::{Vec2, vec2};

use crate::closing::{AROUND, Meeting, NEXT, meets};
use crate::notes::{Kind, Notes};
use crate::seen::{Fixed, Seen};
use crate::shapes::{Motion, Shape};

/// Slower than this is leaning on it, m/s; faster than that is hard.
pub(crate) const STRIKES: f64 = 0.1;
pub(crate) const HARD: f64 = 1.0;
/// A load on the forks is set against a wall no faster than this, m/s.
const LOAD_STRIKES: f64 = 0.3;
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
    let ahead = (here.truck.at - before.truck.at).normalized();
    for (i, thing) in &fixed.solid {
        let near = parts.iter().any(|p| p.apart_at_least(thing) <= most);
        let of = |parts: &[Shape], (ticks, most), by| {
            meets(parts, way, (ticks, most), |_| thing.beside(by))
        };
        if near {
            note((parts, most), (thing, before), here, (*i, notes), of);
        }
    }
    for (i, (pose, size)) in here.cases.iter().enumerate() {
        let case = Shape::rectangle(*pose, *size);
        let of = |(ticks, most), by| meets(parts, way, (ticks, most), |_| case.beside(by));
        if let Some(met) = of((NEXT, most), Vec2::default())
            && met.speed > STRIKES - ERROR
        {
            // Some millimetres to either side decide whether a corner is caught.
            let across = ahead.left() * ACROSS;
            let mut beside = [across, -across].into_iter().map(|by| of((AROUND, most + 0.01), by));
            // What lies between the forks or under the truck is not met by whatever goes on over it.
            let farther = case.beside(ahead * FARTHER);
            let sure = met.depth > SPARED
                && parts.iter().all(|p| !p.meets(&farther))
                && met.speed > STRIKES + ERROR
                && beside.all(|m| m.is_some_and(|m| m.speed > STRIKES + ERROR));
            notes.add(Kind::CaseRunOver, i as u32, here.tick + 1, (met.speed, sure));
        }
    }
    for (i, pose) in &here.others {
        let Some(size) = fixed.others.get(*i as usize) else { continue };
        let was = before.others.iter().find(|(j, _)| j == i).map_or(*pose, |(_, was)| *was);
        let its = Motion::of(was, *pose);
        let together = most + 1.1 * its.most(size.length());
        let thing = |t, by| Shape::rectangle(its.at(t), *size).beside(by);
        let of =
            |parts: &[Shape], (ticks, most), by| meets(parts, way, (ticks, most), |t| thing(t, by));
        let now = thing(0.0, Vec2::default());
        note((parts, together), (&now, before), here, (OTHERS + i, notes), of);
    }
}

/// Other trucks are numbered from here on, behind all structures.
pub(crate) const OTHERS: u32 = 1000;

/// How fast a corner is driven into hangs on which side of it is met, which some millimetres decide: a
/// blow is hard for sure when it is with the thing moved by so much.
const BESIDE: [Vec2; 4] =
    [vec2(0.005, 0.0), vec2(-0.005, 0.0), vec2(0.0, 0.005), vec2(0.0, -0.005)];

/// Whether a corner catches a case hangs on so much to either side, m.
const ACROSS: f64 = 0.005;
/// What is come at head on is free when it lies so much farther on, m.
const FARTHER: f64 = 0.02;

/// Nearer than this, m, something is slid along.
const SLIDES: f64 = 0.001;

/// Parts of the truck itself; the load comes behind them.
const TRUCK_PARTS: usize = 3;

/// Looks at whatever `of` says is met by these parts within these ticks, none of which goes farther in one
/// than so many metres, with the thing moved by so much.
fn note(
    (parts, most): (&[Shape], f64),
    (thing, before): (&Shape, &Seen),
    here: &Seen,
    (whom, notes): (u32, &mut Notes),
    of: impl Fn(&[Shape], ([f64; 2], f64), Vec2) -> Option<Meeting>,
) {
    let Some(met) = of(parts, (NEXT, most), Vec2::default()) else { return };
    // What is met in the next tick is known by then.
    let tick = here.tick + 1;
    // A load is pressed into what it slides along; the corner at the end of that is not driven into.
    let pressed = BESIDE.iter().all(|by| parts.iter().any(|p| p.meets(&thing.beside(*by))));
    let deep = met.depth > SPARED && !pressed;
    if met.speed > STRIKES - ERROR {
        let truck = of(&parts[..TRUCK_PARTS], (NEXT, most), Vec2::default());
        let sets_down = truck.is_none_or(|m| m.speed <= STRIKES + ERROR);
        let strikes = if sets_down { LOAD_STRIKES } else { STRIKES };
        // What slides along a thing is caught by it for sure where some millimetres change nothing.
        let was = |p: &Shape| p.carried(here.truck, before.truck).apart(thing) < SLIDES;
        let slides = parts.iter().any(was);
        let caught = |by: &Vec2| {
            of(parts, (AROUND, most + 0.01), *by).is_some_and(|m| m.speed > strikes + ERROR)
        };
        let sure = met.speed > strikes + ERROR && deep && (!slides || BESIDE.iter().all(caught));
        notes.add(Kind::Struck, whom, tick, (met.speed, sure));
    }
    // Only what is met at some speed can be hard on another side.
    if met.most > 0.3 * HARD {
        let beside = BESIDE.map(|by| of(parts, (AROUND, most + 0.01), by));
        let least = beside.iter().map(|m| m.map_or(0.0, |m| m.speed)).fold(met.speed, f64::min);
        let most = beside.iter().flatten().map(|m| m.most).fold(met.most, f64::max);
        if most > HARD - ERROR {
            notes.add(Kind::StruckHard, whom, tick, (most, least > HARD + ERROR && deep));
        }
    }
}

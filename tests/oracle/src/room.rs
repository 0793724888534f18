//! The way that is free straight ahead, against the way that a stop takes.

use coneyard_core::math::{Vec2, vec2};
use coneyard_core::time::{DT, Tick};

use crate::notes::{Kind, Note, Notes};
use crate::people::RADIUS;
use crate::seen::{Fixed, Seen};
use crate::shapes::Shape;
use crate::struck::ERROR;

/// The strongest brake on the best floor, m/s^2.
pub(crate) const BRAKES: f64 = 3.0;
/// Slower than this there is always room, m/s.
const SLOW: f64 = 0.3;
/// Looked back from a contact so far, ticks.
const BACK: usize = 128;

/// Which way the truck goes, as a unit vector, and how fast, m/s.
fn motion(before: &Seen, here: &Seen) -> Option<(Vec2, f64)> {
    let heading = Vec2::from_angle(here.truck.heading);
    let along = (here.truck.at - before.truck.at).dot(heading) / DT;
    (along.abs() > SLOW).then(|| (heading * along.signum(), along.abs()))
}

/// How far truck and load can go straight on before they meet a person, a structure or another truck, m;
/// looked at up to `most`.
pub(crate) fn free_way(fixed: &Fixed, here: &Seen, ahead: Vec2, most: f64) -> f64 {
    let parts = fixed.parts(here);
    // Along and across, seen from the axle.
    let turned = |p: &Vec2| {
        let d = *p - here.truck.at;
        vec2(ahead.dot(d), ahead.cross(d))
    };
    let own: Vec<Vec2> = parts.iter().flat_map(|p| p.corners().iter().map(turned)).collect();
    let of =
        |f: fn(f64, f64) -> f64, start: f64, v: fn(&Vec2) -> f64| own.iter().map(v).fold(start, f);
    let front = of(f64::max, f64::NEG_INFINITY, |p| p.x);
    let (right, left) =
        (of(f64::min, f64::INFINITY, |p| p.y), of(f64::max, f64::NEG_INFINITY, |p| p.y));
    let lane = [
        vec2(front, right),
        vec2(front + most, right),
        vec2(front + most, left),
        vec2(front, left),
    ];
    let back = |p: &Vec2| here.truck.at + ahead * p.x + ahead.left() * p.y;
    let lane = Shape::new(&lane.iter().map(back).collect::<Vec<_>>());
    let moving = here
        .others
        .iter()
        .filter_map(|(i, pose)| Some(Shape::rectangle(*pose, *fixed.others.get(*i as usize)?)));
    let things = fixed.solid.iter().map(|(_, s)| s.clone()).chain(moving);
    let to_things = things.filter(|s| s.meets(&lane)).map(|s| {
        let front_of = Shape::new(&[
            back(&vec2(front, right)),
            back(&vec2(front, left)),
            back(&vec2(front - 0.001, right)),
        ]);
        s.apart(&front_of)
    });
    let to_people = here.people.iter().filter_map(|(_, at)| {
        let p = turned(at);
        let beside = (right - RADIUS..=left + RADIUS).contains(&p.y);
        let way = p.x - front - RADIUS;
        (beside && p.x > front - RADIUS && way < most).then_some(way.max(0.0))
    });
    to_things.chain(to_people).fold(most, f64::min)
}

/// Before each contact, for how long the truck went faster than it could have stopped.
pub(crate) fn before_contacts(
    fixed: &Fixed,
    history: &[Seen],
    touches: &[Note],
    notes: &mut Notes,
) {
    let index = |tick: Tick| history.partition_point(|s| s.tick < tick);
    let hard = touches.iter().filter(|n| match n.kind {
        Kind::PersonTouched => true,
        Kind::Struck => n.measure > SLOW + ERROR,
        _ => false,
    });
    for contact in hard.filter(|n| n.sure) {
        let last = index(contact.from).saturating_sub(1);
        for i in (last.saturating_sub(BACK)..=last).rev() {
            let Some((before, here)) =
                i.checked_sub(1).and_then(|b| Some((history.get(b)?, history.get(i)?)))
            else {
                break;
            };
            let Some((ahead, speed)) = motion(before, here) else { break };
            let stops = speed * speed / (2.0 * BRAKES);
            if free_way(fixed, here, ahead, stops + 0.1) >= stops {
                break;
            }
            notes.add(Kind::NoRoom, contact.whom, contact.from, (speed, true));
            notes.add(Kind::NoRoom, contact.whom, here.tick, (speed, true));
        }
    }
}

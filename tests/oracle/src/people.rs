//! People on foot: who is touched, and who is passed too near.

use std::collections::BTreeMap;

use coneyard_core::math::{Pose, Vec2};
use coneyard_core::time::DT;

use crate::notes::{Kind, Notes};
use crate::seen::Seen;
use crate::shapes::Shape;

/// Half the shoulder breadth of a large adult, m (as the yard has it).
pub(crate) const RADIUS: f64 = 0.25;
/// Moved so far into somebody in a touch, m, is a person struck; known to that.
const INTO: f64 = 0.020;
const INTO_ERROR: f64 = 0.004;
/// Nearer than this, m, and faster than that, m/s, is passed too near; known to these.
const NEAR: f64 = 0.2;
const NEAR_ERROR: f64 = 0.001;
const FAST: f64 = 0.5;
const FAST_ERROR: f64 = 0.05;
/// Cosine of 45 degrees.
const LEAVES: f64 = core::f64::consts::FRAC_1_SQRT_2;
/// A gap of so much is none, m: places are known to some micrometres.
pub(crate) const NONE: f64 = 1e-5;

/// How truck and load stand to one person.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Near {
    /// Clear distance, m; 0 in a touch.
    pub(crate) gap: f64,
    /// How deep they would be in the outline if they were not people but discs, m; 0 outside.
    pub(crate) depth: f64,
    /// The place of truck and load that is nearest, yard frame.
    pub(crate) place: Vec2,
}

pub(crate) fn near(parts: &[Shape], person: Vec2) -> Near {
    let mut best = (f64::INFINITY, person);
    for part in parts {
        if part.to_point_at_least(person) < best.0 {
            let away = part.to_point(person);
            if away < best.0 {
                best = (away, part.nearest_to(person));
            }
        }
    }
    let (away, place) = best;
    Near { gap: (away - RADIUS).max(0.0), depth: (RADIUS - away).max(0.0), place }
}

/// How far a place of the truck has come since the tick before, m.
pub(crate) fn moved(before: Pose, here: Pose, place: Vec2) -> Vec2 {
    place - before.to_yard(here.to_body(place))
}

/// Who is touched now, and how far the truck has moved into them since it began.
#[derive(Clone, Debug, Default)]
pub(crate) struct People {
    touched: BTreeMap<u32, f64>,
}

impl People {
    pub(crate) fn look(
        &mut self,
        (before, here): (&Seen, &Seen),
        parts: &[Shape],
        notes: &mut Notes,
    ) {
        for (who, at) in &here.people {
            if parts.iter().all(|p| p.to_point_at_least(*at) > RADIUS + NEAR + NEAR_ERROR) {
                self.touched.remove(who);
                continue;
            }
            let near = near(parts, *at);
            let way = moved(before.truck, here.truck, near.place);
            let speed = way.length() / DT;
            let to = *at - near.place;
            // Who drives away from somebody, within 45 degrees, does not pass them.
            let leaves = way.dot(to.normalized()) < -LEAVES * way.length();
            if near.gap < NEAR + NEAR_ERROR && speed > FAST - FAST_ERROR && !leaves {
                let sure = near.gap < NEAR - NEAR_ERROR && speed > FAST + FAST_ERROR;
                notes.add(Kind::PersonPassed, *who, here.tick, (speed, sure));
            }
            if near.gap > NONE {
                self.touched.remove(who);
                continue;
            }
            // Where the person's middle is under the truck, all of its way goes over them.
            let into = if to.length() > 0.0 { way.dot(to.normalized()) } else { way.length() };
            let into = into.max(0.0);
            // Of the tick in which it began only what lies behind the touch counts.
            let so_far = self.touched.get(who).map_or(into.min(near.depth), |so_far| so_far + into);
            self.touched.insert(*who, so_far);
            if so_far > INTO - INTO_ERROR {
                let sure = so_far > INTO + INTO_ERROR;
                notes.add(Kind::PersonTouched, *who, here.tick, (so_far, sure));
            }
        }
    }
}

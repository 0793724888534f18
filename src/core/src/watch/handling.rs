//! Taking loads up and setting them down.

use std::collections::BTreeMap;

use crate::finding::Unit;
use crate::math::DEG;
use crate::moment::{CourseEvent, Moment};
use crate::rules::Yardstick;
use crate::rules::over;
use crate::watch::spell::{Seen, Spell};
use crate::watch::spells::Spells;
use crate::watch::{Report, Watcher};

struct OverCapacity {
    y: Yardstick,
    spell: Spell,
}

/// More on the forks, or to be raised, than the plate allows.
pub(super) fn over_capacity(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(OverCapacity { y, spell: Spell::new(Unit::Share, 0.0) })
}

impl Watcher for OverCapacity {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let load = &m.load;
        let mass = load.refused.unwrap_or(load.mass);
        let over = load.capacity > 0.0 && mass > load.capacity;
        let seen = over.then(|| Seen::of(mass / load.capacity, 1.0, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

struct Pushed {
    y: Yardstick,
    limit: f64,
    spells: Spells,
}

/// A pallet on the floor was pushed.
pub(super) fn pushed(y: Yardstick) -> Box<dyn Watcher> {
    let limit = y.limit("distance");
    Box::new(Pushed { y, limit, spells: Spells::new(Unit::Metre, 0.0) })
}

impl Watcher for Pushed {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let far = m.load.pushed.filter(|(_, far)| *far > self.limit);
        let seen: BTreeMap<u32, Seen> = far
            .map(|(pallet, far)| (pallet, Seen::of(far, self.limit, self.y.severity)))
            .into_iter()
            .collect();
        self.spells.see(m, &self.y, &seen, out);
    }
}

struct RanOver {
    y: Yardstick,
    spell: Spell,
}

/// A wheel ran over something that lay loose.
pub(super) fn ran_over(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(RanOver { y, spell: Spell::new(Unit::MetrePerSecond, 0.0) })
}

impl Watcher for RanOver {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let over = m.load.ran_over;
        let seen = over.then(|| Seen::of(m.truck.speed.abs(), 0.0, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

struct SetDown {
    y: Yardstick,
    off: f64,
    turned_deg: f64,
    deed: bool,
}

fn set_down(y: Yardstick, deed: bool) -> Box<dyn Watcher> {
    let (off, turned_deg) = (y.limit("off"), y.limit("turned"));
    Box::new(SetDown { y, off, turned_deg, deed })
}

/// Set down beside its marks or across them.
pub(super) fn set_down_off(y: Yardstick) -> Box<dyn Watcher> {
    set_down(y, false)
}

/// Set down in its marks.
pub(super) fn clean_set_down(y: Yardstick) -> Box<dyn Watcher> {
    set_down(y, true)
}

impl Watcher for SetDown {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        for event in &m.events {
            let CourseEvent::SetDown { off, turned, .. } = event else { continue };
            let turned_deg = turned.abs() / DEG;
            let (aside, askew) = (*off > self.off, over(turned_deg, self.turned_deg));
            if (aside || askew) == self.deed {
                continue;
            }
            let found = if askew && !aside {
                self.y.finding(m, turned_deg, self.turned_deg, Unit::Degree)
            } else {
                self.y.finding(m, *off, self.off, Unit::Metre)
            };
            out.open(found);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Severity;
    use crate::watch::test_support::{Drive, watch};

    #[test]
    fn the_plate_says_how_much() {
        let found = |d: &Drive| watch("over-capacity", d);
        let carries = |mass, refused| {
            Drive::new().still(9).all(move |m| {
                (m.load.mass, m.load.capacity, m.load.refused) = (mass, 2000.0, refused);
            })
        };
        assert!(found(&carries(2000.0, None)).is_empty());
        let one = found(&carries(2200.0, None));
        assert_eq!((one[0].measured, one[0].severity), (1.1, Severity::Critical));
        assert_eq!(found(&carries(0.0, Some(2500.0)))[0].measured, 1.25);
        assert!(found(&Drive::new().still(9)).is_empty());
    }

    #[test]
    fn five_centimetres_of_pushing_are_allowed() {
        let found = |d: &Drive| watch("pallet-pushed", d);
        let push = |d: Drive, far| d.with(9, move |m| m.load.pushed = Some((2, far)));
        assert!(found(&push(Drive::new(), 0.05)).is_empty());
        let far = push(push(Drive::new(), 0.06), 0.2);
        assert_eq!((found(&far).len(), found(&far)[0].measured), (1, 0.2));
        assert_eq!(found(&push(far.clone().still(30), 0.06)).len(), 1);
        assert_eq!(found(&push(far.still(32), 0.06)).len(), 2);
    }

    #[test]
    fn over_a_loose_thing_again_at_once_is_the_same_one() {
        let over = |d: Drive| d.with(3, |m| m.load.ran_over = true);
        let twice = |apart| watch("loose-object-run-over", &over(over(Drive::new()).still(apart)));
        assert_eq!((twice(30).len(), twice(32).len()), (1, 2));
        assert!(watch("loose-object-run-over", &Drive::new().rolling(9, 1.0)).is_empty());
    }

    #[test]
    fn within_ten_centimetres_and_five_degrees() {
        let down = |off, deg: f64| {
            let event = CourseEvent::SetDown { bay: 0, off, turned: deg * DEG };
            let d = Drive::new().event(event);
            (watch("set-down-off", &d), watch("clean-set-down", &d).len())
        };
        assert_eq!(down(0.1, 4.99), (Vec::new(), 1));
        let (aside, clean) = down(0.11, 9.0);
        assert_eq!((aside[0].measured, aside[0].unit, clean), (0.11, Unit::Metre, 0));
        let (askew, clean) = down(0.02, -5.1);
        assert_eq!((askew[0].measured, askew[0].unit, clean), (5.1, Unit::Degree, 0));
    }
}

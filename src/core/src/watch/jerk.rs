//! Going over to plugging gently: a jerk moves a load that the steady pull would not, and throws a rider.
//!
//! It is the drive wheel's along its heading: a tiller that is turned while the truck slows down changes the
//! truck's own speed at once, by the cosine, and that is no change of throttle.

use std::collections::VecDeque;

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::{over, seconds, ticks};
use crate::time::Tick;
use crate::watch::service_brake::called_for;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct Jerk {
    y: Yardstick,
    limit: f64,
    over: Tick,
    /// Acceleration of the drive wheel in the last ticks, m/s^2, as many as the jerk is measured over and one more.
    lately: VecDeque<f64>,
    plugged: Option<Tick>,
    spell: Spell,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (limit, over) = (y.limit("jerk"), ticks(y.limit("over")).max(1));
    let spell = Spell::new(Unit::MetrePerSecondCubed, 0.0);
    Box::new(Jerk { y, limit, over, lately: VecDeque::new(), plugged: None, spell })
}

impl Watcher for Jerk {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let now = m.truck.accel_wheel;
        self.lately.push_back(now);
        let before = if self.lately.len() > self.over as usize + 1 {
            self.lately.pop_front();
            self.lately.front().copied()
        } else {
            None
        };
        if m.truck.plugging {
            self.plugged = Some(m.tick);
        }
        // As long as the change may lie in what the jerk is measured over.
        let changed = self.plugged.is_some_and(|t| m.tick - t <= self.over);
        // What the arm's brake or a collision does is no change of throttle.
        let by_throttle = changed && !m.truck.braking && m.contacts.is_empty();
        // Who stops as hard as can be for someone does right.
        let called = called_for(m, &self.y.common.called);
        let jerk = before.map_or(0.0, |b| (now - b).abs() / seconds(self.over));
        let seen = (by_throttle && !called && over(jerk, self.limit))
            .then(|| Seen::of(jerk, self.limit, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use crate::watch::test_support::{Drive, person, watch};

    /// Rolls for a second, then plugs with this deceleration at once.
    fn plug(deceleration: f64) -> Drive {
        Drive::new().rolling(100, 1.0).all(move |m| {
            m.load.pallets = 1;
            if m.tick >= 64 {
                m.truck.plugging = true;
                m.truck.accel_wheel = -deceleration;
            }
        })
    }

    #[test]
    fn six_metres_per_second_cubed_loaded_or_not() {
        let found = |d: &Drive| watch("plugging-jerk", d);
        // Over a quarter of a second.
        assert!(found(&plug(1.5)).is_empty());
        let one = found(&plug(1.6));
        assert_eq!((one.len(), one[0].from, one[0].measured), (1, 64, 6.4));
        assert_eq!(found(&plug(1.6).all(|m| m.load.pallets = 0)).len(), 1);
        // For someone who is near it is right.
        let near = plug(3.0).all(|m| m.people.push(person(5.9)));
        assert!(found(&near).is_empty());
        assert!(found(&plug(3.0).all(|m| m.truck.plugging = false)).is_empty());
        assert!(found(&plug(3.0).all(|m| m.truck.braking = m.tick >= 64)).is_empty());
        let gentle =
            plug(0.0).all(|m| m.truck.accel_wheel = -0.05 * f64::from(m.tick.max(64) - 64));
        assert!(found(&gentle).is_empty());
    }
}

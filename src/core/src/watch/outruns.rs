//! Being able to stop in what is seen to be clear.

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::over;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct Outruns {
    y: Yardstick,
    reaction: f64,
    speed: f64,
    spell: Spell,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (reaction, speed) = (y.limit("reaction"), y.limit("speed"));
    let may_last = y.limit("for");
    Box::new(Outruns { y, reaction, speed, spell: Spell::new(Unit::Metre, may_last) })
}

impl Watcher for Outruns {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let speed = m.truck.speed.abs();
        let (clear, braking) = (m.sight.clear_ahead, m.sight.braking);
        // A truck that rolls takes some way to brake: without any, nobody has looked.
        let looked = braking > 0.0;
        let needs = speed * self.reaction + braking;
        let seen = (looked && speed > self.speed && over(needs, clear)).then_some(Seen {
            measured: needs,
            limit: clear,
            badness: needs - clear,
            severity: self.y.severity,
        });
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use crate::watch::test_support::{Drive, watch};

    fn drive(ticks: u32, speed: f64, clear: f64) -> Drive {
        Drive::new().with(ticks, move |m| {
            m.truck.speed = speed;
            m.sight.braking = 1.0;
            m.sight.clear_ahead = clear;
        })
    }

    #[test]
    fn a_second_and_the_brake_have_to_fit_into_what_is_seen() {
        let found = |d: &Drive| watch("outruns-sight", d);
        assert!(found(&drive(99, 2.0, 3.0)).is_empty());
        assert!(found(&drive(32, 2.0, 2.9)).is_empty());
        let one = found(&drive(33, -2.0, 2.9));
        assert_eq!((one[0].measured, one[0].limit), (3.0, 2.9));
        assert!(found(&drive(99, 0.3, 0.1)).is_empty());
        assert!(found(&drive(99, 2.0, 2.9).all(|m| m.sight.braking = 0.0)).is_empty());
    }
}

//! Stop, brake, then foot: the platform is left when the truck stands.

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct SteppedOff {
    y: Yardstick,
    limit: f64,
    aboard: bool,
    spell: Spell,
}

pub(super) fn rolling(y: Yardstick) -> Box<dyn Watcher> {
    let limit = y.limit("speed");
    let spell = Spell::new(Unit::MetrePerSecond, 0.0);
    Box::new(SteppedOff { y, limit, aboard: false, spell })
}

impl Watcher for SteppedOff {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let before = core::mem::replace(&mut self.aboard, m.rider.aboard);
        let speed = m.truck.speed.abs();
        let left = before && !m.rider.aboard && speed > self.limit;
        let seen = left.then(|| Seen::of(speed, self.limit, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use crate::watch::test_support::{Drive, watch};

    fn off(d: Drive, speed: f64) -> Drive {
        d.rolling(5, speed).with(5, move |m| {
            m.truck.speed = speed;
            m.rider.aboard = false;
        })
    }

    #[test]
    fn a_truck_that_rolls_is_not_left() {
        let found = |d: &Drive| watch("stepped-off-rolling", d);
        assert!(found(&off(Drive::new(), 0.05)).is_empty());
        let one = found(&off(Drive::new(), -0.06));
        assert_eq!((one[0].from, one[0].to, one[0].measured), (5, 5, 0.06));
        assert_eq!(found(&off(off(Drive::new(), 0.5), 0.5)).len(), 1);
        assert_eq!(found(&off(off(Drive::new(), 0.5).rolling(30, 0.5), 0.5)).len(), 2);
        // It was never boarded.
        let on_foot = Drive::new().rolling(9, 1.0).all(|m| m.rider.aboard = false);
        assert!(found(&on_foot).is_empty());
    }
}

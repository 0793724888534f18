//! Slowing down for a turn: side acceleration of the empty truck, or a share of what the load bears.

use crate::finding::Unit;
use crate::math::G;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::over;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct CornerSpeed {
    y: Yardstick,
    limit: f64,
    of_load: f64,
    spell: Spell,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (limit, of_load) = (y.limit("side-acceleration"), y.limit("of-load"));
    let may_last = y.limit("for");
    Box::new(CornerSpeed { y, limit, of_load, spell: Spell::new(Unit::Gravity, may_last) })
}

impl Watcher for CornerSpeed {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let side = m.truck.accel_side.abs() / G;
        let limit = m.load.holds_sideways.map_or(self.limit, |bears| self.of_load * bears / G);
        // What a collision does to the truck is not cornering.
        let turning = over(side, limit) && m.contacts.is_empty();
        let seen = turning.then(|| Seen {
            measured: side,
            limit,
            badness: side - limit,
            severity: self.y.severity_at(side),
        });
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::moment::{Contact, Touched};
    use crate::watch::test_support::{Drive, watch};

    fn side(g: f64) -> impl Fn(&mut Moment) {
        move |m| m.truck.accel_side = g * G
    }

    #[test]
    fn a_fifth_of_gravity_is_the_limit_either_way() {
        let found = |g: f64| watch("corner-speed", &Drive::new().with(64, side(g)));
        assert!(found(0.199).is_empty());
        assert_eq!(found(0.21)[0].measured, 0.21);
        assert_eq!(found(-0.21)[0].measured, 0.21);
    }

    #[test]
    fn with_a_load_it_is_six_tenths_of_what_the_load_bears() {
        let found = |g: f64| {
            let loaded = |m: &mut Moment| m.load.holds_sideways = Some(0.3 * G);
            watch("corner-speed", &Drive::new().with(64, side(g)).all(loaded))
        };
        assert!(found(0.179).is_empty());
        let one = found(0.181);
        assert_eq!((one[0].measured, one[0].limit), (0.181, 0.18));
    }

    #[test]
    fn a_noisy_tick_is_no_turn() {
        let found = |n: u32| watch("corner-speed", &Drive::new().still(5).with(n, side(0.4)));
        // A tenth of a second: 6 ticks are 0.094 s, 7 are 0.109 s.
        assert!(found(6).is_empty());
        assert_eq!(found(7)[0].from, 5);
    }

    #[test]
    fn a_collision_is_no_turn() {
        let d = Drive::new().with(30, |m| {
            m.truck.accel_side = 5.0;
            m.contacts.push(Contact { with: Touched::Cone(0), closing_speed: 0.5, by_load: false });
        });
        assert!(watch("corner-speed", &d).is_empty());
    }
}

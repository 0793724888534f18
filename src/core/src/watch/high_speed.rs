//! The high-speed button is for free lanes: those whose own limit is above the site's.

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct HighSpeed {
    y: Yardstick,
    spell: Spell,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(HighSpeed { y, spell: Spell::of_way(Unit::MetrePerSecond, 0.0) })
}

impl Watcher for HighSpeed {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let common = &self.y.common;
        let speed = m.truck.speed.abs();
        let free = m.place.zone_limit.is_some_and(|limit| limit > common.speed_limit);
        let used = m.truck.high_speed_on && speed > common.rest_speed;
        let limit = m.place.zone_limit.unwrap_or(common.speed_limit);
        let seen = (used && !free).then(|| Seen::of(speed, limit, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use crate::watch::test_support::{Drive, watch};

    #[test]
    fn only_in_a_free_lane() {
        let found = |speed, limit| {
            let d = Drive::new().rolling(9, speed).all(|m| {
                m.truck.high_speed_on = true;
                m.place.zone_limit = limit;
            });
            watch("high-speed-in-traffic", &d).len()
        };
        assert_eq!(found(1.0, None), 1);
        assert_eq!(found(1.0, Some(2.7)), 1);
        assert_eq!(found(1.0, Some(3.3)), 0);
        assert_eq!(found(0.05, None), 0);
        assert!(watch("high-speed-in-traffic", &Drive::new().rolling(9, 3.0)).is_empty());
    }

    #[test]
    fn again_on_the_same_way_is_the_same() {
        let twice = |speed: f64, second: u32| {
            let d = Drive::new().rolling(second + 1, speed).all(|m| {
                m.truck.high_speed_on = m.tick < 5 || m.tick >= second;
            });
            watch("high-speed-in-traffic", &d).len()
        };
        // It counts again after 5 s, or after 10 m: 2 m/s for 5 s is just not more.
        assert_eq!((twice(1.0, 319), twice(1.0, 320)), (1, 2));
        assert_eq!((twice(2.0, 319), twice(2.0, 320)), (1, 2));
        assert_eq!((twice(4.0, 160), twice(4.0, 161)), (1, 2));
    }

    #[test]
    fn dabbing_at_the_button_costs_no_more_than_holding_it() {
        let found = |on: u32, off: u32| {
            let dabs = |m: &mut crate::moment::Moment| {
                m.truck.high_speed_on = m.tick % (on + off) < on;
            };
            watch("high-speed-in-traffic", &Drive::new().rolling(6400, 2.5).all(dabs)).len()
        };
        let held = found(1, 0);
        assert_eq!(held, 25, "250 m, once in 10 m");
        for (on, off) in [(1, 1), (8, 32), (8, 40), (8, 200), (60, 100), (255, 1), (257, 40)] {
            assert!(found(on, off) <= held, "{on} on and {off} off: {}", found(on, off));
        }
        assert_eq!(found(5, 795), 8, "far apart each counts");
    }
}

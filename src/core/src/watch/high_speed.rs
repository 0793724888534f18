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
    Box::new(HighSpeed { y, spell: Spell::new(Unit::MetrePerSecond, 0.0) })
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
        let twice = |apart: u32| {
            let d = Drive::new().rolling(apart + 10, 1.0).all(|m| {
                m.truck.high_speed_on = m.tick < 5 || m.tick >= apart + 5;
            });
            watch("high-speed-in-traffic", &d).len()
        };
        assert_eq!((twice(30), twice(32)), (1, 2));
        assert!(watch("high-speed-in-traffic", &Drive::new().rolling(9, 3.0)).is_empty());
    }
}

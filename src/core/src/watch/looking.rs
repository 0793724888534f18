//! Looking where the truck goes.

use crate::finding::Unit;
use crate::math::DEG;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::over;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct NotLooking {
    y: Yardstick,
    off_deg: f64,
    speed: f64,
    spell: Spell,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (off_deg, speed, may_last) = (y.limit("off-path"), y.limit("speed"), y.limit("for"));
    Box::new(NotLooking { y, off_deg, speed, spell: Spell::new(Unit::Degree, may_last) })
}

impl Watcher for NotLooking {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let off = m.rider.off_path / DEG;
        let away = m.rider.aboard && over(off, self.off_deg) && m.truck.speed.abs() > self.speed;
        let seen = away.then(|| Seen::of(off, self.off_deg, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch};

    fn away(ticks: u32, deg: f64, speed: f64) -> Drive {
        Drive::new().with(ticks, move |m| {
            m.rider.off_path = deg * DEG;
            m.truck.speed = speed;
        })
    }

    #[test]
    fn a_second_of_looking_aside_is_allowed() {
        let found = |d: &Drive| watch("not-looking", d);
        assert!(found(&away(64, 90.0, 1.0)).is_empty());
        assert_eq!(found(&away(65, 90.0, 1.0))[0].measured, 90.0);
        assert!(found(&away(200, 59.9, 1.0)).is_empty());
        assert!(found(&away(200, 90.0, 0.3)).is_empty());
        assert_eq!(found(&away(65, 61.0, -0.31)).len(), 1);
        let glance = away(60, 90.0, 1.0).rolling(1, 1.0);
        let mut twice = glance.clone();
        twice = twice.with(60, |m| {
            m.rider.off_path = 1.6;
            m.truck.speed = 1.0;
        });
        assert!(found(&twice).is_empty());
    }
}

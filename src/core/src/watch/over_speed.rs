//! Keeping to the speed limit of the zone, or else of the site.

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::over;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct OverSpeed {
    y: Yardstick,
    excess: f64,
    spell: Spell,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (excess, may_last) = (y.limit("excess"), y.limit("for"));
    Box::new(OverSpeed { y, excess, spell: Spell::of_way(Unit::MetrePerSecond, may_last) })
}

impl Watcher for OverSpeed {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let limit = m.place.zone_limit.unwrap_or(self.y.common.speed_limit);
        let speed = m.truck.speed.abs();
        let seen = over(speed, limit * (1.0 + self.excess)).then(|| {
            // Limits differ from zone to zone: what is worst is the share above, not the speed.
            let above = speed / limit - 1.0;
            Seen { measured: speed, limit, badness: above, severity: self.y.severity_at(above) }
        });
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Severity;
    use crate::watch::test_support::{Drive, watch};

    fn in_zone(speed: f64, limit: f64) -> impl Fn(&mut Moment) {
        move |m| {
            m.truck.speed = speed;
            m.place.zone_limit = Some(limit);
        }
    }

    fn found(ticks: u32, speed: f64) -> Vec<crate::finding::Finding> {
        watch("over-speed", &Drive::new().with(ticks, in_zone(speed, 1.0)))
    }

    #[test]
    fn a_tenth_above_for_half_a_second_is_allowed() {
        assert!(found(200, 1.1).is_empty());
        assert!(found(32, 1.2).is_empty());
        assert_eq!(found(33, 1.2).len(), 1);
    }

    #[test]
    fn forks_first_counts_as_well() {
        assert_eq!(found(33, -1.2)[0].measured, 1.2);
    }

    #[test]
    fn above_thirty_percent_it_is_major() {
        assert_eq!(found(64, 1.29)[0].severity, Severity::Minor);
        assert_eq!(found(64, 1.31)[0].severity, Severity::Major);
    }

    #[test]
    fn the_site_limit_counts_outside_zones_and_the_zone_limit_inside() {
        let d = |v: f64| Drive::new().rolling(100, v);
        // 2.7 m/s and a tenth.
        assert!(watch("over-speed", &d(2.96)).is_empty());
        let found = watch("over-speed", &d(2.98));
        assert_eq!(found[0].limit, 2.7);
        let fast_lane = Drive::new().with(100, in_zone(3.3, 3.3));
        assert!(watch("over-speed", &fast_lane).is_empty());
    }

    #[test]
    fn from_one_zone_into_a_slower_one_keeps_the_worst_beside_its_limit() {
        let d = Drive::new().with(40, in_zone(1.8, 1.5)).with(10, in_zone(1.7, 1.0));
        let found = watch("over-speed", &d);
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].measured, found[0].limit), (1.7, 1.0));
    }
}

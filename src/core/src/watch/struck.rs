//! Nobody on foot is touched by the truck or its load: whoever is touched while it moves on is struck, however
//! slowly.

use std::collections::BTreeMap;

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::{Yardstick, over};
use crate::watch::spell::Seen;
use crate::watch::spells::Spells;
use crate::watch::{Report, Watcher};

struct Struck {
    y: Yardstick,
    spells: Spells,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let spells = Spells::new(Unit::Metre, 0.0);
    Box::new(Struck { y, spells })
}

impl Watcher for Struck {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let from = self.y.common.struck_from;
        let struck = m.people.iter().filter(|p| over(p.pushed, from));
        let seen: BTreeMap<u32, Seen> =
            struck.map(|p| (p.person, Seen::of(p.pushed, from, self.y.severity))).collect();
        self.spells.see(m, &self.y, &seen, out);
    }
}

#[cfg(test)]
mod tests {
    use crate::finding::Severity;
    use crate::moment::PersonMoment;
    use crate::time::DT;
    use crate::watch::test_support::{Drive, person, watch};

    fn pass(d: Drive, ticks: u32, gap: f64, speed: f64) -> Drive {
        let mut pushed = 0.0;
        let mut d = d;
        for _ in 0..ticks {
            pushed = if gap <= 0.0 { pushed + speed * DT } else { 0.0 };
            d = d.with(1, |m| {
                m.truck.speed = speed;
                m.people.push(PersonMoment { pushed, ..person(gap) });
            });
        }
        d
    }

    #[test]
    fn touching_is_one_finding_until_apart_again() {
        let found = |d: &Drive| watch("person-struck", d);
        assert!(found(&pass(Drive::new(), 30, 0.001, 1.0)).is_empty());
        let hit = pass(Drive::new(), 30, 0.0, 1.0);
        assert_eq!(found(&hit)[0].severity, Severity::Critical);
        // A tick at 1 m/s is 15.6 mm: struck are they in the second one.
        assert_eq!((found(&hit)[0].from, found(&hit)[0].to), (1, 29));
        let again = |apart| pass(pass(hit.clone(), apart, 0.1, 1.0), 3, 0.0, 1.0);
        assert_eq!(found(&again(30)).len(), 1);
        assert_eq!(found(&again(32)).len(), 2);
    }

    #[test]
    fn who_walks_into_a_truck_that_stands_is_not_struck() {
        let stands = |ticks| Drive::new().rolling(5, 1.0).still(ticks);
        assert!(watch("person-struck", &pass(stands(1), 20, 0.0, 0.0)).is_empty());
    }

    /// However slowly: 20 mm are none, and a little more is.
    #[test]
    fn whoever_is_pushed_is_struck_at_any_speed() {
        let creeps = |ticks| watch("person-struck", &pass(Drive::new(), ticks, 0.0, 0.032)).len();
        // Half a millimetre a tick.
        assert_eq!((creeps(40), creeps(41)), (0, 1));
    }
}

//! Nobody on foot is touched by the truck or its load.

use std::collections::{BTreeMap, BTreeSet};

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::{Common, Yardstick};
use crate::time::Tick;
use crate::watch::spell::Seen;
use crate::watch::spells::Spells;
use crate::watch::{Report, Watcher};

/// Who is being touched by a truck that moved. Who walks into one that stands is not struck.
#[derive(Clone, Debug, Default)]
pub(super) struct Touching {
    moved: Option<Tick>,
    struck: BTreeSet<u32>,
}

impl Touching {
    /// Looks at one tick.
    pub(super) fn see(&mut self, m: &Moment, common: &Common) {
        if m.truck.speed.abs() > common.rest_speed {
            self.moved = Some(m.tick);
        }
        let moved = self.moved.is_some_and(|t| m.tick - t <= common.again_after);
        let touches: BTreeSet<u32> =
            m.people.iter().filter(|p| p.gap <= 0.0).map(|p| p.person).collect();
        self.struck.retain(|p| touches.contains(p));
        if moved {
            self.struck.extend(touches);
        }
    }

    /// Whether this person is.
    pub(super) fn is_struck(&self, person: u32) -> bool {
        self.struck.contains(&person)
    }
}

struct Struck {
    y: Yardstick,
    touching: Touching,
    spells: Spells,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let spells = Spells::new(Unit::MetrePerSecond, 0.0);
    Box::new(Struck { y, touching: Touching::default(), spells })
}

impl Watcher for Struck {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.touching.see(m, &self.y.common);
        let struck = m.people.iter().filter(|p| self.touching.is_struck(p.person));
        let seen: BTreeMap<u32, Seen> =
            struck.map(|p| (p.person, Seen::of(p.passing_speed, 0.0, self.y.severity))).collect();
        self.spells.see(m, &self.y, &seen, out);
    }
}

#[cfg(test)]
mod tests {
    use crate::finding::Severity;
    use crate::watch::test_support::{Drive, person, watch};

    fn pass(d: Drive, ticks: u32, gap: f64, speed: f64) -> Drive {
        d.with(ticks, move |m| {
            m.truck.speed = speed;
            m.people.push(person(gap));
        })
    }

    #[test]
    fn touching_is_one_finding_until_apart_again() {
        let found = |d: &Drive| watch("person-struck", d);
        assert!(found(&pass(Drive::new(), 30, 0.001, 1.0)).is_empty());
        let hit = pass(Drive::new(), 30, 0.0, 1.0);
        assert_eq!(found(&hit)[0].severity, Severity::Critical);
        assert_eq!((found(&hit)[0].from, found(&hit)[0].to), (0, 29));
        let again = |apart| pass(pass(hit.clone(), apart, 0.1, 1.0), 3, 0.0, 1.0);
        assert_eq!(found(&again(31)).len(), 1);
        assert_eq!(found(&again(33)).len(), 2);
    }

    #[test]
    fn who_walks_into_a_truck_that_stands_is_not_struck() {
        let found = |d: &Drive| watch("person-struck", d).len();
        let stands = |ticks| Drive::new().rolling(5, 1.0).still(ticks);
        assert_eq!(found(&pass(stands(32), 20, 0.0, 0.05)), 0);
        assert_eq!(found(&pass(stands(20), 20, 0.0, 0.0)), 1);
    }
}

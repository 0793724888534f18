//! The dock: three checks that can each be false, and a creep over the plate.

use std::collections::{BTreeMap, BTreeSet};

use crate::finding::Unit;
use crate::moment::{DockMoment, Moment};
use crate::rules::Yardstick;
use crate::watch::entries::Entries;
use crate::watch::spell::Seen;
use crate::watch::spells::Spells;
use crate::watch::{Report, Watcher};

struct Unchecked {
    y: Yardstick,
    creep: f64,
    entries: Entries,
    /// Docks driven onto without their checks: told once for each time.
    told: BTreeSet<u32>,
    spells: Spells,
}

/// Driven onto with a check left out or a false one, or faster than a creep.
pub(super) fn unchecked(y: Yardstick) -> Box<dyn Watcher> {
    let creep = y.limit("creep");
    let spells = Spells::new(Unit::MetrePerSecond, 0.0);
    Box::new(Unchecked { y, creep, entries: Entries::default(), told: BTreeSet::new(), spells })
}

impl Watcher for Unchecked {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let on = m.docks.iter().map(|d| (d.dock, d.truck_on));
        let entered = self.entries.see(m.tick, self.y.common.again_after, on);
        let severity =
            |d: &DockMoment| self.y.severity_at(if !d.inspected.is_sound() { 1.0 } else { 0.0 });
        for d in m.docks.iter().filter(|d| entered.contains(&d.dock)) {
            self.told.remove(&d.dock);
            if d.inspected.left_out() == 0 && d.inspected.is_sound() {
                continue;
            }
            let wrong = f64::from(d.inspected.left_out().max(1));
            let found = self.y.finding(m, wrong, 0.0, Unit::Count);
            out.open(crate::finding::Finding { severity: severity(d), ..found });
            self.told.insert(d.dock);
        }
        let speed = m.truck.speed.abs();
        let fast = m.docks.iter().filter(|d| d.truck_on && speed > self.creep);
        let seen: BTreeMap<u32, Seen> = fast
            .filter(|d| !self.told.contains(&d.dock))
            .map(|d| (d.dock, Seen::of(speed, self.creep, severity(d))))
            .collect();
        self.spells.see(m, &self.y, &seen, out);
    }
}

struct Refused {
    y: Yardstick,
    told: BTreeSet<u32>,
}

/// Said that something is wrong, where something was.
pub(super) fn refused(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(Refused { y, told: BTreeSet::new() })
}

impl Watcher for Refused {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        for d in m.docks.iter().filter(|d| d.inspected.reported && !d.truck_on) {
            let seen = d.inspected.is_found();
            if seen && self.told.insert(d.dock) {
                out.open(self.y.finding(m, 1.0, 0.0, Unit::Count));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::Inspected;
    use crate::finding::Severity;
    use crate::watch::test_support::{Drive, watch};

    fn dock(truck_on: bool, looked_at: u64, is_false: Option<u32>) -> DockMoment {
        let wrong = is_false.map_or(0, |i| 1 << i);
        let inspected = Inspected { points: 3, looked_at, wrong, reported: false };
        DockMoment { dock: 0, truck_on, inspected }
    }

    fn onto(looked_at: u64, is_false: Option<u32>, speed: f64) -> Drive {
        Drive::new().rolling(20, speed).all(|m| {
            m.docks.push(dock(m.tick >= 5, looked_at, is_false));
        })
    }

    #[test]
    fn all_checks_made_and_none_false_and_a_creep() {
        let found = |d: &Drive| watch("unchecked-crossing", d);
        assert!(found(&onto(0b111, None, 0.8)).is_empty());
        let fast = found(&onto(0b111, None, 0.81));
        assert_eq!(
            (fast[0].measured, fast[0].unit, fast[0].severity),
            (0.81, Unit::MetrePerSecond, Severity::Major)
        );
        let left = found(&onto(0b100, None, 2.0));
        assert_eq!((left.len(), left[0].measured, left[0].unit), (1, 2.0, Unit::Count));
        assert_eq!(found(&onto(0b001, Some(1), 0.5))[0].severity, Severity::Critical);
        assert_eq!(found(&onto(0b111, Some(1), 0.5))[0].measured, 1.0);
        assert!(found(&Drive::new().rolling(20, 2.0)).is_empty());
    }

    #[test]
    fn off_it_for_less_than_half_a_second_is_the_same_time() {
        let again = |apart: u32| {
            let d = Drive::new().rolling(100, 0.5).all(|m| {
                let on = (5..20).contains(&m.tick) || m.tick >= 20 + apart;
                m.docks.push(dock(on, 0, None));
            });
            watch("unchecked-crossing", &d).len()
        };
        assert_eq!((again(31), again(32)), (1, 2));
    }

    #[test]
    fn saying_no_to_a_false_one_is_a_good_deed_once() {
        let said = |looked_at, is_false| {
            let d = Drive::new().still(20).all(|m| {
                m.docks.push({
                    let mut dock = dock(false, looked_at, is_false);
                    dock.inspected.reported = m.tick > 9;
                    dock
                });
            });
            watch("refused-unsafe-dock", &d).len()
        };
        assert_eq!(said(0b010, Some(1)), 1);
        assert_eq!(said(0b101, Some(1)), 0);
        assert_eq!(said(0b111, None), 0);
    }
}

//! Crossings: people go first.

use std::collections::BTreeMap;

use crate::finding::{Finding, Unit};
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::{over, seconds, ticks};
use crate::time::{DT, Tick};
use crate::watch::entries::Entries;
use crate::watch::{Report, Watcher};

struct NotGiven {
    y: Yardstick,
    /// How long after someone was in the truck's way it may be driven on, s (post-encroachment time:
    /// FHWA, Surrogate Safety Assessment Model, FHWA-HRT-08-051, 2008).
    after: f64,
    entries: Entries,
}

/// Driven onto while someone was on it or about to be.
pub(super) fn not_given(y: Yardstick) -> Box<dyn Watcher> {
    let after = y.limit("after");
    Box::new(NotGiven { y, after, entries: Entries::default() })
}

fn entered(entries: &mut Entries, m: &Moment, again_after: Tick) -> Vec<u32> {
    entries.see(m.tick, again_after, m.crossings.iter().map(|c| (c.crossing, c.truck_on)))
}

impl Watcher for NotGiven {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let entered = entered(&mut self.entries, m, self.y.common.again_after);
        let speed = m.truck.speed.abs();
        let driven = m.crossings.iter().filter(|c| entered.contains(&c.crossing) && c.truck_on);
        for c in driven.filter(|_| speed > self.y.common.rest_speed) {
            let passed = c.in_the_way.map(|t| seconds(m.tick - t)).filter(|s| *s < self.after);
            if c.wanted {
                let limit = self.y.common.rest_speed;
                out.open(self.y.finding(m, speed, limit, Unit::MetrePerSecond));
            } else if let Some(passed) = passed {
                out.open(self.y.finding(m, passed, self.after, Unit::Second));
            }
        }
    }
}

/// Stood before a crossing that was wanted.
struct Waited {
    from: Tick,
    stood: Tick,
    /// Metres driven since.
    driven: f64,
}

struct GaveWay {
    y: Yardstick,
    within: f64,
    stood: Tick,
    entries: Entries,
    waited: BTreeMap<u32, Waited>,
}

/// Stood before it until it was free, and then went on.
pub(super) fn gave_way(y: Yardstick) -> Box<dyn Watcher> {
    let (within, stood) = (y.limit("within"), ticks(y.limit("stood")));
    Box::new(GaveWay { y, within, stood, entries: Entries::default(), waited: BTreeMap::new() })
}

impl Watcher for GaveWay {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let entered = entered(&mut self.entries, m, self.y.common.again_after);
        let speed = m.truck.speed.abs();
        let stands = speed <= self.y.common.rest_speed;
        self.waited.retain(|_, w| {
            w.driven += if stands { 0.0 } else { speed * DT };
            !over(w.driven, self.within)
        });
        for c in &m.crossings {
            if entered.contains(&c.crossing) {
                let waited = self.waited.remove(&c.crossing).filter(|w| w.stood >= self.stood);
                if let Some(w) = waited.filter(|_| !c.wanted) {
                    let found = self.y.finding(m, w.driven, self.within, Unit::Metre);
                    out.open(Finding { from: w.from, ..found });
                }
            } else if c.wanted && !c.truck_on && stands {
                let fresh = Waited { from: m.tick, stood: 0, driven: 0.0 };
                let w = self.waited.entry(c.crossing).or_insert(fresh);
                w.stood += 1;
                w.driven = 0.0;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::moment::Moment;
    use crate::watch::test_support::{Drive, crossing, watch};

    fn at(truck_on: bool, wanted: bool, speed: f64) -> impl Fn(&mut Moment) {
        move |m| {
            m.truck.speed = speed;
            m.crossings.push(crossing(truck_on, wanted));
        }
    }

    #[test]
    fn driving_onto_it_is_what_counts() {
        let found = |d: &Drive| watch("person-not-given-way", d).len();
        let come =
            |wanted, v| Drive::new().with(9, at(false, wanted, v)).with(9, at(true, wanted, v));
        assert_eq!(found(&come(true, 1.0)), 1);
        assert_eq!(found(&come(false, 1.0)), 0);
        assert_eq!(found(&come(true, 0.05)), 0);
        // Someone comes while the truck is on it, or it begins there.
        let d = come(false, 1.0).with(9, at(true, true, 1.0));
        assert_eq!(found(&d), 0);
        assert_eq!(found(&Drive::new().with(9, at(true, true, 1.0))), 0);
        let again =
            |apart| come(true, 1.0).with(apart, at(false, true, 1.0)).with(5, at(true, true, 1.0));
        assert_eq!(found(&again(31)), 1);
        assert_eq!(found(&again(32)), 2);
    }

    #[test]
    fn who_stood_near_it_and_went_on_when_it_was_free_gave_way() {
        let found = |stood, metres: u32, wanted| {
            let d = Drive::new()
                .with(stood, at(false, true, 0.0))
                .with(64 * metres - 1, at(false, false, 1.0))
                .with(9, at(true, wanted, 1.0));
            watch("gave-way", &d)
        };
        assert_eq!(found(32, 5, false)[0].measured, 5.0);
        assert!(found(31, 5, false).is_empty());
        assert!(found(32, 6, false).is_empty());
        assert!(found(32, 5, true).is_empty());
    }

    #[test]
    fn who_has_just_left_the_way_was_not_given_it() {
        let passed = |ticks: u32| {
            let d = Drive::new().with(200, at(false, false, 1.0)).with(9, at(true, false, 1.0));
            let d = d.all(|m| m.crossings[0].in_the_way = Some(200 - ticks));
            watch("person-not-given-way", &d)
        };
        // 96 ticks are a second and a half.
        assert!(passed(96).is_empty());
        assert_eq!(passed(95)[0].measured, 1.4844);
    }
}

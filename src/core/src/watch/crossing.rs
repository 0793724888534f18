//! People go first: at crossings, and wherever the truck comes across their way.

use std::collections::BTreeMap;

use crate::finding::{Finding, Unit};
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::{over, seconds, ticks};
use crate::time::{DT, Tick};
use crate::watch::entries::Entries;
use crate::watch::trail::Trails;
use crate::watch::{Handle, Report, Watcher};

struct NotGiven {
    y: Yardstick,
    /// How long after someone was in the truck's way it may be driven on, s (post-encroachment time:
    /// FHWA, Surrogate Safety Assessment Model, FHWA-HRT-08-051, 2008).
    after: f64,
    /// Who creeps may follow closer.
    creep: f64,
    entries: Entries,
    trails: Trails,
    told: Option<Told>,
}

/// Told last; it goes on while the truck is on the crossing that it was told at.
struct Told {
    handle: Handle,
    last: Tick,
    crossing: Option<u32>,
    /// The shortest time that was measured, s.
    passed: f64,
}

/// Driven onto a crossing while someone was on it or about to be, or anywhere to where someone had just
/// been.
pub(super) fn not_given(y: Yardstick) -> Box<dyn Watcher> {
    let (after, creep) = (y.limit("after"), y.limit("creep"));
    let (entries, trails) = (Entries::default(), Trails::new(ticks(after)));
    Box::new(NotGiven { y, after, creep, entries, trails, told: None })
}

fn entered(entries: &mut Entries, m: &Moment, again_after: Tick) -> Vec<u32> {
    entries.see(m.tick, again_after, m.crossings.iter().map(|c| (c.crossing, c.truck_on)))
}

impl NotGiven {
    /// A crossing that is driven onto and was not free: which, and what to say.
    fn onto_a_crossing(&mut self, m: &Moment) -> Option<(u32, Finding)> {
        let entered = entered(&mut self.entries, m, self.y.common.again_after);
        let (speed, rest) = (m.truck.speed.abs(), self.y.common.rest_speed);
        let driven = m.crossings.iter().filter(|c| entered.contains(&c.crossing) && c.truck_on);
        driven.filter(|_| speed > rest).find_map(|c| {
            let passed = c.in_the_way.map(|t| seconds(m.tick - t)).filter(|s| *s < self.after);
            let found = if c.wanted {
                self.y.finding(m, speed, rest, Unit::MetrePerSecond)
            } else {
                self.y.finding(m, passed?, self.after, Unit::Second)
            };
            Some((c.crossing, found))
        })
    }

    /// How long ago someone was where the truck comes now, s.
    fn comes_after(&self, m: &Moment) -> Option<f64> {
        let drives = over(m.truck.speed.abs(), self.creep);
        let passed = self.trails.since(m).filter(|_| drives).map(seconds);
        passed.filter(|s| *s < self.after)
    }

    /// Whether what was told last goes on.
    fn goes_on(&mut self, m: &Moment) -> bool {
        let again_after = self.y.common.again_after;
        let Some(told) = self.told.as_mut().filter(|t| m.tick - t.last <= again_after) else {
            return false;
        };
        if m.crossings.iter().any(|c| c.truck_on && told.crossing == Some(c.crossing)) {
            told.last = m.tick;
        }
        true
    }
}

impl Watcher for NotGiven {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.trails.see(m);
        let onto = self.onto_a_crossing(m);
        let passed = self.comes_after(m);
        let goes_on = self.goes_on(m);
        let crossing = onto.as_ref().map(|(crossing, _)| *crossing);
        let in_time = |passed| self.y.finding(m, passed, self.after, Unit::Second);
        let Some(found) = onto.map(|(_, found)| found).or_else(|| passed.map(in_time)) else {
            return;
        };
        if let Some(told) = self.told.as_mut().filter(|_| goes_on) {
            (told.last, told.crossing) = (m.tick, told.crossing.or(crossing));
            out.extend(told.handle, m.tick);
            if let Some(passed) = passed.filter(|p| *p < told.passed) {
                told.passed = passed;
                out.worsen(told.handle, m.tick, passed, self.after, self.y.severity);
            }
            return;
        }
        // What is told as a speed is not told anew as a time.
        let passed = if found.unit == Unit::Second { found.measured } else { 0.0 };
        self.told = Some(Told { handle: out.open(found), last: m.tick, crossing, passed });
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
    use crate::finding::Unit;
    use crate::math::vec2;
    use crate::moment::{Moment, PersonMoment};
    use crate::watch::test_support::{Drive, crossing, person, watch};

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

    /// Someone walks across 5 m ahead of the load axle; so many ticks after their last step in the truck's
    /// way its nose is there.
    fn after_them(late: u32, speed: f64) -> Drive {
        let walks = |m: &mut Moment| {
            let y = f64::from(m.tick) * 0.02 - 4.0;
            m.truck.speed = speed;
            m.people.push(PersonMoment { at: vec2(5.0, y), ..person(1.0) });
        };
        let half = 0.455;
        let outline = move |nose: f64| {
            [[vec2(-0.25, -half), vec2(nose, -half), vec2(nose, half), vec2(-0.25, half)]]
        };
        // A disc of 0.25 m is beside a truck of 0.91 m when it is 0.705 m aside: in tick 235 it is not yet.
        let far = move |m: &mut Moment| m.outline = outline(2.65).to_vec();
        let there = move |m: &mut Moment| m.outline = outline(5.0).to_vec();
        let d = Drive::new().with(235 + late, far).with(5, there);
        d.all(walks)
    }

    #[test]
    fn off_the_crossings_who_has_just_left_the_way_was_not_given_it_either() {
        let found = |late, speed| watch("person-not-given-way", &after_them(late, speed));
        // 96 ticks are a second and a half.
        assert!(found(96, 1.0).is_empty());
        let one = found(95, 1.0);
        assert_eq!((one.len(), one[0].from, one[0].limit), (1, 330, 1.5));
        assert_eq!((one[0].measured, one[0].unit), (1.4844, Unit::Second));
        // Creeping up behind somebody is care.
        assert!(found(10, 0.3).is_empty());
        assert_eq!(found(10, 0.301).len(), 1);
    }

    #[test]
    fn where_nobody_was_nobody_is_passed_too_soon() {
        // Half a metre farther aside their way is not the truck's.
        let beside = after_them(10, 1.0).all(|m| m.people[0].at.y -= 100.0);
        assert!(watch("person-not-given-way", &beside).is_empty());
        // Who touches the truck is another rule's.
        let touches = after_them(10, 1.0).all(|m| m.people[0].gap = 0.0);
        assert!(watch("person-not-given-way", &touches).is_empty());
    }

    #[test]
    fn on_a_crossing_it_is_told_once() {
        let both = after_them(20, 1.0).all(|m| {
            let truck_on = m.tick >= 240;
            m.crossings.push(crossing(truck_on, true));
        });
        let found = watch("person-not-given-way", &both);
        assert_eq!((found.len(), found[0].from, found[0].to), (1, 240, 259));
        assert_eq!(found[0].unit, Unit::MetrePerSecond);
    }
}

//! Keeping clear of people: time and room left when truck and person come together.

use std::collections::BTreeMap;

use crate::finding::{Finding, Severity, Unit};
use crate::math::Vec2;
use crate::moment::{Moment, PersonMoment};
use crate::rules::Yardstick;
use crate::rules::ticks;
use crate::time::Tick;
use crate::watch::struck::Touching;
use crate::watch::{Handle, Report, Watcher};

/// How near it was: by time, which is told before room, or by room.
#[derive(Clone, Copy)]
enum Near {
    Time(f64),
    Room(f64),
}

struct Told {
    from: Tick,
    at: Vec2,
    last: Tick,
    nearest: Near,
    handle: Handle,
}

#[derive(Default)]
struct Someone {
    told: Vec<Told>,
    struck: Option<Tick>,
}

struct NearMiss {
    y: Yardstick,
    time: f64,
    room: f64,
    speed: f64,
    struck_within: Tick,
    touching: Touching,
    people: BTreeMap<u32, Someone>,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (time, room, speed) = (y.limit("time"), y.limit("gap"), y.limit("speed"));
    let struck_within = ticks(y.limit("struck-within"));
    let touching = Touching::default();
    Box::new(NearMiss { y, time, room, speed, struck_within, touching, people: BTreeMap::new() })
}

impl NearMiss {
    fn near(&self, m: &Moment, p: &PersonMoment) -> Option<Near> {
        // Who walks past a truck that stands misses nothing.
        if m.truck.speed.abs() <= self.y.common.rest_speed || p.gap <= 0.0 {
            return None;
        }
        let by_time = p.time_to_collision.filter(|t| *t < self.time).map(Near::Time);
        let close = p.gap < self.room && p.passing_speed > self.speed;
        by_time.or(close.then_some(Near::Room(p.gap)))
    }

    fn values(&self, near: Near) -> (f64, f64, Unit, Severity) {
        match near {
            Near::Time(t) => (t, self.time, Unit::Second, self.y.severity_at(t)),
            Near::Room(r) => (r, self.room, Unit::Metre, self.y.severity),
        }
    }
}

impl Watcher for NearMiss {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.touching.see(m, &self.y.common);
        let mut people = core::mem::take(&mut self.people);
        for p in &m.people {
            let someone = people.entry(p.person).or_default();
            someone.told.retain(|t| m.tick - t.last <= self.struck_within);
            if self.touching.is_struck(p.person) {
                // What came of it stands for it.
                someone.struck = Some(m.tick);
                someone.told.drain(..).for_each(|t| out.take_back(t.handle));
            }
            if someone.struck.is_some_and(|t| m.tick - t <= self.struck_within) {
                continue;
            }
            let Some(near) = self.near(m, p) else { continue };
            let again_after = self.y.common.again_after;
            let same = someone.told.last_mut().filter(|t| m.tick - t.last <= again_after);
            let told = match (same, near) {
                (None, _) => None,
                (Some(t), Near::Time(_)) if matches!(t.nearest, Near::Room(_)) => {
                    // Time says more than room: told anew from where it began.
                    out.take_back(t.handle);
                    let began = (t.from, t.at);
                    someone.told.pop();
                    Some(began)
                }
                (Some(t), _) => {
                    t.nearest = match (t.nearest, near) {
                        (Near::Time(a), Near::Time(b)) => Near::Time(a.min(b)),
                        (Near::Room(a), Near::Room(b)) => Near::Room(a.min(b)),
                        (worst, _) => worst,
                    };
                    t.last = m.tick;
                    let (measured, limit, _, severity) = self.values(t.nearest);
                    out.worsen(t.handle, m.tick, measured, limit, severity);
                    continue;
                }
            };
            let (from, at) = told.unwrap_or((m.tick, m.truck.platform_in_yard));
            let (measured, limit, unit, severity) = self.values(near);
            let found = self.y.finding(m, measured, limit, unit);
            let handle = out.open(Finding { from, at, severity, ..found });
            someone.told.push(Told { from, at, last: m.tick, nearest: near, handle });
        }
        self.people = people;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::duty;
    use crate::watch::test_support::{Drive, person, watch, watch_all};

    fn time(d: Drive, ticks: u32, left: f64) -> Drive {
        d.with(ticks, move |m| {
            m.truck.speed = 1.0;
            m.people.push(PersonMoment { time_to_collision: Some(left), ..person(2.0) });
        })
    }

    fn pass(d: Drive, ticks: u32, gap: f64, speed: f64) -> Drive {
        d.with(ticks, move |m| {
            m.truck.speed = 1.0;
            m.people.push(PersonMoment { passing_speed: speed, ..person(gap) });
        })
    }

    fn found(d: &Drive) -> Vec<Finding> {
        watch("person-near-miss", d)
    }

    #[test]
    fn a_second_and_a_half_is_time_enough_and_below_eight_tenths_it_is_critical() {
        assert!(found(&time(Drive::new(), 20, 1.5)).is_empty());
        let one = found(&time(Drive::new(), 20, 1.49));
        assert_eq!((one[0].severity, one[0].measured), (Severity::Major, 1.49));
        assert_eq!(found(&time(Drive::new(), 20, 0.8))[0].severity, Severity::Major);
        let two = time(time(Drive::new(), 20, 1.2), 3, 0.79);
        assert_eq!(found(&two)[0].severity, Severity::Critical);
        assert_eq!(found(&time(two, 5, 1.4))[0].measured, 0.79);
    }

    #[test]
    fn half_a_metre_is_room_enough_and_half_a_metre_a_second_slow_enough() {
        assert!(found(&pass(Drive::new(), 9, 0.5, 2.0)).is_empty());
        assert!(found(&pass(Drive::new(), 9, 0.3, 0.5)).is_empty());
        let one = found(&pass(Drive::new(), 9, 0.49, 0.51));
        assert_eq!((one[0].measured, one[0].unit), (0.49, Unit::Metre));
    }

    #[test]
    fn again_within_half_a_second_is_one_and_time_is_told_before_room() {
        let twice = |apart| time(time(Drive::new(), 3, 1.0).rolling(apart, 1.0), 3, 1.0);
        assert_eq!(found(&twice(30)).len(), 1);
        assert_eq!(found(&twice(32)).len(), 2);
        let both = found(&time(pass(Drive::new().still(2), 5, 0.4, 1.0), 5, 1.0));
        assert_eq!(both.len(), 1);
        assert_eq!((both[0].from, both[0].unit), (2, Unit::Second));
    }

    #[test]
    fn a_truck_that_stands_misses_nobody() {
        let d = time(pass(Drive::new(), 5, 0.1, 1.4), 5, 0.1);
        assert!(found(&d.all(|m| m.truck.speed = 0.05)).is_empty());
    }

    #[test]
    fn who_is_struck_in_the_end_was_not_nearly_struck() {
        let duties = ["person-struck", "person-near-miss"].map(|c| duty(c).expect("a code"));
        let codes = |d: &Drive| -> Vec<String> {
            watch_all(&duties, d).into_iter().map(|f| f.code).collect()
        };
        let hit = pass(time(Drive::new(), 20, 0.5).rolling(100, 1.0), 3, 0.0, 1.0);
        assert_eq!(codes(&pass(hit, 30, 0.2, 1.0)), ["person-struck"]);
        let late = pass(time(Drive::new(), 20, 0.5).rolling(200, 1.0), 3, 0.0, 1.0);
        assert_eq!(codes(&late), ["person-near-miss", "person-struck"]);
    }
}

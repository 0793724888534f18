//! Keeping clear of people: time and room left when truck and person come together.

use std::collections::BTreeMap;

use crate::finding::{Finding, Severity, Unit};
use crate::math::Vec2;
use crate::moment::{Moment, PersonMoment};
use crate::rules::Yardstick;
use crate::rules::{over, ticks};
use crate::time::Tick;
use crate::watch::surprise::slows;
use crate::watch::{Handle, Report, Watcher};

/// How near it was: what says less first. Time says more than room, and a rider who brakes is measured by
/// how hard the truck has to be braked.
#[derive(Clone, Copy, PartialEq)]
enum Near {
    /// Room, m, and what must be kept.
    Room(f64, f64),
    /// Deceleration that is needed, m/s^2.
    Slowing(f64),
    /// Time, s, and whether the quickest hand and the strongest brake would come too late.
    Time(f64, bool),
}

impl Near {
    fn rank(self) -> u8 {
        match self {
            Self::Room(..) => 0,
            Self::Slowing(_) => 1,
            Self::Time(..) => 2,
        }
    }

    /// The worse of two of one kind; otherwise the first.
    fn worse(self, other: Self) -> Self {
        match (self, other) {
            (Self::Time(a, late), Self::Time(b, later)) => Self::Time(a.min(b), late || later),
            (Self::Room(a, _), Self::Room(b, keep)) if b < a => Self::Room(b, keep),
            (Self::Slowing(a), Self::Slowing(b)) => Self::Slowing(a.max(b)),
            (worst, _) => worst,
        }
    }
}

struct Told {
    from: Tick,
    at: Vec2,
    last: Tick,
    nearest: Near,
    severity: Severity,
    handle: Handle,
}

#[derive(Default)]
struct Someone {
    told: Vec<Told>,
    struck: Option<Tick>,
}

/// The numbers of the rule.
struct Limits {
    time: f64,
    room: f64,
    room_fast: f64,
    fast: f64,
    speed: f64,
    own_speed: f64,
    closest: f64,
    slowing: f64,
    slowing_hard: f64,
    grace: Tick,
    hand: f64,
    struck_within: Tick,
    pushed: f64,
}

struct NearMiss {
    y: Yardstick,
    by: Limits,
    people: BTreeMap<u32, Someone>,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let by = Limits {
        time: y.limit("time"),
        room: y.limit("gap"),
        room_fast: y.limit("gap-fast"),
        fast: y.limit("fast"),
        speed: y.limit("speed"),
        own_speed: y.limit("own-speed"),
        closest: y.limit("closest"),
        slowing: y.limit("slowing"),
        slowing_hard: y.limit("slowing-hard"),
        grace: ticks(y.limit("grace")),
        hand: y.limit("hand"),
        struck_within: ticks(y.limit("struck-within")),
        pushed: y.common.struck_from,
    };
    Box::new(NearMiss { y, by, people: BTreeMap::new() })
}

impl NearMiss {
    fn near(&self, m: &Moment, p: &PersonMoment) -> Option<Near> {
        // Who walks past a truck that stands misses nothing, and who creeps lets others come near.
        let own = m.truck.speed.abs().max(p.place_speed);
        if m.truck.speed.abs() <= self.y.common.rest_speed || p.gap <= 0.0 {
            return None;
        }
        let time = p.time_to_collision.filter(|t| *t < self.by.time && own > self.by.own_speed);
        let by_time = time.and_then(|t| self.by_time(m, p, t));
        let keep =
            if over(p.passing_speed, self.by.fast) { self.by.room_fast } else { self.by.room };
        let passes = p.place_speed > self.by.own_speed && p.passing_speed > self.by.speed;
        let close = p.gap < keep && passes;
        by_time.or(close.then_some(Near::Room(p.gap, keep)))
    }

    fn by_time(&self, m: &Moment, p: &PersonMoment, t: f64) -> Option<Near> {
        // Speed of closing in is gap over time: v^2 / 2 gap.
        let closing = p.gap / t.max(1e-9);
        let needed = |gap: f64| closing * closing / (2.0 * gap.max(1e-9));
        if !slows(m) {
            // Nobody brakes in the very moment in which someone steps out.
            let new = p.stepped_out.is_some()
                && p.seen_since.is_some_and(|since| m.tick - since <= self.by.grace);
            let left = p.gap - self.by.hand * closing;
            let late = over(needed(left), self.by.slowing_hard);
            return (!new).then_some(Near::Time(t, late));
        }
        let needed = needed(p.gap);
        over(needed, self.by.slowing).then_some(Near::Slowing(needed))
    }

    fn values(&self, near: Near) -> (f64, f64, Unit, Severity) {
        let by = &self.by;
        match near {
            Near::Time(t, late) => {
                // A short time alone harms nobody before whom one could still stop.
                let severity = if late { self.y.severity_at(t) } else { self.y.severity };
                (t, by.time, Unit::Second, severity)
            }
            // Whether it is critical is asked apart, whatever is told of it.
            Near::Room(r, keep) => (r, keep, Unit::Metre, self.y.severity),
            Near::Slowing(a) => {
                let hard = over(a, by.slowing_hard);
                let severity = if hard { self.y.worst_severity() } else { self.y.severity };
                (a, by.slowing, Unit::MetrePerSecondSquared, severity)
            }
        }
    }
}

impl Watcher for NearMiss {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let mut people = core::mem::take(&mut self.people);
        for p in &m.people {
            let near = self.near(m, p);
            let pushed = over(p.pushed, self.by.pushed);
            // Most people never come near, and nothing is kept of them.
            if near.is_none() && !pushed && !people.contains_key(&p.person) {
                continue;
            }
            let someone = people.entry(p.person).or_default();
            someone.told.retain(|t| m.tick - t.last <= self.by.struck_within);
            if pushed {
                // What came of it stands for it.
                someone.struck = Some(m.tick);
                someone.told.drain(..).for_each(|t| out.take_back(t.handle));
            }
            if someone.struck.is_some_and(|t| m.tick - t <= self.by.struck_within) {
                continue;
            }
            let Some(near) = near else { continue };
            // Whatever is told of it, so near at such a speed is as grave as can be.
            let closest = p.gap < self.by.closest && p.place_speed > self.by.speed;
            let least = if closest { self.y.worst_severity() } else { Severity::Good };
            let again_after = self.y.common.again_after;
            let same = someone.told.last_mut().filter(|t| m.tick - t.last <= again_after);
            let told = match same {
                None => None,
                Some(t) if near.rank() > t.nearest.rank() => {
                    // Told anew from where it began, and no less grave.
                    out.take_back(t.handle);
                    let began = (t.from, t.at, t.severity);
                    someone.told.pop();
                    Some(began)
                }
                Some(t) => {
                    t.nearest = t.nearest.worse(near);
                    t.last = m.tick;
                    t.severity = t.severity.max(self.values(near).3).max(least);
                    let (measured, limit, ..) = self.values(t.nearest);
                    out.worsen(t.handle, m.tick, measured, limit, t.severity);
                    continue;
                }
            };
            let (measured, limit, unit, graver) = self.values(near);
            let (from, at, severity) =
                told.unwrap_or((m.tick, m.truck.platform_in_yard, Severity::Good));
            let severity = severity.max(graver).max(least);
            let found = self.y.finding(m, measured, limit, unit);
            let handle = out.open(Finding { from, at, severity, ..found });
            someone.told.push(Told { from, at, last: m.tick, nearest: near, severity, handle });
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
            let pushed = if gap <= 0.0 { 0.03 } else { 0.0 };
            let place_speed = m.truck.speed;
            let person = PersonMoment { passing_speed: speed, place_speed, pushed, ..person(gap) };
            m.people.push(person);
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
        let fast = |left, gap| {
            let d = time(Drive::new(), 20, left).all(|m| m.people[0].gap = gap);
            found(&d)[0].severity
        };
        assert_eq!((fast(0.8, 3.0), fast(0.79, 3.0)), (Severity::Major, Severity::Critical));
        let two = time(time(Drive::new(), 20, 1.2), 3, 0.4);
        assert_eq!(found(&two)[0].severity, Severity::Critical);
        assert_eq!(found(&time(two, 5, 1.4))[0].measured, 0.4);
    }

    /// At 1 m/s the strongest brake takes 1/6 m, and the quickest hand a quarter of a metre before it.
    #[test]
    fn a_short_time_is_critical_where_the_quickest_hand_would_come_too_late() {
        let severity = |gap: f64| {
            found(&time(Drive::new(), 9, gap).all(|m| m.people[0].gap = gap))[0].severity
        };
        let needs = 0.25 + 1.0 / 6.0;
        assert_eq!(
            (severity(needs + 0.001), severity(needs - 0.001)),
            (Severity::Major, Severity::Critical)
        );
    }

    #[test]
    fn below_two_tenths_of_a_metre_it_is_critical_though_there_is_time() {
        let severity = |gap, speed| {
            let d = time(Drive::new(), 9, 1.4).all(|m| {
                (m.people[0].gap, m.people[0].place_speed) = (gap, speed);
            });
            found(&d)[0].severity
        };
        assert_eq!(
            (severity(0.2, 0.51), severity(0.199, 0.51)),
            (Severity::Major, Severity::Critical)
        );
        assert_eq!(severity(0.199, 0.5), Severity::Major);
    }

    #[test]
    fn half_a_metre_is_room_enough_and_half_a_metre_a_second_slow_enough() {
        assert!(found(&pass(Drive::new(), 9, 0.5, 1.0)).is_empty());
        assert!(found(&pass(Drive::new(), 9, 0.3, 0.5)).is_empty());
        let one = found(&pass(Drive::new(), 9, 0.499, 0.51));
        assert_eq!((one[0].measured, one[0].unit), (0.499, Unit::Metre));
    }

    #[test]
    fn who_is_fast_keeps_more_room() {
        assert!(found(&pass(Drive::new(), 9, 0.75, 1.01)).is_empty());
        let one = found(&pass(Drive::new(), 9, 0.749, 1.01));
        assert_eq!((one[0].measured, one[0].limit), (0.749, 0.75));
        assert!(found(&pass(Drive::new(), 9, 0.749, 1.0)).is_empty());
    }

    #[test]
    fn below_two_tenths_of_a_metre_it_is_critical_and_stays_so_whatever_is_told_next() {
        let severity = |gap| found(&pass(Drive::new(), 9, gap, 0.51))[0].severity;
        assert_eq!((severity(0.2), severity(0.199)), (Severity::Major, Severity::Critical));
        let then_time = found(&time(pass(Drive::new(), 9, 0.199, 0.51), 5, 1.4));
        assert_eq!((then_time.len(), then_time[0].severity), (1, Severity::Critical));
    }

    #[test]
    fn who_creeps_lets_others_come_near_in_time() {
        let creeps = |d: Drive, speed, place| {
            found(&d.all(|m| (m.truck.speed, m.people[0].place_speed) = (speed, place))).len()
        };
        let late = |speed, place| creeps(time(Drive::new(), 9, 0.5), speed, place);
        assert_eq!((late(0.4, 0.4), late(0.401, 0.0), late(0.0, 1.0)), (0, 1, 0));
        // A tail that swings is as fast as it is.
        assert_eq!(late(0.1, 0.401), 1);
        let passed = |place| creeps(pass(Drive::new(), 9, 0.1, 1.4), 0.1, place);
        assert_eq!((passed(0.4), passed(0.401)), (0, 1));
    }

    #[test]
    fn someone_who_walks_by_fast_makes_nothing_critical_of_a_slow_truck() {
        let severity = |place| {
            found(&pass(Drive::new(), 9, 0.1, 1.4).all(|m| m.people[0].place_speed = place))[0]
                .severity
        };
        assert_eq!((severity(0.5), severity(0.501)), (Severity::Major, Severity::Critical));
    }

    /// The gap is 2 m: met in t seconds it takes 1 / t^2 m/s^2 to stop in it.
    #[test]
    fn who_brakes_is_measured_by_how_hard_it_must_be() {
        let brakes = |t: f64| found(&time(Drive::new(), 9, t).all(|m| m.truck.plugging = true));
        let time_for = |needed: f64| (1.0 / needed).sqrt();
        assert!(brakes(time_for(1.6)).is_empty());
        let major = brakes(time_for(1.61));
        assert_eq!(
            (major[0].severity, major[0].unit),
            (Severity::Major, Unit::MetrePerSecondSquared)
        );
        assert_eq!(brakes(time_for(2.99))[0].severity, Severity::Major);
        assert_eq!(brakes(time_for(3.01))[0].severity, Severity::Critical);
    }

    #[test]
    fn nobody_brakes_in_the_very_moment_in_which_someone_steps_out() {
        // 1.1 s are 70.4, to the nearest 70 ticks.
        let out = |ticks| {
            found(&time(Drive::new(), ticks, 1.2).all(|m| m.people[0].stepped_out = Some(0)))
        };
        assert!(out(71).is_empty());
        assert_eq!(out(72)[0].from, 71);
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

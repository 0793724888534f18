//! Leaving the truck: forks down, neutral, power off, and out of the way.

use crate::finding::{Finding, Unit};
use crate::moment::Moment;
use crate::rules::{Yardstick, over};
use crate::time::Tick;
use crate::watch::rest::Rest;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct Unattended {
    y: Yardstick,
    may_last: f64,
    forks: f64,
    far: f64,
    long: Spell,
    away: Spell,
}

/// Left for long, far away or out of sight, with forks up, a throttle that is not neutral, or the key on.
pub(super) fn unattended(y: Yardstick) -> Box<dyn Watcher> {
    let (may_last, forks, far) = (y.limit("for"), y.limit("forks"), y.limit("away"));
    let (long, away) = (Spell::new(Unit::Second, may_last), Spell::new(Unit::Metre, 0.0));
    Box::new(Unattended { y, may_last, forks, far, long, away })
}

impl Unattended {
    /// How far the truck is from who stepped down, and how far it may be: out of sight not at all.
    fn is_away(&self, m: &Moment) -> Option<Seen> {
        let off = m.rider.off?;
        let may_be = if off.in_view { self.far } else { 0.0 };
        over(off.away, may_be).then(|| Seen::of(off.away, may_be, self.y.severity))
    }
}

impl Watcher for Unattended {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let throttle = f64::from(m.controls.throttle).abs() / 100.0;
        let ready = m.truck.fork_height <= self.forks
            && throttle <= self.y.common.neutral
            && !m.controls.key_on;
        let unsafe_and_left = !m.rider.aboard && !ready;
        let away = self.is_away(m).filter(|_| unsafe_and_left);
        // One time off is one finding: who is away is not told to be long off as well.
        let here = unsafe_and_left && away.is_none();
        let seconds = self.long.seconds_with_this();
        let long = here.then(|| Seen::of(seconds, self.may_last, self.y.severity));
        self.away.see(m, &self.y, away, out);
        self.long.see(m, &self.y, long, out);
    }
}

struct Unsecured {
    y: Yardstick,
    may_last: f64,
    forks: f64,
    grade: f64,
    hidden: f64,
    spell: Spell,
}

/// Off the platform, however near, with the truck able to move, on a grade, or where it cannot be seen.
pub(super) fn unsecured(y: Yardstick) -> Box<dyn Watcher> {
    let (may_last, forks) = (y.limit("for"), y.limit("forks"));
    let (grade, hidden) = (y.limit("grade"), y.limit("hidden"));
    let spell = Spell::new(Unit::Second, may_last);
    Box::new(Unsecured { y, may_last, forks, grade, hidden, spell })
}

impl Watcher for Unsecured {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let throttle = f64::from(m.controls.throttle).abs() / 100.0;
        let can_move = m.truck.fork_height > self.forks
            || throttle > self.y.common.neutral
            || !m.truck.braking
            || over(m.load.grade.abs(), self.grade);
        let hidden = m.place.from_hidden.is_some_and(|away| away < self.hidden);
        let seen = (!m.rider.aboard && (can_move || hidden))
            .then(|| Seen::of(self.spell.seconds_with_this(), self.may_last, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

struct InTheWay {
    y: Yardstick,
    may_last: f64,
    rest: Rest,
    spell: Spell,
    told: bool,
    /// The truck has moved: where it was put at the start is not the rider's doing.
    moved: bool,
    /// Standing on a crossing in the last tick: what the end of the drive would find.
    last: Option<Finding>,
}

/// Left, or standing while someone wants to cross, or the drive ended, on a crossing.
pub(super) fn in_the_way(y: Yardstick) -> Box<dyn Watcher> {
    let (may_last, rest) = (y.limit("for"), Rest::new(&y.common));
    let spell = Spell::new(Unit::Second, may_last);
    Box::new(InTheWay { y, may_last, rest, spell, told: false, moved: false, last: None })
}

impl Watcher for InTheWay {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.rest.see(m);
        self.moved |= m.truck.speed.abs() > self.y.common.rest_speed;
        let on = self.moved && m.crossings.iter().any(|c| c.truck_on);
        let wanted = m.crossings.iter().any(|c| c.truck_on && c.wanted);
        let stands = m.truck.speed.abs() <= self.y.common.rest_speed;
        let left = on && (!m.rider.aboard || wanted && stands);
        let stood = self.spell.seconds_with_this();
        let seen = left.then(|| Seen::of(stood, self.may_last, self.y.severity));
        self.told = on && (self.told || left && stood > self.may_last);
        self.spell.see(m, &self.y, seen, out);
        let ends_here = on && self.rest.at_rest() && !self.told;
        self.last = ends_here.then(|| self.y.finding(m, 0.0, self.may_last, Unit::Second));
    }

    fn end(&mut self, _last: Tick, out: &mut Report) {
        if let Some(finding) = self.last.take() {
            out.open(finding);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::Vec2;
    use crate::moment::OffMoment;
    use crate::watch::test_support::{Drive, crossing, watch};

    fn off_for(ticks: u32, key_on: bool) -> Drive {
        Drive::new().still(5).with(ticks, move |m| {
            m.rider.aboard = false;
            m.controls.key_on = key_on;
            m.truck.fork_height = 0.0;
        })
    }

    #[test]
    fn half_a_minute_on_foot_with_the_key_on() {
        let found = |d: &Drive| watch("unattended", d);
        assert!(found(&off_for(1920, true)).is_empty());
        let one = found(&off_for(1921, true));
        assert_eq!((one[0].from, one[0].measured), (5, 30.0156));
        assert!(found(&off_for(4000, false)).is_empty());
        let forks = |h| off_for(2000, false).all(|m| m.truck.fork_height = h);
        assert!(found(&forks(0.005)).is_empty());
        assert_eq!(found(&forks(0.006)).len(), 1);
        assert_eq!(found(&off_for(2000, false).all(|m| m.controls.throttle = 20)).len(), 1);
        assert!(found(&Drive::new().still(4000)).is_empty());
        // A pick run: off for two seconds at each of many stops.
        let mut run = Drive::new();
        for _ in 0..30 {
            run = run.rolling(60, 1.0).with(128, |m| m.rider.aboard = false);
        }
        assert!(found(&run).is_empty());
    }

    fn rolled_off(away: f64, in_view: bool, key_on: bool) -> Vec<Finding> {
        let off = OffMoment { at: Vec2::default(), away, in_view };
        watch("unattended", &off_for(1, key_on).all(|m| m.rider.off = Some(off)))
    }

    #[test]
    fn twenty_five_feet_off_or_out_of_sight_it_is_unattended_at_once() {
        assert!(rolled_off(7.6, true, true).is_empty());
        let far = rolled_off(7.61, true, true);
        assert_eq!((far.len(), far[0].measured, far[0].limit), (1, 7.61, 7.6));
        assert_eq!(far[0].unit, Unit::Metre);
        // Round a corner it is at no distance in anybody's sight.
        let hidden = rolled_off(1.2, false, true);
        assert_eq!((hidden.len(), hidden[0].measured, hidden[0].limit), (1, 1.2, 0.0));
        assert!(rolled_off(1.2, true, true).is_empty());
        // With forks down, in neutral and without its key it is left as it should be.
        assert!(rolled_off(20.0, false, false).is_empty());
    }

    fn on(d: Drive, ticks: u32, aboard: bool, speed: f64) -> Drive {
        d.with(ticks, move |m| {
            m.rider.aboard = aboard;
            m.truck.speed = speed;
            m.crossings.push(crossing(true, false));
        })
    }

    #[test]
    fn a_crossing_is_no_place_to_stand() {
        let found = |d: &Drive| watch("parked-in-the-way", d);
        let stop = || on(Drive::new().rolling(5, 1.0), 100, true, 0.0);
        assert!(found(&on(stop(), 320, false, 0.0).rolling(9, 1.0)).is_empty());
        let left = on(stop(), 321, false, 0.0);
        assert_eq!(found(&left.clone().rolling(9, 1.0)).len(), 1);
        assert_eq!(found(&left).len(), 1);
        // The drive ends there, at rest or rolling over it.
        assert_eq!(found(&stop()).len(), 1);
        assert!(found(&on(Drive::new().rolling(5, 1.0), 50, true, 0.5)).is_empty());
        assert!(found(&stop().rolling(9, 1.0)).is_empty());
        assert!(found(&Drive::new().still(900)).is_empty());
    }

    #[test]
    fn standing_on_it_aboard_while_somebody_wants_to_cross_counts_too() {
        let stands = |ticks, wanted| {
            let d = on(Drive::new().rolling(5, 1.0), ticks, true, 0.0);
            let d = d.all(|m| m.crossings.iter_mut().for_each(|c| c.wanted = wanted));
            watch("parked-in-the-way", &d.rolling(9, 1.0)).len()
        };
        assert_eq!((stands(320, true), stands(321, true), stands(900, false)), (0, 1, 0));
    }

    /// Off the platform for so many ticks, the truck as `so` says.
    fn down(ticks: u32, so: impl Fn(&mut Moment)) -> usize {
        let secured = |m: &mut Moment| {
            m.rider.aboard = false;
            (m.truck.fork_height, m.truck.braking) = (0.0, true);
            so(m);
        };
        watch("left-unsecured", &Drive::new().still(5).with(ticks, secured)).len()
    }

    #[test]
    fn off_the_platform_the_truck_is_secured_within_three_seconds() {
        assert_eq!(down(2000, |_| {}), 0);
        let forks = |m: &mut Moment| m.truck.fork_height = 0.006;
        assert_eq!((down(192, forks), down(193, forks)), (0, 1));
        assert_eq!(down(193, |m| m.truck.fork_height = 0.005), 0);
        assert_eq!(down(193, |m| m.truck.braking = false), 1);
        assert_eq!(down(193, |m| m.controls.throttle = 6), 1);
        assert_eq!(
            (down(193, |m| m.load.grade = -0.05), down(193, |m| m.load.grade = -0.051)),
            (0, 1)
        );
        let hidden = |away: f64| down(193, move |m| m.place.from_hidden = Some(away));
        assert_eq!((hidden(3.0), hidden(2.999)), (0, 1));
    }
}

//! The first second after a surprise: what came first, and how soon the brake.

use crate::finding::{Finding, Unit};
use crate::math::{DEG, Vec2};
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::{seconds, ticks};
use crate::time::Tick;
use crate::truck::arm::ArmZone;
use crate::watch::surprise::{Surprises, brakes};
use crate::watch::throttle::asked;
use crate::watch::{Handle, Report, Watcher};

/// The state of a truck when something came into sight.
#[derive(Clone, Copy)]
struct Before {
    since: Tick,
    at: Vec2,
    way: f64,
    throttle: f64,
    steer: f64,
}

impl Before {
    fn of(m: &Moment, since: Tick) -> Self {
        let (way, throttle) = (m.truck.speed.signum(), asked(m));
        Self { since, at: m.truck.platform_in_yard, way, throttle, steer: m.truck.steer }
    }

    fn finding(&self, found: Finding) -> Finding {
        Finding { from: self.since, at: self.at, ..found }
    }
}

/// Waiting for the first act; or for what becomes of throttle against the motion, with the most
/// of it so far.
#[derive(Clone, Copy)]
enum State {
    Calm,
    Waiting(Before),
    Against(Before, f64),
}

struct WrongFirst {
    y: Yardstick,
    within: f64,
    watch: Tick,
    throttle: f64,
    steer: f64,
    surprises: Surprises,
    state: State,
}

/// Reversing, swerving or stepping off before any braking.
pub(super) fn wrong_first(y: Yardstick) -> Box<dyn Watcher> {
    let (within, watch) = (y.limit("within"), ticks(y.limit("watch")));
    let (throttle, steer) = (y.limit("throttle"), y.limit("steer") * DEG);
    let surprises = Surprises::default();
    Box::new(WrongFirst { y, within, watch, throttle, steer, surprises, state: State::Calm })
}

impl WrongFirst {
    /// What this tick makes of the state, and whether the first act was wrong.
    fn act(&self, m: &Moment) -> (State, bool) {
        let common = &self.y.common;
        let speed = m.truck.speed;
        let against = |way: f64| -asked(m) * way;
        let arm = m.truck.arm_zone != ArmZone::Driving;
        match self.state {
            State::Calm => (State::Calm, false),
            State::Waiting(b) | State::Against(b, _) if m.tick - b.since > self.watch => {
                (State::Calm, false)
            }
            State::Waiting(b) => {
                let eased = asked(m).abs() <= common.neutral && b.throttle.abs() > common.neutral;
                if arm || eased {
                    return (State::Calm, false);
                }
                if against(b.way) > common.neutral {
                    return (State::Against(b, against(b.way)), false);
                }
                let rolls = speed.abs() > common.rest_speed;
                let off = !m.rider.aboard && rolls;
                let swerves = (m.truck.steer - b.steer).abs() > self.steer && rolls;
                (if off || swerves { State::Calm } else { self.state }, off || swerves)
            }
            State::Against(b, most) => {
                if arm || against(b.way) <= common.neutral {
                    return (State::Calm, false);
                }
                let most = most.max(against(b.way));
                if speed * b.way < -common.rest_speed {
                    return (State::Calm, most > self.throttle);
                }
                (State::Against(b, most), false)
            }
        }
    }
}

impl Watcher for WrongFirst {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        for s in self.surprises.see(m, &self.y.common, self.watch) {
            if s.moving && s.gap <= self.within && matches!(self.state, State::Calm) {
                self.state = State::Waiting(Before::of(m, s.since));
            }
        }
        let before = match self.state {
            State::Calm => return,
            State::Waiting(b) | State::Against(b, _) => b,
        };
        let (state, wrong) = self.act(m);
        self.state = state;
        if wrong {
            let took = seconds(m.tick - before.since);
            let found = self.y.finding(m, took, seconds(self.watch), Unit::Second);
            out.open(before.finding(found));
        }
    }
}

struct Quick {
    y: Yardstick,
    within: f64,
    reaction: f64,
    fresh: Tick,
    surprises: Surprises,
    waiting: Option<Before>,
    /// Braked in time; taken back when the brake turns into driving the other way.
    told: Option<(Before, Handle)>,
}

/// Braked soon after a surprise.
pub(super) fn quick(y: Yardstick) -> Box<dyn Watcher> {
    let (within, reaction) = (y.limit("within"), y.limit("reaction"));
    let fresh = ticks(reaction);
    let surprises = Surprises::default();
    Box::new(Quick { y, within, reaction, fresh, surprises, waiting: None, told: None })
}

impl Watcher for Quick {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        for s in self.surprises.see(m, &self.y.common, self.fresh) {
            // Who brakes already cannot be quick.
            if s.moving && s.gap <= self.within && self.waiting.is_none() && !brakes(m) {
                self.waiting = Some(Before::of(m, s.since));
            }
        }
        if let Some((b, handle)) = self.told {
            let against = -asked(m) * b.way > self.y.common.neutral;
            if against && m.truck.speed * b.way < -self.y.common.rest_speed {
                out.take_back(handle);
                self.told = None;
            } else if !against {
                self.told = None;
            }
        }
        let Some(b) = self.waiting else { return };
        let took = seconds(m.tick - b.since);
        if took > self.reaction || !m.rider.aboard {
            self.waiting = None;
        } else if brakes(m) {
            let found = self.y.finding(m, took, self.reaction, Unit::Second);
            self.told = Some((b, out.open(b.finding(found))));
            self.waiting = None;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::moment::{OtherMoment, PersonMoment};
    use crate::watch::test_support::{Drive, other, person, watch};

    /// Someone steps out in tick 10 with this room; `act` says what the rider does from when on.
    fn out(gap: f64, act: impl Fn(&mut Moment, Tick)) -> Drive {
        Drive::new().rolling(300, 1.5).all(|m| {
            m.controls.throttle = 60;
            if let Some(since) = m.tick.checked_sub(10) {
                m.people.push(PersonMoment { stepped_out: Some(10), ..person(gap) });
                act(m, since);
            }
        })
    }

    fn wrong(d: &Drive) -> usize {
        watch("wrong-first-reaction", d).len()
    }

    #[test]
    fn swerving_before_braking_is_wrong_and_after_it_is_not() {
        let swerve = |gap, deg: f64, from: Tick, brake: Tick| {
            out(gap, move |m, since| {
                m.truck.steer = if since >= from { deg * DEG } else { 0.0 };
                if since >= brake {
                    m.truck.arm_zone = ArmZone::UpperBrake;
                }
            })
        };
        assert_eq!(wrong(&swerve(8.0, 21.0, 30, 40)), 1);
        assert_eq!(wrong(&swerve(8.0, 20.0, 30, 40)), 0);
        assert_eq!(wrong(&swerve(8.0, -21.0, 30, 29)), 0);
        assert_eq!(wrong(&swerve(10.0, 21.0, 30, 40)), 1);
        assert_eq!(wrong(&swerve(10.1, 21.0, 30, 40)), 0);
        assert_eq!(wrong(&swerve(8.0, 21.0, 192, 400)), 1);
        assert_eq!(wrong(&swerve(8.0, 21.0, 193, 400)), 0);
        let found = watch("wrong-first-reaction", &swerve(8.0, 21.0, 32, 40));
        assert_eq!((found[0].from, found[0].measured), (10, 0.5));
    }

    #[test]
    fn throttle_against_the_motion_is_braking_until_it_drives_the_other_way() {
        let back = |throttle: i8, let_go: Tick| {
            out(5.0, move |m, since| {
                if since >= 5 {
                    m.truck.speed = 1.5 - 0.03 * f64::from(since);
                    m.controls.throttle = if since < let_go { throttle } else { 0 };
                    m.truck.plugging = m.truck.speed > 0.0;
                }
            })
        };
        assert_eq!(wrong(&back(-60, 200)), 1);
        assert_eq!(wrong(&back(-50, 200)), 0);
        assert_eq!(wrong(&back(-60, 50)), 0);
        assert_eq!(watch("quick-reaction", &back(-60, 50)).len(), 1);
        assert!(watch("quick-reaction", &back(-60, 200)).is_empty());
    }

    #[test]
    fn stepping_off_before_braking_is_wrong() {
        let off = |eases: bool| {
            out(5.0, move |m, since| {
                if eases && since == 20 {
                    m.controls.throttle = 0;
                }
                m.rider.aboard = since < 25;
            })
        };
        assert_eq!((wrong(&off(false)), wrong(&off(true))), (1, 0));
    }

    #[test]
    fn braking_within_a_second_is_quick() {
        let brake = |from: Tick| {
            out(5.0, move |m, since| {
                if since >= from {
                    m.truck.arm_zone = ArmZone::LowerBrake;
                }
            })
        };
        assert_eq!(watch("quick-reaction", &brake(64))[0].measured, 1.0);
        assert!(watch("quick-reaction", &brake(65)).is_empty());
        assert!(watch("quick-reaction", &brake(0)).is_empty());
        assert_eq!(wrong(&brake(64)), 0);
    }

    #[test]
    fn another_truck_that_sets_off_is_a_surprise_and_nothing_is_none() {
        let d = |set_off| {
            Drive::new().rolling(100, 1.0).all(move |m| {
                m.others.push(OtherMoment { set_off, ..other(6.0) });
                m.truck.steer = if m.tick > 50 { 0.5 } else { 0.0 };
            })
        };
        assert_eq!((wrong(&d(Some(0))), wrong(&d(None))), (1, 0));
        assert_eq!(wrong(&d(Some(0)).all(|m| m.truck.speed = 0.05)), 0);
    }
}

//! Emergency stops: how soon the arm was in a brake zone after the signal, and in which; and how
//! soon the rider slowed down, in any way, for someone who stepped out or another truck that set off
//! into the way. Who creeps has slowed down already.
//!
//! A stop without the arm before the time is up is not late; it used the other brake.

use crate::course::BrakeZone;
use crate::finding::Unit;
use crate::math::Vec2;
use crate::moment::{CourseEvent, Moment, OtherMoment, PersonMoment};
use crate::rules::{Yardstick, ticks};
use crate::time::{DT, Tick};
use crate::truck::arm::ArmZone;
use crate::watch::surprise::{Surprises, Who, slows};
use crate::watch::{Handle, Report, Watcher};

#[derive(Clone, Copy)]
struct Signal {
    since: Tick,
    at: Vec2,
    finding: Option<Handle>,
    /// Someone on foot was near meanwhile.
    near: bool,
}

struct Late {
    y: Yardstick,
    limit: f64,
    waiting: Option<Signal>,
    /// Nearer than this someone on foot is near, m.
    near: f64,
    /// Slower than this there is nothing to be late with, m/s.
    speed: f64,
    surprises: Surprises,
    /// Other trucks that set off a short while ago, and are not in the way yet.
    set_off: Vec<(u32, Tick)>,
    /// Someone stepped out, or another truck is in the way, and the rider has not slowed down yet.
    out: Option<(Who, Signal)>,
}

/// Reacting late, or never.
pub(super) fn late(y: Yardstick) -> Box<dyn Watcher> {
    let limit = y.limit("reaction");
    let (speed, near) = (y.limit("speed"), y.limit("near"));
    Box::new(Late {
        y,
        limit,
        near,
        waiting: None,
        speed,
        surprises: Surprises::default(),
        set_off: Vec::new(),
        out: None,
    })
}

impl Late {
    /// How long the rider has waited by now. Only near to a person it can be as grave as can be: doing
    /// nothing for long then is not to have seen them.
    fn waits(&self, m: &Moment, signal: &mut Signal, out: &mut Report) {
        let waited = f64::from(m.tick - signal.since) * DT;
        if waited <= self.limit {
            return;
        }
        match signal.finding {
            Some(h) => {
                let worst = self.y.severity_at(waited);
                let severity = if signal.near { worst } else { self.y.severity };
                out.worsen(h, m.tick, waited, self.limit, severity);
            }
            None => {
                let found = self.y.finding(m, waited, self.limit, Unit::Second);
                signal.finding = Some(out.open(crate::finding::Finding {
                    from: signal.since,
                    at: signal.at,
                    ..found
                }));
            }
        }
    }

    fn signal(&mut self, m: &Moment, out: &mut Report) {
        if m.events.contains(&CourseEvent::SignalOn) {
            self.waiting = Some(Signal {
                since: m.tick,
                at: m.truck.platform_in_yard,
                finding: None,
                near: false,
            });
        }
        let Some(mut signal) = self.waiting.take() else {
            return;
        };
        self.waits(m, &mut signal, out);
        let stopped = m.events.iter().any(|e| matches!(e, CourseEvent::EmergencyStopped { .. }));
        if !stopped && m.truck.arm_zone == ArmZone::Driving {
            self.waiting = Some(signal);
        }
    }

    /// Who or what surprises in this tick, and since when.
    fn surprise(&mut self, m: &Moment) -> Option<(Who, Tick)> {
        let fresh = ticks(self.limit);
        let mut first = None;
        for s in self.surprises.see(m, &self.y.common, fresh) {
            match s.who {
                Who::Person(_) if s.moving => first = first.or(Some((s.who, s.since))),
                Who::Other(other) => self.set_off.push((other, s.since)),
                Who::Person(_) => {}
            }
        }
        self.set_off.retain(|(_, since)| m.tick.saturating_sub(*since) <= fresh);
        let soon = self.y.common.called.soon;
        let in_the_way = self.set_off.iter().position(|(other, _)| is_met(m, *other, soon));
        first.or_else(|| {
            let (other, _) = self.set_off.remove(in_the_way?);
            Some((Who::Other(other), m.tick))
        })
    }

    fn people_and_trucks(&mut self, m: &Moment, out: &mut Report) {
        let speed = m.truck.speed.abs();
        if let Some((who, since)) = self.surprise(m)
            && speed > self.speed
            && self.out.is_none()
        {
            let signal = Signal { since, at: m.truck.platform_in_yard, finding: None, near: false };
            self.out = Some((who, signal));
        }
        let Some((who, mut signal)) = self.out.take() else {
            return;
        };
        let is_near = |p: &PersonMoment| who == Who::Person(p.person) && p.gap < self.near;
        signal.near |= m.people.iter().any(is_near);
        self.waits(m, &mut signal, out);
        let soon = self.y.common.called.soon;
        let there = match who {
            Who::Person(person) => {
                m.people.iter().any(|p| p.person == person && p.stepped_out.is_some())
            }
            Who::Other(other) => is_met(m, other, soon),
        };
        if there && speed > self.speed && !slows(m) {
            self.out = Some((who, signal));
        }
    }
}

/// Another truck is on the way ahead and will be met within so many seconds as both go on.
fn is_met(m: &Moment, other: u32, soon: f64) -> bool {
    let own = m.truck.speed.abs();
    let closes = |o: &OtherMoment| own + if o.oncoming { o.speed } else { -o.speed };
    let meets = |o: &OtherMoment| o.ahead.is_some_and(|ahead| ahead < closes(o) * soon);
    m.others.iter().any(|o| o.other == other && meets(o))
}

impl Watcher for Late {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.signal(m, out);
        self.people_and_trucks(m, out);
    }
}

/// What was asked for, remembered until the truck stands: the task has moved on by then.
#[derive(Default)]
struct Asked {
    brake: Option<BrakeZone>,
    since: Option<Tick>,
}

impl Asked {
    fn see(&mut self, m: &Moment) {
        if m.task.signal_since.is_some() {
            self.brake = m.task.signal_brake;
            self.since = m.task.signal_since;
        }
    }
}

struct OtherBrake {
    y: Yardstick,
    asked: Asked,
}

/// The other end of the arm's swing was used, or none.
pub(super) fn other_brake(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(OtherBrake { y, asked: Asked::default() })
}

impl Watcher for OtherBrake {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.asked.see(m);
        for event in &m.events {
            let CourseEvent::EmergencyStopped { used, .. } = event else {
                continue;
            };
            if self.asked.brake.is_some() && *used != self.asked.brake {
                let found = self.y.finding(m, 1.0, 0.0, Unit::Count);
                out.open(crate::finding::Finding {
                    from: self.asked.since.unwrap_or(m.tick),
                    ..found
                });
            }
        }
    }
}

struct Quick {
    y: Yardstick,
    limit: f64,
    asked: Asked,
}

/// A quick stop with the end of the arm's swing that was asked for.
pub(super) fn quick(y: Yardstick) -> Box<dyn Watcher> {
    let limit = y.limit("reaction");
    Box::new(Quick { y, limit, asked: Asked::default() })
}

impl Watcher for Quick {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.asked.see(m);
        for event in &m.events {
            let CourseEvent::EmergencyStopped {
                reaction_s: Some(reaction), used: Some(used), ..
            } = event
            else {
                continue;
            };
            if Some(*used) == self.asked.brake && *reaction <= self.limit {
                let found = self.y.finding(m, *reaction, self.limit, Unit::Second);
                out.open(crate::finding::Finding {
                    from: self.asked.since.unwrap_or(m.tick),
                    ..found
                });
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Severity;
    use crate::watch::test_support::{Drive, watch};

    const ASKED: BrakeZone = BrakeZone::Lower;

    /// A signal in tick 10, the arm in this zone after so many ticks, at rest 20 ticks later.
    fn stop(react_ticks: u32, zone: ArmZone) -> Drive {
        let used = match zone {
            ArmZone::UpperBrake => Some(BrakeZone::Upper),
            ArmZone::LowerBrake => Some(BrakeZone::Lower),
            ArmZone::Driving => None,
        };
        let end = 10 + react_ticks + 20;
        Drive::new().rolling(end + 1, 2.0).all(|m| {
            if m.tick >= 10 + react_ticks {
                m.truck.arm_zone = zone;
            }
            if m.tick == 10 {
                m.events.push(CourseEvent::SignalOn);
            }
            if (10..end).contains(&m.tick) {
                m.task.signal_since = Some(10);
                m.task.signal_brake = Some(ASKED);
            }
            if m.tick == end {
                m.events.push(CourseEvent::EmergencyStopped {
                    distance: 1.0,
                    reaction_s: used.map(|_| f64::from(react_ticks) * DT),
                    used,
                });
            }
        })
    }

    #[test]
    fn a_second_and_a_half_is_in_time() {
        assert!(watch("emergency-late", &stop(96, ArmZone::LowerBrake)).is_empty());
        let found = watch("emergency-late", &stop(97, ArmZone::LowerBrake));
        assert_eq!((found[0].from, found[0].to), (10, 107));
        assert_eq!(found[0].measured, 1.5156);
    }

    #[test]
    fn who_does_nothing_for_somebody_near_for_three_seconds_has_not_seen_them() {
        use crate::watch::test_support::person;
        let out = |after: u32, gap: f64| {
            let d = Drive::new().rolling(300, 1.0).all(move |m| {
                if m.tick >= 10 {
                    m.people.push(PersonMoment { stepped_out: Some(10), ..person(gap) });
                }
                m.truck.plugging = m.tick >= 10 + after;
            });
            watch("emergency-late", &d)[0].severity
        };
        assert_eq!((out(192, 0.9), out(193, 0.9)), (Severity::Major, Severity::Critical));
        // Who goes by at a distance is in no danger.
        assert_eq!((out(250, 1.0), out(250, 0.999)), (Severity::Major, Severity::Critical));
        // A signal of an exercise is late, and no more.
        let signal = watch("emergency-late", &stop(250, ArmZone::LowerBrake));
        assert_eq!(signal[0].severity, Severity::Major);
    }

    #[test]
    fn never_is_late_even_when_the_drive_ends_first() {
        let mut d = stop(200, ArmZone::LowerBrake);
        d.0.truncate(140);
        let found = watch("emergency-late", &d);
        assert_eq!(found[0].to, 139);
    }

    #[test]
    fn braking_for_someone_who_steps_out_takes_a_second_and_a_half_at_most() {
        use crate::moment::PersonMoment;
        use crate::watch::test_support::person;
        let out = |brake: fn(&mut Moment), after: u32| {
            let d = Drive::new().rolling(200, 1.0).all(move |m| {
                if m.tick >= 10 {
                    m.people.push(PersonMoment { stepped_out: Some(10), ..person(6.0) });
                }
                if m.tick >= 10 + after {
                    brake(m);
                }
            });
            watch("emergency-late", &d)
        };
        let brakes: [fn(&mut Moment); 3] = [
            |m| m.truck.arm_zone = ArmZone::UpperBrake,
            |m| m.truck.plugging = true,
            |m| m.truck.speed = 0.05,
        ];
        for brake in brakes {
            assert!(out(brake, 96).is_empty());
            let found = out(brake, 97);
            assert_eq!((found.len(), found[0].from, found[0].measured), (1, 10, 1.5156));
        }
        let gone = Drive::new().rolling(200, 1.0).all(|m| {
            let stepped_out = (m.tick < 50).then_some(0);
            m.people.push(PersonMoment { stepped_out, ..person(6.0) });
        });
        assert!(watch("emergency-late", &gone).is_empty());
    }

    #[test]
    fn the_end_of_the_swing_that_was_asked_for() {
        assert!(watch("other-brake-used", &stop(30, ArmZone::LowerBrake)).is_empty());
        assert_eq!(watch("other-brake-used", &stop(30, ArmZone::UpperBrake))[0].from, 10);
        assert_eq!(watch("other-brake-used", &stop(30, ArmZone::Driving)).len(), 1);
    }

    #[test]
    fn quick_is_within_a_second_and_with_the_right_end() {
        let found = watch("quick-emergency-stop", &stop(64, ArmZone::LowerBrake));
        assert_eq!(found[0].measured, 1.0);
        assert!(watch("quick-emergency-stop", &stop(65, ArmZone::LowerBrake)).is_empty());
        assert!(watch("quick-emergency-stop", &stop(30, ArmZone::UpperBrake)).is_empty());
        assert!(watch("quick-emergency-stop", &stop(30, ArmZone::Driving)).is_empty());
    }

    #[test]
    fn without_a_signal_there_is_nothing_to_react_to() {
        let d = Drive::new().rolling(300, 2.0);
        for code in ["emergency-late", "other-brake-used", "quick-emergency-stop"] {
            assert!(watch(code, &d).is_empty(), "{code}");
        }
    }

    #[test]
    fn letting_go_so_that_it_slows_is_a_reaction_and_who_creeps_has_reacted() {
        use crate::moment::PersonMoment;
        use crate::watch::test_support::person;
        let out = |speed: f64, so: fn(&mut Moment)| {
            let d = Drive::new().rolling(200, speed).all(|m| {
                m.controls.throttle = 40;
                if m.tick >= 10 {
                    m.people.push(PersonMoment { stepped_out: Some(10), ..person(6.0) });
                }
                if m.tick >= 90 {
                    so(m);
                }
            });
            watch("emergency-late", &d).len()
        };
        assert_eq!(out(1.0, |_| {}), 1);
        assert_eq!(out(1.0, |m| (m.controls.throttle, m.truck.accel_long) = (0, -0.3)), 0);
        assert_eq!(out(1.0, |m| m.controls.throttle = 0), 1, "it does not get slower");
        assert_eq!((out(0.5, |_| {}), out(0.501, |_| {})), (0, 1));
    }

    #[test]
    fn another_truck_that_sets_off_into_the_way_is_slowed_down_for() {
        use crate::moment::OtherMoment;
        use crate::watch::test_support::other;
        let comes = |ahead: Option<f64>, oncoming: bool, slows: bool| {
            let d = Drive::new().rolling(200, 1.0).all(|m| {
                if m.tick >= 10 {
                    let set_off = Some(10);
                    m.others.push(OtherMoment { set_off, ahead, oncoming, ..other(4.0) });
                }
                m.truck.plugging = slows && m.tick >= 80;
            });
            watch("emergency-late", &d).len()
        };
        // Both at 1 m/s: met within three seconds.
        assert_eq!(comes(Some(5.9), true, false), 1);
        assert_eq!(comes(Some(5.9), true, true), 0);
        assert_eq!(comes(Some(6.1), true, false), 0);
        assert_eq!(comes(Some(5.9), false, false), 0, "it drives away");
        assert_eq!(comes(None, true, false), 0, "it is not in the way");
    }
}

//! The arm's brake zones are for emergencies and for standing; an ordinary stop is plugged.

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::{Called, Yardstick};
use crate::time::Tick;
use crate::truck::arm::ArmZone;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct ServiceBrake {
    y: Yardstick,
    limit: f64,
    /// Slower than that it is a fault only as a habit: from so many times on, above this, m/s.
    habit: f64,
    times: f64,
    so_far: u32,
    zone_before: Option<ArmZone>,
    /// The arm went into its zone at speed with nothing that called for it.
    uncalled: bool,
    /// The speed that counts for it, m/s.
    by: f64,
    /// Something called for the brake in this tick last.
    called: Option<Tick>,
    spell: Spell,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let limit = y.limit("speed");
    let (habit, times) = (y.limit("habit").min(limit), y.limit("times"));
    Box::new(ServiceBrake {
        y,
        limit,
        habit,
        times,
        so_far: 0,
        zone_before: None,
        uncalled: false,
        by: limit,
        called: None,
        spell: Spell::new(Unit::MetrePerSecond, 0.0),
    })
}

impl Watcher for ServiceBrake {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let zone = m.truck.arm_zone;
        let speed = m.truck.speed.abs();
        // Who has stepped off brakes with nothing: the arm springs up by itself, and stepping off a truck
        // that rolls is told.
        let entered = zone != ArmZone::Driving
            && self.zone_before == Some(ArmZone::Driving)
            && m.rider.aboard;
        self.zone_before = Some(zone);
        if zone == ArmZone::Driving {
            self.uncalled = false;
        }
        if called_for(m, &self.y.common.called) {
            self.called = Some(m.tick);
        }
        if entered {
            // Who has begun to brake may look aside meanwhile.
            let called = self.called.is_some_and(|t| m.tick - t <= self.y.common.called.still);
            self.so_far += u32::from(speed > self.habit && !called);
            self.by = if f64::from(self.so_far) >= self.times { self.habit } else { self.limit };
            self.uncalled = speed > self.by && !called;
        }
        let seen =
            (self.uncalled && speed > self.by).then(|| Seen::of(speed, self.by, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

/// Time, s, and twice the deceleration, m/s^2, of a stop for which there must be room.
const ROOM_S: f64 = 1.0;
const ROOM_SLOWING: f64 = 3.2;

/// Something calls for the quickest stop there is: the signal of an exercise, or someone or another
/// truck that is near and in sight.
pub(super) fn called_for(m: &Moment, by: &Called) -> bool {
    let soon = |t: Option<f64>| t.is_some_and(|t| t < by.soon);
    let v = m.truck.speed.abs();
    // No room to stop gently: a second, and a stop at about the pace of plugging.
    let short = m.sight.braking > 0.0 && m.sight.clear_ahead < v * ROOM_S + v * v / ROOM_SLOWING;
    short
        || m.task.signal_since.is_some()
        || m.people.iter().filter(|p| p.seen_since.is_some()).any(|p| {
            p.gap < by.near
                || soon(p.time_to_collision)
                || (p.stepped_out.is_some() && p.gap < by.stepped_out)
        })
        || m.others.iter().any(|o| o.seen_since.is_some() && o.gap < by.near)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch};

    fn braked_at(speed: f64) -> Drive {
        Drive::new().rolling(5, speed).with(3, move |m| {
            m.truck.speed = speed;
            m.truck.arm_zone = ArmZone::LowerBrake;
        })
    }

    #[test]
    fn at_a_crawl_the_arm_may_come_up() {
        assert!(watch("brake-arm-as-service", &braked_at(0.5)).is_empty());
        let found = watch("brake-arm-as-service", &braked_at(0.51));
        assert_eq!((found[0].from, found[0].to), (5, 7));
        assert_eq!(watch("brake-arm-as-service", &braked_at(-0.51)).len(), 1);
    }

    #[test]
    fn an_arm_that_springs_up_behind_somebody_who_stepped_off_is_not_used() {
        assert!(
            watch("brake-arm-as-service", &braked_at(2.0).all(|m| m.rider.aboard = false))
                .is_empty()
        );
    }

    #[test]
    fn a_signal_calls_for_it() {
        let d = braked_at(2.0).all(|m| m.task.signal_since = Some(3));
        assert!(watch("brake-arm-as-service", &d).is_empty());
    }

    #[test]
    fn someone_near_or_soon_or_stepped_out_calls_for_it_and_for_two_seconds_more() {
        use crate::moment::PersonMoment;
        use crate::watch::test_support::person;
        let found = |p: PersonMoment| {
            let p = PersonMoment { seen_since: Some(0), ..p };
            let d = braked_at(2.0).all(move |m| m.people.push(p));
            watch("brake-arm-as-service", &d).len()
        };
        let far = |gap: f64| PersonMoment { time_to_collision: None, ..person(gap) };
        assert_eq!((found(far(5.999)), found(far(6.0))), (0, 1));
        let meets = |t| PersonMoment { time_to_collision: Some(t), ..person(50.0) };
        assert_eq!((found(meets(2.999)), found(meets(3.0))), (0, 1));
        let out = |gap| PersonMoment { stepped_out: Some(0), ..far(gap) };
        assert_eq!((found(out(11.999)), found(out(12.0))), (0, 1));
        let long_ago = |ticks: u32| {
            let mut p = far(1.0);
            p.seen_since = Some(0);
            let d = Drive::new().with(1, move |m| {
                m.truck.speed = 2.0;
                m.people.push(p);
            });
            let d = d.rolling(ticks - 1, 2.0).with(3, |m| {
                m.truck.speed = 2.0;
                m.truck.arm_zone = ArmZone::LowerBrake;
            });
            watch("brake-arm-as-service", &d).len()
        };
        assert_eq!((long_ago(128), long_ago(129)), (0, 1));
    }

    #[test]
    fn a_drive_that_begins_with_the_arm_upright_has_not_brought_it_there() {
        let d = Drive::new().with(9, |m| {
            m.truck.speed = 1.0;
            m.truck.arm_zone = ArmZone::UpperBrake;
        });
        assert!(watch("brake-arm-as-service", &d).is_empty());
    }

    #[test]
    fn a_second_jab_within_half_a_second_is_the_same_one() {
        let jab = |m: &mut Moment| {
            m.truck.speed = 1.0;
            m.truck.arm_zone = ArmZone::UpperBrake;
        };
        let d = Drive::new().rolling(1, 1.0).with(2, jab).rolling(20, 1.0).with(2, jab);
        assert_eq!(watch("brake-arm-as-service", &d).len(), 1);
        let d = Drive::new().rolling(1, 1.0).with(2, jab).rolling(40, 1.0).with(2, jab);
        assert_eq!(watch("brake-arm-as-service", &d).len(), 2);
    }

    #[test]
    fn at_every_stop_it_is_a_habit() {
        let stops = |times: u32, speed: f64| {
            let d = (0..times).fold(Drive::new(), |d, _| {
                d.rolling(50, speed).with(3, move |m| {
                    m.truck.speed = speed;
                    m.truck.arm_zone = ArmZone::LowerBrake;
                })
            });
            watch("brake-arm-as-service", &d).len()
        };
        assert_eq!((stops(2, 0.4), stops(3, 0.4), stops(4, 0.4)), (0, 1, 2));
        assert_eq!((stops(9, 0.2), stops(3, 0.201)), (0, 1));
    }

    #[test]
    fn no_room_to_stop_gently_calls_for_it() {
        // From 2 m/s a second and a stop at 1.6 m/s^2: 3.25 m.
        let room = |ahead: f64| {
            let d = braked_at(2.0).all(|m| {
                m.sight.braking = 0.7;
                m.sight.clear_ahead = ahead;
            });
            watch("brake-arm-as-service", &d).len()
        };
        assert_eq!((room(3.249), room(3.25)), (0, 1));
    }
}

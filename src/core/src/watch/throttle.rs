//! Giving throttle gently: from neutral to nearly full takes its time.
//!
//! What counts is the throttle that reaches the motor: with the arm in a brake zone that is none.
//! Throttle against the motion is plugging and has its own rules.

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::time::{DT, Tick};
use crate::truck::arm::ArmZone;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

/// What the throttle asks for, share of one, positive power unit first: none without the key or
/// the rider.
pub(super) fn asked(m: &Moment) -> f64 {
    if m.controls.key_on && m.controls.aboard {
        f64::from(m.controls.throttle) / 100.0
    } else {
        0.0
    }
}

/// The part of it that reaches the motor: none with the arm in a brake zone.
pub(super) fn at_the_motor(m: &Moment) -> f64 {
    if m.truck.arm_zone == ArmZone::Driving { asked(m) } else { 0.0 }
}

struct Snatched {
    y: Yardstick,
    throttle: f64,
    within: f64,
    before: f64,
    neutral_at: Option<Tick>,
    spell: Spell,
}

pub(super) fn snatched(y: Yardstick) -> Box<dyn Watcher> {
    let (throttle, within) = (y.limit("throttle"), y.limit("within"));
    Box::new(Snatched {
        y,
        throttle,
        within,
        before: 0.0,
        neutral_at: None,
        spell: Spell::new(Unit::Second, 0.0),
    })
}

impl Watcher for Snatched {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let now = at_the_motor(m);
        let before = core::mem::replace(&mut self.before, now);
        let common = &self.y.common;
        if now.abs() <= common.neutral {
            self.neutral_at = Some(m.tick);
        } else if before * now < 0.0 || self.neutral_at.is_none() {
            // It went through neutral between two ticks, or the drive began with it.
            self.neutral_at = Some(m.tick.saturating_sub(1));
        }
        let against = now * m.truck.speed < 0.0 && m.truck.speed.abs() > common.rest_speed;
        let crossed =
            now.abs() > self.throttle && (before.abs() <= self.throttle || before * now < 0.0);
        let took = f64::from(m.tick - self.neutral_at.unwrap_or(m.tick)) * DT;
        let seen = (crossed && !against && took < self.within).then_some(Seen {
            measured: took,
            limit: self.within,
            badness: -took,
            severity: self.y.severity,
        });
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch};

    /// Neutral, then so many ticks at half, then this much.
    fn rise(half_ticks: u32, to: i8) -> Drive {
        Drive::new()
            .still(10)
            .with(half_ticks, |m| m.controls.throttle = 50)
            .with(30, move |m| m.controls.throttle = to)
    }

    #[test]
    fn a_quarter_second_to_nearly_full_is_gentle_enough() {
        // Last neutral in tick 9; above 80 % in tick 25 is exactly 0.25 s.
        assert!(watch("throttle-snatched", &rise(15, 100)).is_empty());
        let found = watch("throttle-snatched", &rise(14, 100));
        assert_eq!(found[0].from, 24);
        assert_eq!(found[0].measured, 0.2344);
    }

    #[test]
    fn eighty_percent_at_once_is_allowed_and_a_little_more_is_not() {
        assert!(watch("throttle-snatched", &rise(0, 80)).is_empty());
        assert_eq!(watch("throttle-snatched", &rise(0, 81)).len(), 1);
        assert_eq!(watch("throttle-snatched", &rise(0, -81)).len(), 1);
    }

    #[test]
    fn forks_first_it_is_the_same() {
        let found = watch("throttle-snatched", &rise(0, -100));
        assert_eq!((found[0].from, found[0].to), (10, 10));
        // From a steady pull it is no snatch, in either direction.
        let later = |percent: i8| {
            rise(60, percent).all(|m| {
                if (10..70).contains(&m.tick) {
                    m.controls.throttle = percent / 2;
                }
            })
        };
        assert!(watch("throttle-snatched", &later(100)).is_empty());
        assert!(watch("throttle-snatched", &later(-100)).is_empty());
    }

    #[test]
    fn from_one_direction_to_the_other_goes_through_neutral() {
        let found = watch("throttle-snatched", &rise(60, -100));
        assert_eq!((found[0].from, found[0].measured), (70, 0.0156));
        let found = watch(
            "throttle-snatched",
            &rise(60, -100).all(|m| {
                m.controls.throttle = -m.controls.throttle;
            }),
        );
        assert_eq!(found[0].from, 70);
    }

    #[test]
    fn snatching_with_the_motion_counts_at_any_speed() {
        for speed in [2.0, 0.05, -0.05] {
            let d = rise(0, 100).all(|m| m.truck.speed = speed);
            assert_eq!(watch("throttle-snatched", &d).len(), 1, "{speed}");
        }
        let d = rise(0, -100).all(|m| m.truck.speed = -2.0);
        assert_eq!(watch("throttle-snatched", &d).len(), 1);
    }

    #[test]
    fn a_drive_that_begins_at_full_throttle_snatches() {
        let d = Drive::new().with(10, |m| m.controls.throttle = 100);
        assert_eq!(watch("throttle-snatched", &d)[0].from, 0);
    }

    #[test]
    fn full_throttle_behind_the_brake_counts_when_the_arm_lets_it_through() {
        let d = Drive::new()
            .with(40, |m| {
                m.controls.throttle = 100;
                m.truck.arm_zone = ArmZone::UpperBrake;
            })
            .with(10, |m| m.controls.throttle = 100);
        assert_eq!(watch("throttle-snatched", &d)[0].from, 40);
    }

    #[test]
    fn a_throttle_that_moves_nothing_snatches_nothing() {
        let key_off = rise(0, 100).all(|m| m.controls.key_on = false);
        assert!(watch("throttle-snatched", &key_off).is_empty());
        let on_foot = rise(0, 100).all(|m| m.controls.aboard = false);
        assert!(watch("throttle-snatched", &on_foot).is_empty());
    }

    #[test]
    fn plugging_hard_is_no_snatch() {
        let d = rise(0, -100).all(|m| m.truck.speed = 2.0);
        assert!(watch("throttle-snatched", &d).is_empty());
        let d = rise(0, 100).all(|m| m.truck.speed = -2.0);
        assert!(watch("throttle-snatched", &d).is_empty());
    }

    #[test]
    fn again_within_half_a_second_is_one() {
        let full = |m: &mut Moment| m.controls.throttle = 100;
        let d = Drive::new().still(1).with(3, full).still(20).with(3, full);
        assert_eq!(watch("throttle-snatched", &d).len(), 1);
        let d = Drive::new().still(1).with(3, full).still(40).with(3, full);
        assert_eq!(watch("throttle-snatched", &d).len(), 2);
    }
}

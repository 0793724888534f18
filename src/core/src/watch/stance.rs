//! The stance: the body's weight turns the tiller, and feet are moved only when the truck stands.

use crate::finding::Unit;
use crate::math::Vec2;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::over;
use crate::time::{DT, Tick};
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Handle, Report, Watcher};

struct Turn {
    from: Tick,
    at: Vec2,
    last: Tick,
    seconds: f64,
    effort: f64,
    /// Open, and whether it was the effort that opened it.
    finding: Option<(Handle, bool)>,
}

struct ArmStrength {
    y: Yardstick,
    time_limit: f64,
    effort_limit: f64,
    turn: Option<Turn>,
}

/// Turning by arm strength for long, or with much effort. Pauses shorter than the time after
/// which a fault counts anew belong to the same turn.
pub(super) fn arm_strength(y: Yardstick) -> Box<dyn Watcher> {
    let (time_limit, effort_limit) = (y.limit("for"), y.limit("effort"));
    Box::new(ArmStrength { y, time_limit, effort_limit, turn: None })
}

impl Watcher for ArmStrength {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let again_after = self.y.common.again_after;
        if !m.truck.arm_strength {
            self.turn.take_if(|t| m.tick.saturating_sub(t.last) >= again_after);
            return;
        }
        let t = self.turn.get_or_insert(Turn {
            from: m.tick,
            at: m.truck.platform_in_yard,
            last: m.tick,
            seconds: 0.0,
            effort: 0.0,
            finding: None,
        });
        t.last = m.tick;
        t.seconds += DT;
        t.effort += m.truck.arm_torque.abs() * DT;
        let value = |by_effort: bool| {
            if by_effort {
                (t.effort, self.effort_limit, Unit::NewtonMetreSecond)
            } else {
                (t.seconds, self.time_limit, Unit::Second)
            }
        };
        match t.finding {
            Some((h, by_effort)) => {
                let (measured, limit, _) = value(by_effort);
                out.worsen(h, m.tick, measured, limit, self.y.severity);
            }
            None if t.seconds > self.time_limit || over(t.effort, self.effort_limit) => {
                let by_effort = over(t.effort, self.effort_limit);
                let (measured, limit, unit) = value(by_effort);
                let found = self.y.finding(m, measured, limit, unit);
                let handle = out.open(crate::finding::Finding { from: t.from, at: t.at, ..found });
                t.finding = Some((handle, by_effort));
            }
            None => {}
        }
    }
}

struct SteppedAcross {
    y: Yardstick,
    limit: f64,
    /// Steps that began too fast are one fault, those in which it became too fast another.
    begun_fast: bool,
    /// Speed at which the present step began, m/s.
    began: Option<f64>,
    spell: Spell,
}

fn steps(y: Yardstick, begun_fast: bool) -> Box<dyn Watcher> {
    let limit = y.limit("speed");
    let spell = Spell::new(Unit::MetrePerSecond, 0.0);
    Box::new(SteppedAcross { y, limit, begun_fast, began: None, spell })
}

/// Stepped across while the truck moved.
pub(super) fn stepped_across(y: Yardstick) -> Box<dyn Watcher> {
    steps(y, true)
}

/// The truck was driven while the rider was between the sides.
pub(super) fn contact_lost(y: Yardstick) -> Box<dyn Watcher> {
    steps(y, false)
}

impl Watcher for SteppedAcross {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let speed = m.truck.speed.abs();
        if !m.truck.stepping {
            self.began = None;
        }
        let fast = m.truck.stepping && {
            let began = *self.began.get_or_insert(speed);
            speed > self.limit && (began > self.limit) == self.begun_fast
        };
        let seen = fast.then(|| Seen::of(speed, self.limit, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch};

    fn strain(torque: f64) -> impl Fn(&mut Moment) {
        move |m| {
            m.truck.arm_strength = true;
            m.truck.arm_torque = torque;
        }
    }

    #[test]
    fn a_second_and_a_half_is_allowed() {
        let found = |n| watch("arm-strength-turn", &Drive::new().still(2).with(n, strain(10.0)));
        assert!(found(96).is_empty());
        let one = found(97);
        assert_eq!((one[0].from, one[0].to), (2, 98));
        assert_eq!((one[0].measured, one[0].unit), (1.5156, Unit::Second));
    }

    #[test]
    fn much_effort_counts_sooner() {
        // 120 N m over half a second are exactly the 60 N m s of the site rules.
        let found = |n| watch("arm-strength-turn", &Drive::new().with(n, strain(120.0)));
        assert!(found(32).is_empty());
        let one = found(33);
        assert_eq!(one[0].unit, Unit::NewtonMetreSecond);
        assert_eq!((one[0].measured, one[0].limit), (61.875, 60.0));
    }

    #[test]
    fn a_turn_in_small_pulls_is_one_turn_until_a_pause() {
        let pulls = |pause: u32| {
            let mut d = Drive::new();
            for _ in 0..4 {
                d = d.with(30, strain(1.0)).still(pause);
            }
            watch("arm-strength-turn", &d).len()
        };
        assert_eq!(pulls(31), 1);
        assert_eq!(pulls(32), 0);
    }

    #[test]
    fn stepping_across_is_for_standing_trucks() {
        let step = |v: f64| {
            watch(
                "stepped-across-moving",
                &Drive::new().with(38, |m| {
                    m.truck.stepping = true;
                    m.truck.speed = v;
                }),
            )
        };
        assert!(step(0.0).is_empty());
        assert!(step(0.3).is_empty());
        let found = step(-0.31);
        assert_eq!((found[0].from, found[0].to), (0, 37));
        assert_eq!(found[0].measured, 0.31);
    }

    #[test]
    fn driving_off_between_the_sides_is_another_fault_and_not_both() {
        let step = |began: f64, then: f64| {
            let d = Drive::new().rolling(5, 0.2).with(20, move |m| {
                m.truck.stepping = true;
                m.truck.speed = if m.tick < 10 { began } else { then };
            });
            (watch("contact-lost", &d).len(), watch("stepped-across-moving", &d).len())
        };
        assert_eq!(step(0.3, 0.3), (0, 0));
        assert_eq!(step(0.3, 0.31), (1, 0));
        assert_eq!(step(0.31, 0.1), (0, 1));
        assert_eq!(step(0.31, 0.5), (0, 1));
        let driving = Drive::new().rolling(50, 2.0);
        assert!(watch("contact-lost", &driving).is_empty());
    }
}

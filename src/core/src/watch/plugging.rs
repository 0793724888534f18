//! Plugging without running back: the throttle is let go before the truck drives off the other
//! way.
//!
//! Who lets go to neutral and then drives the other way means to. Who goes over into the direction
//! that the step asks for does what was asked.

use crate::course::Travel;
use crate::finding::Unit;
use crate::math::Vec2;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::over;
use crate::time::{DT, Tick};
use crate::watch::throttle::asked;
use crate::watch::{Handle, Report, Watcher};

#[derive(Clone, Copy)]
enum State {
    Free,
    /// Braked by the throttle while moving this way (1 power unit first, -1 forks first).
    Plugging {
        way: f64,
    },
    /// Past zero speed with the throttle still on.
    Back {
        way: f64,
        from: Tick,
        at: Vec2,
        distance: f64,
        let_go: bool,
        finding: Option<Handle>,
    },
}

struct RanBack {
    y: Yardstick,
    limit: f64,
    state: State,
}

pub(super) fn ran_back(y: Yardstick) -> Box<dyn Watcher> {
    let limit = y.limit("distance");
    Box::new(RanBack { y, limit, state: State::Free })
}

/// The sign of the speed that a step asks for.
pub(super) fn asked_way(travel: Travel) -> f64 {
    match travel {
        Travel::PowerUnitFirst => 1.0,
        Travel::ForksFirst => -1.0,
    }
}

impl Watcher for RanBack {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let speed = m.truck.speed;
        let throttle = asked(m);
        let neutral = self.y.common.neutral;
        if let State::Plugging { way } = self.state {
            // Close to rest the motor no longer counts as plugging; the hand does.
            let against = throttle * way < -neutral;
            if speed * way > 0.0 && !against {
                self.state = State::Free;
            } else if speed * way <= 0.0 {
                self.state = if against {
                    State::Back {
                        way,
                        from: m.tick,
                        at: m.truck.platform_in_yard,
                        distance: 0.0,
                        let_go: false,
                        finding: None,
                    }
                } else {
                    State::Free
                };
            }
        }
        match &mut self.state {
            State::Free if m.truck.plugging && speed != 0.0 => {
                self.state = State::Plugging { way: speed.signum() };
            }
            State::Back { way, from, at, distance, let_go, finding } => {
                *let_go |= throttle * *way >= -neutral;
                let meant = *let_go && throttle * *way < -neutral;
                let stands = *let_go && speed.abs() <= self.y.common.rest_speed;
                if meant || stands || speed * *way > 0.0 {
                    self.state = State::Free;
                    return;
                }
                if asked_way(m.task.travel) != *way {
                    return;
                }
                *distance += speed.abs() * DT;
                if !over(*distance, self.limit) {
                    return;
                }
                match finding {
                    Some(h) => {
                        out.worsen(*h, m.tick, *distance, self.limit, self.y.severity);
                    }
                    None => {
                        let found = self.y.finding(m, *distance, self.limit, Unit::Metre);
                        *finding = Some(out.open(crate::finding::Finding {
                            from: *from,
                            at: *at,
                            ..found
                        }));
                    }
                }
            }
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch};

    /// Plugs from 1 m/s, crosses zero in tick 10, and then moves the other way at 0.64 m/s
    /// (10 mm a tick) for so many ticks with this throttle.
    fn plugged(back_ticks: u32, throttle: i8) -> Drive {
        Drive::new()
            .with(10, |m| {
                m.truck.speed = 1.0 - f64::from(m.tick) * 0.1;
                // As in the truck: not in the last ticks before it stands.
                m.truck.plugging = m.tick < 8;
                m.controls.throttle = -80;
            })
            .with(back_ticks, move |m| {
                m.truck.speed = -0.64;
                m.controls.throttle = throttle;
            })
    }

    #[test]
    fn fifteen_centimetres_are_allowed() {
        assert!(watch("plugging-ran-back", &plugged(14, -80)).is_empty());
        let found = watch("plugging-ran-back", &plugged(20, -80));
        assert_eq!((found[0].from, found[0].to), (10, 29));
        assert!((found[0].measured - 0.2).abs() < 1e-9);
    }

    #[test]
    fn rolling_on_after_letting_go_too_late_counts() {
        let d = plugged(10, -80).with(10, |m| m.truck.speed = -0.64);
        assert_eq!(watch("plugging-ran-back", &d).len(), 1);
    }

    #[test]
    fn a_reversal_after_neutral_is_meant() {
        // Neutral at the moment of standing still, then off the other way.
        let d = plugged(0, 0).still(1).with(60, |m| {
            m.truck.speed = -1.0;
            m.controls.throttle = -60;
        });
        assert!(watch("plugging-ran-back", &d).is_empty());
        // Neutral a little after zero, then on again.
        let d = plugged(5, -80).with(2, |m| m.truck.speed = -0.2).with(60, |m| {
            m.truck.speed = -1.0;
            m.controls.throttle = -60;
        });
        assert!(watch("plugging-ran-back", &d).is_empty());
    }

    #[test]
    fn going_over_into_the_direction_asked_for_is_no_fault() {
        let d = plugged(60, -80).all(|m| m.task.travel = Travel::ForksFirst);
        assert!(watch("plugging-ran-back", &d).is_empty());
        // And in a forks-first exercise the way back is power unit first.
        let mirrored = plugged(60, -80).all(|m| {
            m.task.travel = Travel::ForksFirst;
            m.truck.speed = -m.truck.speed;
            m.controls.throttle = -m.controls.throttle;
        });
        assert_eq!(watch("plugging-ran-back", &mirrored).len(), 1);
    }

    #[test]
    fn each_run_back_is_measured_by_itself() {
        // 0.1 m, at rest in neutral, off again, and once more 0.1 m: neither is too far.
        let once = || plugged(10, -80).still(40);
        let mut d = once();
        d.0.extend(once().0);
        for (tick, m) in (0..).zip(&mut d.0) {
            m.tick = tick;
        }
        assert!(watch("plugging-ran-back", &d).is_empty());
        // Plugged back to rest and on in the first direction: not added to the next one either.
        let to_and_fro = plugged(10, -80).rolling(40, 0.5);
        assert!(watch("plugging-ran-back", &to_and_fro).is_empty());
    }

    #[test]
    fn easing_off_before_zero_is_a_clean_stop() {
        let d = Drive::new()
            .with(5, |m| {
                m.truck.speed = 0.5;
                m.truck.plugging = true;
                m.controls.throttle = -80;
            })
            .rolling(5, 0.1)
            .rolling(30, -0.6);
        assert!(watch("plugging-ran-back", &d).is_empty());
    }
}

//! A clean plugged stop at a mark: near enough, by the throttle alone, and without running back.

use crate::finding::{Finding, Unit};
use crate::moment::{CourseEvent, Moment};
use crate::rules::Yardstick;
use crate::rules::over;
use crate::time::{DT, Tick};
use crate::truck::arm::ArmZone;
use crate::watch::throttle::{asked, at_the_motor};
use crate::watch::{Report, Watcher};

struct CleanPlug {
    y: Yardstick,
    from_mark: f64,
    ran_back: f64,
    /// Which way it rolls or rolled: the sign of the speed, 0 before the first motion.
    way: f64,
    plugged: bool,
    by_arm: bool,
    /// Metres rolled against `way` since then: a little of it belongs to the same stop.
    back: f64,
    /// Stopped at the mark; good if it stays so until the throttle is let go.
    stopped: Option<Finding>,
}

pub(super) fn clean_plug(y: Yardstick) -> Box<dyn Watcher> {
    let (from_mark, ran_back) = (y.limit("from-mark"), y.limit("ran-back"));
    Box::new(CleanPlug {
        y,
        from_mark,
        ran_back,
        way: 0.0,
        plugged: false,
        by_arm: false,
        back: 0.0,
        stopped: None,
    })
}

impl CleanPlug {
    fn remember_how_it_slows(&mut self, m: &Moment) {
        let speed = m.truck.speed;
        let moving = speed.abs() > self.y.common.rest_speed;
        if speed * self.way < 0.0 {
            self.back += speed.abs() * DT;
        }
        if over(self.back, self.ran_back) {
            self.stopped = None;
        }
        let turned = moving && speed * self.way <= 0.0;
        let driven_on =
            moving && speed * self.way > 0.0 && at_the_motor(m) * self.way > self.y.common.neutral;
        if driven_on || turned && (!self.plugged || over(self.back, self.ran_back)) {
            (self.plugged, self.by_arm) = (false, false);
            (self.way, self.back) = (speed.signum(), 0.0);
        }
        self.plugged |= m.truck.plugging && speed * self.way > 0.0;
        self.by_arm |= moving && m.truck.arm_zone != ArmZone::Driving;
    }
}

impl Watcher for CleanPlug {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.remember_how_it_slows(m);
        for event in &m.events {
            let CourseEvent::StoppedAtMark { short_by, within, .. } = event else {
                continue;
            };
            let near = *within && short_by.abs() <= self.from_mark;
            if near && self.plugged && !self.by_arm && !over(self.back, self.ran_back) {
                let measured = short_by.abs();
                self.stopped = Some(self.y.finding(m, measured, self.from_mark, Unit::Metre));
            }
        }
        let let_go = asked(m) * self.way >= -self.y.common.neutral;
        if let_go && let Some(finding) = self.stopped.take() {
            out.open(finding);
        }
    }

    fn end(&mut self, _last: Tick, out: &mut Report) {
        if let Some(finding) = self.stopped.take() {
            out.open(finding);
        }
    }
}

struct Missed {
    y: Yardstick,
}

/// Stopped farther from the mark than the step allows.
pub(super) fn missed(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(Missed { y })
}

impl Watcher for Missed {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        for event in &m.events {
            if let CourseEvent::StoppedAtMark { short_by, within: false, tolerance } = event {
                let away = short_by.abs();
                let found = self.y.finding(m, away, *tolerance, Unit::Metre);
                out.open(Finding { severity: self.y.severity_at(away), ..found });
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Severity;
    use crate::watch::test_support::{Drive, watch};

    /// Plugs to rest at this distance from the mark, then moves back for so many ticks at 10 mm a
    /// tick with the throttle still on, then stands in neutral.
    fn stop(short_by: f64, back_ticks: u32) -> Drive {
        Drive::new()
            .with(20, |m| {
                m.truck.speed = 1.0;
                m.controls.throttle = 60;
            })
            .with(20, |m| {
                m.truck.speed = 1.0 - 0.05 * f64::from(m.tick - 20);
                m.truck.plugging = true;
                m.controls.throttle = -50;
            })
            .with(1, |m| {
                m.controls.throttle = -50;
                m.events.push(CourseEvent::StoppedAtMark {
                    short_by,
                    within: short_by.abs() <= 0.3,
                    tolerance: 0.3,
                });
            })
            .with(back_ticks, |m| {
                m.truck.speed = -0.64;
                m.controls.throttle = -50;
            })
            .still(10)
    }

    fn clean(d: &Drive) -> bool {
        !watch("clean-plug", d).is_empty()
    }

    #[test]
    fn within_ten_centimetres_on_either_side() {
        assert!(clean(&stop(0.1, 0)) && clean(&stop(-0.1, 0)) && clean(&stop(0.0, 0)));
        assert!(!clean(&stop(0.101, 0)) && !clean(&stop(-0.101, 0)));
        let found = watch("clean-plug", &stop(-0.04, 0));
        assert_eq!((found[0].from, found[0].measured), (40, 0.04));
    }

    #[test]
    fn running_back_spoils_it() {
        assert!(clean(&stop(0.05, 15)));
        assert!(!clean(&stop(0.05, 16)));
    }

    /// The event comes only when the truck has stood for a while: a run back lies before it.
    #[test]
    fn a_little_back_before_it_stands_is_the_same_stop() {
        let before_the_event = |ticks: u32| {
            Drive::new()
                .with(20, |m| {
                    m.truck.speed = 1.0;
                    m.controls.throttle = 60;
                })
                .with(20, |m| {
                    m.truck.speed = 1.0 - 0.05 * f64::from(m.tick - 20);
                    m.truck.plugging = true;
                    m.controls.throttle = -50;
                })
                .with(ticks, |m| {
                    m.truck.speed = -0.64;
                    m.controls.throttle = -50;
                })
                .still(16)
                .event(CourseEvent::StoppedAtMark { short_by: 0.05, within: true, tolerance: 0.1 })
        };
        assert!(clean(&before_the_event(0)));
        assert!(clean(&before_the_event(15)));
        assert!(!clean(&before_the_event(16)));
    }

    #[test]
    fn the_arm_or_coasting_is_no_plug() {
        let by_arm = stop(0.0, 0).all(|m| {
            if (30..40).contains(&m.tick) {
                m.truck.arm_zone = ArmZone::UpperBrake;
            }
        });
        assert!(!clean(&by_arm));
        assert!(!clean(&stop(0.0, 0).all(|m| m.truck.plugging = false)));
        // Plugged, then driven on, then coasted to the mark.
        let coasted = stop(0.0, 0).all(|m| {
            if (30..40).contains(&m.tick) {
                m.truck.plugging = false;
                m.controls.throttle = if m.tick == 30 { 50 } else { 0 };
            }
        });
        assert!(!clean(&coasted));
    }

    #[test]
    fn forks_first_it_is_the_same() {
        let backwards = |d: Drive| {
            d.all(|m| {
                m.truck.speed = -m.truck.speed;
                m.controls.throttle = -m.controls.throttle;
            })
        };
        assert!(clean(&backwards(stop(0.05, 15))));
        assert!(!clean(&backwards(stop(0.05, 16))));
        let by_arm = backwards(stop(0.0, 0)).all(|m| {
            if (30..40).contains(&m.tick) {
                m.truck.arm_zone = ArmZone::UpperBrake;
            }
        });
        assert!(!clean(&by_arm));
    }

    /// The arm may come up once the truck stands.
    #[test]
    fn the_arm_at_rest_spoils_nothing() {
        let d = stop(0.0, 0).all(|m| {
            if m.tick >= 39 {
                m.truck.arm_zone = ArmZone::UpperBrake;
            }
        });
        assert!(clean(&d));
    }

    #[test]
    fn a_drive_that_ends_at_the_mark_keeps_it() {
        let mut d = stop(0.0, 0);
        d.0.truncate(41);
        assert!(clean(&d));
    }

    #[test]
    fn stopping_away_from_the_mark_is_told_with_the_distance() {
        let missed = |short_by: f64| {
            let within = short_by.abs() <= 0.1;
            let event = CourseEvent::StoppedAtMark { short_by, within, tolerance: 0.1 };
            watch("missed-mark", &Drive::new().still(5).event(event))
        };
        assert!(missed(0.1).is_empty() && missed(-0.1).is_empty());
        let one = missed(-0.101);
        assert_eq!((one[0].measured, one[0].limit, one[0].severity), (0.101, 0.1, Severity::Minor));
        assert_eq!(
            (missed(1.0)[0].severity, missed(1.001)[0].severity),
            (Severity::Minor, Severity::Major)
        );
    }
}

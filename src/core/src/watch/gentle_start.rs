//! A gentle start: from rest to travel with a throttle that rises slowly.

use std::collections::VecDeque;

use crate::finding::{Finding, Unit};
use crate::math::Vec2;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::{over, ticks};
use crate::time::Tick;
use crate::watch::rest::{Change, Rest};
use crate::watch::throttle::at_the_motor;
use crate::watch::{Report, Watcher};

struct GentleStart {
    y: Yardstick,
    rise: f64,
    window: usize,
    up_to_speed: f64,
    rest: Rest,
    /// The throttle of the last ticks, the present one last.
    throttle: VecDeque<f64>,
    steepest: f64,
    started: Option<(Tick, Vec2)>,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (rise, up_to_speed) = (y.limit("rise"), y.limit("up-to-speed"));
    let window = ticks(y.limit("within")) as usize + 1;
    let rest = Rest::new(&y.common);
    Box::new(GentleStart {
        y,
        rise,
        window,
        up_to_speed,
        rest,
        throttle: VecDeque::with_capacity(window + 1),
        steepest: 0.0,
        started: None,
    })
}

impl Watcher for GentleStart {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let now = at_the_motor(m).abs();
        if self.throttle.is_empty() {
            self.throttle.push_back(0.0);
        }
        self.throttle.push_back(now);
        while self.throttle.len() > self.window {
            self.throttle.pop_front();
        }
        let lowest = self.throttle.iter().copied().fold(now, f64::min);
        if self.rest.at_rest() && now <= self.y.common.neutral {
            self.steepest = 0.0;
        }
        self.steepest = self.steepest.max(now - lowest);
        match self.rest.see(m) {
            Change::MovedOff => self.started = Some((m.tick, m.truck.platform_in_yard)),
            Change::CameToRest => self.started = None,
            Change::None => {}
        }
        if m.truck.speed.abs() < self.up_to_speed {
            return;
        }
        if let Some((from, at)) = self.started.take()
            && !over(self.steepest, self.rise)
        {
            let found = self.y.finding(m, self.steepest, self.rise, Unit::Share);
            out.open(Finding { from, at, ..found });
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::watch::test_support::{Drive, watch};

    /// The throttle rises by so many percent a tick, the speed by 0.01 m/s a tick.
    fn start(per_tick: i8, speed: f64) -> Drive {
        Drive::new().still(70).with(80, move |m| {
            let n = m.tick - 69;
            m.controls.throttle = (per_tick as i32 * n as i32).min(100) as i8;
            m.truck.speed = (0.01 * f64::from(n)).min(speed);
        })
    }

    #[test]
    fn half_the_throttle_in_a_quarter_second_is_still_gentle() {
        // Three percent a tick are 48 % in 16 ticks, four are 64 %.
        let found = watch("gentle-start", &start(3, 1.0));
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].measured, 0.48);
        assert_eq!((found[0].from, found[0].to), (75, 119));
        assert!(watch("gentle-start", &start(4, 1.0)).is_empty());
    }

    #[test]
    fn a_start_counts_when_it_comes_up_to_speed() {
        assert!(watch("gentle-start", &start(3, 0.49)).is_empty());
    }

    #[test]
    fn forks_first_counts_as_well_and_half_at_once_is_the_limit() {
        let backwards = |d: Drive| {
            d.all(|m| {
                m.truck.speed = -m.truck.speed;
                m.controls.throttle = -m.controls.throttle;
            })
        };
        assert_eq!(watch("gentle-start", &backwards(start(3, 1.0))).len(), 1);
        assert!(watch("gentle-start", &backwards(start(4, 1.0))).is_empty());
        let at_once = |percent: i8| {
            start(3, 1.0).all(|m| m.controls.throttle = m.controls.throttle.signum() * percent)
        };
        assert_eq!(watch("gentle-start", &at_once(50)).len(), 1);
        assert!(watch("gentle-start", &at_once(51)).is_empty());
    }

    /// The throttle comes up while the truck still stands: that is part of the start.
    #[test]
    fn a_jerk_before_the_truck_moves_counts() {
        let d = start(3, 1.0).all(|m| {
            if (60..74).contains(&m.tick) {
                m.controls.throttle = 60;
            }
        });
        assert!(watch("gentle-start", &d).is_empty());
    }

    #[test]
    fn a_jab_long_before_a_gentle_start_is_forgotten_in_neutral() {
        let mut d = start(3, 1.0);
        d.0[10].controls.throttle = 100;
        assert_eq!(watch("gentle-start", &d).len(), 1);
    }
}

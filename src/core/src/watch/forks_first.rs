//! Travelling power unit first: forks first only for small manoeuvres, or where a step asks for
//! it. What counts is the net way: to and fro on one spot is no travel, and three short stretches in a row
//! are one long one.

use crate::course::Travel;
use crate::finding::Unit;
use crate::math::Vec2;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::over;
use crate::time::{DT, Tick};
use crate::watch::spell::Again;
use crate::watch::{Handle, Report, Watcher};

struct Stretch {
    from: Tick,
    at: Vec2,
    distance: f64,
    normal: f64,
    finding: Option<(Handle, Again)>,
}

struct ForksFirst {
    y: Yardstick,
    limit: f64,
    normal_again: f64,
    stretch: Option<Stretch>,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (limit, normal_again) = (y.limit("distance"), y.limit("normal-again"));
    Box::new(ForksFirst { y, limit, normal_again, stretch: None })
}

impl Watcher for ForksFirst {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        if m.task.travel == Travel::ForksFirst {
            self.stretch = None;
            return;
        }
        let speed = m.truck.speed;
        if speed >= 0.0 {
            if let Some(s) = &mut self.stretch {
                s.normal += speed * DT;
                s.distance -= speed * DT;
                if s.normal > self.normal_again || s.distance <= 0.0 {
                    self.stretch = None;
                }
            }
            return;
        }
        let s = self.stretch.get_or_insert(Stretch {
            from: m.tick,
            at: m.truck.platform_in_yard,
            distance: 0.0,
            normal: 0.0,
            finding: None,
        });
        s.normal = 0.0;
        s.distance -= speed * DT;
        if !over(s.distance, self.limit) {
            return;
        }
        if let Some((_, again)) = &mut s.finding
            && again.counts(m, &self.y.common)
        {
            (s.from, s.at, s.finding) = (m.tick, m.truck.platform_in_yard, None);
        }
        match s.finding {
            Some((h, _)) => out.worsen(h, m.tick, s.distance, self.limit, self.y.severity),
            None => {
                let found = self.y.finding(m, s.distance, self.limit, Unit::Metre);
                let h = out.open(crate::finding::Finding { from: s.from, at: s.at, ..found });
                s.finding = Some((h, Again::new(m.tick)));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch};

    // One metre a second is 1/64 m a tick: 96 ticks are exactly 1.5 m.

    #[test]
    fn a_metre_and_a_half_is_a_manoeuvre() {
        let found =
            |n| watch("forks-first-travel", &Drive::new().still(3).rolling(n, -1.0).still(9));
        assert!(found(96).is_empty());
        let one = found(128);
        assert_eq!((one[0].from, one[0].to), (3, 130));
        assert_eq!(one[0].measured, 2.0);
    }

    #[test]
    fn what_counts_is_the_net_way() {
        let found = |d: &Drive| watch("forks-first-travel", d).len();
        // 80 back, so many on and 80 back again: 96 and no more are a metre and a half.
        let shuttle =
            |forward: u32| Drive::new().rolling(80, -1.0).rolling(forward, 1.0).rolling(80, -1.0);
        assert_eq!((found(&shuttle(63)), found(&shuttle(64))), (1, 0));
        // To and fro on one spot, half a metre and three tenths, four times: 0.8 m.
        let turns = |times: u32, back: u32, on: u32| {
            (0..times).fold(Drive::new(), |d, _| d.rolling(back, -1.0).rolling(on, 1.0))
        };
        assert_eq!(found(&turns(4, 32, 19)), 0);
        // Three moves of 1.4 m with 0.6 m in between: 2.6 m and more.
        assert_eq!(found(&turns(3, 90, 38)), 1);
        // Who has travelled on for three metres begins anew.
        let far = |on: u32| Drive::new().rolling(90, -1.0).rolling(on, 1.0).rolling(90, -1.0);
        assert_eq!(found(&far(200)), 0);
    }

    #[test]
    fn every_ten_metres_or_five_seconds_it_counts_again() {
        let found = |ticks, speed: f64| {
            watch("forks-first-travel", &Drive::new().rolling(ticks, -speed)).len()
        };
        // Found after 1.5 m, 97 ticks; five seconds are 320.
        assert_eq!((found(97 + 319, 1.0), found(97 + 320, 1.0)), (1, 2));
        // At 4 m/s ten metres come first: 160 ticks after the 25th.
        assert_eq!((found(25 + 160, 4.0), found(25 + 161, 4.0)), (1, 2));
    }

    #[test]
    fn where_a_step_asks_for_it_it_is_right() {
        let d = Drive::new().rolling(500, -1.0).all(|m| m.task.travel = Travel::ForksFirst);
        assert!(watch("forks-first-travel", &d).is_empty());
    }

    #[test]
    fn what_was_driven_in_a_step_that_asked_for_it_is_not_counted_later() {
        let mut d = Drive::new().rolling(180, -1.0);
        d.0[..90].iter_mut().for_each(|m| m.task.travel = Travel::ForksFirst);
        assert!(watch("forks-first-travel", &d).is_empty());
    }
}

//! Travelling power unit first: forks first only for small manoeuvres, or where a step asks for
//! it.

use crate::course::Travel;
use crate::finding::Unit;
use crate::math::Vec2;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::over;
use crate::time::{DT, Tick};
use crate::watch::{Handle, Report, Watcher};

struct Stretch {
    from: Tick,
    at: Vec2,
    distance: f64,
    normal: f64,
    finding: Option<Handle>,
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
                if s.normal > self.normal_again {
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
        match s.finding {
            Some(h) => out.worsen(h, m.tick, s.distance, self.limit, self.y.severity),
            None => {
                let found = self.y.finding(m, s.distance, self.limit, Unit::Metre);
                s.finding =
                    Some(out.open(crate::finding::Finding { from: s.from, at: s.at, ..found }));
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
    fn a_nudge_forward_does_not_begin_it_anew_but_travelling_on_does() {
        let shuttle =
            |forward: u32| Drive::new().rolling(80, -1.0).rolling(forward, 1.0).rolling(80, -1.0);
        assert_eq!(watch("forks-first-travel", &shuttle(32)).len(), 1);
        assert!(watch("forks-first-travel", &shuttle(33)).is_empty());
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

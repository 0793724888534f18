//! Travelling with the forks low.

use crate::finding::Unit;
use crate::math::Vec2;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::over;
use crate::time::{DT, Tick};
use crate::watch::spell::Again;
use crate::watch::{Handle, Report, Watcher};

struct High {
    from: Tick,
    at: Vec2,
    distance: f64,
    highest: f64,
    finding: Option<(Handle, Again)>,
}

struct ForksHigh {
    y: Yardstick,
    height: f64,
    distance: f64,
    speed: f64,
    high: Option<High>,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (height, distance, speed) = (y.limit("height"), y.limit("distance"), y.limit("speed"));
    Box::new(ForksHigh { y, height, distance, speed, high: None })
}

impl Watcher for ForksHigh {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let height = m.truck.fork_height;
        if height <= self.height {
            self.high = None;
            return;
        }
        let speed = m.truck.speed.abs();
        // Slower than this is no travel; stopping now and then does not begin it anew.
        if speed <= self.speed {
            return;
        }
        let h = self.high.get_or_insert(High {
            from: m.tick,
            at: m.truck.platform_in_yard,
            distance: 0.0,
            highest: height,
            finding: None,
        });
        h.distance += speed * DT;
        h.highest = h.highest.max(height);
        if !over(h.distance, self.distance) {
            return;
        }
        if let Some((_, again)) = &mut h.finding
            && again.counts(m, &self.y.common)
        {
            (h.from, h.at, h.finding) = (m.tick, m.truck.platform_in_yard, None);
        }
        match h.finding {
            Some((handle, _)) => {
                out.worsen(handle, m.tick, h.highest, self.height, self.y.severity);
            }
            None => {
                let found = self.y.finding(m, h.highest, self.height, Unit::Metre);
                let handle = out.open(crate::finding::Finding { from: h.from, at: h.at, ..found });
                h.finding = Some((handle, Again::new(m.tick)));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::watch::test_support::{Drive, watch};

    fn travel(ticks: u32, speed: f64, height: f64) -> Drive {
        Drive::new().with(ticks, move |m| {
            m.truck.speed = speed;
            m.truck.fork_height = height;
        })
    }

    #[test]
    fn sixty_millimetres_over_a_metre_at_a_creep_are_the_limits() {
        let found = |d: &Drive| watch("forks-high-in-travel", d);
        assert!(found(&travel(640, 1.0, 0.060)).is_empty());
        assert!(found(&travel(64, 1.0, 0.061)).is_empty());
        assert!(found(&travel(640, 0.3, 0.2)).is_empty());
        let one = found(&travel(65, 1.0, 0.061));
        assert_eq!((one[0].from, one[0].to), (0, 64));
        assert_eq!(one[0].measured, 0.061);
        assert_eq!(found(&travel(65, -1.0, 0.061)).len(), 1);
    }

    #[test]
    fn the_greatest_height_is_told() {
        let d = travel(100, 1.0, 0.08).all(|m| {
            if m.tick == 30 || m.tick == 90 {
                m.truck.fork_height = 0.05 + 0.001 * f64::from(m.tick);
            }
        });
        assert_eq!(watch("forks-high-in-travel", &d)[0].measured, 0.14);
    }

    #[test]
    fn stopping_does_not_begin_it_anew_and_lowering_does() {
        let go = |d: Drive, h: f64| {
            d.with(40, move |m| {
                m.truck.speed = 1.0;
                m.truck.fork_height = h;
            })
        };
        let stopped = go(Drive::new(), 0.1).with(64, |m| m.truck.fork_height = 0.1);
        assert_eq!(watch("forks-high-in-travel", &go(stopped, 0.1)).len(), 1);
        let lowered = go(Drive::new(), 0.1).still(64);
        assert!(watch("forks-high-in-travel", &go(lowered, 0.1)).is_empty());
    }
}

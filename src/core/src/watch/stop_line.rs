//! Stop lines: the truck stands before it goes over.

use crate::finding::Unit;
use crate::moment::{Moment, WayKind};
use crate::rules::Yardstick;
use crate::watch::lines::Lines;
use crate::watch::{Report, Watcher};

struct StopLine {
    y: Yardstick,
    before: f64,
    speed: f64,
    deed: bool,
    /// Lowest speed before the line, m/s.
    lines: Lines<Option<f64>>,
}

fn stop_line(y: Yardstick, deed: bool) -> Box<dyn Watcher> {
    let (before, speed) = (y.limit("before"), y.limit("speed"));
    Box::new(StopLine { y, before, speed, deed, lines: Lines::new(WayKind::Stop) })
}

/// Gone over without standing.
pub(super) fn run(y: Yardstick) -> Box<dyn Watcher> {
    stop_line(y, false)
}

/// Gone over after standing.
pub(super) fn stopped(y: Yardstick) -> Box<dyn Watcher> {
    stop_line(y, true)
}

impl Watcher for StopLine {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let (speed, before) = (m.truck.speed.abs(), self.before);
        let crossed = self.lines.see(m, self.y.common.again_after, |lowest, ahead| {
            if (0.0..=before).contains(&ahead) {
                *lowest = Some(lowest.unwrap_or(speed).min(speed));
            } else if ahead > before {
                *lowest = None;
            }
        });
        for lowest in crossed {
            let lowest = lowest.unwrap_or(speed);
            if (lowest <= self.speed) == self.deed {
                out.open(self.y.finding(m, lowest, self.speed, Unit::MetrePerSecond));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch, way};

    /// Up to a line with this lowest speed at this distance before it, and over it.
    fn over(d: Drive, lowest: f64, before: f64) -> Drive {
        let go = |speed: f64, ahead: f64, crossed: bool| {
            move |m: &mut Moment| {
                m.truck.speed = speed;
                m.ways.push(way(WayKind::Stop, ahead, crossed));
            }
        };
        d.with(3, go(1.0, 1.6, false))
            .with(3, go(lowest, before, false))
            .with(3, go(1.0, 0.2, false))
            .with(1, go(1.0, -0.01, true))
            .with(3, go(1.0, -0.2, false))
    }

    fn both(d: &Drive) -> (usize, usize) {
        (watch("stop-line-run", d).len(), watch("full-stop", d).len())
    }

    #[test]
    fn standing_within_a_metre_and_a_half_is_a_stop() {
        assert_eq!(both(&over(Drive::new(), 0.05, 0.5)), (0, 1));
        assert_eq!(both(&over(Drive::new(), 0.051, 0.5)), (1, 0));
        assert_eq!(both(&over(Drive::new(), 0.0, 1.5)), (0, 1));
        assert_eq!(both(&over(Drive::new(), 0.0, 1.51)), (1, 0));
        assert_eq!(watch("stop-line-run", &over(Drive::new(), 0.3, 0.5))[0].measured, 0.3);
    }

    #[test]
    fn standing_counts_when_the_line_is_not_told_of_meanwhile() {
        let told = |speed, ahead: f64| {
            move |m: &mut Moment| {
                m.truck.speed = speed;
                m.ways.push(way(WayKind::Stop, ahead, ahead < 0.0));
            }
        };
        let d = Drive::new()
            .with(3, told(1.0, 0.5))
            .still(9)
            .with(3, told(1.0, 0.2))
            .with(1, told(1.0, -0.01));
        assert_eq!(both(&d), (0, 1));
    }

    #[test]
    fn over_it_again_at_once_is_the_same_time() {
        let twice = |apart| over(over(Drive::new(), 0.5, 0.5).still(apart), 0.5, 0.5);
        assert_eq!(both(&twice(10)), (1, 0));
        assert_eq!(both(&twice(40)), (2, 0));
        assert_eq!(both(&Drive::new().rolling(50, 1.0)), (0, 0));
    }
}

//! Stop lines: the truck stands before it goes over.

use crate::finding::{Finding, Severity, Unit};
use crate::moment::{Moment, WayKind};
use crate::rules::Yardstick;
use crate::watch::lines::Lines;
use crate::watch::{Report, Watcher};

/// What was done on the way up to a line.
#[derive(Default)]
struct Up {
    /// Lowest speed just before the line, m/s.
    lowest: Option<f64>,
    /// The truck has stood, a little farther off.
    stood: bool,
}

struct StopLine {
    y: Yardstick,
    before: f64,
    speed: f64,
    /// A stop so far before it, m, with no more than this speed over it, m/s, is nearly one.
    nearly: Option<(f64, f64)>,
    lines: Lines<Up>,
}

fn stop_line(y: Yardstick, nearly: Option<(f64, f64)>) -> Box<dyn Watcher> {
    let (before, speed) = (y.limit("before"), y.limit("speed"));
    Box::new(StopLine { y, before, speed, nearly, lines: Lines::new(WayKind::Stop) })
}

/// Gone over without standing.
pub(super) fn run(y: Yardstick) -> Box<dyn Watcher> {
    let nearly = (y.limit("stood-within"), y.limit("then-over"));
    stop_line(y, Some(nearly))
}

/// Gone over after standing.
pub(super) fn stopped(y: Yardstick) -> Box<dyn Watcher> {
    stop_line(y, None)
}

impl Watcher for StopLine {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let (speed, before) = (m.truck.speed.abs(), self.before);
        let (stands, nearly) = (speed <= self.speed, self.nearly);
        let crossed = self.lines.see(m, self.y.common.again_after, |up, ahead, _| {
            if (0.0..=before).contains(&ahead) {
                up.lowest = Some(up.lowest.unwrap_or(speed).min(speed));
            } else if ahead > before {
                up.lowest = None;
            }
            let within = nearly.map_or(0.0, |(within, _)| within);
            up.stood = ahead <= within && (up.stood || stands && ahead >= 0.0);
        });
        // The end that goes over it swings faster in a turn than the truck.
        let over = m.ways.iter().filter(|w| w.kind == WayKind::Stop && w.crossed);
        let over = over.map(|w| w.speed).fold(speed, f64::max);
        for up in crossed {
            let lowest = up.lowest.unwrap_or(speed);
            let deed = self.nearly.is_none();
            if (lowest <= self.speed) != deed {
                continue;
            }
            let nearly = self.nearly.is_some_and(|(_, at_most)| up.stood && over <= at_most);
            // Slowing before it and then over it as if it were not there is no better.
            let severity = if nearly { Severity::Minor } else { self.y.severity_at(over) };
            let found = self.y.finding(m, lowest, self.speed, Unit::MetrePerSecond);
            let severity =
                if deed { found.severity } else { severity.min(self.y.worst_severity()) };
            out.open(Finding { severity, ..found });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::moment::WayMoment;
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

    #[test]
    fn slowing_and_then_over_it_at_speed_is_no_better() {
        let fast = |speed| {
            let go = move |m: &mut Moment| {
                let ahead = 1.0 - 0.1 * f64::from(m.tick);
                m.truck.speed = if ahead > 0.3 { 0.4 } else { speed };
                m.ways.push(way(WayKind::Stop, ahead, m.tick == 11));
            };
            watch("stop-line-run", &Drive::new().with(12, go))[0].severity
        };
        assert_eq!((fast(1.0), fast(1.001)), (Severity::Major, Severity::Critical));
    }

    #[test]
    fn what_counts_is_how_fast_the_end_goes_over_it_that_leads() {
        let swings = |end: f64| {
            let go = move |m: &mut Moment| {
                let ahead = 1.0 - 0.1 * f64::from(m.tick);
                m.truck.speed = 0.7;
                m.ways.push(WayMoment { speed: end, ..way(WayKind::Stop, ahead, m.tick == 11) });
            };
            watch("stop-line-run", &Drive::new().with(12, go))[0].severity
        };
        assert_eq!((swings(1.0), swings(1.001)), (Severity::Major, Severity::Critical));
    }

    #[test]
    fn the_faster_the_graver_and_nearly_a_stop_is_less() {
        let graveness = |speed: f64| {
            let go = move |m: &mut Moment| {
                m.truck.speed = speed;
                let ahead = 1.0 - 0.1 * f64::from(m.tick);
                m.ways.push(way(WayKind::Stop, ahead, m.tick == 11));
            };
            watch("stop-line-run", &Drive::new().with(12, go))[0].severity
        };
        assert_eq!((graveness(1.0), graveness(1.001)), (Severity::Major, Severity::Critical));
        // Stood so far before it, and then over it at so much.
        let stood = |before: f64, speed: f64| {
            let go = |speed: f64, ahead: f64, crossed: bool| {
                move |m: &mut Moment| {
                    m.truck.speed = speed;
                    m.ways.push(way(WayKind::Stop, ahead, crossed));
                }
            };
            let d = Drive::new()
                .with(3, go(0.0, before, false))
                .with(3, go(speed, 1.0, false))
                .with(1, go(speed, -0.01, true));
            watch("stop-line-run", &d)[0].severity
        };
        assert_eq!((stood(4.0, 0.6), stood(4.001, 0.6)), (Severity::Minor, Severity::Major));
        assert_eq!(stood(4.0, 0.601), Severity::Major);
        assert_eq!(stood(4.0, 1.1), Severity::Critical);
    }
}

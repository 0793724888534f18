//! A lap without a fault of any kind.
//!
//! The one watcher that asks what the others found. Some faults are sure only a while after they
//! began, so a lap is praised a little later, and once more looked at when the drive ends.

use crate::finding::{Finding, Unit};
use crate::moment::{CourseEvent, Moment};
use crate::rules::Yardstick;
use crate::rules::{seconds, ticks};
use crate::time::Tick;
use crate::watch::{Handle, Report, Watcher};

struct CleanLap {
    y: Yardstick,
    settle: Tick,
    lap_from: Tick,
    driven: Vec<Finding>,
    praised: Vec<(Handle, Tick, Tick)>,
}

pub(super) fn clean(y: Yardstick) -> Box<dyn Watcher> {
    let settle = ticks(y.limit("settle"));
    Box::new(CleanLap { y, settle, lap_from: 0, driven: Vec::new(), praised: Vec::new() })
}

impl CleanLap {
    fn praise(&mut self, until: Tick, out: &mut Report) {
        let settled = self.driven.iter().filter(|f| f.to <= until).count();
        for lap in self.driven.drain(..settled) {
            let (from, to) = (lap.from, lap.to);
            if !out.fault_between(from, to) {
                self.praised.push((out.open(lap), from, to));
            }
        }
    }
}

impl Watcher for CleanLap {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        for event in &m.events {
            match event {
                CourseEvent::LapDone { .. } => {
                    let time = seconds(m.tick - self.lap_from);
                    let lap = self.y.finding(m, time, 0.0, Unit::Second);
                    self.driven.push(Finding { from: self.lap_from, ..lap });
                    self.lap_from = m.tick + 1;
                }
                CourseEvent::StepDone { .. } => self.lap_from = m.tick + 1,
                _ => {}
            }
        }
        if !self.driven.is_empty() && m.tick >= self.settle {
            self.praise(m.tick - self.settle, out);
        }
    }

    fn end(&mut self, _last: Tick, out: &mut Report) {
        self.praise(Tick::MAX, out);
        for (handle, from, to) in self.praised.drain(..) {
            if out.fault_between(from, to) {
                out.take_back(handle);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::{Duty, duty};
    use crate::watch::test_support::{Drive, watch_all};

    fn laps(d: &Drive) -> Vec<(Tick, Tick)> {
        let duties: Vec<&Duty> = ["left-the-lane", "forks-first-travel", "clean-lap"]
            .iter()
            .map(|c| duty(c).expect("a code of the table"))
            .collect();
        watch_all(&duties, d)
            .iter()
            .filter(|f| f.code == "clean-lap")
            .map(|f| (f.from, f.to))
            .collect()
    }

    fn two_laps() -> Drive {
        Drive::new()
            .still(100)
            .event(CourseEvent::LapDone { laps: 1 })
            .still(99)
            .event(CourseEvent::LapDone { laps: 2 })
            .still(300)
    }

    #[test]
    fn each_lap_counts_by_itself() {
        assert_eq!(laps(&two_laps()), [(0, 100), (101, 200)]);
        let second_spoilt = two_laps().all(|m| m.place.outside_lane = (110..140).contains(&m.tick));
        assert_eq!(laps(&second_spoilt), [(0, 100)]);
    }

    #[test]
    fn a_lap_tells_its_own_time_and_only_when_faults_had_time_to_show() {
        let duties = [duty("clean-lap").expect("a code of the table")];
        let found = watch_all(&duties, &two_laps());
        assert_eq!((found[0].measured, found[1].measured), (1.5625, 1.5469));
        // Two seconds after the first lap, not a tick earlier.
        let rules = crate::rules::SiteRules::shipped();
        let mut watcher =
            crate::watch::watcher(duties[0], rules.yardstick(duties[0], 0.05)).expect("watched");
        let mut out = Report::default();
        let praised = two_laps().0.iter().position(|m| {
            watcher.see(m, &mut out);
            !out.findings().is_empty()
        });
        assert_eq!(praised, Some(100 + 128));
    }

    #[test]
    fn a_fault_that_begins_in_a_lap_and_is_sure_after_it_spoils_it() {
        let d = two_laps().all(|m| m.place.outside_lane = (195..230).contains(&m.tick));
        assert_eq!(laps(&d), [(0, 100)]);
        // Forks first at 0.1 m/s: sure only 15 s after it began.
        let d = two_laps().still(1000).all(|m| {
            if m.tick >= 195 {
                m.truck.speed = -0.1;
            }
        });
        assert_eq!(laps(&d), [(0, 100)]);
    }

    #[test]
    fn a_drive_that_ends_with_the_lap_keeps_it() {
        let mut d = two_laps();
        d.0.truncate(201);
        assert_eq!(laps(&d).len(), 2);
    }
}

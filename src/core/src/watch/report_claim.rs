//! A report is a claim: false, or made of nothing, it costs like any false report.

use crate::acts::Act;
use crate::checks::walk::Walk;
use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::watch::walk_round::{Over, about};
use crate::watch::{Report, Watcher};

struct FalseReport {
    y: Yardstick,
    /// What was reported at docks before this tick, by their number in the course.
    reported: Vec<bool>,
    so_far: u32,
    walk: Over,
}

/// Reported where nothing was wrong, or with nothing near to report.
pub(super) fn false_report(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(FalseReport { y, reported: Vec::new(), so_far: 0, walk: Over::default() })
}

impl FalseReport {
    /// Points of a truck that were said to have something the matter, and had not.
    fn of_points(&mut self, m: &Moment, out: &mut Report) {
        let Some(walk) = self.walk.see(m) else { return };
        let made_up = |p: &usize| walk.is_reported(*p) && walk.truck.defect_of(*p).is_none();
        for point in walk.points().filter(made_up) {
            self.so_far += 1;
            let found = self.y.finding(m, f64::from(self.so_far), 0.0, Unit::Count);
            out.open(about(point, found));
        }
    }
}

impl Watcher for FalseReport {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.of_points(m, out);
        let reports = m.acts.iter().filter(|act| **act == Act::Report).count() as u32;
        let newly = m.docks.iter().enumerate().filter(|(i, d)| {
            d.inspected.reported && !self.reported.get(*i).copied().unwrap_or(false)
        });
        // One report tells of every dock that is near enough; it is true if it is of any of them.
        let is_true = newly.clone().any(|(_, d)| !d.inspected.is_sound());
        // Saying again what was said is no new claim where something is wrong.
        let of_the_truck = m.walk.as_ref().is_some_and(Walk::is_rightly_reported);
        let again = of_the_truck || m.docks.iter().any(|d| d.inspected.is_refused());
        self.reported.clear();
        self.reported.extend(m.docks.iter().map(|d| d.inspected.reported));
        if reports == 0 || is_true || again {
            return;
        }
        self.so_far += reports;
        out.open(self.y.finding(m, f64::from(self.so_far), 0.0, Unit::Count));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::Inspected;
    use crate::moment::DockMoment;
    use crate::watch::test_support::{Drive, watch};

    fn report(wrong: u64, reported: bool) -> impl Fn(&mut Moment) {
        move |m| {
            m.acts.push(Act::Report);
            let inspected = Inspected { points: 3, looked_at: 0, wrong, reported };
            m.docks.push(DockMoment { dock: 0, truck_on: false, inspected });
        }
    }

    #[test]
    fn a_true_report_is_none_and_a_false_one_or_one_of_nothing_is() {
        let found = |d: &Drive| watch("false-report", d).len();
        assert_eq!(found(&Drive::new().still(5).with(1, report(0b10, true)).still(5)), 0);
        assert_eq!(found(&Drive::new().still(5).with(1, report(0, true)).still(5)), 1);
        // Nothing is near: nothing took the report up.
        assert_eq!(found(&Drive::new().still(5).with(1, report(0, false)).still(5)), 1);
        let d = Drive::new().still(5).with(1, |m| m.acts.push(Act::Report)).still(5);
        assert_eq!(found(&d), 1);
    }

    #[test]
    fn always_reporting_is_told_each_time_and_how_often() {
        let found = watch("false-report", &Drive::new().with(4, |m| m.acts.push(Act::Report)));
        assert_eq!(found.iter().map(|f| f.measured).collect::<Vec<_>>(), [1.0, 2.0, 3.0, 4.0]);
    }
}

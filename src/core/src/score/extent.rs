//! How much of an exercise is done. What was never driven has no faults, so points are given for as much as
//! was done: who drives into a wall early must not have more of them than who goes on badly to the end.

use crate::course::{Course, StepKind};
use crate::debrief::Ending;
use crate::moment::{CourseEvent, Moment};

/// Counts gates, places to pick from, and steps that have neither, each as one part of the whole.
pub(super) struct Extent {
    /// Parts up to the end of each step, the steps before counted.
    up_to: Vec<u32>,
    /// Parts done in the steps before the present one.
    before: u32,
    /// Parts done in the present step.
    here: u32,
}

impl Extent {
    /// Of a course that has just begun.
    pub(super) fn new(course: &Course) -> Self {
        let parts = |kind: &StepKind| match kind {
            StepKind::Gates { gates, laps } => gates.len() as u32 * laps,
            StepKind::Picks { stops } => stops.len() as u32,
            _ => 1,
        };
        let up_to = course.steps.iter().scan(0, |sum, step| {
            *sum += parts(&step.what);
            Some(*sum)
        });
        Self { up_to: up_to.collect(), before: 0, here: 0 }
    }

    /// Looks at one tick.
    pub(super) fn see(&mut self, m: &Moment) {
        for event in &m.events {
            match event {
                CourseEvent::GatePassed { .. } | CourseEvent::Picked { .. } => self.here += 1,
                // Who rightly refuses a truck or a dock leaves out the steps between: they are done as well.
                CourseEvent::StepDone { step } => {
                    let done = self.up_to.get(*step as usize).copied();
                    (self.before, self.here) = (done.unwrap_or(self.before), 0);
                }
                _ => {}
            }
        }
    }

    /// The share, 0 to 1, of a drive that ended like this; to four decimals, as all that is kept in a debrief.
    pub(super) fn share(&self, ending: Ending) -> f64 {
        let all = self.up_to.last().copied().unwrap_or(0);
        if ending == Ending::Done || all == 0 {
            return 1.0;
        }
        let done = (self.before + self.here).min(all);
        (f64::from(done) / f64::from(all) * 1e4).round() / 1e4
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::course::shipped as courses;

    fn after(course: &str, events: &[CourseEvent]) -> f64 {
        let mut extent = Extent::new(&courses::parse(course));
        for event in events {
            let m = Moment { events: vec![*event], ..Moment::at_rest() };
            extent.see(&m);
        }
        extent.share(Ending::TimeOut)
    }

    #[test]
    fn each_gate_of_each_lap_counts_and_parking_is_one_more() {
        let gate = CourseEvent::GatePassed { gate: 0 };
        // Three laps of four gates, and the parking.
        assert_eq!(after("laps-clockwise", &[]), 0.0);
        assert_eq!(after("laps-clockwise", &[gate; 6]), 0.4615);
        let laps = [[gate; 12].as_slice(), &[CourseEvent::StepDone { step: 0 }]].concat();
        assert_eq!(after("laps-clockwise", &laps), 0.9231);
        assert_eq!(after("laps-clockwise", &[gate; 99]), 1.0, "no more than all");
    }

    #[test]
    fn steps_that_are_left_out_with_reason_are_done() {
        let home = [CourseEvent::StepDone { step: 4 }];
        assert_eq!(after("dock", &home), 0.875);
    }

    #[test]
    fn who_came_to_the_end_has_done_all() {
        assert_eq!(Extent::new(&courses::parse("dock")).share(Ending::Done), 1.0);
    }
}

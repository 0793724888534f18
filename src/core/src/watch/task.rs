//! The whole task was done.

use crate::finding::Unit;
use crate::moment::{CourseEvent, Moment};
use crate::rules::Yardstick;
use crate::rules::seconds;
use crate::watch::{Report, Watcher};

struct FullTask {
    y: Yardstick,
}

pub(super) fn full(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(FullTask { y })
}

impl Watcher for FullTask {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        if m.events.contains(&CourseEvent::TaskDone) {
            out.open(self.y.finding(m, seconds(m.tick), 0.0, Unit::Second));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch};

    #[test]
    fn it_tells_the_time() {
        let d = Drive::new().still(128).event(CourseEvent::StepDone { step: 0 });
        assert!(watch("full-task", &d).is_empty());
        let found = watch("full-task", &d.event(CourseEvent::TaskDone));
        assert_eq!(found[0].measured, 2.0156);
    }
}

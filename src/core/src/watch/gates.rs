//! The order and direction of the gates.

use crate::finding::Unit;
use crate::moment::{CourseEvent, Moment};
use crate::rules::Yardstick;
use crate::watch::{Report, Watcher};

struct Gates {
    y: Yardstick,
    is_fault: fn(&CourseEvent) -> bool,
}

/// A later gate was driven through before the one that was due.
pub(super) fn missed(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(Gates { y, is_fault: |e| matches!(e, CourseEvent::GateMissed { .. }) })
}

/// A gate was driven through against its direction.
pub(super) fn wrong_way(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(Gates { y, is_fault: |e| matches!(e, CourseEvent::GateWrongWay { .. }) })
}

impl Watcher for Gates {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        for _ in m.events.iter().filter(|e| (self.is_fault)(e)) {
            out.open(self.y.finding(m, 1.0, 0.0, Unit::Count));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch};

    #[test]
    fn each_event_is_the_finding_that_it_names() {
        let d = Drive::new()
            .still(3)
            .event(CourseEvent::GatePassed { gate: 0 })
            .event(CourseEvent::GateMissed { gate: 1 });
        assert_eq!(watch("gate-missed", &d)[0].from, 4);
        assert!(watch("gate-wrong-way", &d).is_empty());
        let d = Drive::new().event(CourseEvent::GateWrongWay { gate: 1 });
        assert_eq!(watch("gate-wrong-way", &d)[0].from, 0);
        assert!(watch("gate-missed", &d).is_empty());
    }
}

//! The truck tipped over.

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::watch::{Report, Watcher};

struct Tipping {
    y: Yardstick,
    found: bool,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(Tipping { y, found: false })
}

impl Watcher for Tipping {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        if m.truck.tipped && !self.found {
            self.found = true;
            out.open(self.y.finding(m, 1.0, 0.0, Unit::Count));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::finding::Severity;
    use crate::watch::test_support::{Drive, watch};

    #[test]
    fn it_is_critical_and_found_once() {
        let found = watch("tipped-over", &Drive::new().still(2).with(5, |m| m.truck.tipped = true));
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].from, found[0].severity), (2, Severity::Critical));
        assert!(watch("tipped-over", &Drive::new().still(9)).is_empty());
    }
}

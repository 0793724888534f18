//! How long a moment is looked at, when many of one kind are played one after another.

use crate::finding::Finding;
use crate::time::{TICK_RATE, Tick};

/// From so long before it, ticks: what led to it is what is to be seen.
const BEFORE: Tick = 4 * TICK_RATE;
/// Until so long after it, ticks.
const AFTER: Tick = 2 * TICK_RATE;
/// A finding that goes on is not looked at for longer than this from its beginning, ticks.
const LONGEST: Tick = 10 * TICK_RATE;

/// First and last tick in which a finding is looked at, in a drive with this last tick.
pub fn of(finding: &Finding, last: Tick) -> (Tick, Tick) {
    let from = finding.from.min(last);
    let end = finding.to.clamp(finding.from, finding.from.saturating_add(LONGEST));
    (from.saturating_sub(BEFORE), end.saturating_add(AFTER).min(last))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::{Severity, Unit};
    use crate::math::vec2;

    fn found(from: Tick, to: Tick) -> Finding {
        Finding {
            code: "contact-cone".to_owned(),
            severity: Severity::Minor,
            from,
            to,
            measured: 1.0,
            limit: 0.0,
            unit: Unit::Count,
            at: vec2(0.0, 0.0),
            before: None,
            cause: None,
            point: None,
        }
    }

    #[test]
    fn a_moment_is_seen_come_and_go() {
        let last = 100 * TICK_RATE;
        assert_eq!(of(&found(640, 640), last), (640 - BEFORE, 640 + AFTER));
        assert_eq!(of(&found(640, 700), last), (640 - BEFORE, 700 + AFTER), "to its end");
        let long = 640 + LONGEST;
        assert_eq!(of(&found(640, long), last).1, long + AFTER);
        assert_eq!(of(&found(640, long + 1), last).1, long + AFTER, "and no longer");
    }

    #[test]
    fn no_drive_is_looked_at_before_it_begins_or_after_it_ends() {
        assert_eq!(of(&found(BEFORE - 1, BEFORE), 10_000).0, 0);
        assert_eq!(of(&found(BEFORE + 1, BEFORE + 1), 10_000).0, 1);
        assert_eq!(of(&found(640, 640), 650), (640 - BEFORE, 650));
        let beyond = of(&found(Tick::MAX, Tick::MAX), 650);
        assert_eq!(beyond, (650 - BEFORE, 650), "one that lies beyond its drive");
        assert_eq!(of(&found(640, 3), 10_000), (640 - BEFORE, 640 + AFTER), "one that ends early");
    }
}

//! Causes: a fault that came of another one names it, and the two are counted once.
//!
//! **Counted once**: of a cause and what came of it only the graver takes points; of two that are
//! equally grave, what came of it. So a spill in a fast turn costs what a spill costs, and a crash
//! that shifts a case costs what a crash costs. A crash is harm of its own, and not only a way to
//! drive: it always takes its points. Both stay in the debrief, both spoil their
//! opportunities, and a critical one fails a pre-test whether it takes points or not.
//!
//! Only what is certain stands in the table. That someone was struck or nearly struck has a cause
//! here only where the cause itself was about someone in the way: a finding does not say who.

use crate::finding::{Finding, Severity};
use crate::time::Tick;

/// What moves a load, whichever way the truck was pushed.
const SHAKES: &[&str] =
    &["corner-speed", "plugging-jerk", "throttle-snatched", "brake-arm-as-service", CRASH];

const CRASH: &str = "contact-structure";

/// Driven at someone: onto a crossing that was wanted, or against the asked way (see
/// `leads_to`).
const AT_SOMEONE: &[&str] = &["person-not-given-way", WRONG_WAY];

const WRONG_WAY: &str = "wrong-way-command";

/// Faults, and what may have led to them.
const CAUSES: &[(&str, &[&str])] = &[
    ("load-shifted", SHAKES),
    ("load-spilled", SHAKES),
    ("tipped-over", &["corner-speed"]),
    ("person-near-miss", AT_SOMEONE),
    ("person-struck", AT_SOMEONE),
];

/// Whether `cause` may have led to `f`, by what they are and not yet by when.
fn leads_to(cause: &Finding, f: &Finding) -> bool {
    // Off the wrong way is towards someone only when that made it graver.
    let at_nobody = cause.code == WRONG_WAY && cause.severity < Severity::Critical;
    cause.severity != Severity::Good
        && !at_nobody
        && CAUSES.iter().any(|(code, by)| *code == f.code && by.contains(&cause.code.as_str()))
}

/// The finding that `f` came of: of those that began no later, and ended no more than `within`
/// ticks before it began, the one that went on longest; of equals the later one.
fn cause_of<'a>(
    f: &Finding,
    findings: &'a [Finding],
    within: Tick,
) -> Option<(usize, &'a Finding)> {
    findings
        .iter()
        .enumerate()
        .filter(|(_, c)| c.from <= f.from && f.from.saturating_sub(c.to) <= within)
        .filter(|(_, c)| leads_to(c, f))
        .max_by_key(|(i, c)| (c.to.min(f.from), *i))
}

/// Names the cause in every finding that has one. For the end of a drive: a cause may be sure only
/// after what came of it.
pub fn name_causes(findings: &mut [Finding], within: Tick) {
    let causes: Vec<Option<String>> = findings
        .iter()
        .map(|f| cause_of(f, findings, within).map(|(_, cause)| cause.code.clone()))
        .collect();
    for (f, cause) in findings.iter_mut().zip(causes) {
        f.cause = cause;
    }
}

/// Which findings take points: all but those that are counted through their cause or through what
/// came of them. Findings without a named cause are all counted.
pub fn counted(findings: &[Finding], within: Tick) -> Vec<bool> {
    let mut counted = vec![true; findings.len()];
    for (i, f) in findings.iter().enumerate().filter(|(_, f)| f.cause.is_some()) {
        let Some((of, cause)) = cause_of(f, findings, within) else { continue };
        if cause.severity > f.severity {
            counted[i] = false;
        } else if cause.code != CRASH {
            counted[of] = false;
        }
    }
    counted
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Unit;
    use crate::math::Vec2;
    use crate::rules::duty;

    fn fault(code: &str, severity: Severity, from: Tick, to: Tick) -> Finding {
        Finding {
            code: code.to_owned(),
            severity,
            from,
            to,
            measured: 0.0,
            limit: 0.0,
            unit: Unit::Count,
            at: Vec2::default(),
            before: None,
            cause: None,
            point: None,
        }
    }

    /// Two seconds.
    const WITHIN: Tick = 128;

    fn named(mut findings: Vec<Finding>) -> (Vec<Option<String>>, Vec<bool>) {
        name_causes(&mut findings, WITHIN);
        let counted = counted(&findings, WITHIN);
        (findings.into_iter().map(|f| f.cause).collect(), counted)
    }

    #[test]
    fn the_table_holds_codes_of_faults() {
        for (code, by) in CAUSES {
            for code in by.iter().chain([code]) {
                assert!(duty(code).is_some_and(|d| !d.good), "{code}");
            }
        }
    }

    #[test]
    fn a_spill_within_two_seconds_of_a_fast_turn_came_of_it() {
        use Severity::{Critical, Major, Minor};
        let turn = fault("corner-speed", Minor, 100, 150);
        let spill = |from| named(vec![turn.clone(), fault("load-spilled", Major, from, from)]);
        let came_of = (vec![None, Some("corner-speed".to_owned())], vec![false, true]);
        for from in [100, 120, 150, 278] {
            assert_eq!(spill(from), came_of, "{from}");
        }
        assert_eq!(spill(279), (vec![None, None], vec![true, true]));
        let before = named(vec![fault("load-spilled", Major, 99, 99), turn.clone()]);
        assert_eq!(before, (vec![None, None], vec![true, true]));
        // Nothing comes of a tall fork, and a turn makes nobody stand in the way.
        for (cause, of) in
            [("forks-high-in-travel", "load-spilled"), ("corner-speed", "person-struck")]
        {
            let two = named(vec![fault(cause, Minor, 9, 9), fault(of, Critical, 10, 10)]);
            assert_eq!(two, (vec![None, None], vec![true, true]));
        }
    }

    #[test]
    fn the_graver_of_the_two_takes_the_points() {
        use Severity::{Critical, Major, Minor};
        let pair = |code, cause, of| {
            named(vec![fault(code, cause, 5, 9), fault("load-shifted", of, 9, 20)]).1
        };
        assert_eq!(pair("plugging-jerk", Major, Minor), [true, false]);
        assert_eq!(pair("plugging-jerk", Major, Major), [false, true]);
        assert_eq!(pair("plugging-jerk", Major, Critical), [false, true]);
        assert_eq!(pair("plugging-jerk", Critical, Critical), [false, true]);
        // A crash always takes its own.
        assert_eq!(pair(CRASH, Major, Minor), [true, false]);
        assert_eq!(pair(CRASH, Major, Critical), [true, true]);
        assert_eq!(pair(CRASH, Critical, Critical), [true, true]);
    }

    #[test]
    fn of_two_causes_the_one_that_went_on_longest_is_named() {
        use Severity::{Major, Minor};
        let turn = fault("corner-speed", Minor, 10, 90);
        let jerk = fault("plugging-jerk", Minor, 60, 70);
        let spill = |from| fault("load-spilled", Major, from, from);
        let (causes, counted) = named(vec![turn.clone(), jerk.clone(), spill(100)]);
        assert_eq!(causes[2].as_deref(), Some("corner-speed"));
        assert_eq!(counted, [false, true, true]);
        // Both still go on: the later one.
        let (causes, _) = named(vec![turn, jerk, spill(65)]);
        assert_eq!(causes[2].as_deref(), Some("plugging-jerk"));
    }

    #[test]
    fn one_cause_of_two_faults_is_counted_through_both() {
        let (causes, counted) = named(vec![
            fault("corner-speed", Severity::Minor, 10, 30),
            fault("load-shifted", Severity::Minor, 20, 25),
            fault("load-spilled", Severity::Major, 40, 40),
        ]);
        assert_eq!(causes.iter().flatten().count(), 2);
        assert_eq!(counted, [false, true, true]);
    }

    #[test]
    fn off_the_wrong_way_leads_to_someone_only_when_someone_was_there() {
        let cause = |severity| {
            let off = fault(WRONG_WAY, severity, 10, 40);
            named(vec![off, fault("person-struck", Severity::Critical, 60, 70)])
        };
        assert_eq!(cause(Severity::Minor), (vec![None, None], vec![true, true]));
        let at_someone = (vec![None, Some(WRONG_WAY.to_owned())], vec![false, true]);
        assert_eq!(cause(Severity::Critical), at_someone);
    }

    #[test]
    fn a_debrief_without_causes_counts_everything() {
        let old = [
            fault("corner-speed", Severity::Minor, 10, 30),
            fault("load-spilled", Severity::Major, 20, 20),
        ];
        assert_eq!(counted(&old, WITHIN), [true, true]);
    }
}

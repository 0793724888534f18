//! What the watchers have found so far, and how often the drive gave an opportunity.
//!
//! A finding is written down as soon as it is sure and then carried on while it lasts, so that
//! the dashboard shows it at once. Numbers are kept to four decimals: short decimals survive the
//! way through JSON to the last bit, and no rule needs more.

use crate::finding::{Finding, JustBefore, Severity, Skill};
use crate::math::vec2;
use crate::time::Tick;
use crate::watch::causes;

/// Names a finding that may still go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Handle(u32);

/// An opportunity to show a skill: from the first to the last tick in which it was asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Chance {
    /// Which skill.
    pub skill: Skill,
    /// First tick.
    pub from: Tick,
    /// Last tick.
    pub to: Tick,
}

/// Findings in order of their first tick, and opportunities in the order in which they ended.
#[derive(Clone, Debug, Default)]
pub struct Report {
    findings: Vec<Finding>,
    handles: Vec<Handle>,
    next: u32,
    /// Opportunities so far.
    pub chances: Vec<Chance>,
}

impl Report {
    /// Findings so far, in order of their first tick.
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// Writes a finding down.
    pub fn open(&mut self, mut finding: Finding) -> Handle {
        finding.measured = four_decimals(finding.measured);
        finding.limit = four_decimals(finding.limit);
        finding.before = finding.before.map(|b| JustBefore {
            speed: four_decimals(b.speed),
            side: four_decimals(b.side),
            along: four_decimals(b.along),
            fork_height: four_decimals(b.fork_height),
        });
        finding.at = vec2(four_decimals(finding.at.x), four_decimals(finding.at.y));
        let handle = Handle(self.next);
        self.next += 1;
        let after = self.findings.iter().rposition(|f| f.from <= finding.from).map_or(0, |i| i + 1);
        self.findings.insert(after, finding);
        self.handles.insert(after, handle);
        handle
    }

    /// Carries a finding on to this tick.
    pub fn extend(&mut self, handle: Handle, to: Tick) {
        if let Some(f) = self.find(handle) {
            f.to = f.to.max(to);
        }
    }

    /// Carries a finding on with a worse value. It never gets less grave.
    pub fn worsen(
        &mut self,
        handle: Handle,
        to: Tick,
        measured: f64,
        limit: f64,
        severity: Severity,
    ) {
        if let Some(f) = self.find(handle) {
            f.to = f.to.max(to);
            f.measured = four_decimals(measured);
            f.limit = four_decimals(limit);
            f.severity = f.severity.max(severity);
        }
    }

    /// Takes a finding back.
    pub fn take_back(&mut self, handle: Handle) {
        if let Some(i) = self.handles.iter().rposition(|h| *h == handle) {
            self.handles.remove(i);
            self.findings.remove(i);
        }
    }

    /// Names the causes of what was found, at the end of a drive.
    pub fn name_causes(&mut self, within: Tick) {
        causes::name_causes(&mut self.findings, within);
    }

    /// Whether any fault lies within these ticks, wholly or partly.
    pub fn fault_between(&self, from: Tick, to: Tick) -> bool {
        self.findings.iter().any(|f| f.severity != Severity::Good && f.from <= to && f.to >= from)
    }

    /// Counts an opportunity.
    pub fn chance(&mut self, skill: Skill, from: Tick, to: Tick) {
        self.chances.push(Chance { skill, from, to });
    }

    fn find(&mut self, handle: Handle) -> Option<&mut Finding> {
        // What still goes on was opened lately, so it is looked for from the end.
        let i = self.handles.iter().rposition(|h| *h == handle)?;
        self.findings.get_mut(i)
    }
}

fn four_decimals(x: f64) -> f64 {
    let rounded = (x * 1e4).round() / 1e4;
    // Adding zero turns -0 into 0.
    if rounded.is_finite() { rounded + 0.0 } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Unit;

    fn finding(from: Tick) -> Finding {
        Finding {
            code: format!("f{from}"),
            severity: Severity::Minor,
            from,
            to: from,
            measured: 1.0 / 3.0,
            limit: 0.1,
            unit: Unit::Second,
            at: vec2(-0.00001, 2.0),
            before: None,
            cause: None,
            point: None,
        }
    }

    #[test]
    fn findings_stand_in_order_of_their_first_tick_and_keep_their_handles() {
        let mut r = Report::default();
        let late = r.open(finding(9));
        let early = r.open(finding(3));
        r.extend(late, 12);
        r.worsen(early, 5, 0.5, 0.1, Severity::Major);
        let seen: Vec<_> = r.findings().iter().map(|f| (f.from, f.to)).collect();
        assert_eq!(seen, [(3, 5), (9, 12)]);
        assert_eq!(r.findings()[0].severity, Severity::Major);
        assert!(r.fault_between(10, 20) && !r.fault_between(6, 8));
        r.take_back(early);
        assert_eq!(r.findings().len(), 1);
        r.extend(early, 99);
        assert_eq!(r.findings()[0].to, 12);
    }

    #[test]
    fn numbers_survive_json_to_the_last_bit() {
        let mut r = Report::default();
        r.open(finding(1));
        assert_eq!(r.findings()[0].measured, 0.3333);
        assert_eq!(r.findings()[0].at.x.to_bits(), 0.0f64.to_bits());
        let text = serde_json::to_string(r.findings()).expect("plain data");
        let back: Vec<Finding> = serde_json::from_str(&text).expect("own text");
        assert_eq!(back, r.findings());
    }

    proptest::proptest! {
        #[test]
        fn four_decimals_survive_json(x in -1e6f64..1e6) {
            let x = four_decimals(x);
            let back: f64 = serde_json::from_str(&serde_json::to_string(&x).expect("a number")).expect("own text");
            proptest::prop_assert_eq!(back.to_bits(), x.to_bits());
        }
    }
}

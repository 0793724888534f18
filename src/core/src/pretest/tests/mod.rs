//! The pre-test without a drive: the draw, mirror images, the record, the joined judgement.

mod drawing;
mod joining;
mod keeping;

use crate::debrief::{Debrief, Ending, SkillResult};
use crate::finding::{Finding, Severity, Unit};
use crate::math::vec2;
use crate::run::DriveSetup;
use crate::run::Run;
use crate::run::file::FORMAT;
use crate::score::points::SKILLS;
use crate::state::chain::Digest;

/// A debrief in which every skill had two opportunities, and these findings.
fn debrief(findings: &[(&str, Severity)]) -> Debrief {
    let skills = SKILLS.iter().map(|&skill| SkillResult {
        skill,
        points: Some(100.0),
        opportunities: 2,
        clean: 2,
        weight: 1.0,
    });
    let findings = findings.iter().map(|(code, severity)| Finding {
        code: (*code).to_owned(),
        severity: *severity,
        from: 1,
        to: 2,
        measured: 2.0,
        limit: 1.0,
        unit: Unit::Metre,
        at: vec2(0.0, 0.0),
        before: None,
        cause: None,
        point: None,
    });
    Debrief {
        ending: Ending::Done,
        ticks: 64,
        total: Some(100.0),
        did: None,
        skills: skills.collect(),
        findings: findings.collect(),
        practise: None,
        changed_rules: Vec::new(),
    }
}

/// A run of nothing with this set-up.
fn run(setup: DriveSetup) -> Run {
    Run {
        setup,
        time_ratio: 1.0,
        pace: 1.0,
        format: FORMAT,
        controls: Vec::new(),
        acts: Vec::new(),
        digests: vec![Digest([7; 8])],
        claimed: Debrief { ticks: 0, ..debrief(&[]) },
    }
}

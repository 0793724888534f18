//! One judgement over all parts of a sitting.
//!
//! Opportunities of the parts are added up. Points are taken from one hundred for each skill by
//! the findings of all parts together, by the same rule as in a single drive: all findings of one
//! code take at most the cap. Every skill weighs the same in the total, because each part gives
//! weight to another one.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::debrief::{Debrief, Ending, SkillResult};
use crate::finding::{Severity, Skill};
use crate::pretest::draw::count;
use crate::rules::SiteRules;
use crate::score::points;
use crate::time::{DT, Tick};

/// The least share of the time on the wall that a computer may simulate, by the site rules: less
/// makes a drive easier or harder than it is.
pub fn time_ratio_least(rules: &SiteRules) -> f64 {
    rules.term("time-ratio")
}

/// How often a sitting may be paused, by the site rules.
pub fn pauses_most(rules: &SiteRules) -> u32 {
    rules.term("pauses") as u32
}

/// What a pre-test has to show. Checking is not among them: no part has a walk-round yet.
pub const ASKED: [Skill; 7] = [
    Skill::Mounting,
    Skill::StartingAndStopping,
    Skill::Steering,
    Skill::ForksAndLoad,
    Skill::RightOfWay,
    Skill::SpeedAndRoom,
    Skill::Leaving,
];

/// How a sitting came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// Everything that is asked for was shown.
    Passed,
    /// Something was not, and no part that is left can change that.
    NotPassed,
    /// Nothing can be said yet: parts are left, or one was driven on a computer that was too slow.
    Incomplete,
}

/// Why a sitting is not passed. Parts are numbered from 0.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "why", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Reason {
    /// A critical finding.
    Critical {
        /// In this part.
        part: usize,
        /// Its code.
        code: String,
    },
    /// The same major finding too often in all parts together.
    MajorAgain {
        /// Its code.
        code: String,
        /// How often.
        times: u32,
        /// How often it may be.
        limit: u32,
    },
    /// A part that did not come to its end, though there was time.
    NotDone {
        /// Which.
        part: usize,
        /// How it ended instead.
        ending: Ending,
    },
    /// A part whose time ran out: a result like any other, of what was shown until then.
    OutOfTime {
        /// Which.
        part: usize,
        /// After so long, s.
        after_s: f64,
    },
    /// A skill with too few points.
    SkillBelow {
        /// Which.
        skill: Skill,
        /// 0 to 100.
        points: f64,
        /// What the site rules ask for.
        limit: f64,
    },
    /// A skill that never had an opportunity.
    SkillNotShown {
        /// Which.
        skill: Skill,
    },
    /// The mean of all skills is too low.
    TotalBelow {
        /// 0 to 100.
        points: f64,
        /// What the site rules ask for.
        limit: f64,
    },
    /// Paused too often.
    Pauses {
        /// How often.
        pauses: u32,
        /// How often it may be.
        limit: u32,
    },
    /// A part that is not driven yet.
    Missing {
        /// Which.
        part: usize,
    },
    /// A part that was driven on a computer that was too slow.
    TooSlow {
        /// Which.
        part: usize,
        /// Simulated time over time on the wall.
        ratio: f64,
        /// What it must be at least.
        limit: f64,
    },
}

/// The judgement over all parts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Joined {
    /// How it came out.
    pub result: Outcome,
    /// Why it is not passed; empty when it is.
    pub reasons: Vec<Reason>,
    /// Mean of the skills shown, 0 to 100; None when none was shown.
    pub total: Option<f64>,
    /// By skill, in the order of the skills.
    pub skills: Vec<SkillResult>,
    /// Parts that are driven.
    pub driven: usize,
    /// Parts of a sitting.
    pub parts: usize,
    /// Length of all drives together, ticks.
    pub ticks: Tick,
    /// The skill that most needs practice; None when nothing was at fault.
    pub practise: Option<Skill>,
}

/// Joins the debriefs of the first parts, each with the time ratio of its drive.
pub fn join(debriefs: &[(&Debrief, f64)], pauses: u32, rules: &SiteRules) -> Joined {
    let skills = points::joined(debriefs.iter().map(|(debrief, _)| *debrief), rules);
    let findings = debriefs.iter().flat_map(|(debrief, _)| &debrief.findings);
    let did = debriefs.iter().map(|(debrief, _)| debrief.did.unwrap_or(1.0)).sum::<f64>();
    let did = did / debriefs.len().max(1) as f64;
    let total = points::total(&skills, did, findings.clone(), rules);
    let complete = debriefs.len() == count();
    // What no part that is left can make good.
    let mut reasons: Vec<Reason> = Vec::new();
    for (part, (debrief, _)) in debriefs.iter().enumerate() {
        let critical = debrief.findings.iter().filter(|f| f.severity == Severity::Critical);
        reasons.extend(critical.map(|f| Reason::Critical { part, code: f.code.clone() }));
        match debrief.ending {
            Ending::Done => {}
            Ending::TimeOut => {
                let after_s = f64::from(debrief.ticks) * DT;
                reasons.push(Reason::OutOfTime { part, after_s });
            }
            ending => reasons.push(Reason::NotDone { part, ending }),
        }
    }
    let mut majors: BTreeMap<&str, u32> = BTreeMap::new();
    for f in findings.filter(|f| f.severity == Severity::Major) {
        *majors.entry(&f.code).or_default() += 1;
    }
    let most = rules.term("majors-of-one-code") as u32;
    for (code, times) in majors.into_iter().filter(|(_, times)| *times > most) {
        reasons.push(Reason::MajorAgain { code: code.to_owned(), times, limit: most });
    }
    for s in &skills {
        if let Some(points) = s.points.filter(|p| *p < rules.pass.skill.value) {
            let (skill, limit) = (s.skill, rules.pass.skill.value);
            reasons.push(Reason::SkillBelow { skill, points, limit });
        }
    }
    if pauses > pauses_most(rules) {
        reasons.push(Reason::Pauses { pauses, limit: pauses_most(rules) });
    }
    let final_already = !reasons.is_empty();
    let mut open = Vec::new();
    for (part, (_, ratio)) in debriefs.iter().enumerate() {
        let limit = time_ratio_least(rules);
        if *ratio < limit {
            open.push(Reason::TooSlow { part, ratio: *ratio, limit });
        }
    }
    open.extend((debriefs.len()..count()).map(|part| Reason::Missing { part }));
    if complete {
        let shown = |skill| skills.iter().any(|s| s.skill == skill && s.points.is_some());
        let hidden = ASKED.into_iter().filter(|s| !shown(*s));
        reasons.extend(hidden.map(|skill| Reason::SkillNotShown { skill }));
        let points = total.unwrap_or(0.0);
        if points < rules.pass.total.value {
            reasons.push(Reason::TotalBelow { points, limit: rules.pass.total.value });
        }
    }
    let result = match (final_already, open.is_empty(), reasons.is_empty()) {
        (true, ..) => Outcome::NotPassed,
        (false, false, _) => Outcome::Incomplete,
        (false, true, false) => Outcome::NotPassed,
        (false, true, true) => Outcome::Passed,
    };
    reasons.append(&mut open);
    Joined {
        result,
        reasons,
        total,
        practise: points::practise(&skills),
        skills,
        driven: debriefs.len(),
        parts: count(),
        ticks: debriefs.iter().map(|(debrief, _)| debrief.ticks).sum(),
    }
}

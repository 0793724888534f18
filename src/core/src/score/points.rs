//! From findings and opportunities to points.
//!
//! Each skill starts at 100. A fault takes points by its severity, all faults of one code at most
//! the cap, and a critical one takes all. A fault and what came of it are counted once (see
//! `causes`). A skill without an opportunity is not shown, which is
//! not 100. Points are given to a tenth.

use std::collections::BTreeMap;

use crate::debrief::{Debrief, Ending, SkillResult};
use crate::finding::{Finding, Severity, Skill};
use crate::rules::SiteRules;
use crate::watch::Chance;
use crate::watch::causes;

/// All skills, in their order.
pub const SKILLS: [Skill; 8] = [
    Skill::Checking,
    Skill::Mounting,
    Skill::StartingAndStopping,
    Skill::Steering,
    Skill::ForksAndLoad,
    Skill::RightOfWay,
    Skill::SpeedAndRoom,
    Skill::Leaving,
];

/// Each skill's result, in the order of the skills.
pub fn by_skill(
    findings: &[Finding],
    chances: &[Chance],
    rules: &SiteRules,
    weights: &BTreeMap<Skill, f64>,
) -> Vec<SkillResult> {
    let counted = causes::counted(findings, rules.cause_within());
    SKILLS
        .iter()
        .map(|&skill| {
            let (faults, costly): (Vec<&Finding>, Vec<bool>) = findings
                .iter()
                .zip(counted.iter().copied())
                .filter(|(f, _)| f.severity != Severity::Good)
                .filter(|(f, _)| rules.rules.get(&f.code).is_some_and(|r| r.skill == skill))
                .unzip();
            let watched = rules.watches(skill);
            let chances: Vec<Chance> =
                chances.iter().copied().filter(|c| watched && c.skill == skill).collect();
            // A fault outside every opportunity was an opportunity itself.
            let opportunities = chances.len().max(usize::from(!faults.is_empty()));
            let clean = clean_chances(&chances, &faults);
            SkillResult {
                skill,
                points: (opportunities > 0).then(|| points(&faults, &costly, rules)),
                opportunities: opportunities as u32,
                clean: clean as u32,
                weight: weights.get(&skill).copied().unwrap_or(1.0),
            }
        })
        .collect()
}

fn points(faults: &[&Finding], costly: &[bool], rules: &SiteRules) -> f64 {
    let faults = || faults.iter().zip(costly).filter(|(_, costly)| **costly).map(|(f, _)| *f);
    if faults().any(|f| f.severity == Severity::Critical) {
        return 0.0;
    }
    let mut taken: BTreeMap<&str, f64> = BTreeMap::new();
    for f in faults() {
        let cost = match f.severity {
            Severity::Minor => rules.points.minor,
            Severity::Major => rules.points.major,
            Severity::Good | Severity::Critical => 0.0,
        };
        *taken.entry(&f.code).or_default() += cost;
    }
    let lost: f64 = taken.values().map(|t| t.min(rules.points.most_by_one_code)).sum();
    to_a_tenth((100.0 - lost).max(0.0))
}

/// How many opportunities had no fault. A fault belongs to the opportunity nearest to where it
/// began: a throttle is snatched a moment before the truck moves off.
fn clean_chances(chances: &[Chance], faults: &[&Finding]) -> usize {
    let mut spoilt = vec![false; chances.len()];
    for f in faults {
        let nearest = (0..chances.len()).min_by_key(|&i| {
            let c = &chances[i];
            c.from.saturating_sub(f.from) + f.from.saturating_sub(c.to)
        });
        if let Some(i) = nearest {
            spoilt[i] = true;
        }
    }
    spoilt.iter().filter(|s| !**s).count()
}

/// Each skill's result over several drives: opportunities are added up, and the findings of all
/// drives take points together, all of one code at most the cap. Every skill weighs the same.
pub fn joined<'a>(
    debriefs: impl Iterator<Item = &'a Debrief> + Clone,
    rules: &SiteRules,
) -> Vec<SkillResult> {
    SKILLS
        .iter()
        .map(|&skill| {
            let results =
                debriefs.clone().flat_map(|d| d.skills.iter().filter(|s| s.skill == skill));
            // What leads to what is a matter of one drive.
            let (faults, costly): (Vec<&Finding>, Vec<bool>) = debriefs
                .clone()
                .flat_map(|d| {
                    let counted = causes::counted(&d.findings, rules.cause_within());
                    d.findings.iter().zip(counted)
                })
                .filter(|(f, _)| f.severity != Severity::Good)
                .filter(|(f, _)| rules.rules.get(&f.code).is_some_and(|r| r.skill == skill))
                .unzip();
            let opportunities = results.clone().map(|s| s.opportunities).sum();
            SkillResult {
                skill,
                points: (opportunities > 0).then(|| points(&faults, &costly, rules)),
                opportunities,
                clean: results.map(|s| s.clean).sum(),
                weight: 1.0,
            }
        })
        .collect()
}

/// A drive that was broken off soon shows nothing but its faults: what went well so far may have ended
/// just before it would not.
pub(super) fn only_faults_count(skills: &mut [SkillResult]) {
    for skill in skills {
        skill.opportunities = skill.opportunities.saturating_sub(skill.clean);
        skill.clean = 0;
        skill.points = skill.points.filter(|_| skill.opportunities > 0);
    }
}

/// Mean of the skills shown, weighted, for the share of the exercise that was done; None when none was shown.
/// No more than the site rules leave to a drive with a critical finding.
pub fn total<'a>(
    skills: &[SkillResult],
    did: f64,
    mut findings: impl Iterator<Item = &'a Finding>,
    rules: &SiteRules,
) -> Option<f64> {
    let critical = findings.any(|f| f.severity == Severity::Critical);
    let most = if critical { rules.term("critical-total") } else { 100.0 };
    mean(skills).map(|mean| to_a_tenth((mean * did).min(most)))
}

fn mean(skills: &[SkillResult]) -> Option<f64> {
    let shown = || skills.iter().filter_map(|s| Some((s.points?, s.weight)));
    let weight: f64 = shown().map(|(_, w)| w).sum();
    (weight > 0.0).then(|| shown().map(|(p, w)| p * w).sum::<f64>() / weight)
}

/// The skill that lost most points; of equals the one with the smaller share of clean
/// opportunities, then the first. None when nothing was at fault.
pub fn practise(skills: &[SkillResult]) -> Option<Skill> {
    let share = |s: &SkillResult| f64::from(s.clean) / f64::from(s.opportunities.max(1));
    skills
        .iter()
        .filter_map(|s| Some((s.points?, share(s), s.skill)))
        .filter(|(points, ..)| *points < 100.0)
        .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)))
        .map(|(.., skill)| skill)
}

/// Whether a drive would pass as a pre-test: done, nothing critical, every skill shown and the
/// total at the pass marks or above.
pub fn passes(debrief: &Debrief, rules: &SiteRules) -> bool {
    let critical = debrief.findings.iter().any(|f| f.severity == Severity::Critical);
    let skills =
        debrief.skills.iter().all(|s| s.points.is_none_or(|p| p >= rules.pass.skill.value));
    let total = debrief.total.is_some_and(|t| t >= rules.pass.total.value);
    debrief.ending == Ending::Done && !critical && skills && total
}

fn to_a_tenth(x: f64) -> f64 {
    (x * 10.0).round() / 10.0
}

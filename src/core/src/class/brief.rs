//! What views of a whole class are made of: the little of each attempt that is counted. A class of some years has a
//! hundred thousand attempts, and nobody waits for all of their findings to be read.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::attempt::Attempt;
use crate::finding::{Severity, Skill};

/// An attempt in brief.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Brief {
    /// Name of the attempt.
    #[serde(default)]
    pub id: String,
    /// Who drove.
    #[serde(default)]
    pub who: String,
    /// Course id.
    pub course: String,
    /// Truck id.
    pub truck: String,
    /// When it began, RFC 3339.
    pub started: String,
    /// Total of the debrief.
    pub total: Option<f64>,
    /// It tells of somebody's skill (`Attempt::shows_skill`). Nothing below counts otherwise.
    pub shows: bool,
    /// Skills that there was an opportunity to show: which, clean ones, all of them.
    pub skills: Vec<(Skill, u32, u32)>,
    /// Faults by code, in the order of the codes: the gravest of each, and how many.
    pub faults: Vec<(String, Severity, u32)>,
}

impl Brief {
    /// Version of what is kept; another one is made anew from the attempt.
    pub const FORM: u32 = 1;

    /// The attempt in brief.
    pub fn of(attempt: &Attempt) -> Self {
        let debrief = &attempt.verdict.debrief;
        let skills = debrief.skills.iter().filter(|s| s.opportunities > 0);
        let mut faults: BTreeMap<&str, (Severity, u32)> = BTreeMap::new();
        for finding in debrief.findings.iter().filter(|f| f.severity != Severity::Good) {
            let of_code = faults.entry(&finding.code).or_insert((finding.severity, 0));
            *of_code = (of_code.0.max(finding.severity), of_code.1.saturating_add(1));
        }
        Self {
            id: attempt.id.clone(),
            who: attempt.who.clone(),
            course: attempt.course.clone(),
            truck: attempt.truck.clone(),
            started: attempt.started.clone(),
            total: attempt.total(),
            shows: attempt.shows_skill(),
            skills: skills
                .map(|s| (s.skill, s.clean.min(s.opportunities), s.opportunities))
                .collect(),
            faults: faults
                .into_iter()
                .map(|(code, (worst, n))| (code.to_owned(), worst, n))
                .collect(),
        }
    }
}

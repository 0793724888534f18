//! The debrief: points by skill, the findings in order, what to practise next. A pure function of
//! a run: whoever has the run can compute it again.

use serde::{Deserialize, Serialize};

use crate::finding::{Finding, Skill};
use crate::time::Tick;

/// How a drive ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ending {
    /// Every step was done.
    Done,
    /// The task could no longer be done.
    Failed,
    /// The truck tipped.
    Tipped,
    /// Someone was struck.
    Struck,
    /// The truck broke down under the rider: a battery that nothing held has slid.
    BrokenDown,
    /// The course's time ran out.
    TimeOut,
    /// The rider stopped before the end.
    Broken,
}

/// One skill's result.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SkillResult {
    /// Which.
    pub skill: Skill,
    /// 0 to 100; None when the course gave no opportunity to show it.
    pub points: Option<f64>,
    /// How often the drive gave an opportunity to show it.
    pub opportunities: u32,
    /// How many of these had no fault.
    pub clean: u32,
    /// Weight in the total.
    pub weight: f64,
}

/// What is said after a drive.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Debrief {
    /// How it ended.
    pub ending: Ending,
    /// Length of the drive, ticks.
    pub ticks: Tick,
    /// Mean of the skills shown, weighted by the course, 0 to 100, for the share that was done; None when none
    /// was shown.
    pub total: Option<f64>,
    /// Share of the exercise that was done, 0 to 1: gates, places to pick from, and other steps. None in what was
    /// judged by a version that did not count it yet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub did: Option<f64>,
    /// By skill, in the order of the skills.
    pub skills: Vec<SkillResult>,
    /// Faults and good deeds in order of their first tick.
    pub findings: Vec<Finding>,
    /// The skill that most needs practice; None when nothing was at fault.
    pub practise: Option<Skill>,
    /// Rules whose limits this site changed from the defaults, or switched off, by code.
    pub changed_rules: Vec<String>,
}

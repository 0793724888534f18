//! A finished attempt: what lists show of it. Its run file is kept beside it.

use serde::{Deserialize, Serialize};

use super::drive::Place;
use super::form::{Form, first};
use super::judged::JudgedAgain;
use super::note::Note;
use super::own::Own;
use super::walks::WalkResult;
use crate::debrief::Ending;
use crate::finding::Severity;
use crate::run::Verdict;
use crate::run::file::SIMULATION;
use crate::run::{FULL_PACE, is_slowed, share_of_real_time};

fn full_pace() -> f64 {
    FULL_PACE
}

/// A finished attempt.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Attempt {
    /// Version of this form.
    #[serde(default = "first")]
    pub version: u32,
    /// Name of the record.
    pub id: String,
    /// Course id.
    pub course: String,
    /// Truck id.
    pub truck: String,
    /// Who drove; may be empty.
    pub who: String,
    /// When it began, RFC 3339.
    pub started: String,
    /// It came in as a file.
    pub imported: bool,
    /// The part of a pre-test that it is, if so.
    #[serde(default)]
    pub place: Option<Place>,
    /// Simulated time over time on the wall, 0 to 1; None in a record from before it was kept.
    #[serde(default)]
    pub time_ratio: Option<f64>,
    /// Slowest pace at which any of it was driven; below 1 it is slowed practice.
    #[serde(default = "full_pace")]
    pub pace: f64,
    /// Version of the simulation that made the run; None in a record from before it was kept, as
    /// long as its run file has not been asked.
    #[serde(default)]
    pub simulation: Option<u32>,
    /// The judge's word, with the debrief.
    pub verdict: Verdict,
    /// What its walk-round came to; None where it has none, or none that was decided.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub walk: Option<WalkResult>,
    /// The way of the platform's middle in few points, yard frame, m; empty as long as the run has not
    /// been driven again for it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub line: Vec<[f32; 2]>,
    /// What the rider said of it before its debrief; None where nobody was asked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub own: Option<Own>,
    /// What was said of moments of it, in their order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<Note>,
    /// That the debrief goes by other rules than those of the run, and what was said by those.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub judged_again: Option<Box<JudgedAgain>>,
    /// Its exercise does not count at this site. That is the site's to say, and never kept with the attempt.
    #[serde(skip)]
    pub left_out: bool,
}

/// What a run file tells of itself without being driven.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Told {
    /// Course id.
    pub course: String,
    /// Truck id.
    pub truck: String,
    /// Who drove; may be empty.
    pub who: String,
    /// When it began, RFC 3339.
    pub started: String,
    /// Simulated time over time on the wall, 0 to 1.
    pub time_ratio: f64,
    /// Slowest pace at which any of it was driven.
    pub pace: f64,
    /// Version of the simulation that made it.
    pub simulation: u32,
    /// What its walk-round came to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub walk: Option<WalkResult>,
}

impl Form for Attempt {
    const NEWEST: u32 = Self::FORM;

    fn version(&self) -> u32 {
        self.version
    }
}

impl Attempt {
    /// Version of the form that is written.
    pub const FORM: u32 = 2;

    /// The attempt that a run file tells of, with the judge's word.
    pub fn new(id: String, told: Told, verdict: Verdict, imported: bool) -> Self {
        Self {
            version: Self::FORM,
            id,
            course: told.course,
            truck: told.truck,
            who: told.who,
            started: told.started,
            imported,
            place: None,
            time_ratio: Some(told.time_ratio),
            pace: told.pace,
            simulation: Some(told.simulation),
            verdict,
            walk: told.walk,
            line: Vec::new(),
            own: None,
            notes: Vec::new(),
            judged_again: None,
            left_out: false,
        }
    }

    /// The task was done to its end in real time and nothing critical happened, and the run is what it says it is: only such an
    /// attempt can be somebody's best.
    pub fn counts(&self) -> bool {
        let debrief = &self.verdict.debrief;
        let critical = debrief.findings.iter().any(|f| f.severity == Severity::Critical);
        debrief.ending == Ending::Done && !critical && self.is_in_earnest()
    }

    /// It was driven in real time, and the run is what it says it is.
    fn is_in_earnest(&self) -> bool {
        self.verdict.reproduces && !self.is_slowed()
    }

    /// What was shown in it was shown in real time on an exercise that counts, and the run is what it says it is: only
    /// such an attempt tells of somebody's skill.
    pub fn shows_skill(&self) -> bool {
        self.is_in_earnest() && !self.left_out
    }

    /// Slower time was chosen for some of it.
    pub fn is_slowed(&self) -> bool {
        is_slowed(self.pace)
    }

    /// The least that simulated time was of time on the wall; None where nobody knows.
    pub fn share_of_real_time(&self) -> Option<f64> {
        self.time_ratio.map(|ratio| share_of_real_time(ratio, self.pace))
    }

    /// Its run can be driven again: the simulation that made it is the one that is here.
    pub fn can_be_driven_again(&self) -> bool {
        self.simulation == Some(SIMULATION)
    }

    /// Total of the debrief.
    pub fn total(&self) -> Option<f64> {
        self.verdict.debrief.total
    }

    /// The same drive: a file that comes in twice, or comes back, is not another attempt.
    pub fn is_same_run(&self, other: &Self) -> bool {
        self.started == other.started
            && self.who == other.who
            && self.verdict.final_digest == other.verdict.final_digest
            && self.verdict.reproduces == other.verdict.reproduces
    }
}

//! The records in the browser's database, as JSON.

use coneyard_core::debrief::Ending;
use coneyard_core::desk::{DriveSetup, Verdict};
use serde::{Deserialize, Serialize};

use crate::files;

/// A finished attempt: what the lists show. Its run file is kept beside it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Attempt {
    /// Name of the record.
    pub(crate) id: String,
    /// Course id.
    pub(crate) course: String,
    /// Truck id.
    pub(crate) truck: String,
    /// Who drove; may be empty.
    pub(crate) who: String,
    /// When it began, RFC 3339.
    pub(crate) started: String,
    /// It came in as a file.
    pub(crate) imported: bool,
    /// The part of a pre-test that it is, if so.
    #[serde(default)]
    pub(crate) place: Option<Place>,
    /// Simulated time over time on the wall, 0 to 1; None in a record from before it was kept.
    #[serde(default)]
    pub(crate) time_ratio: Option<f64>,
    /// The judge's word, with the debrief.
    pub(crate) verdict: Verdict,
}

impl Attempt {
    /// The attempt that a run file tells of, which the yard has judged, with the judge's word.
    ///
    /// # Errors
    /// One sentence when the file is not a run.
    pub(crate) fn of(
        id: String,
        file: &str,
        run: &str,
        verdict: Verdict,
        imported: bool,
    ) -> Result<Self, String> {
        let setup = files::setup_of_run(file, run)?;
        Ok(Self {
            id,
            course: files::id_of(file, &setup.course)?,
            truck: files::id_of(file, &setup.truck)?,
            who: setup.who,
            started: setup.started,
            imported,
            place: None,
            time_ratio: files::time_ratio_of_run(file, run)?,
            verdict,
        })
    }

    /// The task was done to its end, and the run is what it says it is: only such an attempt can
    /// be somebody's best.
    pub(crate) fn counts(&self) -> bool {
        self.verdict.debrief.ending == Ending::Done && self.verdict.reproduces
    }

    /// Total of the debrief.
    pub(crate) fn total(&self) -> Option<f64> {
        self.verdict.debrief.total
    }
}

/// Which part of which pre-test a drive is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Place {
    /// Name of the sitting's record.
    pub(crate) sitting: String,
    /// From 0.
    pub(crate) part: usize,
}

/// A pre-test that was begun. What was driven of it are the attempts that have their place in it,
/// so that a part and the record of it cannot disagree.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Taken {
    /// Name of the record.
    pub(crate) id: String,
    /// Word of the class, in its one form.
    pub(crate) class_word: String,
    /// Number of the seat.
    pub(crate) seat: u32,
    /// Who takes it; may be empty.
    pub(crate) who: String,
    /// When it began, RFC 3339.
    pub(crate) started: String,
    /// Text of the site-rules file for all parts.
    pub(crate) rules: String,
    /// How often it was paused.
    pub(crate) pauses: u32,
    /// Given up before the last part.
    pub(crate) given_up: bool,
    /// It came in as a file.
    pub(crate) imported: bool,
}

/// A drive under way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Drive {
    /// Name of the record.
    pub(crate) id: String,
    /// Course id.
    pub(crate) course: String,
    /// Truck id.
    pub(crate) truck: String,
    /// The part of a pre-test that it is, if so.
    #[serde(default)]
    pub(crate) place: Option<Place>,
    /// What is driven.
    pub(crate) setup: DriveSetup,
}

/// A drive that was cut off, with what was driven of it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct CutDrive {
    /// The drive.
    pub(crate) drive: Drive,
    /// Pairs of control bits and ticks.
    pub(crate) pairs: Vec<u32>,
}

impl CutDrive {
    /// Ticks driven.
    pub(crate) fn ticks(&self) -> u32 {
        self.pairs.as_chunks::<2>().0.iter().fold(0, |sum, [_, ticks]| sum.saturating_add(*ticks))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_of_a_cut_drive_add_up() {
        let setup = DriveSetup {
            course: String::new(),
            truck: String::new(),
            rules: String::new(),
            seed: 1,
            who: String::new(),
            started: String::new(),
        };
        let drive = Drive {
            id: "a".into(),
            course: "straight".into(),
            truck: "single".into(),
            place: None,
            setup,
        };
        let cut = CutDrive { drive, pairs: vec![7, 64, 9, 10] };
        assert_eq!(cut.ticks(), 74);
    }
}

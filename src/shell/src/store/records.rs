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

/// A drive under way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Drive {
    /// Name of the record.
    pub(crate) id: String,
    /// Course id.
    pub(crate) course: String,
    /// Truck id.
    pub(crate) truck: String,
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
        let drive =
            Drive { id: "a".into(), course: "straight".into(), truck: "single".into(), setup };
        let cut = CutDrive { drive, pairs: vec![7, 64, 9, 10] };
        assert_eq!(cut.ticks(), 74);
    }
}

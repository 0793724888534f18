//! The records in the browser's database, as JSON.

use coneyard_core::debrief::Ending;
use coneyard_core::run::file::SIMULATION;
use coneyard_core::run::header::Header;
use coneyard_core::run::{DriveSetup, Timing, Verdict};
use coneyard_core::run::{FULL_PACE, is_slowed, share_of_real_time};
use serde::{Deserialize, Serialize};

use crate::files;

/// The simulation that drives of before it was kept were begun under.
const SIMULATION_UNSAID: u32 = 2;

fn simulation_unsaid() -> u32 {
    SIMULATION_UNSAID
}

fn full_pace() -> f64 {
    FULL_PACE
}

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
    /// Slowest pace at which any of it was driven; below 1 it is slowed practice.
    #[serde(default = "full_pace")]
    pub(crate) pace: f64,
    /// Version of the simulation that made the run; None in a record from before it was kept, as
    /// long as its run file has not been asked.
    #[serde(default)]
    pub(crate) simulation: Option<u32>,
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
        let head = Header::parse(file, run.as_bytes()).map_err(|bad| bad.to_string())?;
        Ok(Self {
            id,
            course: files::id_of(file, &setup.course)?,
            truck: files::id_of(file, &setup.truck)?,
            who: setup.who,
            started: setup.started,
            imported,
            place: None,
            time_ratio: Some(head.time_ratio),
            pace: head.pace,
            simulation: Some(head.simulation),
            verdict,
        })
    }

    /// The task was done to its end in real time, and the run is what it says it is: only such an
    /// attempt can be somebody's best.
    pub(crate) fn counts(&self) -> bool {
        self.verdict.debrief.ending == Ending::Done && self.shows_skill()
    }

    /// What was shown in it was shown in real time, and the run is what it says it is: only such an
    /// attempt tells of somebody's skill.
    pub(crate) fn shows_skill(&self) -> bool {
        self.verdict.reproduces && !self.is_slowed()
    }

    /// Slower time was chosen for some of it.
    pub(crate) fn is_slowed(&self) -> bool {
        is_slowed(self.pace)
    }

    /// The least that simulated time was of time on the wall; None where nobody knows.
    pub(crate) fn share_of_real_time(&self) -> Option<f64> {
        self.time_ratio.map(|ratio| share_of_real_time(ratio, self.pace))
    }

    /// Its run can be driven again: the simulation that made it is the one that is here.
    pub(crate) fn can_be_driven_again(&self) -> bool {
        self.simulation == Some(SIMULATION)
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
    /// Version of the simulation that it was begun under.
    #[serde(default = "simulation_unsaid")]
    pub(crate) simulation: u32,
    /// What is driven.
    pub(crate) setup: DriveSetup,
}

impl Drive {
    /// It can be gone on with and judged: the same controls still give the same drive.
    pub(crate) fn can_go_on(&self) -> bool {
        self.simulation == SIMULATION
    }
}

/// What was driven from one look at it to the next, and how real time had gone by at its end.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Piece {
    /// Pairs of control bits and ticks.
    pub(crate) pairs: Vec<u32>,
    /// From the start of the drive; None in a piece from before it was kept.
    pub(crate) timing: Option<Timing>,
}

/// A drive that was cut off, with what was driven of it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct CutDrive {
    /// The drive.
    pub(crate) drive: Drive,
    /// Pairs of control bits and ticks.
    pub(crate) pairs: Vec<u32>,
    /// How real time went by in them.
    pub(crate) timing: Timing,
    /// How many pieces of it are kept.
    pub(crate) pieces: u32,
}

impl CutDrive {
    /// A drive of its pieces, in their order.
    pub(crate) fn of(drive: Drive, pieces: Vec<Piece>) -> Self {
        // Of a drive nobody knows how slow it was if nobody knows it of its last piece.
        let timing = pieces.last().map(|last| last.timing);
        let count = u32::try_from(pieces.len()).unwrap_or(u32::MAX);
        let pairs: Vec<u32> = pieces.into_iter().flat_map(|piece| piece.pairs).collect();
        let timing = match timing {
            Some(Some(timing)) => timing,
            Some(None) => Timing::unknown(ticks(&pairs)),
            None => Timing::START,
        };
        Self { drive, pairs, timing, pieces: count }
    }

    /// Ticks driven.
    pub(crate) fn ticks(&self) -> u32 {
        ticks(&self.pairs)
    }
}

/// Ticks of pairs of control bits and ticks.
fn ticks(pairs: &[u32]) -> u32 {
    pairs.as_chunks::<2>().0.iter().fold(0, |sum, [_, ticks]| sum.saturating_add(*ticks))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drive() -> Drive {
        let setup = DriveSetup {
            course: String::new(),
            truck: String::new(),
            rules: String::new(),
            seed: 1,
            who: String::new(),
            started: String::new(),
        };
        Drive {
            id: "a".into(),
            course: "straight".into(),
            truck: "single".into(),
            place: None,
            simulation: SIMULATION,
            setup,
        }
    }

    #[test]
    fn a_cut_drive_is_all_its_pieces_and_as_slow_as_at_its_end() {
        let at = |simulated_s, asked_s| Some(Timing { simulated_s, asked_s, pace: 1.0 });
        let pieces = vec![
            Piece { pairs: vec![7, 64], timing: at(1.0, 2.0) },
            Piece { pairs: vec![9, 10, 8, 1], timing: at(1.2, 2.4) },
        ];
        let cut = CutDrive::of(drive(), pieces.clone());
        assert_eq!((cut.ticks(), cut.pieces), (75, 2));
        assert_eq!(cut.pairs, [7, 64, 9, 10, 8, 1]);
        assert_eq!(Some(cut.timing), at(1.2, 2.4));
        let text = serde_json::to_string(&pieces[0]).unwrap();
        assert_eq!(serde_json::from_str::<Piece>(&text).unwrap(), pieces[0]);
    }

    #[test]
    fn a_cut_drive_that_does_not_tell_its_times_cannot_show_that_it_was_fast_enough() {
        let old = Piece { pairs: vec![7, 64], timing: None };
        assert_eq!(CutDrive::of(drive(), vec![old]).timing.ratio(), 0.0);
        assert_eq!(CutDrive::of(drive(), vec![]).timing, Timing::START);
    }

    #[test]
    fn a_drive_from_before_the_simulation_was_kept_is_of_the_one_before() {
        let mut old = serde_json::to_value(drive()).unwrap();
        assert!(old.as_object_mut().unwrap().remove("simulation").is_some());
        let old: Drive = serde_json::from_value(old).unwrap();
        assert_eq!(old.simulation, SIMULATION_UNSAID);
        assert!(drive().can_go_on());
        for simulation in [SIMULATION - 1, SIMULATION + 1] {
            assert!(!Drive { simulation, ..drive() }.can_go_on());
        }
    }
}

//! What can be told of a run without driving it, whichever simulation made it: an old record stays
//! readable when the same controls no longer give the same drive.

use serde::Deserialize;

use crate::debrief::Debrief;
use crate::outside::{BadInput, read_json};
use crate::run::file::{MAX_BYTES, SIMULATION, Versions, format, full_pace, times};
use crate::time::Tick;

/// The head of a run file.
#[derive(Clone, Debug, PartialEq)]
pub struct Header {
    /// Version of the simulation that made the run.
    pub simulation: u32,
    /// Who drove; may be empty.
    pub who: String,
    /// When it began, RFC 3339.
    pub started: String,
    /// Seed of everything random.
    pub seed: u32,
    /// Simulated time over the time that should have been simulated, 0 to 1.
    pub time_ratio: f64,
    /// Slowest pace at which any of it was driven, above 0 and at most 1.
    pub pace: f64,
    /// Length as the file tells it, ticks.
    pub ticks: Tick,
    /// What is claimed of the drive. Only driving it again can show that it is true.
    pub claimed: Debrief,
}

/// What of the file is read here; the rest is for whoever drives it.
#[derive(Deserialize)]
struct HeaderFile {
    who: String,
    started: String,
    seed: u32,
    time_ratio: f64,
    #[serde(default = "full_pace")]
    pace: f64,
    ticks: Tick,
    debrief: Debrief,
}

impl Header {
    /// Reads the head of a run file of any simulation.
    ///
    /// # Errors
    /// One sentence with file, place and reason.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        let versions: Versions = read_json(file, text, MAX_BYTES)?;
        format(file, versions.format)?;
        let f: HeaderFile = read_json(file, text, MAX_BYTES)?;
        times(file, f.time_ratio, f.pace)?;
        Ok(Self {
            simulation: versions.simulation,
            who: f.who,
            started: f.started,
            seed: f.seed,
            time_ratio: f.time_ratio,
            pace: f.pace,
            ticks: f.ticks,
            claimed: f.debrief,
        })
    }

    /// This program's simulation made it, so it can be driven again and judged.
    pub fn can_be_driven_again(&self) -> bool {
        self.simulation == SIMULATION
    }
}

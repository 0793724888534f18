//! Whole drives that nobody watches: they need no canvas.

use coneyard_core::desk::{DriveSetup, Verdict};
use coneyard_core::run::Run;

/// Judges a run from its file alone.
pub(crate) fn judge(text: &str) -> Result<Verdict, String> {
    let run = Run::parse("the run", text.as_bytes()).map_err(|e| e.to_string())?;
    coneyard_sim::judge(&run).map_err(|e| e.to_string())
}

/// Random controls drawn from the seed; gives the run file.
pub(crate) fn random_run(setup: &DriveSetup, ticks: u32) -> Result<String, String> {
    let run = coneyard_sim::random_run(setup, ticks).map_err(|e| e.to_string())?;
    Ok(run.to_text())
}

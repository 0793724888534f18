//! Whole drives that nobody watches: they need no canvas.

use coneyard_core::lesson::scene::Drawn;
use coneyard_core::rules::SiteRules;
use coneyard_core::run::Run;
use coneyard_core::run::{DriveSetup, Verdict};
use coneyard_sim::JudgingBy;

/// Judges a run from its file alone.
pub(crate) fn judge(text: &str) -> Result<Verdict, String> {
    let run = Run::parse("the run", text.as_bytes()).map_err(|e| e.to_string())?;
    coneyard_sim::judge(&run).map_err(|e| e.to_string())
}

/// All of a run as pages draw it.
pub(crate) fn drawn(text: &str) -> Result<Drawn, String> {
    let run = Run::parse("the run", text.as_bytes()).map_err(|e| e.to_string())?;
    coneyard_sim::scenes::of_run(&run).map_err(|e| e.to_string())
}

/// Begins to judge a run by other rules than its own.
pub(crate) fn judge_by(text: &str, rules: &str) -> Result<JudgingBy, String> {
    let run = Run::parse("the run", text.as_bytes()).map_err(|e| e.to_string())?;
    let rules = SiteRules::parse("the rules", rules.as_bytes()).map_err(|e| e.to_string())?;
    JudgingBy::new(&run, rules).map_err(|e| e.to_string())
}

/// A scripted rider drives until the drive ends; gives the run file.
pub(crate) fn ride(setup: &DriveSetup, name: &str) -> Result<String, String> {
    // Nobody waited for this drive: it was never slower than it should have been.
    let run = coneyard_sim::ride(setup, name).map_err(|e| e.to_string())?;
    Ok(run.to_text())
}

/// A scripted rider drives what was driven in a run; gives the run file.
pub(crate) fn ride_again(text: &str, name: &str) -> Result<String, String> {
    let run = Run::parse("the run", text.as_bytes()).map_err(|e| e.to_string())?;
    ride(&run.setup, name)
}

/// Random controls drawn from the seed; gives the run file.
pub(crate) fn random_run(setup: &DriveSetup, ticks: u32) -> Result<String, String> {
    let run = coneyard_sim::random_run(setup, ticks).map_err(|e| e.to_string())?;
    Ok(run.to_text())
}

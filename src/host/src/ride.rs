//! `coneyard ride`: a scripted rider drives a course without being shown, and the run is written.

use std::path::PathBuf;

use coneyard::files::say;
use coneyard::riding::{NewRide, ride};
use coneyard::trouble::Trouble;
use coneyard_core::debrief::Ending;
use coneyard_core::finding::Severity;
use coneyard_core::run::Run;
use coneyard_core::time::DT;

/// Options of `coneyard ride`.
#[derive(clap::Args)]
#[command(after_help = "The same command writes the same file again: a scripted ride has no date.\
                        \n\nExample: coneyard ride figure-eight --rider model --seed 1 --out \
                        r.run.json")]
pub(crate) struct Args {
    /// Course file, or the name of a shipped course
    course: String,
    /// Who drives: `model`, or a rider with a fault; a name that is not known lists them
    #[arg(long, value_name = "NAME")]
    rider: String,
    /// Seed of everything random
    #[arg(long, value_name = "N")]
    seed: u32,
    /// Truck file, or the name of a shipped truck [default: the course's first]
    #[arg(long, value_name = "T")]
    truck: Option<String>,
    /// Where the run is written
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Name of the rider in the run [default: the rider's]
    #[arg(long, value_name = "NAME")]
    who: Option<String>,
}

/// Drives, writes the run and says in short how it went.
///
/// # Errors
/// One sentence when course or truck cannot be used or the run cannot be written.
pub(crate) fn ride_and_write(args: &Args) -> Result<(), Trouble> {
    let who = args.who.as_deref().unwrap_or(&args.rider);
    if who.chars().count() > 100 || who.chars().any(char::is_control) {
        return Err(Trouble::Input(
            "--who: a name has at most 100 letters and stays on one line".to_owned(),
        ));
    }
    let run = ride(&NewRide {
        course: &args.course,
        rider: &args.rider,
        seed: args.seed,
        truck: args.truck.as_deref(),
        who,
    })?;
    std::fs::write(&args.out, run.to_text())
        .map_err(|e| Trouble::with_path("cannot write the run to", &args.out, &e))?;
    say(summary(&run));
    say(format_args!("The run is in {}.", args.out.display()));
    Ok(())
}

fn summary(run: &Run) -> String {
    let debrief = &run.claimed;
    let ending = match debrief.ending {
        Ending::Done => "done",
        Ending::Failed => "failed",
        Ending::Tipped => "tipped over",
        Ending::Struck => "someone was struck",
        Ending::BrokenDown => "the truck broke down",
        Ending::TimeOut => "out of time",
        Ending::Broken => "broken off",
    };
    let faults: Vec<&str> = debrief
        .findings
        .iter()
        .filter(|finding| finding.severity != Severity::Good)
        .map(|finding| finding.code.as_str())
        .collect();
    let good = debrief.findings.len() - faults.len();
    let total = debrief.total.map_or(String::new(), |total| format!(", {total:.0} points"));
    let faults = match faults.as_slice() {
        [] => "no fault".to_owned(),
        codes => format!("faults: {}", codes.join(", ")),
    };
    format!(
        "{ending} after {:.1} s{total}; {faults}; {good} done well.",
        f64::from(run.ticks()) * DT
    )
}

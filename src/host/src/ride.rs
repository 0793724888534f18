//! `coneyard ride`: a scripted rider drives a course without being shown, and the run is written.

use std::path::PathBuf;

use coneyard_core::debrief::Ending;
use coneyard_core::finding::Severity;
use coneyard_core::rules::SHIPPED;
use coneyard_core::run::DriveSetup;
use coneyard_core::run::Run;
use coneyard_core::time::DT;

use crate::files::say;
use crate::texts;
use crate::trouble::Trouble;

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

/// A ride to be taken.
pub(crate) struct NewRide<'a> {
    /// Course file or name.
    pub(crate) course: &'a str,
    /// Name of the rider.
    pub(crate) rider: &'a str,
    /// Seed.
    pub(crate) seed: u32,
    /// Truck file or name; None: the course's first.
    pub(crate) truck: Option<&'a str>,
    /// Name in the run.
    pub(crate) who: &'a str,
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

/// Drives until the course is done or can no longer be.
///
/// # Errors
/// One sentence when course or truck cannot be used.
pub(crate) fn ride(new: &NewRide<'_>) -> Result<Run, Trouble> {
    let course = texts::course(new.course)?;
    let truck = match new.truck {
        Some(truck) => texts::truck(truck)?,
        None => texts::first_truck_of(&course)?,
    };
    let setup = DriveSetup {
        course: course.text,
        truck: truck.text,
        rules: SHIPPED.to_owned(),
        seed: new.seed,
        who: new.who.to_owned(),
        started: String::new(),
    };
    // Nobody waited for this drive: it was never slower than it should have been.
    coneyard_sim::ride(&setup, new.rider).map_err(|mut bad| {
        // The session knows only that it is the course or the truck; the person gave them names.
        if bad.file.contains("course") {
            bad.file = course.name;
        } else if bad.file.contains("truck") {
            bad.file = truck.name;
        }
        bad.into()
    })
}

fn summary(run: &Run) -> String {
    let debrief = &run.claimed;
    let ending = match debrief.ending {
        Ending::Done => "done",
        Ending::Failed => "failed",
        Ending::Tipped => "tipped over",
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

//! `coneyard class simulate`: a class that never was.

use std::io::{IsTerminal, Write, stderr};
use std::sync::Arc;

use coneyard::files::say;
use coneyard::trouble::Trouble;
use coneyard_class::clock::{self, DAY};
use coneyard_class::simulate::{PEOPLE_MOST, Plan, simulate as drive_all};
use coneyard_class::store::Store;
use coneyard_class::{roles, work};

use super::open;

/// Options of `coneyard class simulate`.
#[derive(clap::Args)]
#[command(after_help = "Example: coneyard class simulate --people 40 --days 10 --seed 1")]
pub(crate) struct Args {
    /// How many people
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=i64::from(PEOPLE_MOST)))]
    people: u32,
    /// On how many days, the last of them today
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=366))]
    days: u32,
    /// Seed of all chance
    #[arg(long, value_name = "N")]
    seed: u64,
}

/// Drives the class.
///
/// # Errors
/// One sentence.
pub(super) async fn simulate(store: Arc<dyn Store>, args: &Args) -> Result<(), Trouble> {
    let name = format!("Simulated {}", args.seed);
    let class = open(&*roles::opens(store.clone()), &name).await?;
    let today = clock::now() / DAY * DAY;
    let plan = Plan { people: args.people, days: args.days, seed: args.seed, until: today };
    let shown = stderr().is_terminal();
    let told = |done, all| {
        if shown {
            let _ = write!(stderr(), "\r{done} of {all} runs");
        }
    };
    let done =
        drive_all(&*store, &class.id, &plan, work::cores(), told).await.map_err(Trouble::Here)?;
    if shown {
        eprintln!();
    }
    say(format_args!(
        "{} people drove {done} runs, which wait to be driven again: serve the class with --class-name \"{name}\".",
        args.people
    ));
    Ok(())
}

//! `coneyard-workshop spread`: how alike the draws are, shown by one rider who takes many of them, and how
//! many of them that rider passes.

use coneyard_core::debrief::{Debrief, Ending};
use coneyard_core::finding::Severity;
use coneyard_core::outside::BadInput;
use coneyard_core::pretest::{Outcome, TRUCKS, draw, join};
use coneyard_core::rider::MODEL;
use coneyard_core::rules::{SHIPPED, SiteRules};
use coneyard_core::score::points::SKILLS;
use coneyard_core::time::DT;
use coneyard_core::words::{Words, skill_key};
use coneyard_sim::ride_as;

use coneyard::files::say;
use coneyard::trouble::Trouble;

use crate::progress;

/// The model rider's hand, the same in all draws: only the draw differs.
const HAND: u64 = 1;
/// Seats of one class; then comes the next class.
const SEATS: u32 = 20;

/// Options of `coneyard-workshop spread`.
#[derive(clap::Args)]
#[command(after_help = "Example: coneyard-workshop spread --draws 200")]
pub(crate) struct Args {
    /// How many draws: seats of classes called 1, 2, 3 and so on
    #[arg(long, value_name = "N", default_value_t = 200, value_parser = clap::value_parser!(u32).range(2..=100_000))]
    draws: u32,
    /// Who takes them; with the model rider every draw must be driven clean
    #[arg(long, value_name = "NAME", default_value = MODEL)]
    rider: String,
    /// Truck that they are taken on
    #[arg(long, value_name = "TRUCK", default_value = TRUCKS[0], value_parser = TRUCKS)]
    truck: String,
}

/// Mean, standard deviation, least and greatest of some numbers.
struct Spread {
    mean: f64,
    deviation: f64,
    least: f64,
    most: f64,
}

impl Spread {
    fn of(values: &[f64]) -> Self {
        let n = values.len() as f64;
        let mean = values.iter().sum::<f64>() / n;
        let squares: f64 = values.iter().map(|v| (v - mean) * (v - mean)).sum();
        Self {
            mean,
            deviation: (squares / (n - 1.0)).sqrt(),
            least: values.iter().copied().fold(f64::INFINITY, f64::min),
            most: values.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        }
    }

    fn line(&self, what: &str, decimals: usize) -> String {
        let Self { mean, deviation, least, most } = self;
        format!(
            "{what:<28}{mean:>9.decimals$}{deviation:>9.2}{least:>9.decimals$}{most:>9.decimals$}"
        )
    }
}

/// Drives and prints the table.
///
/// # Errors
/// One sentence when a part cannot be driven, or a draw is not driven clean.
pub(crate) fn spread(args: &Args) -> Result<(), Trouble> {
    let taken = take_all(args)?;
    let words = Words::new("en");
    say(format_args!(
        "{:<28}{:>9}{:>9}{:>9}{:>9}",
        format!("{} draws", args.draws),
        "mean",
        "sd",
        "least",
        "most"
    ));
    let seconds = |d: &Debrief| f64::from(d.ticks) * DT;
    let of = |value: &dyn Fn(&[Debrief]) -> f64| {
        Spread::of(&taken.iter().map(|parts| value(parts)).collect::<Vec<f64>>())
    };
    say(of(&|parts| parts.iter().map(seconds).sum()).line("total time, s", 1));
    for (i, part) in draw("1", 0, &args.truck).iter().enumerate() {
        let spread = of(&|parts| seconds(&parts[i]));
        say(spread.line(&format!("  {} {}, s", i + 1, part.course), 1));
    }
    say("opportunities");
    for (i, skill) in SKILLS.into_iter().enumerate() {
        let spread = of(&|parts| parts.iter().map(|d| f64::from(d.skills[i].opportunities)).sum());
        say(spread.line(&format!("  {}", words.say(skill_key(skill), &[])), 1));
    }
    let rules = SiteRules::shipped();
    let passes = |parts: &Vec<Debrief>| {
        let parts: Vec<(&Debrief, f64)> = parts.iter().map(|d| (d, 1.0)).collect();
        join(&parts, 0, &rules).result == Outcome::Passed
    };
    let passed = taken.iter().filter(|parts| passes(parts)).count();
    say(format_args!("{} passes {passed} of {} draws.", args.rider, args.draws));
    if args.rider != MODEL {
        return Ok(());
    }
    let unclean = taken.iter().filter(|parts| !parts.iter().all(is_clean)).count();
    if unclean > 0 {
        return Err(Trouble::Differs(format!(
            "the model rider did not drive {unclean} of {} draws clean",
            args.draws
        )));
    }
    Ok(())
}

fn is_clean(debrief: &Debrief) -> bool {
    debrief.ending == Ending::Done && debrief.findings.iter().all(|f| f.severity == Severity::Good)
}

/// The debriefs of every draw, driven on all cores.
fn take_all(args: &Args) -> Result<Vec<Vec<Debrief>>, BadInput> {
    let draws: Vec<u32> = (0..args.draws).collect();
    progress::all(&draws, "draws", |n| take(*n, args))
}

/// One draw, driven from the first part to the last.
fn take(n: u32, Args { rider, truck, .. }: &Args) -> Result<Vec<Debrief>, BadInput> {
    let (class, seat) = (n / SEATS + 1, n % SEATS + 1);
    let parts = draw(&class.to_string(), seat, truck);
    parts.iter().map(|p| Ok(ride_as(&p.setup("", "", SHIPPED)?, rider, HAND)?.claimed)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn mean_and_deviation_are_those_of_the_sample() {
        let s = Spread::of(&[2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0]);
        assert_eq!((s.mean, s.least, s.most), (5.0, 2.0, 9.0));
        assert!((s.deviation - (32.0_f64 / 7.0).sqrt()).abs() < 1e-12);
    }
}

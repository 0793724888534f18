//! `coneyard-workshop corpus`: the labelled corpus is driven and judged, and a table by code is printed.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::time::Instant;

use coneyard_core::rider::corpus::{Labelled, rides};
use coneyard_sim::corpus::{Judged, count, judge_ride};

use coneyard::files::say;
use coneyard::trouble::Trouble;

use crate::progress;

/// Options of `coneyard-workshop corpus`.
#[derive(clap::Args)]
#[command(
    after_help = "Every ride is driven, driven again from its run, and judged.\nExit code: 0, \
                        or with --check 3 when a ride was not judged as its label says.\n\nExample: coneyard-workshop corpus --check"
)]
pub(crate) struct Args {
    /// Fail when a ride is not judged as its label says
    #[arg(long)]
    check: bool,
    /// Seeds for each rider on each course with each truck
    #[arg(long, value_name = "N", default_value_t = 6, value_parser = clap::value_parser!(u32).range(1..=1000))]
    seeds: u32,
    /// Only riders whose name has this in it
    #[arg(long, value_name = "NAME")]
    rider: Option<String>,
    /// Write the runs into this folder
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
}

/// Drives, judges, prints.
///
/// # Errors
/// A difference, with --check, when a label and what was found are not the same; one sentence when
/// a ride cannot be driven or written.
pub(crate) fn corpus(args: &Args) -> Result<(), Trouble> {
    let mut labels = rides(args.seeds);
    if let Some(part) = &args.rider {
        labels.retain(|label| label.rider.contains(part.as_str()));
        if labels.is_empty() {
            return Err(Trouble::Input(format!("--rider: no rider's name has {part:?} in it")));
        }
    }
    if let Some(folder) = &args.out {
        std::fs::create_dir_all(folder)
            .map_err(|e| Trouble::with_path("cannot make the folder", folder, &e))?;
    }
    let begun = Instant::now();
    let judged = judge_all(&labels, args.out.as_deref())?;
    let took = begun.elapsed().as_secs_f64();
    say(table(&judged));
    let wrong: Vec<String> = labels
        .iter()
        .zip(&judged)
        .filter(|(_, j)| !j.is_right())
        .map(|(label, j)| sentence(label, j))
        .collect();
    let bad = labels.iter().filter(|l| l.label.is_bad()).count();
    let near = labels.len() - bad;
    let right = labels.len() - wrong.len();
    say(format_args!(
        "{} runs in {took:.0} s: {bad} driven badly, {near} not. {right} judged as labelled.",
        labels.len()
    ));
    for sentence in &wrong {
        say(sentence);
    }
    if args.check && !wrong.is_empty() {
        let what = format!("{} of {} runs are not judged as labelled", wrong.len(), labels.len());
        return Err(Trouble::Differs(what));
    }
    Ok(())
}

/// All of them, on every core, with a bar that shows how far it is.
fn judge_all(labels: &[Labelled], out: Option<&Path>) -> Result<Vec<Judged>, Trouble> {
    progress::all(labels, "runs", |label| {
        let judged = judge_ride(label)?;
        if let Some(folder) = out {
            let path = folder.join(file_name(label));
            std::fs::write(&path, judged.run.to_text())
                .map_err(|e| Trouble::with_path("cannot write the run to", &path, &e))?;
        }
        Ok(judged)
    })
}

fn file_name(label: &Labelled) -> String {
    format!("{}.{}.{}.{}.run.json", label.rider, label.course, label.truck, label.seed)
}

fn table(judged: &[Judged]) -> String {
    let mut text =
        format!("{:<26}{:>9}{:>9}{:>9}{:>9}\n", "code", "intended", "found", "missed", "false");
    for (code, c) in count(judged) {
        let row = [c.intended, c.found, c.missed, c.false_alarms];
        let _ = write!(text, "{code:<26}");
        for n in row {
            let _ = write!(text, "{n:>9}");
        }
        text.push('\n');
    }
    text
}

fn sentence(label: &Labelled, judged: &Judged) -> String {
    let list = |codes: &std::collections::BTreeSet<String>| {
        codes.iter().map(String::as_str).collect::<Vec<_>>().join(", ")
    };
    format!(
        "{}, {}, {}, seed {}: missed [{}], false [{}]{}",
        label.rider,
        label.course,
        label.truck,
        label.seed,
        list(&judged.missed),
        list(&judged.false_alarms),
        judged.otherwise.iter().map(|what| format!(", {what}")).collect::<String>()
    )
}

//! `coneyard-workshop attack`: hands of all kinds drive, and what is found is held against what an oracle
//! sees that knows nothing of the watchers.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use coneyard_core::run::Run;
use coneyard_core::run::file::MAX_BYTES;
use coneyard_core::time::DT;
use coneyard_oracle::answers::{Answer, Held};
use coneyard_oracle::notes::{Kind, Note};
use coneyard_oracle::ride::{Ride, drive, look_at, rides};

use coneyard::files::{read_bounded, say};
use coneyard::trouble::Trouble;

use crate::progress;

/// Sentences that are printed at most; all of them are kept.
const SAID: usize = 40;
/// The file of all sentences.
const SENTENCES: &str = "wrong.txt";

/// Options of `coneyard-workshop attack`.
#[derive(clap::Args)]
#[command(
    after_help = "Random, human and cunning hands drive every course with each of its trucks in turn. An \
                  oracle looks on from outside, by geometry: harm that no finding answers is unfound, a \
                  critical finding for which it saw nothing is harmless. Runs with either are kept, with \
                  a sentence for each.\nExit code: 0, or 3 when something is unfound or \
                  harmless.\n\nExample: coneyard-workshop attack --rides 1000 --seed 1"
)]
pub(crate) struct Args {
    /// How many rides
    #[arg(long, value_name = "N", default_value_t = 1000, value_parser = clap::value_parser!(u32).range(1..=1_000_000))]
    rides: u32,
    /// Seed of the first ride; each has one of its own
    #[arg(long, value_name = "S", default_value_t = 1)]
    seed: u32,
    /// Keep the runs in which something is wrong in this folder
    #[arg(long, value_name = "DIR", default_value = "target/attack")]
    out: PathBuf,
    /// Only courses whose name has this in it
    #[arg(long, value_name = "NAME")]
    course: Option<String>,
    /// Look at these runs instead of driving
    #[arg(long, value_name = "FILE", num_args = 1.., conflicts_with_all = ["rides", "seed", "course", "out"])]
    look_at: Vec<PathBuf>,
}

/// Drives, looks, prints.
///
/// # Errors
/// A difference, when something is unfound or harmless; one sentence when a ride cannot be driven or kept.
pub(crate) fn attack(args: &Args) -> Result<(), Trouble> {
    if !args.look_at.is_empty() {
        return look(&args.look_at);
    }
    // Every ride keeps its number and seed, whether others are driven or not.
    let mut all: Vec<(usize, Ride)> =
        rides(args.rides, args.seed).into_iter().enumerate().collect();
    if let Some(part) = &args.course {
        all.retain(|(_, ride)| ride.course.contains(part.as_str()));
        if all.is_empty() {
            return Err(Trouble::Input(format!("--course: no course's name has {part:?} in it")));
        }
    }
    std::fs::create_dir_all(&args.out)
        .map_err(|e| Trouble::with_path("cannot make the folder", &args.out, &e))?;
    let driven = progress::all(&all, "rides", |(number, ride)| one(*number, ride, &args.out))?;
    let held: Vec<&Held> = driven.iter().map(|(held, _)| held).collect();
    say(table(&held));
    let wrong: Vec<&str> =
        driven.iter().flat_map(|(_, sentences)| sentences.iter().map(String::as_str)).collect();
    let runs = driven.iter().filter(|(held, _)| !held.is_right()).count();
    let path = args.out.join(SENTENCES);
    std::fs::write(&path, wrong.join("\n"))
        .map_err(|e| Trouble::with_path("cannot write", &path, &e))?;
    wrong.iter().take(SAID).for_each(say);
    if wrong.len() > SAID {
        say(format_args!("and {} more, all of them in {}", wrong.len() - SAID, path.display()));
    }
    outcome(runs, all.len())
}

fn outcome(wrong: usize, all: usize) -> Result<(), Trouble> {
    if wrong > 0 {
        let what =
            format!("{wrong} of {all} rides hold harm unfound or something critical without harm");
        return Err(Trouble::Differs(what));
    }
    Ok(())
}

/// Drives one, and keeps it when something is wrong.
fn one(number: usize, ride: &Ride, out: &Path) -> Result<(Held, Vec<String>), Trouble> {
    let (run, held) = drive(ride)?;
    let Ride { course, truck, hands, seed } = ride;
    let name = format!("{number:05}.{course}.{truck}.{}.{seed}.run.json", hands.name());
    let sentences = sentences(&name, &held);
    if !sentences.is_empty() {
        let path = out.join(name);
        std::fs::write(&path, run.to_text())
            .map_err(|e| Trouble::with_path("cannot write the run to", &path, &e))?;
    }
    Ok((held, sentences))
}

/// Looks at runs that were kept.
fn look(files: &[PathBuf]) -> Result<(), Trouble> {
    let mut wrong = 0;
    for file in files {
        let name = file.display().to_string();
        let bytes = read_bounded(file, MAX_BYTES)?;
        let held = look_at(&Run::parse(&name, &bytes)?)?;
        for (note, answer) in &held.harms {
            say(format_args!("{name}: {}: {}", word(*answer), harm(note)));
        }
        for (finding, seen) in &held.criticals {
            let seen = if *seen { "seen" } else { "harmless" };
            let at = f64::from(finding.from) * DT;
            say(format_args!("{name}: {seen}: {} at {at:.2} s", finding.code));
        }
        wrong += usize::from(!held.is_right());
    }
    outcome(wrong, files.len())
}

fn word(answer: Answer) -> &'static str {
    match answer {
        Answer::None => "unfound",
        Answer::TooMild => "found too mild",
        Answer::Found => "found",
    }
}

fn harm(note: &Note) -> String {
    let (from, to) = (f64::from(note.from) * DT, f64::from(note.to) * DT);
    let (name, unit) = (note.kind.name(), note.kind.unit());
    format!("{name} {}, {:.3} {unit}, from {from:.2} to {to:.2} s", note.whom, note.measure)
}

/// One sentence for each thing that is wrong.
fn sentences(name: &str, held: &Held) -> Vec<String> {
    let unfound = held.harms.iter().filter(|(_, answer)| *answer < Answer::Found);
    let unfound =
        unfound.map(|(note, answer)| format!("{name}: {}: {}", word(*answer), harm(note)));
    let harmless = held.harmless().map(|f| {
        let (from, to) = (f64::from(f.from) * DT, f64::from(f.to) * DT);
        let measured = format!("measured {:.3}, limit {:.3}", f.measured, f.limit);
        format!("{name}: harmless: {}, {measured}, from {from:.2} to {to:.2} s", f.code)
    });
    unfound.chain(harmless).collect()
}

fn table(held: &[&Held]) -> String {
    let columns = ["seen", "found", "too mild", "unfound"];
    let mut text = row("harm", &columns);
    let mut harms: BTreeMap<Kind, [usize; 4]> = Kind::ALL.map(|kind| (kind, [0; 4])).into();
    for (note, answer) in held.iter().flat_map(|h| h.harms.iter()) {
        let counts = harms.entry(note.kind).or_default();
        counts[0] += 1;
        counts[match answer {
            Answer::Found => 1,
            Answer::TooMild => 2,
            Answer::None => 3,
        }] += 1;
    }
    harms.iter().for_each(|(kind, counts)| text += &row(kind.name(), counts));
    let mut criticals: BTreeMap<&str, [usize; 2]> = BTreeMap::new();
    for (finding, seen) in held.iter().flat_map(|h| h.criticals.iter()) {
        criticals.entry(&finding.code).or_default()[usize::from(*seen)] += 1;
    }
    text += &row("critical", &["found", "seen", "harmless"]);
    for (code, [harmless, seen]) in criticals {
        text += &row(code, &[harmless + seen, seen, harmless]);
    }
    text
}

fn row(name: &str, cells: &[impl core::fmt::Display]) -> String {
    let cells: String = cells.iter().map(|cell| format!("{cell:>10}")).collect();
    format!("{name:<26}{cells}\n")
}

//! `coneyard bench`: the speed table of the project, measured now on this computer.
//!
//! What can be measured without a browser is measured; what cannot is said to be so. Nothing here
//! is asserted: a slow computer is no fault of the program.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use coneyard_core::controls::Controls;
use coneyard_core::course::shipped;
use coneyard_core::desk::DriveSetup;
use coneyard_core::finding::DT;
use coneyard_core::run::Run;
use coneyard_sim::Session;
use serde::Serialize;

use crate::build::sizes::{PARTS, Weight, part_of};
use crate::files::{project_folder, say};
use crate::ride::{NewRide, ride};
use crate::trouble::Trouble;

/// Options of `coneyard bench`.
#[derive(clap::Args)]
#[command(after_help = "Example: coneyard bench --json")]
pub(crate) struct Args {
    /// Print the table as JSON
    #[arg(long)]
    json: bool,
    /// Folder of the built site, to weigh it [default: dist in the project]
    #[arg(long, value_name = "DIR")]
    dist: Option<PathBuf>,
}

/// Each course is driven again and again for at least this long.
const AT_LEAST: Duration = Duration::from_millis(1500);

/// One line of the table.
#[derive(Serialize)]
struct Row {
    what: String,
    /// None: not measured here; `note` says why.
    measured: Option<f64>,
    unit: &'static str,
    must_reach: Option<f64>,
    aim: Option<f64>,
    note: String,
}

/// Measures and prints the table.
///
/// # Errors
/// One sentence when a shipped course cannot be driven.
pub(crate) fn bench(args: &Args) -> Result<(), Trouble> {
    let dist = match &args.dist {
        Some(dist) => Some(dist.clone()),
        None => project_folder().ok().map(|project| project.join("dist")),
    };
    let mut rows = driving()?;
    rows.extend(browser_only());
    rows.extend(site(dist.as_deref()));
    if args.json {
        let json = serde_json::to_string_pretty(&rows)
            .map_err(|e| Trouble::Here(format!("the table cannot be written as JSON: {e}")))?;
        say(json);
    } else {
        say(table(&rows));
    }
    Ok(())
}

/// A course's measurement.
struct Driven {
    course: &'static str,
    ticks: u64,
    seconds: f64,
    opening_s: f64,
    bytes_a_minute: f64,
}

impl Driven {
    fn ratio(&self) -> f64 {
        self.ticks as f64 * DT / self.seconds
    }
}

/// Drives every shipped course and reports the slowest.
fn driving() -> Result<Vec<Row>, Trouble> {
    let mut all = Vec::new();
    for (course, _) in shipped::ALL {
        let run = ride(&NewRide { course, rider: "model", seed: 1, truck: None, who: "" })?;
        all.push(drive_again(course, &run)?);
    }
    let Some(slowest) = all.iter().min_by(|a, b| a.ratio().total_cmp(&b.ratio())) else {
        return Ok(Vec::new());
    };
    let Some(largest) = all.iter().max_by(|a, b| a.bytes_a_minute.total_cmp(&b.bytes_a_minute))
    else {
        return Ok(Vec::new());
    };
    let note = format!("{}, the slowest of {} courses", slowest.course, all.len());
    Ok(vec![
        Row {
            what: "headless session, native, one core".to_owned(),
            measured: Some(slowest.ratio()),
            unit: "x real time",
            must_reach: Some(400.0),
            aim: Some(1000.0),
            note: note.clone(),
        },
        Row {
            what: "one tick, all of it, native".to_owned(),
            measured: Some(slowest.seconds / slowest.ticks as f64 * 1e6),
            unit: "us",
            must_reach: Some(40.0),
            aim: Some(15.0),
            note: note.clone(),
        },
        Row {
            what: "opening a session".to_owned(),
            measured: Some(slowest.opening_s * 1e3),
            unit: "ms",
            must_reach: None,
            aim: None,
            note,
        },
        Row {
            what: "a run file".to_owned(),
            measured: Some(largest.bytes_a_minute / 1e3),
            unit: "kB a minute",
            must_reach: Some(12.0),
            aim: Some(4.0),
            note: format!("{}, the largest; a model ride", largest.course),
        },
    ])
}

/// Drives the controls of a run again and again; opening is timed apart from the ticks.
fn drive_again(course: &'static str, run: &Run) -> Result<Driven, Trouble> {
    let controls: Vec<Controls> = run.each_tick().collect();
    let once = |setup: &DriveSetup| -> Result<(Duration, Duration), Trouble> {
        let begun = Instant::now();
        let mut session = Session::new(setup)?;
        let opened = begun.elapsed();
        for controls in &controls {
            session.step(*controls);
        }
        let driven = begun.elapsed() - opened;
        std::hint::black_box(session.moment());
        Ok((opened, driven))
    };
    // The first drive warms the caches and is not counted.
    once(&run.setup)?;
    let (mut opening, mut driving, mut rounds) = (Duration::ZERO, Duration::ZERO, 0_u32);
    while opening + driving < AT_LEAST {
        let (opened, driven) = once(&run.setup)?;
        opening += opened;
        driving += driven;
        rounds += 1;
    }
    let minutes = controls.len() as f64 * DT / 60.0;
    Ok(Driven {
        course,
        ticks: controls.len() as u64 * u64::from(rounds),
        seconds: driving.as_secs_f64(),
        opening_s: opening.as_secs_f64() / f64::from(rounds),
        bytes_a_minute: run.to_text().len() as f64 / minutes,
    })
}

/// The lines of the table that need a browser.
fn browser_only() -> Vec<Row> {
    let row = |what: &str, unit, must_reach, aim| Row {
        what: what.to_owned(),
        measured: None,
        unit,
        must_reach: Some(must_reach),
        aim: Some(aim),
        note: "not measured here: needs a browser; ./check prints it".to_owned(),
    };
    vec![
        row("headless session, wasm over native", "of native", 0.5, 0.7),
        row("open a 5-minute run in the browser", "s", 3.0, 1.0),
    ]
}

/// What the built site weighs, if there is one.
fn site(dist: Option<&Path>) -> Vec<Row> {
    let weights = dist.and_then(weigh);
    let weight = |part: &str| {
        let at = PARTS.iter().position(|name| *name == part)?;
        weights.as_ref().map(|weights| weights[at].brotli as f64 / 1e3)
    };
    let note = match dist {
        Some(dist) if weights.is_some() => format!("the site in {}", dist.display()),
        _ => "not measured: there is no built site; run `coneyard build`".to_owned(),
    };
    [("shell", 300.0, 200.0), ("yard", 4200.0, 3500.0)]
        .map(|(part, must_reach, aim)| Row {
            what: format!("site as brotli: {part}"),
            measured: weight(part),
            unit: "kB",
            must_reach: Some(must_reach),
            aim: Some(aim),
            note: note.clone(),
        })
        .into()
}

/// Adds up the sizes of the files of a built site by part.
fn weigh(dist: &Path) -> Option<[Weight; PARTS.len()]> {
    let size = |path: &Path| fs::metadata(path).ok().map(|about| about.len());
    let mut weights = [Weight::default(); PARTS.len()];
    for entry in fs::read_dir(dist).ok()?.flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.ends_with(".br") || name.ends_with(".gz") || !entry.path().is_file() {
            continue;
        }
        let beside = |ending: &str| size(&dist.join(format!("{name}{ending}")));
        weights[part_of(&name)].add(size(&entry.path())?, beside(".gz"), beside(".br"));
    }
    (weights[0].raw > 0).then_some(weights)
}

fn table(rows: &[Row]) -> String {
    let mut text =
        format!("{:<38}{:>10}  {:<12}{:>10}{:>10}\n", "what", "measured", "unit", "must", "aim");
    let number = |value: Option<f64>| match value {
        None => "-".to_owned(),
        Some(value) if value.abs() >= 100.0 => format!("{value:.0}"),
        Some(value) => format!("{value:.1}"),
    };
    for row in rows {
        text.push_str(&format!(
            "{:<38}{:>10}  {:<12}{:>10}{:>10}  {}\n",
            row.what,
            number(row.measured),
            row.unit,
            number(row.must_reach),
            number(row.aim),
            row.note
        ));
    }
    text.truncate(text.trim_end().len());
    text
}

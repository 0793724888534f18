//! Driving every shipped course again and again, natively, on one core.

use std::time::{Duration, Instant};

use coneyard_core::acts::Input;
use coneyard_core::controls::Controls;
use coneyard_core::course::shipped;
use coneyard_core::rider::MODEL;
use coneyard_core::run::DriveSetup;
use coneyard_core::run::Run;
use coneyard_core::time::DT;
use coneyard_sim::Session;
use serde_json::Value;

use super::bare;
use super::heavy;
use super::table::Row;
use super::watched;
use coneyard::riding::{NewRide, ride};
use coneyard::trouble::Trouble;

/// Each course is driven for at least this long.
const AT_LEAST: Duration = Duration::from_millis(1500);

/// What was measured natively.
pub(super) struct Native {
    /// Lines of the table.
    pub(super) rows: Vec<Row>,
    /// The model's run on the slowest course.
    pub(super) slowest: Run,
    /// Its course.
    pub(super) course: &'static str,
    /// The model's run on the heaviest course.
    pub(super) heaviest: Run,
}

/// One course's measurement.
struct Driven {
    course: &'static str,
    run: Run,
    ticks: f64,
    seconds: f64,
    opening_s: f64,
}

impl Driven {
    /// Simulated time over time on the wall.
    fn ratio(&self) -> f64 {
        self.ticks * DT / self.seconds
    }

    /// Microseconds a tick.
    fn tick_us(&self) -> f64 {
        self.seconds / self.ticks * 1e6
    }

    /// Bytes of the run file for each minute of driving: all but the texts inside.
    fn bytes_a_minute(&self) -> f64 {
        let minutes = f64::from(self.run.ticks()) * DT / 60.0;
        (self.run.to_text().len() as f64 - self.bytes_of_texts()) / minutes
    }

    /// Bytes of course, truck and rules inside the run file, however long the drive was.
    fn bytes_of_texts(&self) -> f64 {
        let file = serde_json::from_str::<Value>(&self.run.to_text()).unwrap_or_default();
        let inside = ["course", "truck", "site_rules"];
        inside.iter().filter_map(|f| file.get(f)).map(|t| t.to_string().len()).sum::<usize>() as f64
    }
}

/// Drives every shipped course and reports the slowest.
///
/// # Errors
/// One sentence when a shipped course cannot be driven.
pub(super) fn measure() -> Result<Native, Trouble> {
    let mut all = Vec::new();
    for (course, _) in shipped::ALL {
        let run = ride(&NewRide { course, rider: "model", seed: 1, truck: None, who: "" })?;
        all.push(drive_again(course, run)?);
    }
    let heavy = drive_again("heaviest", coneyard_sim::ride(&heavy::setup(), MODEL)?)?;
    all.sort_by(|a, b| a.ratio().total_cmp(&b.ratio()));
    let beside = bare::measure(&heavy.run)?;
    let [whole, by_engine] = beside.allocations;
    let watched = watched::tick_us(&heavy.run)?;
    let count = all.len();
    let largest = all.iter().max_by(|a, b| a.bytes_a_minute().total_cmp(&b.bytes_a_minute()));
    let file = largest.map(|d| (d.course, d.bytes_a_minute(), d.bytes_of_texts()));
    let (Some((largest, bytes, texts)), Some(slowest)) = (file, all.into_iter().next()) else {
        return Err(Trouble::Here("no course is shipped, so nothing can be measured".to_owned()));
    };
    let note = format!("{}, the slowest of {count} courses", slowest.course);
    let heaviest = format!("{} things to run into and {} people", heavy::BODIES, heavy::PEOPLE);
    let row = |what, measured, unit, must_reach, aim, note: &str| Row {
        what,
        measured: Some(measured),
        unit,
        must_reach,
        aim,
        note: note.to_owned(),
    };
    let rows = vec![
        row(
            "the heaviest course, native, one core",
            heavy.ratio(),
            "x real time",
            Some(700.0),
            Some(1000.0),
            &heaviest,
        ),
        row("one tick of it", heavy.tick_us(), "us", None, None, &heaviest),
        row("the bare step of its bodies", beside.bare_us(), "us", None, None, "the engine alone"),
        row(
            "its whole tick over that",
            beside.tick_us() / beside.bare_us(),
            "times",
            Some(3.0),
            None,
            "both in the same run, by turns",
        ),
        row(
            "all watchers in a tick of it",
            watched / heavy.tick_us() * 100.0,
            "%",
            Some(15.0),
            None,
            &format!("{watched:.1} us, looking at the same moments alone"),
        ),
        row(
            "memory asked for in a tick of it",
            whole - by_engine,
            "times",
            Some(0.0),
            None,
            &format!("after the first second, beside {by_engine:.2} times in the engine's step"),
        ),
        row(
            "headless session, native, one core",
            slowest.ratio(),
            "x real time",
            Some(400.0),
            Some(1500.0),
            &note,
        ),
        row("one tick, all of it, native", slowest.tick_us(), "us", Some(40.0), Some(15.0), &note),
        row("opening a session, native", slowest.opening_s * 1e3, "ms", None, None, &note),
        row(
            "a run file",
            bytes / 1e3,
            "kB a minute",
            Some(12.0),
            Some(4.0),
            &format!("{largest}, the largest; a ride of the model rider"),
        ),
        row("course, truck and rules inside it", texts / 1e3, "kB", None, None, largest),
    ];
    Ok(Native { rows, slowest: slowest.run, course: slowest.course, heaviest: heavy.run })
}

/// Drives the controls of a run again and again; opening is timed apart from the ticks.
fn drive_again(course: &'static str, run: Run) -> Result<Driven, Trouble> {
    let inputs: Vec<Input> = run.each_tick().collect();
    // The first drive warms the caches and is not counted.
    drive_once(&run.setup, &inputs)?;
    let (mut opening, mut driving, mut rounds) = (Duration::ZERO, Duration::ZERO, 0_u32);
    while opening + driving < AT_LEAST {
        let (opened, driven) = drive_once(&run.setup, &inputs)?;
        opening += opened;
        driving += driven;
        rounds += 1;
    }
    Ok(Driven {
        course,
        ticks: inputs.len() as f64 * f64::from(rounds),
        seconds: driving.as_secs_f64(),
        opening_s: opening.as_secs_f64() / f64::from(rounds),
        run,
    })
}

fn drive_once(setup: &DriveSetup, inputs: &[Input]) -> Result<(Duration, Duration), Trouble> {
    let begun = Instant::now();
    let mut session = Session::new(setup)?;
    let opened = begun.elapsed();
    for input in inputs {
        session.step(input.clone());
    }
    let driven = begun.elapsed() - opened;
    std::hint::black_box(session.moment());
    Ok((opened, driven))
}

/// Seconds for judging a run once, the best of a few: for comparing with a browser that does the
/// same.
///
/// # Errors
/// One sentence when the run cannot be driven.
pub(super) fn judging_s(run: &Run) -> Result<f64, Trouble> {
    let mut best = f64::INFINITY;
    for _ in 0..10 {
        let begun = Instant::now();
        std::hint::black_box(coneyard_sim::judge(run)?);
        best = best.min(begun.elapsed().as_secs_f64());
    }
    Ok(best)
}

/// A run of five minutes: a long wait before the model rider sets off on the figure-eight.
///
/// # Errors
/// One sentence when the figure-eight cannot be driven.
pub(super) fn five_minutes() -> Result<Run, Trouble> {
    let new = NewRide { course: "figure-eight", rider: "model", seed: 1, truck: None, who: "" };
    let ride = ride(&new)?;
    let wait = (300.0 / DT) as u32;
    let mut session = Session::new(&ride.setup)?;
    // Standing as at the start, so that the recorded ride fits when it comes.
    let first = ride.each_tick().next().unwrap_or_default();
    let still = Controls { throttle: 0, horn: false, ..first.controls };
    for _ in 0..wait.saturating_sub(ride.ticks()) {
        session.step(still);
    }
    for input in ride.each_tick() {
        session.step(input);
    }
    Ok(session.finish(1.0))
}

//! `coneyard-workshop curves`: how points and passes fall with delay and with speed, drawn for every
//! course and for the pre-test.

mod svg;

use std::path::PathBuf;
use std::time::Instant;

use coneyard_core::course::shipped;
use coneyard_sim::curves::{Came, DELAYS_S, Point, SPEEDS, What, Worse, mean, rises};

use coneyard::files::say;
use coneyard::trouble::Trouble;
use svg::{Curve, Sheet};

use crate::progress;

/// Points may rise by so much as driving gets worse: what the draws of a dozen drives make of it.
const RISE_MOST: f64 = 0.5;

const SPEED: &str = "speed";

/// Options of `coneyard-workshop curves`.
#[derive(clap::Args)]
#[command(
    after_help = "Points that rise as driving gets worse are named. They are drawn as they are: nothing is \
                  smoothed.\n\nExample: coneyard-workshop curves --out assets/curves"
)]
pub(crate) struct Args {
    /// Folder for the drawings
    #[arg(long, value_name = "DIR", default_value = "assets/curves")]
    out: PathBuf,
    /// Drives for each point
    #[arg(long, value_name = "N", default_value_t = 12, value_parser = clap::value_parser!(u32).range(1..=1000))]
    seeds: u32,
    /// Only courses whose name has this in it; the pre-test is called pretest-on-single and -double
    #[arg(long, value_name = "NAME")]
    course: Option<String>,
}

/// One drive: of what, on which axis, where on it, and the seed.
type Drive = (usize, usize, usize, u32);

/// Drives, draws, and says where points rise.
///
/// # Errors
/// One sentence when a course cannot be driven or a drawing not be written.
pub(crate) fn curves(args: &Args) -> Result<(), Trouble> {
    let mut driven = What::all();
    if let Some(part) = &args.course {
        driven.retain(|what| name(what).contains(part.as_str()));
        if driven.is_empty() {
            return Err(Trouble::Input(format!("--course: no course has {part:?} in its name")));
        }
    }
    std::fs::create_dir_all(&args.out)
        .map_err(|e| Trouble::with_path("cannot make the folder", &args.out, &e))?;
    let axes: [&[f64]; 2] = [&DELAYS_S, &SPEEDS];
    let mut drives: Vec<Drive> = Vec::new();
    for what in 0..driven.len() {
        for (axis, values) in axes.iter().enumerate() {
            for at in 0..values.len() {
                drives.extend((1..=args.seeds).map(|seed| (what, axis, at, seed)));
            }
        }
    }
    let begun = Instant::now();
    let came = progress::all(&drives, "drives", |&(what, axis, at, seed)| {
        let value = axes[axis][at];
        let worse = if axis == 0 { Worse::late(value) } else { Worse::hurried(value) };
        driven[what].drive(seed, worse)
    })?;
    let took = begun.elapsed().as_secs_f64();
    let mut risen = 0;
    for (i, what) in driven.iter().enumerate() {
        let curve = |axis: usize| -> Vec<Point> {
            let values = axes[axis].iter().enumerate();
            values.map(|(at, value)| mean(*value, &of(&drives, &came, (i, axis, at)))).collect()
        };
        let (late, hurried) = (curve(0), curve(1));
        for (axis, curve) in [("delay, s", &late), (SPEED, &hurried)] {
            say(line(&name(what), axis, curve));
            // Slower than the model rider is not worse: what it costs is seen in the drawing.
            let worse: Vec<Point> =
                curve.iter().filter(|p| axis != SPEED || p.at >= 1.0).copied().collect();
            for (from, to, by) in rises(&worse, RISE_MOST) {
                risen += 1;
                say(format_args!("  rises by {by:.1} points from {from} to {to}"));
            }
        }
        let sheet = Sheet {
            title: format!("{}, {} drives for each point", title(what), args.seeds),
            left: Curve { axis: "added reaction delay, s", points: &late },
            right: Curve { axis: "speed, as a share of the model rider's", points: &hurried },
        };
        let path = args.out.join(name(what) + ".svg");
        std::fs::write(&path, sheet.to_text())
            .map_err(|e| Trouble::with_path("cannot write the drawing to", &path, &e))?;
    }
    say(format_args!(
        "{} drives in {took:.0} s; points rise by more than {RISE_MOST} in {risen} places. The drawings are in {}.",
        drives.len(),
        args.out.display()
    ));
    Ok(())
}

/// What came of all seeds of one point.
fn of(drives: &[Drive], came: &[Came], point: (usize, usize, usize)) -> Vec<Came> {
    let of_point =
        drives.iter().zip(came).filter(|((w, axis, at, _), _)| (*w, *axis, *at) == point);
    of_point.map(|(_, came)| *came).collect()
}

fn name(what: &What) -> String {
    match what {
        What::Course { name, .. } => (*name).to_owned(),
        What::Pretest { truck } => format!("pretest-on-{truck}"),
    }
}

fn title(what: &What) -> String {
    match what {
        What::Course { name, truck } => {
            let title = shipped::parse(name).title;
            let title = title.get("en").cloned().unwrap_or_else(|| (*name).to_owned());
            format!("{title}, {truck} truck")
        }
        What::Pretest { truck } => format!("The pre-test, all parts, {truck} truck"),
    }
}

/// Points, and passes in percent, one after the other.
fn line(name: &str, axis: &str, curve: &[Point]) -> String {
    let each = |p: &Point| format!("{}: {:.1} {:.0} %", p.at, p.points, 100.0 * p.passes);
    let values: Vec<String> = curve.iter().map(each).collect();
    format!("{name}, {axis}: {}", values.join(", "))
}

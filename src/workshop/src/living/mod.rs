//! `coneyard-workshop living`: the yard at the top of the first page. A model rider's drive becomes a floor
//! to draw (SVG) and movements that a browser plays by itself (CSS): no engine and no script is needed for it.

mod floor;
mod moves;

use std::path::PathBuf;

use coneyard::files::{project_folder, say};
use coneyard::trouble::Trouble;
use coneyard_core::course::Course;
use coneyard_core::rules::SHIPPED;
use coneyard_core::run::DriveSetup;
use coneyard_core::truck::spec;
use coneyard_core::yard::frame::Frame;

/// Options of `coneyard-workshop living`.
#[derive(clap::Args)]
#[command(after_help = "Example: coneyard-workshop living")]
pub(crate) struct Args {
    /// Folder with the course, for the floor and the movements [default: assets/living in the project]
    #[arg(long, value_name = "DIR")]
    folder: Option<PathBuf>,
}

/// Has the model rider drive, and writes `floor.svg` and `moves.css`.
///
/// # Errors
/// One sentence when the course cannot be driven as a round, or a file not be read or written.
pub(crate) fn living(args: &Args) -> Result<(), Trouble> {
    let folder = match &args.folder {
        Some(folder) => folder.clone(),
        None => project_folder()?.join("assets/living"),
    };
    let path = folder.join("course.json");
    let text =
        std::fs::read_to_string(&path).map_err(|e| Trouble::with_path("cannot read", &path, &e))?;
    let course = Course::parse("course.json", text.as_bytes())?;
    let frames = drive(&text)?;
    let round = moves::round(&frames).ok_or_else(|| {
        Trouble::Input(
            "course.json: the model rider does not come round to where it was".to_owned(),
        )
    })?;
    let [floor, moves] = [floor::svg(&course), moves::css(&course, &frames[round.clone()])];
    for (name, content) in [("floor.svg", &floor), ("moves.css", &moves)] {
        let path = folder.join(name);
        std::fs::write(&path, content)
            .map_err(|e| Trouble::with_path("cannot write", &path, &e))?;
        say(format_args!("{}: {} bytes", path.display(), content.len()));
    }
    say(format_args!("One round takes {:.1} s.", round.len() as f64 / 64.0));
    Ok(())
}

/// The yard in each tick of a model rider's drive.
fn drive(course: &str) -> Result<Vec<Frame>, Trouble> {
    let setup = DriveSetup {
        course: course.to_owned(),
        truck: spec::shipped::SINGLE.to_owned(),
        rules: SHIPPED.to_owned(),
        seed: 1,
        who: "model".to_owned(),
        started: String::new(),
    };
    let run = coneyard_sim::ride(&setup, "model")?;
    let mut frames = Vec::new();
    coneyard_sim::drive_again(&run, |session| frames.push(session.frame()))?;
    Ok(frames)
}

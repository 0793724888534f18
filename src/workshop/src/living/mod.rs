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

/// Has the model rider drive, and writes `floor.svg`, `floor-dark.svg` and `moves.css`.
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
    let Made { floors: [day, night], moves, seconds } = made(&text)?;
    for (name, content) in [("floor.svg", &day), ("floor-dark.svg", &night), ("moves.css", &moves)]
    {
        let path = folder.join(name);
        std::fs::write(&path, content)
            .map_err(|e| Trouble::with_path("cannot write", &path, &e))?;
        say(format_args!("{}: {} bytes", path.display(), content.len()));
    }
    say(format_args!("One round takes {seconds:.1} s."));
    Ok(())
}

/// What comes of a course: the floor by day and by night, the movements, and how long a round takes, s.
struct Made {
    floors: [String; 2],
    moves: String,
    seconds: f64,
}

fn made(text: &str) -> Result<Made, Trouble> {
    let course = Course::parse("course.json", text.as_bytes())?;
    let frames = drive(text)?;
    let round = moves::round(&frames).ok_or_else(|| {
        Trouble::Input(
            "course.json: the model rider does not come round to where it was".to_owned(),
        )
    })?;
    let seconds = round.len() as f64 / 64.0;
    Ok(Made {
        floors: floor::pictures(&course),
        moves: moves::css(&course, &frames[round]),
        seconds,
    })
}

/// The yard in each tick of a model rider's drive.
fn drive(course: &str) -> Result<Vec<Frame>, Trouble> {
    let setup = DriveSetup {
        course: course.to_owned(),
        truck: spec::shipped::SINGLE.to_owned(),
        rules: SHIPPED.to_owned(),
        checks: String::new(),
        seed: 1,
        who: "model".to_owned(),
        started: String::new(),
    };
    let run = coneyard_sim::ride(&setup, "model")?;
    let mut frames = Vec::new();
    coneyard_sim::drive_again(&run, |session| frames.push(session.frame()))?;
    Ok(frames)
}

#[cfg(test)]
mod tests {
    use super::*;

    const COURSE: &str = include_str!("../../../../assets/living/course.json");
    const FLOORS: [&str; 2] = [
        include_str!("../../../../assets/living/floor.svg"),
        include_str!("../../../../assets/living/floor-dark.svg"),
    ];
    const MOVES: &str = include_str!("../../../../assets/living/moves.css");

    #[test]
    fn what_the_first_page_shows_is_what_the_model_rider_drives() {
        let made = made(COURSE).unwrap();
        assert_eq!(made.floors, FLOORS, "make it anew: coneyard-workshop living");
        assert_eq!(made.moves, MOVES, "make it anew: coneyard-workshop living");
    }

    #[test]
    fn somebody_crosses_and_all_are_at_home_when_the_round_begins_again() {
        let frames = drive(COURSE).unwrap();
        let round = &frames[moves::round(&frames).unwrap()];
        let (first, last) = (&round[0], &round[round.len() - 1]);
        assert_eq!(first.people.len(), 2);
        for n in 0..2 {
            let home = first.people[n].at;
            assert!((last.people[n].at - home).length() < 0.3, "{n} is not back at home");
            let farthest = round.iter().map(|f| (f.people[n].at - home).length());
            assert!(farthest.fold(0.0, f64::max) > 5.0, "{n} does not cross");
        }
        assert!(round.iter().any(|f| f.speed < 0.8), "the truck slows down for somebody");
    }
}

//! `coneyard-workshop lesson`: scripted riders drive what a lesson shows, and it is kept in few numbers, so that
//! a page plays it without an engine.

use std::fmt::Write as _;
use std::path::PathBuf;

use coneyard::files::{project_folder, say};
use coneyard::trouble::Trouble;
use coneyard_core::debrief::Debrief;
use coneyard_core::finding::Severity;
use coneyard_core::lesson::Lesson;
use coneyard_core::lesson::scene::{Asked, Drawn};
use coneyard_core::outside::to_json;
use coneyard_core::time::TICK_RATE;
use coneyard_sim::scenes::side_by_side;

/// Options of `coneyard-workshop lesson`.
#[derive(clap::Args)]
#[command(
    after_help = "Says of every drive how long it is and when something was found, so that a lesson's \
                  file can say from when on it is to be shown.\n\nExample: coneyard-workshop lesson"
)]
pub(crate) struct Args {
    /// Folder with the lesson, for its scenes [default: levels/lessons in the project]
    #[arg(long, value_name = "DIR")]
    folder: Option<PathBuf>,
    /// Only scenes whose name has this in it
    #[arg(long, value_name = "NAME")]
    scene: Option<String>,
}

/// Drives all of it and writes `scenes/NAME.json`.
///
/// # Errors
/// One sentence when the lesson or a drive cannot be used, or a file not be read or written.
pub(crate) fn lesson(args: &Args) -> Result<(), Trouble> {
    let folder = match &args.folder {
        Some(folder) => folder.clone(),
        None => project_folder()?.join("levels/lessons"),
    };
    let path = folder.join("pallet-trucks.json");
    let text = std::fs::read(&path).map_err(|e| Trouble::with_path("cannot read", &path, &e))?;
    let lesson = Lesson::parse("pallet-trucks.json", &text)?;
    let scenes = folder.join("scenes");
    std::fs::create_dir_all(&scenes)
        .map_err(|e| Trouble::with_path("cannot make the folder", &scenes, &e))?;
    let wanted = |name: &str| args.scene.as_ref().is_none_or(|part| name.contains(part.as_str()));
    for (name, asked) in lesson.scenes().filter(|(name, _)| wanted(name)) {
        let (scene, debriefs) = side_by_side(&asked)?;
        let text = to_json(&scene).map_err(Trouble::Here)?;
        let path = scenes.join(format!("{name}.json"));
        std::fs::write(&path, &text).map_err(|e| Trouble::with_path("cannot write", &path, &e))?;
        say(format_args!("{name}: {} bytes", text.len()));
        for ((asked, drawn), debrief) in asked.iter().zip(&scene.sides).zip(&debriefs) {
            say(told(asked, drawn, debrief));
        }
    }
    Ok(())
}

fn seconds(tick: u32) -> f64 {
    f64::from(tick) / f64::from(TICK_RATE)
}

/// What a drive comes to, in a line.
fn told(asked: &Asked, drawn: &Drawn, debrief: &Debrief) -> String {
    let mut line =
        format!("  {} on {}, {:.1} s:", asked.rider, asked.course, seconds(debrief.ticks));
    for found in &debrief.findings {
        let mark = if found.severity == Severity::Good { "" } else { "!" };
        let shown = if drawn.found.contains(found) { "*" } else { "" };
        // Writing to a string cannot fail.
        let _ = write!(line, " {mark}{}{shown} {:.1}", found.code, seconds(found.from));
    }
    line
}

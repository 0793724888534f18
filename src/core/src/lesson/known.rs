//! Whether there is what a lesson names: courses, trucks, riders, parts of the truck.

use super::{Lesson, Show};
use crate::checks::list::CheckList;
use crate::outside::BadInput;
use crate::outside::values::{Wrong, short, wrong};

/// What a site has.
pub struct Known<'a> {
    /// Exercises that people drive, with the trucks of each.
    pub exercises: &'a [(String, Vec<String>)],
    /// Everything that can be driven on: exercises and the yards of the corpus, likewise.
    pub yards: &'a [(String, Vec<String>)],
    /// Names of scripted riders.
    pub riders: &'a [String],
    /// The check list of the walk-round.
    pub checks: &'a CheckList,
}

impl Lesson {
    /// Holds the lesson against what there is.
    ///
    /// # Errors
    /// One sentence with file, place and reason.
    pub fn names_what_there_is(&self, file: &str, known: &Known<'_>) -> Result<(), BadInput> {
        let said = |w: Wrong| BadInput::new(file, w.place, w.reason);
        self.topics.iter().enumerate().try_for_each(|(t, topic)| {
            for (n, id) in topic.drive.iter().enumerate() {
                let at = format!("topics[{t}].drive[{n}]");
                if !known.exercises.iter().any(|(name, _)| name == id) {
                    return Err(said(Wrong { place: at, reason: none("exercise", id) }));
                }
            }
            for (n, show) in topic.shows.iter().enumerate() {
                is_there(&format!("topics[{t}].show[{n}]"), show, known).map_err(said)?;
            }
            Ok(())
        })
    }
}

fn none(what: &str, name: &str) -> String {
    format!("there is no {what} named \"{}\"", short(name))
}

fn is_there(at: &str, show: &Show, known: &Known<'_>) -> Result<(), Wrong> {
    if let Show::Part { point, defect } = show {
        let found = known.checks.points.iter().find(|p| p.id == *point);
        let Some(found) = found else {
            return wrong(format!("{at}.part.point"), none("point of the check list", point));
        };
        if !found.defects.iter().any(|d| d.id == *defect) {
            return wrong(format!("{at}.part.defect"), none("defect of this point", defect));
        }
    }
    for asked in show.asks().into_iter().flatten() {
        let yard = known.yards.iter().find(|(name, _)| *name == asked.course);
        let Some((_, trucks)) = yard else {
            return wrong(at, none("course", &asked.course));
        };
        if !trucks.contains(&asked.truck) {
            return wrong(at, none("truck for this course", &asked.truck));
        }
        if !known.riders.contains(&asked.rider) {
            return wrong(at, none("rider", &asked.rider));
        }
    }
    Ok(())
}

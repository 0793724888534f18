//! Finding the text of a course or a truck: a file, or a shipped one by its name.

use std::path::Path;

use coneyard_core::course::{Course, shipped};
use coneyard_core::truck::spec;

use crate::files::read_bounded;
use crate::trouble::Trouble;

/// Largest course file that is read, bytes: as much as the reader of courses takes.
const COURSE_MOST: usize = 1024 * 1024;

/// A text and what it is called in messages.
pub struct Named {
    /// The path, or the shipped name.
    pub name: String,
    /// What is in it.
    pub text: String,
}

/// A course: a file, or a shipped course by its name.
///
/// # Errors
/// One sentence that names the shipped courses when there is neither.
pub fn course(given: &str) -> Result<Named, Trouble> {
    let names = || shipped::ALL.iter().map(|(name, _)| *name);
    file_or_shipped(given, COURSE_MOST, shipped::text_of_any(given), names(), "course")
}

/// A truck: a file, or a shipped truck by its name.
///
/// # Errors
/// One sentence that names the shipped trucks when there is neither.
pub fn truck(given: &str) -> Result<Named, Trouble> {
    let names = spec::shipped::ALL.into_iter().map(|(name, _)| name);
    file_or_shipped(given, spec::MAX_BYTES, spec::shipped::text(given), names, "truck")
}

/// The truck that a course names first, which must be a shipped one.
///
/// # Errors
/// One sentence when the course cannot be read, or its first truck is not shipped.
pub fn first_truck_of(course: &Named) -> Result<Named, Trouble> {
    let read = Course::parse(&course.name, course.text.as_bytes())?;
    let name = read.trucks.first().map_or("", String::as_str);
    truck(name).map_err(|_| {
        Trouble::Input(format!(
            "{}, at trucks[0]: the truck {name} is not a shipped one; name its file with --truck",
            course.name
        ))
    })
}

/// Reads a text file within a bound.
///
/// # Errors
/// One sentence when it cannot be read, is too large, or is no text.
pub fn text_of(path: &Path, max_bytes: usize) -> Result<Named, Trouble> {
    let name = path.display().to_string();
    match String::from_utf8(read_bounded(path, max_bytes)?) {
        Ok(text) => Ok(Named { name, text }),
        Err(e) => {
            let at = e.utf8_error().valid_up_to();
            Err(Trouble::Input(format!(
                "{name}, at byte {at}: this is not text in UTF-8; is it the right file?"
            )))
        }
    }
}

fn file_or_shipped<'a>(
    given: &str,
    max_bytes: usize,
    shipped: Option<&str>,
    names: impl Iterator<Item = &'a str>,
    what: &str,
) -> Result<Named, Trouble> {
    if let Some(text) = shipped {
        return Ok(Named { name: given.to_owned(), text: text.to_owned() });
    }
    // A path is told from a mistyped name by what paths have and names have not.
    if given.contains(['/', '\\', '.']) || Path::new(given).exists() {
        return text_of(Path::new(given), max_bytes);
    }
    let names: Vec<&str> = names.collect();
    Err(Trouble::Input(format!(
        "{given}: there is no shipped {what} and no file of this name; shipped are {}",
        names.join(", ")
    )))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shipped_course_is_found_by_its_name() {
        assert!(course("figure-eight").unwrap().text.contains("figure-eight"));
    }

    #[test]
    fn a_mistyped_name_is_answered_with_the_names_there_are() {
        let sentence = course("figure-eigth").err().unwrap().to_string();
        assert!(sentence.contains("figure-eight, slalom"), "{sentence}");
        let sentence = truck("triple").err().unwrap().to_string();
        assert!(sentence.contains("single, double"), "{sentence}");
    }

    #[test]
    fn a_path_that_leads_nowhere_is_no_mistyped_name() {
        let sentence = course("levels/none.json").err().unwrap().to_string();
        assert_eq!(sentence, "levels/none.json: there is no such file");
    }
}

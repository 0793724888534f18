//! The few things that the pages read of a file: names, sentences, marks. Nothing is driven or
//! judged by what is read here; the yard, which drives and judges, checks every file in full and
//! refuses it with its sentence. Checking it here as well would double what a browser loads.

mod changes;
mod rules;

pub(crate) use changes::{Change, RuleValue};
pub(crate) use rules::{RulesLabel, rules};

use coneyard_core::course::Said;
use coneyard_core::desk::DriveSetup;
use coneyard_core::run::coding::unpack;
use coneyard_core::run::header::Header;
use serde::Deserialize;
use serde::de::{DeserializeOwned, IgnoredAny};

use crate::parts::notes::not_again;

/// Largest text inside a run file that is unpacked, bytes: as large as a run may hold.
const TEXT_MOST: usize = 1024 * 1024;

/// What the pages show of a course.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct CourseLabel {
    /// Short name.
    pub(crate) id: String,
    /// What people call it.
    pub(crate) title: Said,
    /// What it trains.
    pub(crate) trains: Said,
    /// The trucks it may be driven with.
    pub(crate) trucks: Vec<String>,
    /// The sentence of each step.
    pub(crate) steps: Vec<Said>,
    /// It is a part of a pre-test and no exercise of its own.
    pub(crate) is_part: bool,
}

/// A course file, as far as it is shown.
#[derive(Deserialize)]
struct CourseText {
    id: String,
    title: Said,
    trains: Said,
    trucks: Vec<String>,
    steps: Vec<StepText>,
    part_of: Option<IgnoredAny>,
}

#[derive(Deserialize)]
struct StepText {
    say: Said,
}

/// A course or truck file, as far as its name.
#[derive(Deserialize)]
struct IdText {
    id: String,
}

/// A run file, as far as what was driven.
#[derive(Deserialize)]
struct RunText {
    course: PackedText,
    truck: PackedText,
    site_rules: PackedText,
    seed: u32,
    who: String,
    started: String,
}

#[derive(Deserialize)]
struct PackedText {
    text: String,
}

fn read<T: DeserializeOwned>(file: &str, text: &str) -> Result<T, String> {
    serde_json::from_str(text).map_err(|e| format!("{file}: {e}"))
}

/// What the pages show of a course file.
pub(crate) fn course(file: &str, text: &str) -> Result<CourseLabel, String> {
    let CourseText { id, title, trains, trucks, steps, part_of } = read(file, text)?;
    let steps = steps.into_iter().map(|step| step.say).collect();
    Ok(CourseLabel { id, title, trains, trucks, steps, is_part: part_of.is_some() })
}

/// The `id` of a course or truck file.
pub(crate) fn id_of(file: &str, text: &str) -> Result<String, String> {
    read(file, text).map(|named: IdText| named.id)
}

/// The setup inside a run file that the yard has judged.
pub(crate) fn setup_of_run(file: &str, text: &str) -> Result<DriveSetup, String> {
    let run: RunText = read(file, text)?;
    let inner = |place: &str, packed: PackedText| {
        let bytes = unpack(file, place, &packed.text, TEXT_MOST).map_err(|e| e.to_string())?;
        String::from_utf8(bytes).map_err(|e| format!("{file}, at {place}: {e}"))
    };
    Ok(DriveSetup {
        course: inner("course.text", run.course)?,
        truck: inner("truck.text", run.truck)?,
        rules: inner("site_rules.text", run.site_rules)?,
        seed: run.seed,
        who: run.who,
        started: run.started,
    })
}

/// Refuses a run file that another simulation made, with the sentence that says so.
pub(crate) fn can_be_driven_again(file: &str, text: &str) -> Result<(), String> {
    let head = Header::parse(file, text.as_bytes()).map_err(|bad| bad.to_string())?;
    if head.can_be_driven_again() { Ok(()) } else { Err(not_again(Some(head.simulation))) }
}

#[cfg(test)]
mod tests {
    use coneyard_core::course::Course;
    use coneyard_core::course::shipped;
    use coneyard_core::truck::spec::shipped::SINGLE;

    use super::*;

    #[test]
    fn every_shipped_course_shows_what_it_is() {
        for (file, text) in shipped::ALL {
            let (label, whole) = (course(file, text), Course::parse(file, text.as_bytes()));
            let (label, whole) = (label.unwrap(), whole.unwrap());
            assert_eq!((&label.id, &label.title), (&whole.id, &whole.title));
            assert_eq!((&label.trains, &label.trucks), (&whole.trains, &whole.trucks));
            let sentences: Vec<Said> = whole.steps.into_iter().map(|s| s.say).collect();
            assert_eq!(label.steps, sentences);
            assert_eq!(label.is_part, whole.part_of.is_some());
        }
        assert_eq!(id_of("single.json", SINGLE).unwrap(), "single");
    }

    #[test]
    fn damage_gets_a_sentence_with_the_files_name() {
        for text in ["", "{}", "[1, 2]", "{\"id\": 3}"] {
            assert!(course("odd.json", text).unwrap_err().starts_with("odd.json"));
            assert!(setup_of_run("odd.json", text).unwrap_err().starts_with("odd.json"));
        }
    }
}

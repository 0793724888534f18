//! The few things that the pages read of a file themselves: names and sentences. Nothing is driven or
//! judged by what is read here; the yard, which drives and judges, checks every file in full and
//! refuses it with its sentence, and the reader reads whatever takes more than this.

use coneyard_core::course::{BrakeZone, LineKind, Travel};
use coneyard_core::outside::Said;
use coneyard_core::run::file::SIMULATION;
use serde::Deserialize;
use serde::de::IgnoredAny;

use crate::words::{k, number, say_with, text};

/// What the pages show of a course.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(crate) struct CourseLabel {
    /// Short name.
    pub(crate) id: String,
    /// What people call it.
    pub(crate) title: Said,
    /// What it trains.
    pub(crate) trains: Said,
    /// The trucks it may be driven with.
    pub(crate) trucks: Vec<String>,
    /// Its steps.
    pub(crate) steps: Vec<StepLabel>,
    /// What it is a part of; then it is no exercise of its own.
    part_of: Option<String>,
    #[serde(default)]
    lines: Vec<LineLabel>,
    #[serde(default)]
    blind_spots: Vec<IgnoredAny>,
    #[serde(default)]
    crossings: Vec<IgnoredAny>,
}

/// What the pages want to know of a painted line.
#[derive(Clone, Debug, PartialEq, Deserialize)]
struct LineLabel {
    kind: LineKind,
}

/// What the pages show of a step.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(crate) struct StepLabel {
    /// What there is to do.
    pub(crate) say: Said,
    /// Which end leads.
    pub(crate) travel: Travel,
    /// Of which kind it is.
    pub(crate) what: What,
}

/// Kinds of steps, with as much of each as the pages want to know.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum What {
    /// Through gates.
    Gates {},
    /// Stop at a mark.
    StopAtMark {},
    /// Stop with the arm.
    EmergencyStop {
        /// The end of the arm's swing.
        brake: BrakeZone,
    },
    /// Park.
    Park {
        /// And leave the truck.
        #[serde(default)]
        leave: bool,
    },
    /// Take up a pallet.
    PickUp {},
    /// Set it down.
    SetDown {},
    /// Stop at places, step off and on.
    Picks {},
    /// Look at a dock's checks.
    CheckDock {},
    /// Walk round the truck.
    WalkRound {},
}

impl CourseLabel {
    /// Reads what the pages show of a course file.
    pub(crate) fn read(file: &str, text: &str) -> Result<Self, String> {
        serde_json::from_str(text).map_err(|e| format!("{file}: {e}"))
    }

    /// There are places where one looks to both sides before one goes on.
    pub(crate) fn has_places_to_look(&self) -> bool {
        let asks = |line: &LineLabel| matches!(line.kind, LineKind::Stop | LineKind::Yield);
        self.lines.iter().any(asks) || !self.blind_spots.is_empty() || !self.crossings.is_empty()
    }

    /// It is a part of a pre-test and no exercise of its own.
    pub(crate) fn is_part(&self) -> bool {
        self.part_of.is_some()
    }
}

/// Version of the simulation that made a run file.
pub(crate) fn simulation_of(file: &str, run: &str) -> Result<u32, String> {
    #[derive(Deserialize)]
    struct Made {
        simulation: u32,
    }
    let made: Made = serde_json::from_str(run).map_err(|e| format!("{file}: {e}"))?;
    Ok(made.simulation)
}

/// The same of a run file that was made by this simulation; None is one that does not tell.
pub(crate) fn not_again(made: Option<u32>) -> String {
    let made = made.map_or("?".to_owned(), |made| made.to_string());
    let versions = vec![("made", text(made)), ("here", number(SIMULATION))];
    say_with(k("attempt-other-simulation"), versions)
}

/// Refuses a run that this simulation did not make, with the sentence that says so.
pub(crate) fn can_be_driven_again(simulation: u32) -> Result<(), String> {
    if simulation == SIMULATION { Ok(()) } else { Err(not_again(Some(simulation))) }
}

#[cfg(test)]
mod tests {
    use coneyard_core::course::Course;
    use coneyard_core::course::shipped;

    use super::*;

    #[test]
    fn every_shipped_course_shows_what_it_is() {
        for (file, text) in shipped::ALL {
            let label = CourseLabel::read(file, text).unwrap();
            let whole = Course::parse(file, text.as_bytes()).unwrap();
            assert_eq!((&label.id, &label.title), (&whole.id, &whole.title));
            assert_eq!((&label.trains, &label.trucks), (&whole.trains, &whole.trucks));
            assert_eq!(label.is_part(), whole.part_of.is_some());
            let sentences = |steps: Vec<StepLabel>| steps.into_iter().map(|s| s.say);
            assert!(sentences(label.steps).eq(whole.steps.into_iter().map(|s| s.say)));
        }
    }

    #[test]
    fn damage_gets_a_sentence_with_the_files_name() {
        for text in ["", "{}", "[1, 2]", "{\"id\": 3}"] {
            assert!(CourseLabel::read("odd.json", text).unwrap_err().starts_with("odd.json"));
            assert!(simulation_of("odd.json", text).unwrap_err().starts_with("odd.json"));
        }
    }

    #[test]
    fn a_run_tells_which_simulation_made_it() {
        assert_eq!(simulation_of("a.run.json", r#"{"format":1,"simulation":2,"x":[]}"#), Ok(2));
        assert!(can_be_driven_again(SIMULATION).is_ok());
    }
}

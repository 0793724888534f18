//! A pre-test that was begun: its record, and which part of it is due.

use serde::{Deserialize, Serialize};

use super::attempt::Attempt;
use super::form::{Form, first};
use super::results::plain;
use crate::pretest::{TRUCKS, count};
use crate::run::file::SIMULATION;

fn single() -> String {
    TRUCKS[0].to_owned()
}

/// A pre-test that was begun. What was driven of it are the attempts that have their place in it,
/// so that a part and the record of it cannot disagree.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Taken {
    /// Version of this form.
    #[serde(default = "first")]
    pub version: u32,
    /// Name of the record.
    pub id: String,
    /// Word of the class, in its one form.
    pub class_word: String,
    /// Number of the seat.
    pub seat: u32,
    /// Id of the truck that it is taken on; the single one where a record does not say.
    #[serde(default = "single")]
    pub truck: String,
    /// Who takes it; may be empty.
    pub who: String,
    /// When it began, RFC 3339.
    pub started: String,
    /// Text of the site-rules file for all parts.
    pub rules: String,
    /// How often it was paused.
    pub pauses: u32,
    /// Given up before the last part.
    pub given_up: bool,
    /// It came in as a file.
    pub imported: bool,
}

impl Form for Taken {
    const NEWEST: u32 = Self::FORM;

    fn version(&self) -> u32 {
        self.version
    }
}

impl Taken {
    /// Version of the form that is written.
    pub const FORM: u32 = 3;
}

/// Parts of this pre-test that are driven, in order, without a gap. Attempts come oldest first; a
/// part that is there twice counts as it was driven first.
pub fn driven(attempts: &[Attempt], sitting: &str) -> Vec<Attempt> {
    let of = |part: usize| {
        let is =
            |a: &&Attempt| a.place.as_ref().is_some_and(|p| p.sitting == sitting && p.part == part);
        attempts.iter().find(is).cloned()
    };
    (0..count()).map_while(of).collect()
}

/// Parts are left, and it was not given up.
pub fn is_open(sitting: &Taken, driven: usize) -> bool {
    !sitting.given_up && driven < count()
}

/// The simulation that the first of these parts was driven under which is not the one that is here:
/// then the rest of them cannot be driven any more.
pub fn other_simulation(driven: &[Attempt]) -> Option<u32> {
    driven.iter().filter_map(|a| a.simulation).find(|made| *made != SIMULATION)
}

/// Name of the file it is handed out as.
pub fn sitting_file_name(sitting: &Taken) -> String {
    let day: String = sitting.started.chars().take(10).collect();
    let who = if sitting.who.is_empty() { "nobody".to_owned() } else { plain(&sitting.who) };
    let (word, seat, truck) = (plain(&sitting.class_word), sitting.seat, plain(&sitting.truck));
    format!("pre-test-{truck}-{word}-{seat}-{who}-{}.sitting.json", plain(&day)).to_lowercase()
}

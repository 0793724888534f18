//! What a class keeps beside core's own records.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::clock::Millis;

/// Longest name of a class or a person, characters; a run file bears no longer one.
pub const LONGEST_NAME: usize = 100;

/// A class.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Class {
    /// Name of the record.
    pub id: String,
    /// As people call it.
    pub name: String,
    /// What trainees join with.
    pub code: String,
    /// The trainer's passphrase as it is kept.
    pub passphrase: String,
    /// What its pre-tests are drawn from, as core's `class_word` gives it.
    pub word: String,
    /// When it was opened.
    pub opened: Millis,
}

/// By which rules the drives of a class are judged.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct ClassRules {
    /// Text of the file; null where each drive goes by its own.
    pub rules: Option<String>,
    /// A trainer has set them; else they are the site's.
    pub set: bool,
}

/// A person of a class.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct Person {
    /// Name of the record; not what anybody types.
    pub id: String,
    /// As they want to be called.
    pub name: String,
    /// When they joined first, ms since 1970.
    pub joined: Millis,
}

/// Whether a name can be one's: on one line, not empty, not too long. Gives it without outer blanks and with
/// single inner ones.
///
/// # Errors
/// One sentence.
pub fn name(typed: &str) -> Result<String, String> {
    let name = typed.split_whitespace().collect::<Vec<_>>().join(" ");
    let plain = !name.chars().any(char::is_control);
    match name.chars().count() {
        1..=LONGEST_NAME if plain => Ok(name),
        _ => Err(format!("a name has 1 to {LONGEST_NAME} letters and stays on one line")),
    }
}

/// What somebody may do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Drives.
    Trainee,
    /// Sees the class, and teaches it.
    Trainer,
    /// Opens classes, besides.
    Owner,
}

impl Role {
    /// All, least first.
    pub const ALL: [Self; 3] = [Self::Trainee, Self::Trainer, Self::Owner];

    /// Its name in the store and in the description of the routes.
    pub fn name(self) -> &'static str {
        match self {
            Self::Trainee => "trainee",
            Self::Trainer => "trainer",
            Self::Owner => "owner",
        }
    }

    /// The role of this name.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.name() == name)
    }
}

/// Somebody who was let in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Session {
    /// The class.
    pub class: String,
    /// What they may do there.
    pub role: Role,
    /// Who it is; None for trainers and owners.
    pub person: Option<Person>,
}

/// How far a run has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    /// It is kept, and will be driven again.
    Waiting,
    /// It was driven again, and came out as it says.
    Judged,
    /// It was driven again, and did not: it is kept, and counts for nothing.
    Differs,
    /// It cannot be driven again here: it is no run file, or another simulation made it. It is kept.
    Unreadable,
}

impl State {
    const ALL: [Self; 4] = [Self::Waiting, Self::Judged, Self::Differs, Self::Unreadable];

    /// Its name in the store.
    pub fn name(self) -> &'static str {
        match self {
            Self::Waiting => "waiting",
            Self::Judged => "judged",
            Self::Differs => "differs",
            Self::Unreadable => "unreadable",
        }
    }

    /// The state of this name; one that is not known here cannot be read.
    pub fn named(name: &str) -> Self {
        Self::ALL.into_iter().find(|state| state.name() == name).unwrap_or(Self::Unreadable)
    }
}

/// A run that arrives.
#[derive(Clone, Debug)]
pub struct NewRun {
    /// Class.
    pub class: String,
    /// Who delivers it.
    pub person: String,
    /// BLAKE3 of its bytes, hexadecimal.
    pub id: String,
    /// The file.
    pub bytes: Vec<u8>,
    /// When it arrived.
    pub arrived: Millis,
    /// What is known of it before it is driven again.
    pub about: About,
}

/// What lists show of a run beside who drove it and when it came.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct About {
    /// Course id; empty where the file does not tell.
    pub course: String,
    /// Truck id.
    pub truck: String,
    /// When the drive began, as the file says.
    pub started: String,
    /// The simulation that can drive it again; None where none here can.
    pub simulation: Option<u32>,
    /// How far it has come.
    pub state: Option<State>,
    /// Why it cannot be read or is not what it says, in a sentence.
    pub reason: Option<String>,
    /// Points in all.
    pub total: Option<f64>,
    /// How the drive ended.
    pub ending: Option<String>,
    /// Findings that are faults.
    pub findings: u32,
    /// Those of them that are critical.
    pub critical: u32,
    /// The pre-test that it is a part of.
    pub sitting: Option<String>,
    /// Which part, from 0.
    pub part: Option<u32>,
    /// Core's record of the attempt, as text; None until it was driven again.
    pub record: Option<String>,
    /// The attempt in brief, as text, where there is a record.
    pub brief: Option<String>,
    /// How long it was driven again, ticks; not kept.
    pub ticks: u32,
}

/// What came of delivering a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Delivered {
    /// It was not there yet.
    pub new: bool,
    /// How far it has come.
    pub state: State,
}

/// A run as lists show it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct Listed {
    /// Its id: BLAKE3 of the file.
    pub run: String,
    /// Id of who drove it.
    pub person: String,
    /// Their name.
    pub name: String,
    /// Course id; empty where the file does not tell.
    pub course: String,
    /// Truck id.
    pub truck: String,
    /// When the drive began, RFC 3339, as its file says.
    pub started: String,
    /// When it arrived, RFC 3339.
    pub arrived: String,
    /// How far it has come.
    pub state: State,
    /// Why it is not judged, in a sentence.
    pub reason: Option<String>,
    /// Points in all.
    pub total: Option<f64>,
    /// How the drive ended.
    pub ending: Option<String>,
    /// Findings that are faults.
    pub findings: i64,
    /// Those of them that are critical.
    pub critical: i64,
    /// The attempt of a pre-test that it is a part of.
    pub sitting: Option<String>,
    /// Which part, from 0.
    pub part: Option<i64>,
}

/// A text that several may write: whoever writes names the edition that they have seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edited {
    /// Counts what was written, from 1; 0 is that there is none.
    pub edition: i64,
    /// The text.
    pub text: String,
}

/// An attempt as the store has it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AttemptRow {
    /// Run.
    pub run: String,
    /// Name of whoever drove it.
    pub who: String,
    /// Core's record, as text.
    pub record: String,
    /// What was said of it, core's remarks as text.
    pub remarks: Option<String>,
}

/// What has changed in a class.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Since {
    /// Up to this change of it: what is asked for next time.
    pub change: i64,
    /// All of its runs, in place of what was known.
    pub all: bool,
    /// In the order of their arrival.
    pub rows: Vec<BriefRow>,
}

/// What is kept in brief of a run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BriefRow {
    /// The run's id.
    pub run: String,
    /// The name of whoever drove it.
    pub who: String,
    /// Core's Brief as text; None where it was kept in another version,
    pub brief: Option<String>,
    /// then the record that it is made of. None as well until the run was driven again.
    pub record: Option<String>,
}

/// A pre-test that the host has handed out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Handed {
    /// Name of the attempt.
    pub id: String,
    /// Whose it is.
    pub person: String,
    /// Truck id.
    pub truck: String,
    /// What its parts are drawn from.
    pub word: String,
    /// The seat that they are drawn for; nobody else of the class has it.
    pub seat: u32,
    /// When it was handed out.
    pub made: Millis,
}

/// What somebody is driving now.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Note {
    /// Course id.
    pub course: String,
    /// Truck id.
    pub truck: String,
    /// Since the start of the drive, s.
    pub seconds: f64,
    /// Which step, from 0.
    pub step: u32,
    /// Findings so far that are faults.
    pub findings: u32,
}

/// The same with who it is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct Live {
    /// Id of who drives.
    pub person: String,
    /// Their name.
    pub name: String,
    /// When it was noted, RFC 3339.
    pub at: String,
    /// What they drive.
    #[serde(flatten)]
    pub note: Note,
}

/// A person as the trainer's list shows them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct Member {
    /// Id.
    pub person: String,
    /// Name.
    pub name: String,
    /// When they joined first, RFC 3339.
    pub joined: String,
    /// Runs that have arrived.
    pub runs: i64,
}

/// How much there is to judge.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Queue {
    /// Not judged yet, of the simulation that is here.
    pub waiting: i64,
    /// Judged.
    pub judged: i64,
    /// The most often that any was marked; more than 1 cannot be.
    pub most_marks: i64,
}

/// A run that is to be driven again.
#[derive(Clone, Debug)]
pub struct Job {
    /// Class.
    pub class: String,
    /// Run.
    pub run: String,
    /// Who drove it.
    pub person: String,
    /// The file.
    pub bytes: Vec<u8>,
    /// Pre-tests that were handed out to this person.
    pub handed: Vec<Handed>,
    /// Text of the rules by which the class's drives are judged; None where each goes by its own.
    pub rules: Option<String>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_brought_into_one_form_or_refused() {
        assert_eq!(name("  Rowan \t Ash "), Ok("Rowan Ash".to_owned()));
        assert_eq!(name(&"a".repeat(100)).map(|n| n.len()), Ok(100));
        for bad in ["", "  ", &"a".repeat(101), "a\u{0}b", "a\u{1b}[31m"] {
            assert!(name(bad).is_err(), "{bad:?}");
        }
    }

    #[test]
    fn roles_and_states_have_their_names_both_ways() {
        for role in Role::ALL {
            assert_eq!(Role::named(role.name()), Some(role));
        }
        for state in State::ALL {
            assert_eq!(State::named(state.name()), state);
        }
        assert_eq!(Role::named("king"), None);
    }
}

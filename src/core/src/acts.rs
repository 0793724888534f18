//! Acts: what a rider does once, in one tick, beside the controls that are held from tick to tick. They
//! are a drive's second track.

use serde::{Deserialize, Serialize};

use crate::controls::Controls;
use crate::state::chain::Chain;
use crate::time::Tick;

/// More acts than this are none of one drive: one in every half second of two hours.
pub const ACTS_MOST: usize = 2 * 2 * 3600;

/// Most letters of a note.
pub const NOTE_MOST: usize = 120;

/// The number that stands for the whole truck in a note.
pub const WHOLE_TRUCK: u8 = u8::MAX;

/// Something that is done once. Points, views, answers and reasons are numbers in the check list of the drive;
/// one that it does not have does nothing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Act {
    /// Says that something is wrong here, and does not go on.
    Report,
    /// Looks closer at a point of the truck.
    LookCloser {
        /// The point.
        point: u8,
        /// From which view.
        view: u8,
    },
    /// Tries a point of the truck.
    Try {
        /// The point.
        point: u8,
    },
    /// Answers a point.
    Answer {
        /// The point.
        point: u8,
        /// 0 is fine, then the severities of the list.
        answer: u8,
        /// The reason, by its number in the short list.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        reason: Option<u8>,
    },
    /// Notes something; it is judged by nobody.
    Note {
        /// The point, or [`WHOLE_TRUCK`].
        point: u8,
        /// At most [`NOTE_MOST`] letters on one line.
        text: String,
    },
    /// Writes down what the hour meter shows.
    ReadHours {
        /// Tenths of an hour.
        tenths: u32,
    },
    /// Writes down the shift.
    Shift {
        /// Its number.
        number: u8,
    },
    /// Touches the buttons that set the truck's own parameters.
    TouchSettings,
    /// Takes the truck.
    Take,
    /// Tags the truck out of service.
    TagOut,
}

/// An act with its tick.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Done {
    /// The tick in which it was done, from the start of the drive; the first one is 1.
    pub tick: Tick,
    /// What was done.
    pub act: Act,
}

/// All that a rider does in one tick: what is held, and what is done once.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Input {
    /// What is held.
    pub controls: Controls,
    /// What is done, in order.
    pub acts: Vec<Act>,
}

/// Says which act of a drive of so many ticks is out of order, and why.
///
/// # Errors
/// Its place in the list, and a reason.
pub fn check(acts: &[Done], ticks: Tick) -> Result<(), (usize, String)> {
    if acts.len() > ACTS_MOST {
        return Err((ACTS_MOST, format!("more than {ACTS_MOST} acts are none of one drive")));
    }
    let mut least = 1;
    for (i, done) in acts.iter().enumerate() {
        if !(least..=ticks).contains(&done.tick) {
            return Err((i, format!("tick {} lies outside {least} to {ticks}", done.tick)));
        }
        if let Act::Note { text, .. } = &done.act
            && !is_a_note(text)
        {
            return Err((i, format!("a note is one line of at most {NOTE_MOST} letters")));
        }
        least = done.tick;
    }
    Ok(())
}

/// One line, not too long.
fn is_a_note(text: &str) -> bool {
    text.chars().count() <= NOTE_MOST && !text.chars().any(char::is_control)
}

impl From<Controls> for Input {
    fn from(controls: Controls) -> Self {
        Self { controls, acts: Vec::new() }
    }
}

/// Marks the word of an act in a chain of digests: no controls have this bit.
const IS_ACT: u32 = 1 << 31;

impl Act {
    /// Puts the act into the chain of digests, behind the controls of its tick.
    pub fn digest(&self, chain: &mut Chain) {
        let mut put = |code: u32, numbers: &[u32]| {
            chain.u32(IS_ACT | code);
            numbers.iter().for_each(|n| chain.u32(*n));
        };
        match self {
            Self::Report => put(0, &[]),
            Self::LookCloser { point, view } => put(1, &[(*point).into(), (*view).into()]),
            Self::Try { point } => put(2, &[(*point).into()]),
            Self::Answer { point, answer, reason } => {
                let reason = reason.map_or(0, |r| u32::from(r) + 1);
                put(3, &[(*point).into(), (*answer).into(), reason]);
            }
            Self::Note { point, text } => {
                put(4, &[(*point).into()]);
                chain.text(text);
            }
            Self::ReadHours { tenths } => put(5, &[*tenths]),
            Self::Shift { number } => put(6, &[(*number).into()]),
            Self::TouchSettings => put(7, &[]),
            Self::Take => put(8, &[]),
            Self::TagOut => put(9, &[]),
        }
    }

    /// As it may stand in a run: a note that is too long is cut, and is one line.
    pub fn fitted(self) -> Self {
        match self {
            Self::Note { point, text } if !is_a_note(&text) => {
                let line = text.chars().map(|c| if c.is_control() { ' ' } else { c });
                Self::Note { point, text: line.take(NOTE_MOST).collect() }
            }
            other => other,
        }
    }
}

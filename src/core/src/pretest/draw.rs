//! What the parts of a sitting are: a pure function of the class's word and the seat.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use serde::{Deserialize, Serialize};

use crate::course::mirror::mirrored;
use crate::outside::BadInput;
use crate::pretest::courses::text;
use crate::run::DriveSetup;
use crate::truck::spec::shipped;

/// Version of the draw: raised whenever the same word and seat give other parts, or a course of a
/// part or its truck has changed.
pub const DRAW: u32 = 5;

/// Version of the dice: raised whenever sides and seeds are to fall otherwise.
const DICE: u32 = 3;

/// Longest word of a class, characters.
pub const LONGEST_WORD: usize = 40;

/// Ids of the trucks that it can be taken on. All parts are driven on the same.
pub const TRUCKS: [&str; 2] = ["single", "double"];

/// One part of the sitting, by what is driven with the single truck and with the double.
#[derive(Clone, Copy)]
struct Slot {
    single: &'static str,
    double: &'static str,
    /// Driven on both sides, one after the other; otherwise on one or the other.
    both_ways: bool,
}

/// There is room for either truck.
const fn once(course: &'static str) -> Slot {
    Slot { single: course, double: course, both_ways: false }
}

impl Slot {
    fn course(self, truck: &str) -> &'static str {
        if truck == TRUCKS[1] { self.double } else { self.single }
    }

    fn times(self) -> usize {
        if self.both_ways { 2 } else { 1 }
    }
}

/// In the order in which they are driven: the walk-round, then from easy to hard, and leaving the truck at the
/// end. Where
/// lanes or boxes are too narrow for the long truck it has a likeness with as much room to spare.
const SLOTS: [Slot; 9] = [
    once("pretest-walk-round"),
    Slot { double: "pretest-straight-double", ..once("straight") },
    Slot { double: "pretest-stops-double", ..once("pretest-stops") },
    Slot { double: "pretest-laps-double", both_ways: true, ..once("pretest-laps") },
    Slot { both_ways: true, ..once("pretest-eight") },
    once("tight-corner-load"),
    once("bays"),
    once("pretest-circuit"),
    Slot { double: "pretest-leaving-double", ..once("pretest-leaving") },
];

/// One drive of the sitting.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// Id of a shipped course.
    pub course: String,
    /// Driven on its mirror image.
    pub mirrored: bool,
    /// Of everything random in the drive.
    pub seed: u32,
    /// Id of a shipped truck.
    pub truck: String,
}

/// The word of a class as it is drawn from: small letters, and one dash for each run of blanks, so
/// that it does not matter how it is typed.
///
/// # Errors
/// One sentence when it is empty, too long, or has signs that nobody can type.
pub fn class_word(given: &str) -> Result<String, BadInput> {
    let word = given.split_whitespace().collect::<Vec<_>>().join("-").to_lowercase();
    if word.is_empty() || word.chars().count() > LONGEST_WORD || word.chars().any(char::is_control)
    {
        let reason = format!("use a word or a number of 1 to {LONGEST_WORD} letters");
        return Err(BadInput::new("the pre-test", "class_word", reason));
    }
    Ok(word)
}

/// The truck of this id, of those that a pre-test can be taken on.
///
/// # Errors
/// One sentence when it is none of them.
pub fn truck_of(given: &str) -> Result<&'static str, BadInput> {
    TRUCKS.into_iter().find(|truck| *truck == given).ok_or_else(|| {
        let reason = format!("a pre-test is taken on one of these trucks: {}", TRUCKS.join(", "));
        BadInput::new("the pre-test", "truck", reason)
    })
}

/// Number of parts in a sitting, whichever the truck.
pub fn count() -> usize {
    SLOTS.iter().map(|slot| slot.times()).sum()
}

/// Id of the course of a part, numbered from 0, as it is driven on either side: it is the same for
/// every class and seat. None when there is no such part.
pub fn course_of(part: usize, truck: &str) -> Option<&'static str> {
    let driven = |slot: &Slot| core::iter::repeat_n(slot.course(truck), slot.times());
    SLOTS.iter().flat_map(driven).nth(part)
}

/// The parts for a seat. The class's word decides the sides of the first seat; every next seat has
/// all of them the other way round, so that whoever looks at a neighbour's screen sees the mirror
/// image. The seeds are the seat's own. Sides and seeds do not hang on the truck.
///
/// A word that was not put in order by [`class_word`] is drawn from as it stands, and a truck that is
/// none of [`TRUCKS`] drives what the first of them does.
pub fn draw(class_word: &str, seat: u32, truck: &str) -> Vec<Part> {
    let mut sides = dice(class_word, None);
    let mut seeds = dice(class_word, Some(seat));
    let turned = seat % 2 == 1;
    let mut parts = Vec::with_capacity(count());
    for slot in SLOTS {
        let first = (sides.next_u32() & 1 == 1) != turned;
        for time in 0..slot.times() {
            parts.push(Part {
                course: slot.course(truck).to_owned(),
                mirrored: first != (time == 1),
                seed: seeds.next_u32(),
                truck: truck.to_owned(),
            });
        }
    }
    parts
}

fn dice(class_word: &str, seat: Option<u32>) -> ChaCha8Rng {
    let seat = seat.map_or("sides".to_owned(), |s| format!("seat {s}"));
    let text = format!("pre-test {DICE}\n{seat}\n{class_word}");
    ChaCha8Rng::from_seed(*blake3::hash(text.as_bytes()).as_bytes())
}

impl Part {
    /// Text of the course as it is driven.
    ///
    /// # Errors
    /// One sentence when the part is none that is drawn.
    pub fn course_text(&self) -> Result<String, BadInput> {
        let Some(text) = text(&self.course) else {
            let reason = "no part of a pre-test is driven on this course".to_owned();
            return Err(BadInput::new("the part", "course", reason));
        };
        if self.mirrored { mirrored(&self.course, text) } else { Ok(text.to_owned()) }
    }

    /// Text of the truck.
    ///
    /// # Errors
    /// One sentence when there is no such truck.
    pub fn truck_text(&self) -> Result<&'static str, BadInput> {
        let none = || BadInput::new("the part", "truck", "there is no such truck");
        shipped::text(&self.truck).ok_or_else(none)
    }

    /// What is needed to drive it. `started` is when the part began, RFC 3339.
    ///
    /// # Errors
    /// One sentence when the part is none that is drawn.
    pub fn setup(&self, who: &str, started: &str, rules: &str) -> Result<DriveSetup, BadInput> {
        let course = self.course_text()?;
        Ok(DriveSetup {
            checks: crate::course::shipped::checks_of(&course),
            course,
            truck: self.truck_text()?.to_owned(),
            rules: rules.to_owned(),
            seed: self.seed,
            who: who.to_owned(),
            started: started.to_owned(),
        })
    }
}

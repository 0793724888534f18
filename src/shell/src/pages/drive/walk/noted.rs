//! What was done in a walk-round so far, as the pages have to show it again: the yard keeps what is judged, and
//! the rest stands in the acts alone.

use std::collections::BTreeMap;

use coneyard_core::acts::Act;

/// All of it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Noted {
    /// Reasons by point.
    pub(super) reasons: BTreeMap<u8, u8>,
    /// Notes by point, and on the whole truck.
    pub(super) notes: BTreeMap<u8, String>,
    /// The shift.
    pub(super) shift: Option<u8>,
    /// Points that were looked at closer, each with the number of the view.
    pub(super) looked: Vec<(u8, u8)>,
    /// Points that were tried.
    pub(super) tried: Vec<u8>,
    /// How often the box was touched.
    pub(super) touched: u32,
}

impl Noted {
    /// What was done in a drive that goes on.
    pub(super) fn of<'a>(acts: impl IntoIterator<Item = &'a Act>) -> Self {
        let mut noted = Self::default();
        acts.into_iter().for_each(|act| noted.hear(act));
        noted
    }

    /// One more act.
    pub(super) fn hear(&mut self, act: &Act) {
        match act {
            Act::LookCloser { point, view } => self.looked.push((*point, *view)),
            Act::Try { point } => self.tried.push(*point),
            Act::Answer { point, reason, .. } => {
                match reason {
                    Some(reason) => self.reasons.insert(*point, *reason),
                    None => self.reasons.remove(point),
                };
            }
            Act::Note { point, text } => {
                self.notes.insert(*point, text.clone());
            }
            Act::Shift { number } => self.shift = Some(*number),
            Act::TouchSettings => self.touched += 1,
            Act::Report | Act::ReadHours { .. } | Act::Take | Act::TagOut => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_walk_round_that_goes_on_shows_what_was_written_before() {
        let answer = |reason| Act::Answer { point: 4, answer: 2, reason };
        let note = |text: &str| Act::Note { point: 4, text: text.into() };
        let acts = [
            Act::LookCloser { point: 4, view: 1 },
            answer(Some(3)),
            note("at the heel"),
            note("left heel"),
            Act::Shift { number: 2 },
        ];
        let noted = Noted::of(&acts);
        assert_eq!(noted.reasons[&4], 3);
        assert_eq!(noted.notes[&4], "left heel");
        assert_eq!((noted.shift, noted.looked), (Some(2), vec![(4, 1)]));
        let fine = Act::Answer { point: 4, answer: 0, reason: None };
        assert!(Noted::of(acts.iter().chain([&fine])).reasons.is_empty());
    }
}

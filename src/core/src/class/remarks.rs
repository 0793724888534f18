//! What is said of a drive beside its run file: its rider's own word and notes on moments. They are records of a
//! browser's attempt; this is their form on the way to a class's host and back.

use serde::{Deserialize, Serialize};

use super::form::{Form, first};
use super::note::{NOTE_MOST, NOTES_MOST, Note};
use super::own::Own;
use super::results::same_person;

/// Longest name of who wrote a note, characters.
const NAME_MOST: usize = 100;

/// Both.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Remarks {
    /// Version of this form.
    #[serde(default = "first")]
    pub version: u32,
    /// What the rider said before the debrief; None where nobody was asked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub own: Option<Own>,
    /// Notes, in the order of their moments.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<Note>,
}

impl Default for Remarks {
    fn default() -> Self {
        Self { version: Self::FORM, own: None, notes: Vec::new() }
    }
}

impl Form for Remarks {
    const NEWEST: u32 = Self::FORM;

    fn version(&self) -> u32 {
        self.version
    }
}

impl Remarks {
    /// Version of the form that is written.
    pub const FORM: u32 = 1;

    /// Whether nothing was said.
    pub fn is_empty(&self) -> bool {
        self.own.is_none() && self.notes.is_empty()
    }

    /// Whether it keeps to what a page writes.
    ///
    /// # Errors
    /// One sentence.
    pub fn is_within_bounds(&self) -> Result<(), String> {
        if self.notes.len() > NOTES_MOST {
            return Err(format!("a drive has at most {NOTES_MOST} notes"));
        }
        let long = |n: &Note| n.text.trim().is_empty() || n.text.chars().count() > NOTE_MOST;
        if self.notes.iter().any(long) {
            return Err(format!("a note has 1 to {NOTE_MOST} letters"));
        }
        if self.notes.iter().any(|n| n.by.chars().count() > NAME_MOST) {
            return Err(format!("who wrote a note has at most {NAME_MOST} letters"));
        }
        Ok(())
    }

    /// What is kept when the rider, who is called so, sends these in place of what is there: of the notes theirs alone,
    /// under their name, since nobody unsays or writes for another; and their own word only until the debrief has been
    /// opened.
    pub fn by_the_rider(self, rider: &str, there: Self) -> Self {
        let others = there.notes.into_iter().filter(|n| !same_person(&n.by, rider));
        let theirs =
            self.notes.into_iter().filter(|n| n.by.is_empty() || same_person(&n.by, rider));
        let theirs = theirs.map(|n| Note { by: rider.to_owned(), ..n });
        let own = match there.own {
            Some(own) if own.closed => Some(own),
            own => self.own.or(own),
        };
        Self { version: Self::FORM, own, notes: in_order(others.chain(theirs)) }
    }

    /// What is kept when a trainer sends these: the rider's own word stays what it was.
    pub fn by_a_trainer(self, there: Self) -> Self {
        Self { version: Self::FORM, own: there.own, notes: in_order(self.notes.into_iter()) }
    }

    /// What is said in all: what is there, without what was unsaid here and with what was said here since both were last
    /// the same, as `base` has it.
    pub fn merged(base: &Self, here: &Self, there: &Self) -> Self {
        let has = |all: &Self, note: &Note| all.notes.iter().any(|n| same(n, note));
        let stays = |n: &&Note| !has(base, n) || has(here, n);
        let new = |n: &&Note| !has(base, n) && !has(there, n);
        let notes = there.notes.iter().filter(stays).chain(here.notes.iter().filter(new)).cloned();
        let own = match (&here.own, &there.own) {
            (Some(here), Some(there)) if there.closed && !here.closed => Some(there),
            (here, there) => here.as_ref().or(there.as_ref()),
        };
        Self { version: Self::FORM, own: own.cloned(), notes: in_order(notes) }
    }

    /// What both have: the next base.
    pub fn in_common(here: &Self, there: &Self) -> Self {
        let there_too = |n: &&Note| there.notes.iter().any(|t| same(t, n));
        let notes = here.notes.iter().filter(there_too).cloned().collect();
        Self { version: Self::FORM, own: here.own.clone(), notes }
    }
}

/// The same note, whatever it is signed with: a host signs it with the name that its class knows.
fn same(one: &Note, other: &Note) -> bool {
    (one.at, one.answers, &one.text, &one.written)
        == (other.at, other.answers, &other.text, &other.written)
}

/// Each note once, in the order of the moments; no more than fit.
fn in_order(notes: impl Iterator<Item = Note>) -> Vec<Note> {
    let mut all: Vec<Note> = Vec::new();
    for note in notes {
        if all.len() < NOTES_MOST && !all.contains(&note) {
            all.push(note);
        }
    }
    all.sort_by_key(|n| (n.at, n.answers));
    all
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;
    use crate::class::note::Answers;
    use crate::class::own::Asked;
    use crate::class::{read_record, write_record};

    fn note(at: u32, text: &str, by: &str) -> Note {
        serde_json::from_value(serde_json::json!({
            "at": at, "answers": Answers::Said, "text": text, "by": by, "written": "2026-03-02T08:00:00Z"
        }))
        .unwrap()
    }

    fn notes(all: &[Note]) -> Remarks {
        Remarks { notes: all.to_vec(), ..Remarks::default() }
    }

    fn own(fine: bool, closed: bool) -> Option<Own> {
        Some(Own { fine: BTreeMap::from([(Asked::People, fine)]), closed })
    }

    #[test]
    fn a_rider_neither_unsays_nor_writes_for_another() {
        let there = notes(&[note(5, "Look left.", "Elm"), note(9, "I slid.", "rowan ")]);
        let sent = notes(&[note(7, "Too fast.", ""), note(3, "Well done!", "Elm")]);
        let kept = sent.by_the_rider("Rowan", there);
        let told: Vec<_> = kept.notes.iter().map(|n| (n.text.as_str(), n.by.as_str())).collect();
        assert_eq!(told, [("Look left.", "Elm"), ("Too fast.", "Rowan")]);
    }

    #[test]
    fn ones_own_word_stands_once_the_debrief_was_open_and_no_trainer_changes_it() {
        let with = |own| Remarks { own, ..Remarks::default() };
        let sent = |own_: Option<Own>, there| with(own_).by_the_rider("Rowan", with(there)).own;
        assert_eq!(sent(own(true, true), None), own(true, true));
        assert_eq!(sent(own(true, true), own(false, false)), own(true, true));
        assert_eq!(sent(own(true, true), own(false, true)), own(false, true));
        assert_eq!(sent(None, own(false, false)), own(false, false), "nothing said unsays nothing");
        assert_eq!(with(own(true, true)).by_a_trainer(with(None)).own, None);
        assert_eq!(with(None).by_a_trainer(with(own(false, true))).own, own(false, true));
    }

    #[test]
    fn who_writes_at_the_same_time_loses_nothing_and_what_was_unsaid_stays_so() {
        let all = |names: &str| -> Remarks {
            let at = |c: char| note(c as u32, &c.to_string(), "Elm");
            notes(&names.chars().map(at).collect::<Vec<_>>())
        };
        let told = |r: &Remarks| r.notes.iter().map(|n| n.text.as_str()).collect::<String>();
        // Base, here, there: what comes of it, and what both have then.
        for (base, here, there, comes, common) in [
            ("", "", "", "", ""),
            ("", "a", "", "a", ""),
            ("", "", "b", "b", ""),
            ("", "a", "b", "ab", ""),
            ("a", "a", "a", "a", "a"),
            ("ab", "b", "ab", "b", "b"),
            ("ab", "ab", "b", "b", "b"),
            ("ab", "bc", "abd", "bcd", "b"),
            ("", "a", "a", "a", "a"),
        ] {
            let (base, here, there) = (all(base), all(here), all(there));
            assert_eq!(told(&Remarks::merged(&base, &here, &there)), comes);
            assert_eq!(told(&Remarks::in_common(&here, &there)), common);
        }
        // The host signs a note that was not: it is the same one.
        let (here, there) = (notes(&[note(1, "x", "")]), notes(&[note(1, "x", "Rowan")]));
        assert_eq!(Remarks::merged(&Remarks::default(), &here, &there), there);
        let (open, shut) = (own(true, false), own(false, true));
        let with = |own| Remarks { own, ..Remarks::default() };
        let merged = |here, there| Remarks::merged(&with(None), &with(here), &with(there)).own;
        assert_eq!(merged(open.clone(), shut.clone()), shut);
        assert_eq!(merged(shut.clone(), open), shut);
        assert_eq!(merged(None, shut.clone()), shut);
    }

    #[test]
    fn they_keep_within_bounds_and_come_back() {
        let most: Vec<Note> = (0..NOTES_MOST as u32).map(|at| note(at, "x", "Elm")).collect();
        assert_eq!(notes(&most).is_within_bounds(), Ok(()));
        let more = notes(&[most.clone(), vec![note(99, "x", "Elm")]].concat());
        assert!(more.is_within_bounds().unwrap_err().contains("60"));
        assert_eq!(most.len(), more.by_a_trainer(Remarks::default()).notes.len());
        let long = |n: usize| notes(&[note(1, &"é".repeat(n), "Elm")]);
        assert_eq!(long(NOTE_MOST).is_within_bounds(), Ok(()));
        assert!(
            long(NOTE_MOST + 1).is_within_bounds().is_err() && long(0).is_within_bounds().is_err()
        );
        assert!(notes(&[note(1, "x", &"n".repeat(101))]).is_within_bounds().is_err());
        let all = Remarks { own: own(true, true), ..notes(&most) };
        assert_eq!(read_record::<Remarks>(&write_record(&all).unwrap()), Ok(all));
        assert!(Remarks::default().is_empty() && !notes(&most).is_empty());
    }
}

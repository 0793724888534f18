//! What is said of a moment of a drive: pinned to its tick by whoever looked at it. The debrief's three questions
//! come first (Tannenbaum and Cerasoli 2013, from memory: debriefs raise performance by about a quarter).

use serde::{Deserialize, Serialize};

use super::attempt::Attempt;
use super::mark::{self, Mark};
use crate::finding::{Finding, Severity};
use crate::time::{TICK_RATE, Tick};

/// Most notes on a drive.
pub const NOTES_MOST: usize = 60;
/// Most characters of one.
pub const NOTE_MOST: usize = 400;
/// What was drawn beside a note is in the yard from so long before its moment, ticks: whoever comes to it sees it come.
const DRAWN_BEFORE: Tick = 2 * TICK_RATE;
/// Until so long after it, ticks.
const DRAWN_AFTER: Tick = 4 * TICK_RATE;

/// What a note answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Answers {
    /// What was meant.
    Meant,
    /// What happened, and why.
    Happened,
    /// What to do next.
    Next,
    /// Anything else.
    Said,
}

/// All of them, in the order of a debrief.
pub const ANSWERS: [Answers; 4] = [Answers::Meant, Answers::Happened, Answers::Next, Answers::Said];

/// A note.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Note {
    /// The moment that it is about.
    pub at: Tick,
    /// What it answers.
    pub answers: Answers,
    /// What is said; may be empty where something is drawn.
    pub text: String,
    /// By whom; may be empty.
    pub by: String,
    /// When it was written, RFC 3339.
    pub written: String,
    /// What is drawn into the yard beside it.
    #[serde(default, deserialize_with = "mark::read", skip_serializing_if = "Option::is_none")]
    pub mark: Option<Mark>,
}

impl Note {
    /// Whether what is drawn beside it is seen at this tick.
    pub fn is_drawn_at(&self, now: Tick) -> bool {
        let (from, to) =
            (self.at.saturating_sub(DRAWN_BEFORE), self.at.saturating_add(DRAWN_AFTER));
        (from..=to).contains(&now)
    }
}

/// Pins a note, in the order of its moments; one with neither words nor a mark, or one too many, is not taken. True
/// when it was.
pub fn pin(notes: &mut Vec<Note>, note: Note) -> bool {
    let text: String =
        note.text.trim().chars().filter(|c| !c.is_control()).take(NOTE_MOST).collect();
    if text.is_empty() && note.mark.is_none() || notes.len() >= NOTES_MOST {
        return false;
    }
    let place = notes.partition_point(|n| (n.at, n.answers) <= (note.at, note.answers));
    notes.insert(place, Note { text, ..note });
    true
}

/// A moment at which something was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Found<'a> {
    /// In which drive.
    pub attempt: &'a Attempt,
    /// Its number on the drive's plan, from 1.
    pub number: usize,
    /// What.
    pub finding: &'a Finding,
}

/// Every moment of these drives at which this was found, the latest drive first. Drives that another simulation
/// made cannot be looked at any more.
pub fn moments<'a>(attempts: &'a [Attempt], code: &'a str) -> impl Iterator<Item = Found<'a>> {
    attempts.iter().rev().filter(|a| a.can_be_driven_again()).flat_map(move |attempt| {
        let all = attempt.verdict.debrief.findings.iter().enumerate();
        all.filter(move |(_, f)| f.code == code).map(move |(n, finding)| Found {
            attempt,
            number: n + 1,
            finding,
        })
    })
}

/// What was found at fault in these drives and can be looked at, each with how often, the most frequent first.
pub fn codes(attempts: &[Attempt]) -> Vec<(String, usize)> {
    let mut counts = std::collections::BTreeMap::<&str, usize>::new();
    for attempt in attempts.iter().filter(|a| a.can_be_driven_again()) {
        let faults = attempt.verdict.debrief.findings.iter();
        for fault in faults.filter(|f| f.severity != Severity::Good) {
            *counts.entry(&fault.code).or_default() += 1;
        }
    }
    let mut all: Vec<(String, usize)> =
        counts.into_iter().map(|(c, n)| (c.to_owned(), n)).collect();
    all.sort_by_key(|(_, n)| std::cmp::Reverse(*n));
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::mark::Kind;
    use crate::class::{contract, read_record, write_record};
    use crate::finding::Unit;
    use crate::math::vec2;

    fn note(at: Tick, answers: Answers, text: &str) -> Note {
        let (text, by, written) = (text.to_owned(), String::new(), String::new());
        Note { at, answers, text, by, written, mark: None }
    }

    #[test]
    fn notes_stand_in_the_order_of_their_moments_and_have_an_end() {
        let mut notes = Vec::new();
        assert!(pin(&mut notes, note(640, Answers::Next, "  Look left first.\n ")));
        assert!(pin(&mut notes, note(64, Answers::Said, "Good start.")));
        assert!(pin(&mut notes, note(640, Answers::Meant, "I wanted to stop.")));
        assert!(!pin(&mut notes, note(1, Answers::Said, " \n\t ")), "without words");
        let texts: Vec<&str> = notes.iter().map(|n| n.text.as_str()).collect();
        assert_eq!(texts, ["Good start.", "I wanted to stop.", "Look left first."]);
        assert!(pin(&mut notes, note(0, Answers::Said, &"x".repeat(2_000))));
        assert_eq!(notes[0].text.chars().count(), NOTE_MOST);
        while pin(&mut notes, note(1, Answers::Said, "more")) {}
        assert_eq!(notes.len(), NOTES_MOST);
    }

    #[test]
    fn an_attempt_keeps_its_notes_and_one_from_before_has_none() {
        let without = write_record(&contract::attempt("a")).unwrap();
        assert!(!without.contains("notes"), "{without}");
        let mut attempt = read_record::<Attempt>(&without).unwrap();
        assert!(attempt.notes.is_empty());
        pin(&mut attempt.notes, note(64, Answers::Happened, "The arm came late."));
        let text = write_record(&attempt).unwrap();
        assert_eq!(read_record::<Attempt>(&text), Ok(attempt));
    }

    #[test]
    fn a_mark_is_kept_and_one_that_could_not_have_been_drawn_is_left_out() {
        let mark = Mark::drawn(Kind::Ring, vec2(1.0, 2.0), vec2(3.0, 2.0));
        let mut attempt = contract::attempt("a");
        let drawn = Note { mark: Some(mark), ..note(64, Answers::Said, "") };
        assert!(pin(&mut attempt.notes, drawn.clone()), "a mark says enough");
        assert_eq!(attempt.notes, [drawn]);
        let text = write_record(&attempt).unwrap();
        let ring = r#""mark":{"ring":{"at":[1,2],"radius":2}}"#;
        assert!(text.contains(ring), "{text}");
        assert_eq!(read_record::<Attempt>(&text), Ok(attempt));
        let mark_of = |mark: &str| {
            let read = read_record::<Attempt>(&text.replace(ring, mark));
            read.map(|a| a.notes[0].mark)
        };
        for (radius, sound) in [("15.0", true), ("15.1", false), ("0.3", true), ("0.1", false)] {
            let of = ring.replace("2}}", &format!("{radius}}}}}"));
            assert_eq!(mark_of(&of).unwrap().is_some(), sound, "{of}");
        }
        assert_eq!(mark_of(r#""mark":null"#), Ok(None));
        assert_eq!(mark_of(r#""mark":{"arrow":{"from":[0,0],"to":[0,0.4]}}"#), Ok(None));
        assert!(mark_of(r#""mark":{"cloud":{}}"#).is_err(), "no mark at all");
    }

    #[test]
    fn a_mark_is_seen_around_its_moment_and_no_longer() {
        let of = |at| note(at, Answers::Said, "x");
        let late = 640 + 4 * TICK_RATE;
        for (now, seen) in [(511, false), (512, true), (640, true), (late, true), (late + 1, false)]
        {
            assert_eq!(of(640).is_drawn_at(now), seen, "{now}");
        }
        assert!(of(0).is_drawn_at(0) && of(Tick::MAX).is_drawn_at(Tick::MAX));
    }

    #[test]
    fn every_moment_of_a_fault_is_found_and_none_of_another_simulation() {
        let found = |code: &str, severity, from| Finding {
            code: code.to_owned(),
            severity,
            from,
            to: from,
            measured: 1.0,
            limit: 0.0,
            unit: Unit::Count,
            at: vec2(0.0, 0.0),
            before: None,
            cause: None,
            point: None,
        };
        let drive = |id: &str, simulation: Option<u32>| {
            let mut drive = contract::attempt(id);
            drive.simulation = simulation.or(drive.simulation);
            drive.verdict.debrief.findings = vec![
                found("clean-lap", Severity::Good, 1),
                found("contact-cone", Severity::Minor, 64),
                found("contact-cone", Severity::Minor, 640),
                found("over-speed", Severity::Minor, 700),
            ];
            drive
        };
        let all = [drive("a", None), drive("b", None), drive("old", Some(1))];
        let cones: Vec<_> = moments(&all, "contact-cone")
            .map(|f| (f.attempt.id.as_str(), f.number, f.finding.from))
            .collect();
        assert_eq!(cones, [("b", 2, 64), ("b", 3, 640), ("a", 2, 64), ("a", 3, 640)]);
        let named = [("contact-cone".to_owned(), 4), ("over-speed".to_owned(), 2)];
        assert_eq!(codes(&all), named, "the most frequent first, and no good deed");
    }
}

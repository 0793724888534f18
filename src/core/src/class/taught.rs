//! A lesson that was given: what of it was covered, when, with whom present, and so what was left out.

use serde::{Deserialize, Serialize};

use super::form::{Form, first};
use super::results::{plain, same_person};
use crate::lesson::Lesson;
use crate::outside::Said;

/// Most people that can be present: a hall full.
const PRESENT_MOST: usize = 200;
/// Most characters of a name.
const NAME_MOST: usize = 80;

/// A lesson that was begun.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Taught {
    /// Version of this form.
    #[serde(default = "first")]
    pub version: u32,
    /// Name of the record.
    pub id: String,
    /// Name of the lesson's file.
    pub lesson: String,
    /// What the lesson is called.
    pub name: Said,
    /// When it began, RFC 3339.
    pub started: String,
    /// Who gave it; may be empty.
    pub trainer: String,
    /// Who was present.
    pub present: Vec<String>,
    /// All topics of the lesson as it was that day, in their order.
    pub topics: Vec<TaughtTopic>,
    /// What else is to be said of it; may be empty.
    pub note: String,
}

/// A topic of a lesson that was begun.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TaughtTopic {
    /// Its id in the lesson.
    pub id: String,
    /// What it was called.
    pub title: Said,
    /// When it was covered, RFC 3339; None when it was left out.
    pub covered: Option<String>,
}

impl Form for Taught {
    const NEWEST: u32 = Self::FORM;

    fn version(&self) -> u32 {
        self.version
    }
}

impl Taught {
    /// Version of the form that is written.
    pub const FORM: u32 = 1;

    /// Begins to give a lesson.
    pub fn begin(
        id: String,
        file: &str,
        lesson: &Lesson,
        started: String,
        trainer: String,
    ) -> Self {
        let topic = |t: &crate::lesson::Topic| TaughtTopic {
            id: t.id.clone(),
            title: t.title.clone(),
            covered: None,
        };
        Self {
            version: Self::FORM,
            id,
            lesson: file.to_owned(),
            name: lesson.name.clone(),
            started,
            trainer,
            present: Vec::new(),
            topics: lesson.topics.iter().map(topic).collect(),
            note: String::new(),
        }
    }

    /// This topic was covered.
    pub fn is_covered(&self, topic: &str) -> bool {
        self.topics.iter().any(|t| t.id == topic && t.covered.is_some())
    }

    /// Marks a topic as covered at this time, or takes the mark off. One that is marked keeps its time.
    pub fn mark(&mut self, topic: &str, covered: bool, now: &str) {
        for of_it in self.topics.iter_mut().filter(|t| t.id == topic) {
            of_it.covered = match (covered, of_it.covered.take()) {
                (true, None) => Some(now.to_owned()),
                (true, kept) => kept,
                (false, _) => None,
            };
        }
    }

    /// How many topics were covered.
    pub fn covered(&self) -> usize {
        self.topics.iter().filter(|t| t.covered.is_some()).count()
    }

    /// What was left out, in order.
    pub fn left_out(&self) -> impl Iterator<Item = &TaughtTopic> {
        self.topics.iter().filter(|t| t.covered.is_none())
    }

    /// Who was present, from a text with one name a line. Nobody is there twice.
    pub fn set_present(&mut self, lines: &str) {
        self.present.clear();
        for line in lines.lines() {
            let name: String = line.split_whitespace().collect::<Vec<_>>().join(" ");
            let name: String = name.chars().filter(|c| !c.is_control()).take(NAME_MOST).collect();
            let known = self.present.iter().any(|p| same_person(p, &name));
            if !name.is_empty() && !known && self.present.len() < PRESENT_MOST {
                self.present.push(name);
            }
        }
    }

    /// Name of the file it is handed out as.
    pub fn file_name(&self) -> String {
        let day: String = self.started.chars().take(10).collect();
        format!("lesson-{}-{}.taught.json", plain(&self.lesson), plain(&day)).to_lowercase()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::{read_record, write_record};

    fn begun() -> Taught {
        let lesson = crate::lesson::shipped();
        let started = "2026-03-02T09:00:00Z".to_owned();
        Taught::begin("a".to_owned(), "pallet-trucks", &lesson, started, "Elm".to_owned())
    }

    #[test]
    fn everything_is_left_out_until_it_is_marked_and_a_mark_keeps_its_time() {
        let mut taught = begun();
        assert_eq!((taught.covered(), taught.left_out().count()), (0, taught.topics.len()));
        taught.mark("horn", true, "10:00");
        taught.mark("horn", true, "11:00");
        taught.mark("no such topic", true, "11:00");
        assert!(taught.is_covered("horn") && !taught.is_covered("signs"));
        let horn = taught.topics.iter().find(|t| t.id == "horn").unwrap();
        assert_eq!((horn.covered.as_deref(), taught.covered()), (Some("10:00"), 1));
        assert!(taught.left_out().all(|t| t.id != "horn"));
        taught.mark("horn", false, "12:00");
        assert_eq!(taught.covered(), 0);
    }

    #[test]
    fn nobody_is_present_twice_and_no_name_is_without_end() {
        let mut taught = begun();
        taught
            .set_present(&format!("Alder\n\n  Birch  Two \nalder\r\n{}\n\u{7}\n", "x".repeat(500)));
        let lengths: Vec<usize> = taught.present.iter().map(|n| n.chars().count()).collect();
        assert_eq!(&taught.present[..2], ["Alder", "Birch Two"]);
        assert_eq!(lengths, [5, 9, NAME_MOST]);
        let many: String = (0..500).map(|n| format!("Oak {n}\n")).collect();
        taught.set_present(&many);
        assert_eq!(taught.present.len(), PRESENT_MOST);
    }

    #[test]
    fn a_record_comes_back_as_it_was_and_a_newer_form_is_refused() {
        let mut taught = begun();
        taught.mark("horn", true, "10:00");
        let text = write_record(&taught).unwrap();
        assert_eq!(read_record::<Taught>(&text), Ok(taught.clone()));
        taught.version = Taught::FORM + 1;
        assert!(read_record::<Taught>(&write_record(&taught).unwrap()).is_err());
        assert_eq!(taught.file_name(), "lesson-pallet-trucks-2026-03-02.taught.json");
    }
}

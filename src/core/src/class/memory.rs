//! A keeper that forgets everything with the program: for tests, and wherever nothing can be kept.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::attempt::Attempt;
use super::drive::{Drive, Piece};
use super::form::{read_record, write_record};
use super::keeper::{Keeper, Kept, Listed};
use super::record::Record;
use super::sitting::Taken;
use super::taught::Taught;

/// Records as texts by their names, as any keeper has them.
#[derive(Debug, Default)]
pub struct Memory(RefCell<Shelves>);

#[derive(Debug, Default)]
struct Shelves {
    attempts: BTreeMap<String, String>,
    runs: BTreeMap<String, String>,
    drives: BTreeMap<String, String>,
    pieces: BTreeMap<(String, u32), String>,
    sittings: BTreeMap<String, String>,
    lessons: BTreeMap<String, String>,
    trainings: BTreeMap<String, String>,
    site: BTreeMap<String, String>,
}

/// Where a text of any kind can be put, whether it can be read or not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shelf {
    /// Attempts.
    Attempts,
    /// Drives.
    Drives,
    /// The first piece of a drive.
    Pieces,
    /// Pre-tests.
    Sittings,
    /// Lessons.
    Lessons,
    /// Training records.
    Trainings,
}

impl Memory {
    /// Puts a text where a record belongs: as an older or a newer program, or damage, left it.
    pub fn put(&self, shelf: Shelf, id: &str, text: &str) {
        let mut all = self.0.borrow_mut();
        let (id, text) = (id.to_owned(), text.to_owned());
        match shelf {
            Shelf::Attempts => all.attempts.insert(id, text),
            Shelf::Drives => all.drives.insert(id, text),
            Shelf::Pieces => all.pieces.insert((id, 0), text),
            Shelf::Sittings => all.sittings.insert(id, text),
            Shelf::Lessons => all.lessons.insert(id, text),
            Shelf::Trainings => all.trainings.insert(id, text),
        };
    }

    /// How many attempts, runs, drives, pieces, pre-tests, lessons, training records and things set there are.
    pub fn counts(&self) -> [usize; 8] {
        let all = self.0.borrow();
        let (attempts, runs, drives) = (all.attempts.len(), all.runs.len(), all.drives.len());
        let (sittings, lessons) = (all.sittings.len(), all.lessons.len());
        let (trainings, site) = (all.trainings.len(), all.site.len());
        [attempts, runs, drives, all.pieces.len(), sittings, lessons, trainings, site]
    }
}

impl Shelves {
    fn drop_drive(&mut self, id: &str) {
        self.drives.remove(id);
        self.pieces.retain(|(drive, _), _| drive != id);
    }

    fn forget(&mut self, id: &str) {
        self.attempts.remove(id);
        self.runs.remove(id);
    }
}

impl Keeper for Memory {
    async fn attempts(&self) -> Result<Listed<Attempt>, String> {
        Ok(Listed::of(self.0.borrow().attempts.values().map(|text| read_record(text))))
    }

    async fn run(&self, id: &str) -> Result<Option<String>, String> {
        Ok(self.0.borrow().runs.get(id).cloned())
    }

    async fn keep(&self, attempt: &Attempt, run: &str) -> Result<(), String> {
        let text = write_record(attempt)?;
        let mut all = self.0.borrow_mut();
        all.attempts.insert(attempt.id.clone(), text);
        all.runs.insert(attempt.id.clone(), run.to_owned());
        all.drop_drive(&attempt.id);
        Ok(())
    }

    async fn amend(&self, attempt: &Attempt) -> Result<(), String> {
        let text = write_record(attempt)?;
        self.0.borrow_mut().attempts.insert(attempt.id.clone(), text);
        Ok(())
    }

    async fn forget(&self, id: &str) -> Result<(), String> {
        self.0.borrow_mut().forget(id);
        Ok(())
    }

    async fn drives(&self) -> Result<Listed<Drive>, String> {
        Ok(Listed::of(self.0.borrow().drives.values().map(|text| read_record(text))))
    }

    async fn drive(&self, id: &str) -> Result<Option<Kept>, String> {
        let all = self.0.borrow();
        let of_it = all.pieces.iter().filter(|((drive, _), _)| drive == id);
        let pieces = of_it.map(|((_, number), text)| (*number, read_record(text).ok())).collect();
        Ok(all.drives.get(id).map(|text| Kept { drive: read_record(text).ok(), pieces }))
    }

    async fn begin(&self, drive: &Drive) -> Result<(), String> {
        let text = write_record(drive)?;
        self.0.borrow_mut().drives.insert(drive.id.clone(), text);
        Ok(())
    }

    async fn add(&self, drive: &str, number: u32, piece: &Piece) -> Result<(), String> {
        let text = write_record(piece)?;
        let mut all = self.0.borrow_mut();
        let name = (drive.to_owned(), number);
        if all.pieces.contains_key(&name) {
            return Err(format!("piece {number} of the drive {drive} is kept already"));
        }
        all.pieces.insert(name, text);
        Ok(())
    }

    async fn drop_drive(&self, id: &str) -> Result<(), String> {
        self.0.borrow_mut().drop_drive(id);
        Ok(())
    }

    async fn sittings(&self) -> Result<Listed<Taken>, String> {
        Ok(Listed::of(self.0.borrow().sittings.values().map(|text| read_record(text))))
    }

    async fn keep_sitting(&self, sitting: &Taken) -> Result<(), String> {
        let text = write_record(sitting)?;
        self.0.borrow_mut().sittings.insert(sitting.id.clone(), text);
        Ok(())
    }

    async fn forget_sitting(
        &self,
        id: &str,
        attempts: &[String],
        drives: &[String],
    ) -> Result<(), String> {
        let mut all = self.0.borrow_mut();
        all.sittings.remove(id);
        attempts.iter().for_each(|id| all.forget(id));
        drives.iter().for_each(|id| all.drop_drive(id));
        Ok(())
    }

    async fn lessons(&self) -> Result<Listed<Taught>, String> {
        Ok(Listed::of(self.0.borrow().lessons.values().map(|text| read_record(text))))
    }

    async fn keep_lesson(&self, lesson: &Taught) -> Result<(), String> {
        let text = write_record(lesson)?;
        self.0.borrow_mut().lessons.insert(lesson.id.clone(), text);
        Ok(())
    }

    async fn forget_lesson(&self, id: &str) -> Result<(), String> {
        self.0.borrow_mut().lessons.remove(id);
        Ok(())
    }

    async fn trainings(&self) -> Result<Listed<Record>, String> {
        Ok(Listed::of(self.0.borrow().trainings.values().map(|text| read_record(text))))
    }

    async fn keep_training(&self, record: &Record) -> Result<(), String> {
        let text = write_record(record)?;
        self.0.borrow_mut().trainings.insert(record.person.clone(), text);
        Ok(())
    }

    async fn forget_training(&self, person: &str) -> Result<(), String> {
        self.0.borrow_mut().trainings.remove(person);
        Ok(())
    }

    async fn site(&self, name: &str) -> Result<Option<String>, String> {
        Ok(self.0.borrow().site.get(name).cloned())
    }

    async fn keep_site(&self, name: &str, text: Option<&str>) -> Result<(), String> {
        let site = &mut self.0.borrow_mut().site;
        match text {
            Some(text) => site.insert(name.to_owned(), text.to_owned()),
            None => site.remove(name),
        };
        Ok(())
    }
}

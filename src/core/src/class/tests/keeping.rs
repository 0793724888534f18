//! Keepers, and drives that were cut off as they are found again.

use super::*;
use crate::acts::{Act, Done};
use crate::controls::{Controls, Look};
use crate::run::Driven;

#[test]
fn a_keeper_in_memory_does_what_every_keeper_must() {
    let memory = Memory::default();
    assert_eq!(now(contract::holds(&memory)), Ok(()));
    assert_eq!(memory.counts(), [0; 8], "it leaves nothing behind");
}

/// A keeper with one fault.
struct Faulty {
    memory: Memory,
    fault: Fault,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Fault {
    WritesOver,
    KeepsTheDrive,
    LosesARun,
    ForgetsHalf,
    DropsTooMuch,
    ForgetsNoLesson,
    MixesPeople,
    SetsForGood,
}

impl Keeper for Faulty {
    async fn attempts(&self) -> Result<Listed<Attempt>, String> {
        self.memory.attempts().await
    }

    async fn run(&self, id: &str) -> Result<Option<String>, String> {
        let run = self.memory.run(id).await?;
        Ok(if self.fault == Fault::LosesARun { run.map(|_| String::new()) } else { run })
    }

    async fn keep(&self, attempt: &Attempt, run: &str) -> Result<(), String> {
        let drive = self.memory.drive(&attempt.id).await?.and_then(|kept| kept.drive);
        self.memory.keep(attempt, run).await?;
        match drive {
            Some(drive) if self.fault == Fault::KeepsTheDrive => self.memory.begin(&drive).await,
            _ => Ok(()),
        }
    }

    async fn amend(&self, attempt: &Attempt) -> Result<(), String> {
        self.memory.amend(attempt).await
    }

    async fn forget(&self, id: &str) -> Result<(), String> {
        self.memory.forget(id).await
    }

    async fn drives(&self) -> Result<Listed<Drive>, String> {
        self.memory.drives().await
    }

    async fn drive(&self, id: &str) -> Result<Option<keeper::Kept>, String> {
        self.memory.drive(id).await
    }

    async fn begin(&self, drive: &Drive) -> Result<(), String> {
        self.memory.begin(drive).await
    }

    async fn add(&self, drive: &str, number: u32, piece: &Piece) -> Result<(), String> {
        let added = self.memory.add(drive, number, piece).await;
        if self.fault == Fault::WritesOver { Ok(()) } else { added }
    }

    async fn drop_drive(&self, id: &str) -> Result<(), String> {
        if self.fault == Fault::DropsTooMuch {
            for drive in self.memory.drives().await?.all {
                if drive.id.starts_with(&id[..1]) {
                    self.memory.drop_drive(&drive.id).await?;
                }
            }
        }
        self.memory.drop_drive(id).await
    }

    async fn sittings(&self) -> Result<Listed<Taken>, String> {
        self.memory.sittings().await
    }

    async fn keep_sitting(&self, sitting: &Taken) -> Result<(), String> {
        self.memory.keep_sitting(sitting).await
    }

    async fn forget_sitting(
        &self,
        id: &str,
        attempts: &[String],
        drives: &[String],
    ) -> Result<(), String> {
        let attempts = if self.fault == Fault::ForgetsHalf { &[] } else { attempts };
        self.memory.forget_sitting(id, attempts, drives).await
    }

    async fn lessons(&self) -> Result<Listed<Taught>, String> {
        self.memory.lessons().await
    }

    async fn keep_lesson(&self, lesson: &Taught) -> Result<(), String> {
        self.memory.keep_lesson(lesson).await
    }

    async fn forget_lesson(&self, id: &str) -> Result<(), String> {
        if self.fault == Fault::ForgetsNoLesson {
            Ok(())
        } else {
            self.memory.forget_lesson(id).await
        }
    }

    async fn trainings(&self) -> Result<Listed<Record>, String> {
        self.memory.trainings().await
    }

    async fn keep_training(&self, record: &Record) -> Result<(), String> {
        if self.fault == Fault::MixesPeople {
            for other in self.memory.trainings().await?.all {
                self.memory.forget_training(&other.person).await?;
            }
        }
        self.memory.keep_training(record).await
    }

    async fn forget_training(&self, person: &str) -> Result<(), String> {
        self.memory.forget_training(person).await
    }

    async fn site(&self, name: &str) -> Result<Option<String>, String> {
        self.memory.site(name).await
    }

    async fn keep_site(&self, name: &str, text: Option<&str>) -> Result<(), String> {
        let text = if self.fault == Fault::SetsForGood { text.or(Some("")) } else { text };
        self.memory.keep_site(name, text).await
    }
}

/// The contract is one that can be broken.
#[test]
fn a_keeper_with_a_fault_is_found_out() {
    for fault in [
        Fault::WritesOver,
        Fault::KeepsTheDrive,
        Fault::LosesARun,
        Fault::ForgetsHalf,
        Fault::DropsTooMuch,
        Fault::ForgetsNoLesson,
        Fault::MixesPeople,
        Fault::SetsForGood,
    ] {
        let faulty = Faulty { memory: Memory::default(), fault };
        let said = now(contract::holds(&faulty)).unwrap_err();
        assert!(said.starts_with("a keeper must do this"), "{fault:?}: {said}");
    }
}

#[test]
fn what_cannot_be_read_is_counted_and_left_as_it_is() {
    let memory = Memory::default();
    now(memory.keep(&attempt("a"), "run")).unwrap();
    now(memory.begin(&begun("d", None))).unwrap();
    memory.put(Shelf::Attempts, "odd", "{");
    memory.put(Shelf::Drives, "odd", "7");
    memory.put(Shelf::Pieces, "d", "{}");
    memory.put(Shelf::Sittings, "odd", "null");
    memory.put(Shelf::Lessons, "odd", "[]");
    memory.put(Shelf::Trainings, "odd", "{\"version\": 9}");
    let attempts = now(memory.attempts()).unwrap();
    assert_eq!((attempts.all.len(), attempts.unreadable), (1, 1));
    assert_eq!(now(memory.sittings()).unwrap().unreadable, 1);
    assert_eq!(now(memory.lessons()).unwrap().unreadable, 1);
    assert_eq!(now(memory.trainings()).unwrap().unreadable, 1);
    assert_eq!(now(drive(&memory, "odd")), Ok(Found::Unreadable));
    let cut = now(cut_drives(&memory, &attempts.all, &[])).unwrap();
    assert_eq!(
        (cut.drives, cut.unreadable),
        (vec![], 2),
        "the drive, and the one with an odd piece"
    );
    assert_eq!(memory.counts(), [2, 1, 2, 1, 1, 1, 1, 0]);
}

#[test]
fn a_drive_in_which_nothing_was_driven_or_that_is_kept_is_dropped() {
    let memory = Memory::default();
    for id in ["a", "b", "c"] {
        now(memory.begin(&begun(id, None))).unwrap();
    }
    now(memory.add("b", 0, &piece(1))).unwrap();
    now(memory.add("c", 0, &piece(1))).unwrap();
    let cut = now(cut_drives(&memory, &[attempt("b")], &[])).unwrap();
    let left: Vec<&str> = cut.drives.iter().map(|c| c.drive.id.as_str()).collect();
    assert_eq!(left, ["c"]);
    assert_eq!(now(memory.drives()).unwrap().all.len(), 1);
}

#[test]
fn a_drive_that_was_only_looked_at_is_dropped_unless_it_is_a_part_of_a_pre_test() {
    let memory = Memory::default();
    let held = |second: Controls, acts: Vec<Done>| {
        let pairs = vec![Controls::default().to_bits(), 500, second.to_bits(), 40];
        Piece::new(Driven { pairs, acts }, Timing::START)
    };
    let looks = Controls { look: Look::Left, ..Controls::default() };
    let still = |acts| held(looks, acts);
    let key_off = held(Controls { key_on: false, ..Controls::default() }, Vec::new());
    let place = || Some(Place { sitting: "s".to_owned(), part: 0 });
    for (id, place, piece) in [
        ("looked", None, still(Vec::new())),
        ("part", place(), still(Vec::new())),
        ("acted", None, still(vec![Done { tick: 9, act: Act::Report }])),
        ("moved", None, piece(1)),
        ("key off", None, key_off),
    ] {
        now(memory.begin(&begun(id, place))).unwrap();
        now(memory.add(id, 0, &piece)).unwrap();
    }
    let cut = now(cut_drives(&memory, &[], &[])).unwrap();
    let left: Vec<&str> = cut.drives.iter().map(|c| c.drive.id.as_str()).collect();
    assert_eq!(left, ["acted", "key off", "moved", "part"]);
}

//! Where records are kept: in a browser its own database, in a class its host.

use core::future::Future;
use std::collections::BTreeMap;

use super::attempt::Attempt;
use super::drive::{Drive, Piece};
use super::record::Record;
use super::sitting::Taken;
use super::taught::Taught;

/// Records that could be read, and how many could not.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed<T> {
    /// In the order of their names.
    pub all: Vec<T>,
    /// They are left as they are.
    pub unreadable: usize,
}

impl<T> Listed<T> {
    /// Sorts what was read from what was not.
    pub fn of(read: impl IntoIterator<Item = Result<T, String>>) -> Self {
        let mut listed = Self { all: Vec::new(), unreadable: 0 };
        for record in read {
            match record {
                Ok(record) => listed.all.push(record),
                Err(_) => listed.unreadable += 1,
            }
        }
        listed
    }
}

/// A keeper of records. What a call writes is written as a whole or not at all, and counts as kept
/// when the call has come back. A record that cannot be read is never written over but by a record
/// of its name. Every refusal is one sentence; `contract` tries all of this on any keeper.
///
/// A call's future is `Send` where the keeper's own is, so that a server may await it on any thread.
pub trait Keeper {
    /// Finished attempts.
    fn attempts(&self) -> impl Future<Output = Result<Listed<Attempt>, String>>;

    /// The run file of an attempt; None when there is none.
    fn run(&self, id: &str) -> impl Future<Output = Result<Option<String>, String>>;

    /// Keeps a finished attempt with its run file, in place of the drive it was made of.
    fn keep(&self, attempt: &Attempt, run: &str) -> impl Future<Output = Result<(), String>>;

    /// Writes what was learned of an attempt that is kept already.
    fn amend(&self, attempt: &Attempt) -> impl Future<Output = Result<(), String>>;

    /// Deletes an attempt and its run file. One that is not there is no trouble.
    fn forget(&self, id: &str) -> impl Future<Output = Result<(), String>>;

    /// Drives under way or cut off.
    fn drives(&self) -> impl Future<Output = Result<Listed<Drive>, String>>;

    /// The drive of this name with its pieces; None when there is none.
    fn drive(&self, id: &str) -> impl Future<Output = Result<Option<Kept>, String>>;

    /// Begins to keep a drive.
    fn begin(&self, drive: &Drive) -> impl Future<Output = Result<(), String>>;

    /// Keeps the piece of a drive with this number. One that is there already is never written
    /// over: then it is refused.
    fn add(
        &self,
        drive: &str,
        number: u32,
        piece: &Piece,
    ) -> impl Future<Output = Result<(), String>>;

    /// Drops a drive with its pieces. One that is not there is no trouble.
    fn drop_drive(&self, id: &str) -> impl Future<Output = Result<(), String>>;

    /// Pre-tests that were begun.
    fn sittings(&self) -> impl Future<Output = Result<Listed<Taken>, String>>;

    /// Keeps a pre-test as it stands.
    fn keep_sitting(&self, sitting: &Taken) -> impl Future<Output = Result<(), String>>;

    /// Deletes a pre-test with these attempts and these drives, which are its parts.
    fn forget_sitting(
        &self,
        id: &str,
        attempts: &[String],
        drives: &[String],
    ) -> impl Future<Output = Result<(), String>>;

    /// Lessons that were given.
    fn lessons(&self) -> impl Future<Output = Result<Listed<Taught>, String>>;

    /// Keeps a lesson as it stands.
    fn keep_lesson(&self, lesson: &Taught) -> impl Future<Output = Result<(), String>>;

    /// Deletes the record of a lesson. One that is not there is no trouble.
    fn forget_lesson(&self, id: &str) -> impl Future<Output = Result<(), String>>;

    /// Training records of people, by the name of the person's record.
    fn trainings(&self) -> impl Future<Output = Result<Listed<Record>, String>>;

    /// Keeps a training record as it stands.
    fn keep_training(&self, record: &Record) -> impl Future<Output = Result<(), String>>;

    /// Deletes a training record. One that is not there is no trouble.
    fn forget_training(&self, person: &str) -> impl Future<Output = Result<(), String>>;

    /// What a site has set under this name, as it was kept; None when nothing is set.
    fn site(&self, name: &str) -> impl Future<Output = Result<Option<String>, String>>;

    /// Keeps what a site sets under this name; None takes it back.
    fn keep_site(&self, name: &str, text: Option<&str>)
    -> impl Future<Output = Result<(), String>>;
}

/// A drive as it is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// The drive; None when it cannot be read.
    pub drive: Option<Drive>,
    /// Its pieces by their numbers; None for one that cannot be read.
    pub pieces: BTreeMap<u32, Option<Piece>>,
}

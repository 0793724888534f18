//! The browser's database as a keeper of records: nine stores, each with its records under a text
//! key.

use std::pin::pin;
use std::time::Duration;

use coneyard_core::class::{Kept, Listed, Record, Remarks, read_record, write_record};
use futures_util::future::{Either, select};
use idb::builder::{DatabaseBuilder, ObjectStoreBuilder};
use idb::{Database, KeyRange, Query, TransactionMode};
use wasm_bindgen::{JsCast, JsValue};

use super::transaction::{Writing, said};
use super::{Attempt, Drive, Keeper, Piece, Taken, Taught};
use crate::browser;
use crate::words::{k, say};

/// Longest wait for the database to be opened.
const PATIENCE: Duration = Duration::from_secs(10);

const NAME: &str = "coneyard";
const VERSION: u32 = 5;

/// Finished attempts, JSON of [`Attempt`].
const ATTEMPTS: &str = "attempts";
/// Their run files, text.
const RUNS: &str = "runs";
/// Drives under way or cut off, JSON of [`Drive`].
const DRIVES: &str = "drives";
/// What was driven of them, in pieces as they were made, JSON of [`Piece`] under "drive/piece"; before
/// times were kept, a Uint32Array of the controls.
const CONTROLS: &str = "controls";
/// Pre-tests that were begun, JSON of [`Taken`].
const SITTINGS: &str = "sittings";
/// Attempts that the class's host has, with the name that it knows the run by.
const SENT: &str = "sent";
/// Before an attempt's name there: what was said of it when browser and host had the same last, JSON of [`Remarks`].
const SAID: &str = "said/";
/// Lessons that were given, JSON of [`Taught`].
const LESSONS: &str = "lessons";
/// Training records, JSON of [`Record`] under the name of the person's record.
const TRAININGS: &str = "trainings";
/// What this site has set for itself, texts by their names.
const SITE: &str = "site";

const ALL: [&str; 9] = [ATTEMPTS, RUNS, DRIVES, CONTROLS, SITTINGS, SENT, LESSONS, TRAININGS, SITE];

/// An open connection to the database.
pub(crate) struct Store(Database);

fn text(value: &JsValue) -> Result<String, String> {
    value.as_string().ok_or_else(|| "this record is no text".to_owned())
}

fn listed<T>(values: &[JsValue], read: fn(&str) -> Result<T, String>) -> Listed<T> {
    Listed::of(values.iter().map(|value| read(&text(value)?)))
}

fn key_of(drive: &str, piece: u32) -> String {
    format!("{drive}/{piece:08}")
}

fn number_of(key: &str) -> Option<u32> {
    key.rsplit_once('/')?.1.parse().ok()
}

fn piece_of(value: &JsValue) -> Option<Piece> {
    match value.dyn_ref::<js_sys::Uint32Array>() {
        Some(pairs) => Some(Piece::without_times(pairs.to_vec())),
        None => read_record(&value.as_string()?).ok(),
    }
}

/// All pieces of a drive: "/" is followed by "0" in the order of characters.
fn pieces(drive: &str) -> Result<KeyRange, String> {
    KeyRange::bound(
        &JsValue::from_str(&format!("{drive}/")),
        &JsValue::from_str(&format!("{drive}0")),
        None,
        Some(true),
    )
    .map_err(said)
}

impl Store {
    /// Opens the database, and makes it when it is not there. A browser may leave the question without
    /// an answer, as while another page that was left is still making it: then that is said, and
    /// what is to be kept is handed out.
    pub(crate) async fn open() -> Result<Self, String> {
        let mut builder = DatabaseBuilder::new(NAME).version(VERSION);
        for store in ALL {
            builder = builder.add_object_store(ObjectStoreBuilder::new(store));
        }
        let (opening, patience) = (pin!(builder.build()), pin!(browser::wait(PATIENCE)));
        match select(opening, patience).await {
            Either::Left((opened, _)) => opened.map(Self).map_err(said),
            Either::Right(_) => Err(say(k("store-no-answer"))),
        }
    }

    async fn all(&self, store: &str, query: Option<Query>) -> Result<Vec<JsValue>, String> {
        let transaction = self.0.transaction(&[store], TransactionMode::ReadOnly).map_err(said)?;
        transaction
            .object_store(store)
            .and_then(|s| s.get_all(query, None))
            .map_err(said)?
            .await
            .map_err(said)
    }

    /// Keys and values of a store, by key.
    async fn keyed(&self, store: &str, range: KeyRange) -> Result<Vec<(String, JsValue)>, String> {
        let transaction = self.0.transaction(&[store], TransactionMode::ReadOnly).map_err(said)?;
        let store = transaction.object_store(store).map_err(said)?;
        let keys = store.get_all_keys(Some(Query::KeyRange(range.clone())), None).map_err(said)?;
        let values = store.get_all(Some(Query::KeyRange(range)), None).map_err(said)?;
        let (keys, values) = (keys.into_future(), values.into_future());
        let (keys, values) = (keys.await.map_err(said)?, values.await.map_err(said)?);
        let names = keys.iter().map(|key| key.as_string().unwrap_or_default());
        Ok(names.zip(values).collect())
    }

    /// Names of the attempts that the class's host has.
    pub(crate) async fn sent(&self) -> Result<Vec<String>, String> {
        let transaction = self.0.transaction(&[SENT], TransactionMode::ReadOnly).map_err(said)?;
        let keys = transaction
            .object_store(SENT)
            .and_then(|s| s.get_all_keys(None, None))
            .map_err(said)?
            .await
            .map_err(said)?;
        Ok(keys.iter().filter_map(JsValue::as_string).collect())
    }

    /// The class's host has this attempt, under this name.
    pub(crate) async fn mark_sent(&self, attempt: &str, run: &str) -> Result<(), String> {
        self.put(SENT, attempt, run).await
    }

    /// Those attempts, each with the name that the host knows its run by.
    pub(crate) async fn sent_as(&self) -> Result<Vec<(String, String)>, String> {
        let all = KeyRange::lower_bound(&JsValue::from_str(""), None).map_err(said)?;
        let all = self.keyed(SENT, all).await?;
        let named = |(id, run): (String, JsValue)| Some((id, run.as_string()?));
        Ok(all.into_iter().filter_map(named).filter(|(id, _)| !id.starts_with(SAID)).collect())
    }

    /// What was said of an attempt when this browser and the host had the same last.
    pub(crate) async fn said_alike(&self, attempt: &str) -> Result<Remarks, String> {
        let found = self.all(SENT, Some(key(&format!("{SAID}{attempt}")))).await?;
        let text = found.first().and_then(JsValue::as_string);
        Ok(text.and_then(|text| read_record(&text).ok()).unwrap_or_default())
    }

    /// Keeps it.
    pub(crate) async fn keep_said_alike(&self, attempt: &str, is: &Remarks) -> Result<(), String> {
        self.put(SENT, &format!("{SAID}{attempt}"), &write_record(is)?).await
    }

    async fn put(&self, store: &str, key: &str, text: &str) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[store])?;
        writing.put(store, key, text)?;
        writing.done().await
    }
}

fn key(id: &str) -> Query {
    Query::Key(JsValue::from_str(id))
}

impl Keeper for Store {
    async fn attempts(&self) -> Result<Listed<Attempt>, String> {
        Ok(listed(&self.all(ATTEMPTS, None).await?, read_record))
    }

    async fn run(&self, id: &str) -> Result<Option<String>, String> {
        let found = self.all(RUNS, Some(key(id))).await?;
        Ok(found.first().and_then(JsValue::as_string))
    }

    async fn keep(&self, attempt: &Attempt, run: &str) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[RUNS, ATTEMPTS, DRIVES, CONTROLS])?;
        writing.put(RUNS, &attempt.id, run)?;
        writing.put(ATTEMPTS, &attempt.id, &write_record(attempt)?)?;
        writing.drop_drive(&attempt.id)?;
        writing.done().await
    }

    async fn amend(&self, attempt: &Attempt) -> Result<(), String> {
        self.put(ATTEMPTS, &attempt.id, &write_record(attempt)?).await
    }

    async fn forget(&self, id: &str) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[ATTEMPTS, RUNS, SENT])?;
        writing.forget(id)?;
        writing.done().await
    }

    async fn drives(&self) -> Result<Listed<Drive>, String> {
        Ok(listed(&self.all(DRIVES, None).await?, read_record))
    }

    async fn drive(&self, id: &str) -> Result<Option<Kept>, String> {
        let found = self.all(DRIVES, Some(key(id))).await?;
        let Some(found) = found.first() else {
            return Ok(None);
        };
        let drive = found.as_string().and_then(|text| read_record(&text).ok());
        let pieces = self.keyed(CONTROLS, pieces(id)?).await?;
        // A key that is no number makes its piece one that is missing.
        let numbered = |(key, value): &(String, JsValue)| {
            (number_of(key).unwrap_or(u32::MAX), piece_of(value))
        };
        Ok(Some(Kept { drive, pieces: pieces.iter().map(numbered).collect() }))
    }

    async fn begin(&self, drive: &Drive) -> Result<(), String> {
        self.put(DRIVES, &drive.id, &write_record(drive)?).await
    }

    async fn add(&self, drive: &str, number: u32, piece: &Piece) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[CONTROLS])?;
        writing.add(CONTROLS, &key_of(drive, number), &write_record(piece)?)?;
        writing.done().await
    }

    async fn drop_drive(&self, id: &str) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[DRIVES, CONTROLS])?;
        writing.drop_drive(id)?;
        writing.done().await
    }

    async fn sittings(&self) -> Result<Listed<Taken>, String> {
        Ok(listed(&self.all(SITTINGS, None).await?, read_record))
    }

    async fn keep_sitting(&self, sitting: &Taken) -> Result<(), String> {
        self.put(SITTINGS, &sitting.id, &write_record(sitting)?).await
    }

    async fn forget_sitting(
        &self,
        id: &str,
        attempts: &[String],
        drives: &[String],
    ) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[SITTINGS, ATTEMPTS, RUNS, DRIVES, CONTROLS, SENT])?;
        writing.delete(SITTINGS, id)?;
        for attempt in attempts {
            writing.forget(attempt)?;
        }
        for drive in drives {
            writing.drop_drive(drive)?;
        }
        writing.done().await
    }

    async fn lessons(&self) -> Result<Listed<Taught>, String> {
        Ok(listed(&self.all(LESSONS, None).await?, read_record))
    }

    async fn keep_lesson(&self, lesson: &Taught) -> Result<(), String> {
        self.put(LESSONS, &lesson.id, &write_record(lesson)?).await
    }

    async fn forget_lesson(&self, id: &str) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[LESSONS])?;
        writing.delete(LESSONS, id)?;
        writing.done().await
    }

    async fn trainings(&self) -> Result<Listed<Record>, String> {
        Ok(listed(&self.all(TRAININGS, None).await?, read_record))
    }

    async fn keep_training(&self, record: &Record) -> Result<(), String> {
        self.put(TRAININGS, &record.person, &write_record(record)?).await
    }

    async fn forget_training(&self, person: &str) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[TRAININGS])?;
        writing.delete(TRAININGS, person)?;
        writing.done().await
    }

    async fn site(&self, name: &str) -> Result<Option<String>, String> {
        let found = self.all(SITE, Some(key(name))).await?;
        Ok(found.first().and_then(JsValue::as_string))
    }

    async fn keep_site(&self, name: &str, text: Option<&str>) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[SITE])?;
        match text {
            Some(text) => writing.put(SITE, name, text)?,
            None => writing.delete(SITE, name)?,
        }
        writing.done().await
    }
}

impl Writing {
    fn forget(&self, attempt: &str) -> Result<(), String> {
        self.delete(ATTEMPTS, attempt)?;
        self.delete(RUNS, attempt)?;
        self.delete(SENT, attempt)?;
        self.delete(SENT, &format!("{SAID}{attempt}"))
    }

    fn drop_drive(&self, drive: &str) -> Result<(), String> {
        self.delete(DRIVES, drive)?;
        self.delete_range(CONTROLS, pieces(drive)?)
    }
}

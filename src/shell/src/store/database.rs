//! The database itself: five stores, each with its records under a text key.

use std::collections::BTreeMap;
use std::pin::pin;
use std::time::Duration;

use coneyard_core::run::header::Header;
use futures_util::future::{Either, select};
use idb::builder::{DatabaseBuilder, ObjectStoreBuilder};
use idb::{Database, KeyRange, Query, TransactionMode};
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::{JsCast, JsValue};

use super::transaction::Writing;
use super::{Attempt, CutDrive, Drive, Piece, Place, Taken};
use crate::browser;
use crate::canvas;
use crate::words::{k, say};

/// Longest wait for the database to be opened.
const PATIENCE: Duration = Duration::from_secs(10);

const NAME: &str = "coneyard";
const VERSION: u32 = 2;

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

/// How far a part of a pre-test that is not finished has come.
pub(crate) enum PartSoFar {
    /// Nothing was driven of it.
    Nothing,
    /// It was cut off.
    Cut(CutDrive),
    /// Another tab is driving it.
    Elsewhere,
}

/// Records that could be read, and how many could not.
pub(crate) struct Read<T> {
    /// In the order of their keys.
    pub(crate) all: Vec<T>,
    /// They are left as they are.
    pub(crate) unreadable: usize,
}

impl<T: DeserializeOwned> Read<T> {
    fn of(values: &[JsValue]) -> Self {
        let all: Vec<T> = values.iter().filter_map(from_js).collect();
        Self { unreadable: values.len() - all.len(), all }
    }
}

/// Drives that no tab is driving.
pub(crate) struct Cut {
    /// Oldest first.
    pub(crate) drives: Vec<CutDrive>,
    /// There are others, which a tab is driving.
    pub(crate) others: bool,
    /// So many cannot be read; they are left as they are.
    pub(crate) unreadable: usize,
}

/// An open connection to the database.
pub(crate) struct Store(Database);

pub(super) fn said(error: idb::Error) -> String {
    error.to_string()
}

fn to_js<T: Serialize>(value: &T) -> Result<JsValue, String> {
    serde_json::to_string(value).map(|text| JsValue::from_str(&text)).map_err(|e| e.to_string())
}

fn from_js<T: DeserializeOwned>(value: &JsValue) -> Option<T> {
    serde_json::from_str(&value.as_string()?).ok()
}

fn key_of(drive: &str, piece: u32) -> String {
    format!("{drive}/{piece:08}")
}

fn piece_of(value: &JsValue) -> Option<Piece> {
    match value.dyn_ref::<js_sys::Uint32Array>() {
        Some(pairs) => Some(Piece { pairs: pairs.to_vec(), timing: None }),
        None => from_js(value),
    }
}

/// The pieces of a drive in their order; None when one is missing or cannot be read, for what comes
/// after it is then another drive.
fn whole(drive: &str, kept: &BTreeMap<String, Option<Piece>>) -> Option<Vec<Piece>> {
    (0..)
        .map(|n| key_of(drive, n))
        .zip(kept)
        .map(|(due, (key, piece))| piece.clone().filter(|_| due == *key))
        .collect()
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
        for store in [ATTEMPTS, RUNS, DRIVES, CONTROLS, SITTINGS] {
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

    /// Finished attempts, oldest first. One from before the simulation was kept learns it from its
    /// run file, once.
    pub(crate) async fn attempts(&self) -> Result<Read<Attempt>, String> {
        let mut read = Read::<Attempt>::of(&self.all(ATTEMPTS, None).await?);
        for attempt in read.all.iter_mut().filter(|a| a.simulation.is_none()) {
            let Some(run) = self.run(&attempt.id).await? else { continue };
            let Ok(head) = Header::parse(&attempt.id, run.as_bytes()) else { continue };
            attempt.simulation = Some(head.simulation);
            // What cannot be kept now is learned again the next time.
            let _ = self.put(ATTEMPTS, &attempt.id, &to_js(attempt)?).await;
        }
        read.all.sort_by(|a, b| (&a.started, &a.id).cmp(&(&b.started, &b.id)));
        Ok(read)
    }

    async fn put(&self, store: &str, key: &str, value: &JsValue) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[store])?;
        writing.put(store, key, value)?;
        writing.done().await
    }

    /// The run file of an attempt.
    pub(crate) async fn run(&self, id: &str) -> Result<Option<String>, String> {
        let found = self.all(RUNS, Some(Query::Key(JsValue::from_str(id)))).await?;
        Ok(found.first().and_then(JsValue::as_string))
    }

    /// Keeps a finished attempt with its run file, in place of the drive it was made of.
    pub(crate) async fn keep(&self, attempt: &Attempt, run: &str) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[RUNS, ATTEMPTS, DRIVES, CONTROLS])?;
        writing.put(RUNS, &attempt.id, &JsValue::from_str(run))?;
        writing.put(ATTEMPTS, &attempt.id, &to_js(attempt)?)?;
        writing.delete(DRIVES, &attempt.id)?;
        writing.delete_range(CONTROLS, pieces(&attempt.id)?)?;
        writing.done().await
    }

    /// Deletes an attempt and its run file.
    pub(crate) async fn forget(&self, id: &str) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[ATTEMPTS, RUNS])?;
        writing.delete(ATTEMPTS, id)?;
        writing.delete(RUNS, id)?;
        writing.done().await
    }

    /// Begins to keep a drive.
    pub(crate) async fn begin(&self, drive: &Drive) -> Result<(), String> {
        self.put(DRIVES, &drive.id, &to_js(drive)?).await
    }

    /// Keeps a piece of a drive. A piece that is there already is never written over.
    pub(crate) async fn add(&self, drive: &str, n: u32, piece: &Piece) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[CONTROLS])?;
        writing.add(CONTROLS, &key_of(drive, n), &to_js(piece)?)?;
        writing.done().await
    }

    /// Drops a drive: it is not wanted.
    pub(crate) async fn drop_drive(&self, drive: &str) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[DRIVES, CONTROLS])?;
        writing.delete(DRIVES, drive)?;
        writing.delete_range(CONTROLS, pieces(drive)?)?;
        writing.done().await
    }

    /// What was driven of this drive; None when there is no such drive.
    ///
    /// # Errors
    /// A sentence when it cannot be read.
    pub(crate) async fn drive(&self, id: &str) -> Result<Option<CutDrive>, String> {
        let found = self.all(DRIVES, Some(Query::Key(JsValue::from_str(id)))).await?;
        let Some(found) = found.first() else {
            return Ok(None);
        };
        let drive = from_js::<Drive>(found).ok_or_else(|| say(k("drive-unreadable")))?;
        let kept = self.keyed(CONTROLS, pieces(id)?).await?;
        let kept = kept.iter().map(|(key, value)| (key.clone(), piece_of(value))).collect();
        let pieces = whole(id, &kept).ok_or_else(|| say(k("drive-unreadable")))?;
        Ok(Some(CutDrive::of(drive, pieces)))
    }

    /// Pre-tests that were begun, oldest first.
    pub(crate) async fn sittings(&self) -> Result<Read<Taken>, String> {
        let mut read = Read::<Taken>::of(&self.all(SITTINGS, None).await?);
        read.all.sort_by(|a, b| (&a.started, &a.id).cmp(&(&b.started, &b.id)));
        Ok(read)
    }

    /// Keeps a pre-test as it stands.
    pub(crate) async fn keep_sitting(&self, sitting: &Taken) -> Result<(), String> {
        self.put(SITTINGS, &sitting.id, &to_js(sitting)?).await
    }

    /// Deletes a pre-test with these attempts and drives, which are its parts.
    pub(crate) async fn forget_sitting(
        &self,
        id: &str,
        parts: &[String],
        drives: &[Drive],
    ) -> Result<(), String> {
        let writing = Writing::begin(&self.0, &[SITTINGS, ATTEMPTS, RUNS, DRIVES, CONTROLS])?;
        writing.delete(SITTINGS, id)?;
        for part in parts {
            writing.delete(ATTEMPTS, part)?;
            writing.delete(RUNS, part)?;
        }
        for drive in drives {
            writing.delete(DRIVES, &drive.id)?;
            writing.delete_range(CONTROLS, pieces(&drive.id)?)?;
        }
        writing.done().await
    }

    /// Drives of this pre-test that are not finished.
    pub(crate) async fn drives_of(&self, sitting: &str) -> Result<Vec<Drive>, String> {
        let drives = self.all(DRIVES, None).await?;
        let is_of = |d: &Drive| d.place.as_ref().is_some_and(|p| p.sitting == sitting);
        Ok(drives.iter().filter_map(from_js).filter(is_of).collect())
    }

    /// What was driven of this part so far.
    pub(crate) async fn part(&self, place: &Place) -> Result<PartSoFar, String> {
        let held = canvas::held().await;
        for drive in self.drives_of(&place.sitting).await? {
            if drive.place.as_ref() != Some(place) {
                continue;
            }
            if held.contains(&drive.id) {
                return Ok(PartSoFar::Elsewhere);
            }
            match self.drive(&drive.id).await? {
                Some(cut) if cut.ticks() > 0 => return Ok(PartSoFar::Cut(cut)),
                _ => self.drop_drive(&drive.id).await?,
            }
        }
        Ok(PartSoFar::Nothing)
    }

    /// Drives that no tab is driving. One in which nothing was driven is dropped, and so is one that
    /// is among the attempts that are kept here.
    pub(crate) async fn cut_drives(&self, attempts: &[Attempt]) -> Result<Cut, String> {
        let held = canvas::held().await;
        let drives = Read::<Drive>::of(&self.all(DRIVES, None).await?);
        let mut cut = Cut { drives: Vec::new(), others: false, unreadable: drives.unreadable };
        for drive in drives.all {
            if held.contains(&drive.id) {
                cut.others = true;
                continue;
            }
            match self.drive(&drive.id).await {
                Ok(None) => {}
                Err(_) => cut.unreadable += 1,
                Ok(Some(found)) => {
                    let is_kept = attempts.iter().any(|a| a.id == drive.id);
                    if found.ticks() == 0 || is_kept {
                        // What cannot be dropped now is not shown, and dropped another time.
                        let _ = self.drop_drive(&drive.id).await;
                    } else {
                        cut.drives.push(found);
                    }
                }
            }
        }
        Ok(cut)
    }
}

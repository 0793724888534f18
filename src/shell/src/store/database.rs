//! The database itself: five stores, each with its records under a text key.

use idb::builder::{DatabaseBuilder, ObjectStoreBuilder};
use idb::{Database, KeyRange, Query, TransactionMode};
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::{JsCast, JsValue};

use super::{Attempt, CutDrive, Drive, Place, Taken};
use crate::yard;

const NAME: &str = "coneyard";
const VERSION: u32 = 2;

/// Finished attempts, JSON of [`Attempt`].
const ATTEMPTS: &str = "attempts";
/// Their run files, text.
const RUNS: &str = "runs";
/// Drives under way or cut off, JSON of [`Drive`].
const DRIVES: &str = "drives";
/// Their controls, in pieces as they were made: Uint32Array under "drive/piece".
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

/// An open connection to the database.
pub(crate) struct Store(Database);

fn said(error: idb::Error) -> String {
    error.to_string()
}

fn to_js<T: Serialize>(value: &T) -> Result<JsValue, String> {
    serde_json::to_string(value).map(|text| JsValue::from_str(&text)).map_err(|e| e.to_string())
}

fn from_js<T: DeserializeOwned>(value: &JsValue) -> Option<T> {
    serde_json::from_str(&value.as_string()?).ok()
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
    /// Opens the database, and makes it when it is not there.
    pub(crate) async fn open() -> Result<Self, String> {
        let mut builder = DatabaseBuilder::new(NAME).version(VERSION);
        for store in [ATTEMPTS, RUNS, DRIVES, CONTROLS, SITTINGS] {
            builder = builder.add_object_store(ObjectStoreBuilder::new(store));
        }
        builder.build().await.map(Self).map_err(said)
    }

    async fn put(&self, store: &str, key: &str, value: &JsValue) -> Result<(), String> {
        let transaction = self.0.transaction(&[store], TransactionMode::ReadWrite).map_err(said)?;
        transaction
            .object_store(store)
            .and_then(|s| s.put(value, Some(&JsValue::from_str(key))))
            .map_err(said)?
            .await
            .map_err(said)?;
        transaction.await.map(drop).map_err(said)
    }

    async fn delete(&self, store: &str, query: impl Into<Query>) -> Result<(), String> {
        let transaction = self.0.transaction(&[store], TransactionMode::ReadWrite).map_err(said)?;
        transaction
            .object_store(store)
            .and_then(|s| s.delete(query))
            .map_err(said)?
            .await
            .map_err(said)?;
        transaction.await.map(drop).map_err(said)
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

    /// Finished attempts, oldest first.
    pub(crate) async fn attempts(&self) -> Result<Vec<Attempt>, String> {
        let mut attempts: Vec<Attempt> = Vec::new();
        for attempt in self.all(ATTEMPTS, None).await?.iter().filter_map(from_js::<Attempt>) {
            let before = |a: &Attempt| (&a.started, &a.id) <= (&attempt.started, &attempt.id);
            attempts.insert(attempts.partition_point(before), attempt);
        }
        Ok(attempts)
    }

    /// The run file of an attempt.
    pub(crate) async fn run(&self, id: &str) -> Result<Option<String>, String> {
        let found = self.all(RUNS, Some(Query::Key(JsValue::from_str(id)))).await?;
        Ok(found.first().and_then(JsValue::as_string))
    }

    /// Keeps a finished attempt with its run file.
    pub(crate) async fn keep(&self, attempt: &Attempt, run: &str) -> Result<(), String> {
        // The run first: an attempt that is listed always has its run.
        self.put(RUNS, &attempt.id, &JsValue::from_str(run)).await?;
        self.put(ATTEMPTS, &attempt.id, &to_js(attempt)?).await
    }

    /// Deletes an attempt and its run file.
    pub(crate) async fn forget(&self, id: &str) -> Result<(), String> {
        self.delete(ATTEMPTS, JsValue::from_str(id)).await?;
        self.delete(RUNS, JsValue::from_str(id)).await
    }

    /// Begins to keep a drive.
    pub(crate) async fn begin(&self, drive: &Drive) -> Result<(), String> {
        self.put(DRIVES, &drive.id, &to_js(drive)?).await
    }

    /// Keeps a piece of a drive's controls.
    pub(crate) async fn add(&self, drive: &str, piece: u32, pairs: &[u32]) -> Result<(), String> {
        let key = format!("{drive}/{piece:08}");
        self.put(CONTROLS, &key, &js_sys::Uint32Array::from(pairs)).await
    }

    /// Drops a drive: it was finished and kept, or is not wanted.
    pub(crate) async fn drop_drive(&self, drive: &str) -> Result<(), String> {
        self.delete(DRIVES, JsValue::from_str(drive)).await?;
        self.delete(CONTROLS, pieces(drive)?).await
    }

    /// What was driven of this drive; None when there is no such drive.
    pub(crate) async fn drive(&self, id: &str) -> Result<Option<CutDrive>, String> {
        let found = self.all(DRIVES, Some(Query::Key(JsValue::from_str(id)))).await?;
        let Some(drive) = found.first().and_then(from_js::<Drive>) else {
            return Ok(None);
        };
        let pairs = self
            .all(CONTROLS, Some(Query::KeyRange(pieces(id)?)))
            .await?
            .iter()
            .filter_map(|piece| piece.dyn_ref::<js_sys::Uint32Array>().map(|a| a.to_vec()))
            .flatten()
            .collect();
        Ok(Some(CutDrive { drive, pairs }))
    }

    /// How many pieces of this drive are kept.
    pub(crate) async fn pieces(&self, id: &str) -> Result<u32, String> {
        let kept = self.all(CONTROLS, Some(Query::KeyRange(pieces(id)?))).await?;
        Ok(u32::try_from(kept.len()).unwrap_or(u32::MAX))
    }

    /// Pre-tests that were begun, oldest first.
    pub(crate) async fn sittings(&self) -> Result<Vec<Taken>, String> {
        let mut all: Vec<Taken> =
            self.all(SITTINGS, None).await?.iter().filter_map(from_js).collect();
        all.sort_by(|a, b| (&a.started, &a.id).cmp(&(&b.started, &b.id)));
        Ok(all)
    }

    /// Keeps a pre-test as it stands.
    pub(crate) async fn keep_sitting(&self, sitting: &Taken) -> Result<(), String> {
        self.put(SITTINGS, &sitting.id, &to_js(sitting)?).await
    }

    /// Deletes the record of a pre-test; its parts are attempts, and stay.
    pub(crate) async fn forget_sitting(&self, id: &str) -> Result<(), String> {
        self.delete(SITTINGS, JsValue::from_str(id)).await
    }

    /// Drives of this pre-test that are not finished.
    pub(crate) async fn drives_of(&self, sitting: &str) -> Result<Vec<Drive>, String> {
        let drives = self.all(DRIVES, None).await?;
        let is_of = |d: &Drive| d.place.as_ref().is_some_and(|p| p.sitting == sitting);
        Ok(drives.iter().filter_map(from_js).filter(is_of).collect())
    }

    /// What was driven of this part so far.
    pub(crate) async fn part(&self, place: &Place) -> Result<PartSoFar, String> {
        let held = yard::held().await;
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

    /// Drives that no tab is driving, oldest first, and whether there are others. One in which
    /// nothing was driven is dropped, and so is one that is among the finished attempts: the
    /// browser ended between the two.
    pub(crate) async fn cut_drives(
        &self,
        attempts: &[Attempt],
    ) -> Result<(Vec<CutDrive>, bool), String> {
        let held = yard::held().await;
        let drives: Vec<Drive> = self.all(DRIVES, None).await?.iter().filter_map(from_js).collect();
        let mut cut = Vec::new();
        let mut others = false;
        for drive in drives {
            if held.contains(&drive.id) {
                others = true;
                continue;
            }
            let Some(found) = self.drive(&drive.id).await? else {
                continue;
            };
            if found.ticks() == 0 || attempts.iter().any(|a| a.id == drive.id) {
                self.drop_drive(&drive.id).await?;
                continue;
            }
            cut.push(found);
        }
        Ok((cut, others))
    }
}

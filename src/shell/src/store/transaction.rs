//! Writing: what belongs together is written in one transaction, all of it or nothing, and only
//! what the browser has committed counts as kept.

use idb::{Database, KeyRange, ObjectStore, Query, Transaction, TransactionMode};
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::IdbTransaction;

/// Changes of the database that belong together. Dropped before they are done, none of them is made.
pub(super) struct Writing(Option<Transaction>);

impl Drop for Writing {
    fn drop(&mut self) {
        if let Some(transaction) = self.0.take() {
            // It has ended by itself where it cannot be ended.
            let _ = transaction.abort();
        }
    }
}

impl Writing {
    /// Begins to write into these stores.
    pub(super) fn begin(database: &Database, stores: &[&str]) -> Result<Self, String> {
        let transaction = database.transaction(stores, TransactionMode::ReadWrite);
        transaction.map(|t| Self(Some(t))).map_err(said)
    }

    fn store(&self, name: &str) -> Result<ObjectStore, String> {
        let transaction = self.0.as_ref().ok_or("the transaction has ended")?;
        transaction.object_store(name).map_err(said)
    }

    /// Writes a record, in place of one that is there.
    pub(super) fn put(&self, store: &str, key: &str, text: &str) -> Result<(), String> {
        let value = JsValue::from_str(text);
        self.store(store)?.put(&value, Some(&JsValue::from_str(key))).map(drop).map_err(said)
    }

    /// Writes a record that is not there yet; one that is there is left as it is, and all of this
    /// fails.
    pub(super) fn add(&self, store: &str, key: &str, text: &str) -> Result<(), String> {
        let value = JsValue::from_str(text);
        self.store(store)?.add(&value, Some(&JsValue::from_str(key))).map(drop).map_err(said)
    }

    /// Deletes a record; one that is not there is no trouble.
    pub(super) fn delete(&self, store: &str, key: &str) -> Result<(), String> {
        self.delete_all(store, JsValue::from_str(key))
    }

    /// Deletes a range of records.
    pub(super) fn delete_range(&self, store: &str, range: KeyRange) -> Result<(), String> {
        self.delete_all(store, range)
    }

    fn delete_all(&self, store: &str, query: impl Into<Query>) -> Result<(), String> {
        self.store(store)?.delete(query).map(drop).map_err(said)
    }

    /// Waits until the browser has committed all of it.
    pub(super) async fn done(mut self) -> Result<(), String> {
        let Some(transaction) = self.0.take().map(IdbTransaction::from) else {
            return Ok(());
        };
        let committed = js_sys::Promise::new(&mut |done, failed| {
            transaction.set_oncomplete(Some(&done));
            // It comes after every error, and also when there is no room left.
            transaction.set_onabort(Some(&failed));
        });
        match JsFuture::from(committed).await {
            Ok(_) => Ok(()),
            Err(_) => Err(match transaction.error() {
                Some(why) => format!("{}: {}", why.name(), why.message()),
                None => "AbortError".to_owned(),
            }),
        }
    }
}

pub(super) fn said(error: idb::Error) -> String {
    error.to_string()
}

//! All drives of a class in brief, kept between two questions: a class of some years has a hundred thousand, and what
//! came since is a few.

use std::collections::{BTreeMap, HashMap};
use std::sync::{Arc, PoisonError};

use coneyard_core::class::{Brief, read_record};
use tokio::sync::Mutex;

use super::{Done, reckoned};
use crate::records::BriefRow;
use crate::store::Store;

/// Drives by their runs.
pub(super) type All = BTreeMap<String, Arc<Brief>>;

/// As what is made of them takes them.
pub(super) fn listed(all: &All) -> Vec<&Brief> {
    all.values().map(Arc::as_ref).collect()
}

/// What is kept of one class.
#[derive(Default)]
struct Kept {
    /// Up to this change of the class; None before it was first read.
    change: Option<i64>,
    /// By run.
    all: Arc<All>,
}

/// What is kept of the classes of a store.
#[derive(Default)]
pub(super) struct Briefs {
    classes: std::sync::Mutex<HashMap<String, Arc<Mutex<Kept>>>>,
}

impl Briefs {
    fn class(&self, class: &str) -> Arc<Mutex<Kept>> {
        let mut classes = self.classes.lock().unwrap_or_else(PoisonError::into_inner);
        classes.entry(class.to_owned()).or_default().clone()
    }

    /// All of a class, as the store has them now.
    ///
    /// # Errors
    /// The store is away.
    pub(super) async fn of(&self, store: &dyn Store, class: &str) -> Done<Arc<All>> {
        let kept = self.class(class);
        // Whoever asks meanwhile waits, and finds it read.
        let mut kept = kept.lock().await;
        let since = store.briefs(class, kept.change).await?;
        if since.all || !since.rows.is_empty() {
            // If this goes wrong, all of it is read again.
            kept.change = None;
            let from = std::mem::take(&mut kept.all);
            let from = if since.all { Arc::default() } else { from };
            kept.all = reckoned(move || Arc::new(with(from, since.rows))).await?;
        }
        kept.change = Some(since.change);
        Ok(kept.all.clone())
    }
}

/// These with what has changed.
fn with(from: Arc<All>, rows: Vec<BriefRow>) -> All {
    let mut all = Arc::unwrap_or_clone(from);
    for row in rows {
        let run = row.run.clone();
        match read(row) {
            Some(brief) => all.insert(run, Arc::new(brief)),
            None => all.remove(&run),
        };
    }
    all
}

/// Under the name that the run has here. None when it is not driven again yet, or cannot be read.
fn read(BriefRow { run, who, brief, record }: BriefRow) -> Option<Brief> {
    let brief = match brief {
        Some(brief) => serde_json::from_str(&brief).ok()?,
        None => Brief::of(&read_record(&record?).ok()?),
    };
    Some(Brief { id: run, who, ..brief })
}

//! What was driven, kept in the browser's own database (IndexedDB). A drive is written as it is
//! made, so that closing the tab loses half a second at most; finished runs are kept whole.

mod database;
mod records;
mod sittings;

pub(crate) use database::{PartSoFar, Store};
pub(crate) use records::{Attempt, CutDrive, Drive, Place, Taken};

use leptos::prelude::*;

/// Time after which drives that are being driven are looked at once more.
const LOOK_AGAIN: std::time::Duration = std::time::Duration::from_secs(3);

/// Where all pages find what was driven.
#[derive(Clone, Copy)]
pub(crate) struct StoreDesk {
    /// Finished attempts, oldest first.
    pub(crate) attempts: RwSignal<Vec<Attempt>>,
    /// Drives that were cut off.
    pub(crate) cut: RwSignal<Vec<CutDrive>>,
    /// Pre-tests that were begun, oldest first.
    pub(crate) sittings: RwSignal<Vec<Taken>>,
    /// Why nothing can be kept, if so.
    pub(crate) trouble: RwSignal<Option<String>>,
    /// Whether the database has been read.
    pub(crate) ready: RwSignal<bool>,
    /// Attempts that the database did not take, with their run files: they last as long as the
    /// page.
    loose: StoredValue<Vec<(Attempt, String)>>,
    /// Pre-tests that the database did not take; they last as long as the page.
    loose_sittings: StoredValue<Vec<Taken>>,
}

impl StoreDesk {
    /// Nothing read yet.
    pub(crate) fn new() -> Self {
        Self {
            attempts: RwSignal::new(Vec::new()),
            cut: RwSignal::new(Vec::new()),
            sittings: RwSignal::new(Vec::new()),
            trouble: RwSignal::new(None),
            ready: RwSignal::new(false),
            loose: StoredValue::new(Vec::new()),
            loose_sittings: StoredValue::new(Vec::new()),
        }
    }

    /// Reads the lists again.
    pub(crate) async fn refresh(self) {
        if self.read().await {
            // A tab that was closed a moment ago may not have given its lock back yet.
            set_timeout(
                move || {
                    leptos::task::spawn_local(async move {
                        self.read().await;
                    });
                },
                LOOK_AGAIN,
            );
        }
    }

    /// Reads the lists; true when drives were left out because a tab is driving them.
    async fn read(self) -> bool {
        let mut others = false;
        let read = async {
            let store = Store::open().await?;
            let attempts = store.attempts().await?;
            let cut = store.cut_drives(&attempts).await?;
            Ok::<_, String>((attempts, cut, store.sittings().await?))
        };
        match read.await {
            Ok((mut attempts, (cut, held), mut sittings)) => {
                others = held;
                attempts.extend(self.loose_attempts());
                self.attempts.set(attempts);
                self.cut.set(cut);
                sittings.extend(self.loose_sittings.get_value());
                self.sittings.set(sittings);
                self.trouble.set(None);
            }
            Err(e) => {
                self.attempts.set(self.loose_attempts());
                self.sittings.set(self.loose_sittings.get_value());
                self.trouble.set(Some(e));
            }
        }
        self.ready.set(true);
        others
    }

    fn loose_attempts(self) -> Vec<Attempt> {
        self.loose.with_value(|all| all.iter().map(|(attempt, _)| attempt.clone()).collect())
    }

    /// Keeps a finished attempt with its run file, and drops the drive it was made of.
    pub(crate) async fn keep(self, attempt: Attempt, run: String) {
        let kept = async {
            let store = Store::open().await?;
            store.keep(&attempt, &run).await?;
            store.drop_drive(&attempt.id).await
        };
        if kept.await.is_err() {
            self.loose.update_value(|all| {
                all.retain(|(a, _)| a.id != attempt.id);
                all.push((attempt, run));
            });
        }
        self.refresh().await;
    }

    /// The run file of an attempt.
    pub(crate) async fn run(self, id: &str) -> Result<Option<String>, String> {
        let loose = self
            .loose
            .with_value(|all| all.iter().find(|(a, _)| a.id == id).map(|(_, run)| run.clone()));
        match loose {
            Some(run) => Ok(Some(run)),
            None => Store::open().await?.run(id).await,
        }
    }

    /// Drops a drive that is not wanted.
    pub(crate) async fn drop_drive(self, id: &str) {
        if let Ok(store) = Store::open().await
            && let Err(e) = store.drop_drive(id).await
        {
            self.trouble.set(Some(e));
        }
        self.refresh().await;
    }

    /// Deletes an attempt.
    pub(crate) async fn forget(self, id: &str) {
        self.loose.update_value(|all| all.retain(|(a, _)| a.id != id));
        if let Ok(store) = Store::open().await
            && let Err(e) = store.forget(id).await
        {
            self.trouble.set(Some(e));
        }
        self.refresh().await;
    }

    /// The attempt of this id.
    pub(crate) fn attempt(self, id: &str) -> Option<Attempt> {
        self.attempts.with(|all| all.iter().find(|a| a.id == id).cloned())
    }
}

/// What was driven, as signals.
pub(crate) fn use_store() -> StoreDesk {
    expect_context::<StoreDesk>()
}

//! What was driven, kept in the browser's own database (IndexedDB). A drive is written as it is
//! made, so that closing the tab loses half a second at most; finished runs are kept whole.

mod database;
mod loose;
mod sittings;
mod transaction;

pub(crate) use coneyard_core::class::{
    Attempt, CutDrive, Drive, Keeper, PartSoFar, Piece, Place, Taken, Taught,
};
pub(crate) use database::Store;
pub(crate) use loose::Loose;

use coneyard_core::class::{Found, Listed, Remarks, cut_drives, drive, drives_of};
use leptos::prelude::*;

use crate::canvas;
use crate::files;
use crate::site;
use crate::words::{k, say};

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
    /// Why nothing can be read, if so.
    pub(crate) trouble: RwSignal<Option<String>>,
    /// Why what was asked for last was not done, if so.
    pub(crate) undone: RwSignal<Option<String>>,
    /// So many records are there but cannot be read.
    pub(crate) unreadable: RwSignal<usize>,
    /// Whether the database has been read.
    pub(crate) ready: RwSignal<bool>,
    /// Attempts that the database did not take: they last as long as the page. Each is tried again
    /// whenever the lists are read.
    pub(crate) loose: RwSignal<Vec<Loose<(Attempt, String)>>>,
    /// Pre-tests that the database did not take, likewise.
    pub(crate) loose_sittings: RwSignal<Vec<Loose<Taken>>>,
    /// Counts how often something was learned of an attempt.
    pub(crate) learned: RwSignal<u32>,
    /// Attempts as they were read last.
    stored: StoredValue<Vec<Attempt>>,
}

impl StoreDesk {
    /// Nothing read yet.
    pub(crate) fn new() -> Self {
        Self {
            attempts: RwSignal::new(Vec::new()),
            cut: RwSignal::new(Vec::new()),
            sittings: RwSignal::new(Vec::new()),
            trouble: RwSignal::new(None),
            undone: RwSignal::new(None),
            unreadable: RwSignal::new(0),
            ready: RwSignal::new(false),
            loose: RwSignal::new(Vec::new()),
            loose_sittings: RwSignal::new(Vec::new()),
            learned: RwSignal::new(0),
            stored: StoredValue::new(Vec::new()),
        }
    }

    /// Reads the lists again.
    pub(crate) async fn refresh(self) {
        self.keep_loose().await;
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
            let attempts = attempts(&store).await?;
            let cut = cut_drives(&store, &attempts.all, &canvas::held().await).await?;
            Ok::<_, String>((attempts, cut, store.sittings().await?))
        };
        let read = read.await;
        self.trouble.set(read.as_ref().err().cloned());
        if let Ok((attempts, cut, sittings)) = read {
            others = cut.others;
            self.unreadable.set(attempts.unreadable + cut.unreadable + sittings.unreadable);
            self.stored.set_value(attempts.all);
            self.cut.set(cut.drives);
            self.sittings.set(loose::newer(sittings.all, &self.loose_sittings.get_untracked()));
        }
        self.show_attempts();
        self.ready.set(true);
        others
    }

    /// Lists what was read last with what is loose. What is among the attempts is not also offered
    /// as cut off, although its drive stays in the database until the attempt is.
    fn show_attempts(self) {
        let loose = self
            .loose
            .with_untracked(|all| all.iter().map(|l| l.record.0.clone()).collect::<Vec<_>>());
        let attempts = loose::listed(self.stored.get_value(), loose);
        self.cut.update(|cut| cut.retain(|c| attempts.iter().all(|a| a.id != c.drive.id)));
        self.attempts.set(attempts);
    }

    /// Keeps a finished attempt with its run file, in place of the drive it was made of. What the
    /// database does not take is loose.
    pub(crate) async fn keep(self, attempt: Attempt, run: String) {
        let kept = async { Store::open().await?.keep(&attempt, &run).await };
        let kept = kept.await;
        self.loose.update(|all| loose::settle(all, (attempt, run), kept, |l| l.0.id.clone()));
        self.refresh().await;
    }

    /// Tries once more to keep what is loose.
    async fn keep_loose(self) {
        for Loose { record: (attempt, run), .. } in self.loose.get_untracked() {
            let kept = async { Store::open().await?.keep(&attempt, &run).await };
            let kept = kept.await;
            self.loose.update(|all| loose::settle(all, (attempt, run), kept, |l| l.0.id.clone()));
        }
        for Loose { record, .. } in self.loose_sittings.get_untracked() {
            self.put_sitting(record).await;
        }
    }

    /// Keeps what was learned of an attempt. The lists see it when they are read next: a page that shows
    /// the attempt is not made anew for it.
    pub(crate) async fn learn(self, attempt: Attempt) {
        let put = |all: &mut Vec<Attempt>| {
            all.iter_mut().filter(|a| a.id == attempt.id).for_each(|a| a.clone_from(&attempt));
        };
        self.attempts.update_untracked(put);
        self.stored.update_value(put);
        // One that is loose, or was deleted meanwhile, is not there to amend; what cannot be kept now is
        // learned again the next time.
        let is_it = |a: &Attempt| a.id == attempt.id;
        let is_kept = self.attempts.with_untracked(|all| all.iter().any(is_it))
            && !self.loose.with_untracked(|all| all.iter().any(|l| is_it(&l.record.0)));
        if is_kept && let Ok(store) = Store::open().await {
            let _ = store.amend(&attempt).await;
        }
        self.learned.update(|n| *n = n.wrapping_add(1));
    }

    /// Takes over what was said of an attempt elsewhere; the lists show it.
    pub(crate) async fn take_remarks(self, id: &str, said: Remarks) {
        let Some(attempt) =
            self.attempts.with_untracked(|all| all.iter().find(|a| a.id == id).cloned())
        else {
            return;
        };
        let attempt = Attempt { own: said.own, notes: said.notes, ..attempt };
        self.learn(attempt).await;
        self.attempts.update(|_| ());
    }

    /// The run file of an attempt.
    pub(crate) async fn run(self, id: &str) -> Result<Option<String>, String> {
        let of_it = |l: &&Loose<(Attempt, String)>| l.record.0.id == id;
        let loose =
            self.loose.with_untracked(|all| all.iter().find(of_it).map(|l| l.record.1.clone()));
        match loose {
            Some(run) => Ok(Some(run)),
            None => Store::open().await?.run(id).await,
        }
    }

    /// Drops a drive that is not wanted.
    pub(crate) async fn drop_drive(self, id: &str) {
        let done = async { Store::open().await?.drop_drive(id).await };
        self.settled(done.await).await;
    }

    /// Deletes an attempt.
    pub(crate) async fn forget(self, id: &str) {
        self.loose.update(|all| all.retain(|l| l.record.0.id != id));
        let done = async { Store::open().await?.forget(id).await };
        self.settled(done.await).await;
    }

    /// Reads the lists again, and says what was not done until something is.
    async fn settled(self, done: Result<(), String>) {
        self.undone.set(done.err());
        self.refresh().await;
    }

    /// The attempt of this id.
    pub(crate) fn attempt(self, id: &str) -> Option<Attempt> {
        self.attempts.with(|all| all.iter().find(|a| a.id == id).cloned())
    }
}

/// Finished attempts, oldest first. One from before the simulation was kept learns it from its run
/// file, once.
async fn attempts(store: &Store) -> Result<Listed<Attempt>, String> {
    let mut read = store.attempts().await?;
    for attempt in read.all.iter_mut().filter(|a| a.simulation.is_none()) {
        let Some(run) = store.run(&attempt.id).await? else { continue };
        let Ok(simulation) = files::simulation_of(&attempt.id, &run) else { continue };
        attempt.simulation = Some(simulation);
        // What cannot be kept now is learned again the next time.
        let _ = store.amend(attempt).await;
    }
    let left_out = site::left_out(store).await;
    for attempt in &mut read.all {
        attempt.left_out = left_out.contains(&attempt.course);
    }
    loose::oldest_first(&mut read.all);
    Ok(read)
}

/// What was driven of this drive; None when there is no such drive.
///
/// # Errors
/// A sentence when it cannot be read.
pub(crate) async fn cut_drive(store: &Store, id: &str) -> Result<Option<CutDrive>, String> {
    match drive(store, id).await? {
        Found::Nothing => Ok(None),
        Found::Cut(cut) => Ok(Some(cut)),
        Found::Unreadable => Err(say(k("drive-unreadable"))),
    }
}

/// Names of the drives of this pre-test that are not finished.
async fn unfinished(store: &Store, sitting: &str) -> Result<Vec<String>, String> {
    Ok(drives_of(store, sitting).await?.into_iter().map(|drive| drive.id).collect())
}

/// What was driven, as signals.
pub(crate) fn use_store() -> StoreDesk {
    expect_context::<StoreDesk>()
}

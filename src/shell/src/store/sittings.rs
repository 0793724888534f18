//! What the pages keep of pre-tests.

use coneyard_core::class::driven;
use leptos::prelude::*;

use super::{Attempt, CutDrive, Keeper, Place, Store, StoreDesk, Taken, loose, unfinished};

impl StoreDesk {
    /// The pre-test of this id.
    pub(crate) fn sitting(self, id: &str) -> Option<Taken> {
        self.sittings.with(|all| all.iter().find(|s| s.id == id).cloned())
    }

    /// Its parts that are driven, in order, without a gap.
    pub(crate) fn driven(self, id: &str) -> Vec<Attempt> {
        self.attempts.with(|all| driven(all, id))
    }

    /// What was driven of a part that was cut off.
    pub(crate) fn cut_part(self, place: &Place) -> Option<CutDrive> {
        self.cut.with(|all| all.iter().find(|c| c.drive.place.as_ref() == Some(place)).cloned())
    }

    /// Keeps a pre-test as it stands; the pages see it at once.
    pub(crate) async fn keep_sitting(self, sitting: Taken) {
        let put = |all: &mut Vec<Taken>| match all.iter_mut().find(|s| s.id == sitting.id) {
            Some(known) => known.clone_from(&sitting),
            None => all.push(sitting.clone()),
        };
        self.sittings.update(put);
        self.put_sitting(sitting).await;
    }

    /// Keeps the record of a pre-test; what the database does not take is loose.
    pub(super) async fn put_sitting(self, sitting: Taken) {
        let kept = async { Store::open().await?.keep_sitting(&sitting).await };
        let kept = kept.await;
        self.loose_sittings.update(|all| loose::settle(all, sitting, kept, |s| s.id.clone()));
    }

    /// Gives a pre-test up. What was driven of the part under way goes; finished parts stay.
    pub(crate) async fn give_up(self, mut sitting: Taken) {
        sitting.given_up = true;
        let id = sitting.id.clone();
        self.keep_sitting(sitting).await;
        let dropped = async {
            let store = Store::open().await?;
            for drive in unfinished(&store, &id).await? {
                store.drop_drive(&drive).await?;
            }
            Ok(())
        };
        self.settled(dropped.await).await;
    }

    /// Deletes a pre-test with all its parts.
    pub(crate) async fn forget_sitting(self, id: &str) {
        self.loose_sittings.update(|all| all.retain(|l| l.record.id != id));
        let of_it = |a: &&Attempt| a.place.as_ref().is_some_and(|p| p.sitting == id);
        let parts: Vec<String> = self
            .attempts
            .with_untracked(|all| all.iter().filter(of_it).map(|a| a.id.clone()).collect());
        self.loose.update(|all| all.retain(|l| !parts.contains(&l.record.0.id)));
        let forgotten = async {
            let store = Store::open().await?;
            let drives = unfinished(&store, id).await?;
            store.forget_sitting(id, &parts, &drives).await
        };
        self.settled(forgotten.await).await;
    }
}

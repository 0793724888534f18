//! What the pages of the lesson share: the lesson as it was fetched, the records of lessons, and which of them is
//! being given. It lives as long as the page is loaded, so that going on to the next topic begins nothing anew.

use std::cell::Cell;
use std::rc::Rc;
use std::sync::Arc;

use coneyard_core::class::Keeper;
use coneyard_core::reading::Teaching;
use leptos::prelude::*;

use crate::browser;
use crate::canvas;
use crate::settings::{Settings, use_settings};
use crate::store::{Store, Taught};

/// Name under which the browser keeps which lesson is being given.
const GIVEN: &str = "coneyard-lesson";

type Fetched = Option<Result<Arc<Teaching>, String>>;

thread_local! {
    static SHARED: Shared = Shared {
        teaching: ArcRwSignal::new(None),
        all: ArcRwSignal::new(Vec::new()),
        given: ArcRwSignal::new(browser::recall(GIVEN).filter(|id| !id.is_empty())),
        unreadable: ArcRwSignal::new(0),
        trouble: ArcRwSignal::new(None),
        changes: Changes::default(),
    };
}

/// How many changes were begun, and how many of them are in the browser's database: what was read from it while one
/// was on its way may be older than what is here.
#[derive(Clone, Default)]
struct Changes(Rc<Cell<[u32; 2]>>);

impl Changes {
    fn begin(&self) {
        let [begun, ended] = self.0.get();
        self.0.set([begun + 1, ended]);
    }

    fn end(&self) {
        let [begun, ended] = self.0.get();
        self.0.set([begun, ended + 1]);
    }

    /// How many there were, when none is on its way.
    fn all_kept(&self) -> Option<u32> {
        let [begun, ended] = self.0.get();
        (begun == ended).then_some(begun)
    }
}

#[derive(Clone)]
struct Shared {
    teaching: ArcRwSignal<Fetched>,
    all: ArcRwSignal<Vec<Taught>>,
    given: ArcRwSignal<Option<String>>,
    unreadable: ArcRwSignal<usize>,
    trouble: ArcRwSignal<Option<String>>,
    changes: Changes,
}

/// The same for a page.
#[derive(Clone, Copy)]
pub(super) struct Desk {
    teaching: RwSignal<Fetched>,
    /// Lessons that were given, oldest first.
    pub(super) all: RwSignal<Vec<Taught>>,
    given: RwSignal<Option<String>>,
    /// So many records are there but cannot be read.
    pub(super) unreadable: RwSignal<usize>,
    /// Why the record was not kept, if so.
    pub(super) trouble: RwSignal<Option<String>>,
    settings: RwSignal<Settings>,
}

/// What the pages share, fetched and read if it is not there yet.
pub(super) fn use_desk() -> Desk {
    let shared = shared();
    let desk = Desk {
        teaching: shared.teaching.clone().into(),
        all: shared.all.clone().into(),
        given: shared.given.clone().into(),
        unreadable: shared.unreadable.clone().into(),
        trouble: shared.trouble.clone().into(),
        settings: use_settings(),
    };
    leptos::task::spawn_local(shared.read());
    desk
}

fn shared() -> Shared {
    SHARED.with(Clone::clone)
}

impl Shared {
    /// Reads the records and fetches the lesson, once; shown is nothing of it before both are there, so that a tick is
    /// one of the lesson that is being given.
    async fn read(self) {
        self.read_records().await;
        if !matches!(self.teaching.get_untracked(), Some(Ok(_))) {
            let read = |text: String| serde_json::from_str(&text).map_err(|e| e.to_string());
            self.teaching.set(Some(canvas::lesson().await.and_then(read).map(Arc::new)));
        }
    }

    async fn read_records(&self) {
        let before = self.changes.all_kept();
        let read = async { Store::open().await?.lessons().await };
        match read.await {
            Ok(mut listed) => {
                listed.all.sort_by(|a, b| (&a.started, &a.id).cmp(&(&b.started, &b.id)));
                self.unreadable.set(listed.unreadable);
                // What could not be kept is still here, and newer.
                let loose = self.trouble.get_untracked().is_some();
                let newer = before.is_none() || before != self.changes.all_kept();
                if !(loose || newer) && self.all.with_untracked(|all| *all != listed.all) {
                    self.all.set(listed.all);
                }
            }
            Err(why) => self.trouble.set(Some(why)),
        }
    }
}

impl Desk {
    /// The lesson.
    pub(super) fn teaching(self) -> Fetched {
        self.teaching.get()
    }

    /// The lesson that is being given.
    pub(super) fn given(self) -> Option<Taught> {
        let id = self.given.get()?;
        self.all.with(|all| all.iter().find(|t| t.id == id).cloned())
    }

    /// Changes the lesson that is being given, and keeps it; where none is, one begins.
    pub(super) fn change(self, teaching: &Teaching, change: impl FnOnce(&mut Taught)) {
        let mut taught = untrack(move || self.given()).unwrap_or_else(|| {
            let trainer = self.settings.with_untracked(|s| s.who.clone());
            let (id, now) = (browser::new_id(), browser::now());
            Taught::begin(id, &teaching.id, &teaching.lesson, now, trainer)
        });
        change(&mut taught);
        self.set_given(Some(taught.id.clone()));
        self.all.update(|all| match all.iter_mut().find(|t| t.id == taught.id) {
            Some(known) => known.clone_from(&taught),
            None => all.push(taught.clone()),
        });
        // The page may be left meanwhile: what came of it is told on the next one.
        let Shared { trouble, changes, .. } = shared();
        changes.begin();
        leptos::task::spawn_local(async move {
            let kept = async { Store::open().await?.keep_lesson(&taught).await };
            trouble.set(kept.await.err());
            changes.end();
        });
    }

    /// No lesson is being given any more: the next tick begins another one.
    pub(super) fn end(self) {
        self.set_given(None);
    }

    /// Goes on with one that was given before.
    pub(super) fn go_on(self, id: &str) {
        self.set_given(Some(id.to_owned()));
    }

    fn set_given(self, id: Option<String>) {
        browser::remember(GIVEN, id.as_deref().unwrap_or_default());
        if self.given.get_untracked() != id {
            self.given.set(id);
        }
    }

    /// Deletes the record of a lesson.
    pub(super) fn forget(self, id: String) {
        if self.given.get_untracked().as_deref() == Some(&id) {
            self.end();
        }
        let Shared { all, trouble, changes, .. } = shared();
        changes.begin();
        leptos::task::spawn_local(async move {
            let done = async { Store::open().await?.forget_lesson(&id).await };
            let done = done.await;
            if done.is_ok() {
                all.update(|all| all.retain(|t| t.id != id));
            }
            trouble.set(done.err());
            changes.end();
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_read_beside_a_change_is_older_than_what_is_here() {
        let changes = Changes::default();
        let before = changes.all_kept();
        assert_eq!(before, Some(0));
        changes.begin();
        assert_eq!(changes.all_kept(), None, "read now, it may be without the change");
        changes.begin();
        changes.end();
        assert_eq!(changes.all_kept(), None, "one of two is on its way");
        changes.end();
        assert_ne!(changes.all_kept(), before, "read before, and come after");
    }
}

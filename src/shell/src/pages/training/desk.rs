//! The record as the page has it, and where it is kept: with the class's host where there is one, else in this browser.
//! A change shows at once; what was changed meanwhile elsewhere is fetched, and the change is made on that.

use std::collections::VecDeque;
use std::sync::Arc;

use coneyard_core::class::{Keeper, Record, same_person, write_record};
use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use crate::host::{HostDesk, Role, Trouble, call, get, use_host};
use crate::store::Store;
use crate::words::{k, say, say_with, text};

/// A change, which can be made on a newer record as well.
type Change = Arc<dyn Fn(&mut Record) + Send + Sync>;

/// A record as the host hands it out and takes it.
#[derive(Clone, Debug, Serialize, Deserialize)]
struct Seen {
    edition: i64,
    is: Record,
}

#[derive(Deserialize)]
struct Edition {
    edition: i64,
}

#[derive(Deserialize)]
struct Member {
    person: String,
    name: String,
}

/// Where it is kept.
#[derive(Clone, Debug, PartialEq)]
enum Place {
    /// In this browser.
    Here,
    /// With the host, under this person's id.
    Host(String),
}

/// The record of one person.
#[derive(Clone, Copy)]
pub(super) struct Desk {
    seen: RwSignal<Option<Result<Seen, String>>>,
    place: StoredValue<Place>,
    /// Changes that are not kept yet, oldest first.
    open: StoredValue<VecDeque<Change>>,
    busy: StoredValue<bool>,
    kept: RwSignal<bool>,
    /// Why the last change is not kept, if so.
    pub(super) trouble: RwSignal<Option<String>>,
}

/// The desk of whoever is called so.
pub(super) fn use_desk(name: &str) -> Desk {
    let host = use_host();
    let desk = Desk {
        seen: RwSignal::new(None),
        place: StoredValue::new(Place::Here),
        open: StoredValue::new(VecDeque::new()),
        busy: StoredValue::new(false),
        kept: RwSignal::new(false),
        trouble: RwSignal::new(None),
    };
    let name = name.to_owned();
    leptos::task::spawn_local(async move {
        let found = find(host, &name).await;
        desk.kept.try_set(found.as_ref().is_ok_and(|(_, seen)| seen.edition > 0));
        match found {
            Ok((place, seen)) => {
                desk.place.try_set_value(place);
                desk.seen.try_set(Some(Ok(seen)));
            }
            Err(why) => {
                desk.seen.try_set(Some(Err(why)));
            }
        }
    });
    desk
}

async fn find(host: HostDesk, name: &str) -> Result<(Place, Seen), String> {
    match host.role_now() {
        Some(Role::Trainee) => Err(say(k("training-not-yours"))),
        Some(Role::Trainer | Role::Owner) => {
            let people: Vec<Member> = get("people").await.map_err(Trouble::sentence)?;
            let member = people.into_iter().find(|m| same_person(&m.name, name));
            let id = member.ok_or_else(|| say(k("person-none")))?.person;
            let seen = get(&format!("people/{id}/training")).await.map_err(Trouble::sentence)?;
            Ok((Place::Host(id), seen))
        }
        None => {
            let all = Store::open().await?.trainings().await?.all;
            let there = all.into_iter().find(|r| same_person(&r.person, name));
            Ok(match there {
                Some(is) => (Place::Here, Seen { edition: 1, is }),
                None => {
                    (Place::Here, Seen { edition: 0, is: Record::new(name.trim(), name.trim()) })
                }
            })
        }
    }
}

/// Keeps it; the new edition.
async fn keep(place: &Place, seen: &Seen) -> Result<i64, Trouble> {
    match place {
        Place::Here => {
            let kept = async { Store::open().await?.keep_training(&seen.is).await };
            kept.await.map(|()| seen.edition + 1).map_err(Trouble::Away)
        }
        Place::Host(id) => {
            let body = coneyard_core::outside::to_json(seen).map_err(Trouble::Away)?;
            let path = format!("people/{id}/training");
            call::<Edition>("PUT", &path, Some(body)).await.map(|e| e.edition)
        }
    }
}

impl Desk {
    /// Whether the record has come; or why it does not.
    pub(super) fn is_there(self) -> Result<bool, String> {
        self.seen.with(|seen| match seen {
            None => Ok(false),
            Some(Ok(_)) => Ok(true),
            Some(Err(why)) => Err(why.clone()),
        })
    }

    /// Something of the record; of an empty one as long as there is none.
    pub(super) fn with<T>(self, what: impl FnOnce(&Record) -> T) -> T {
        self.seen.with(|seen| of(seen, what))
    }

    /// The same, followed by nothing.
    pub(super) fn with_untracked<T>(self, what: impl FnOnce(&Record) -> T) -> T {
        self.seen.with_untracked(|seen| of(seen, what))
    }

    /// As a file.
    pub(super) fn text(self) -> Result<String, String> {
        self.with_untracked(write_record)
    }

    /// Whether there is one in this browser that can be deleted; the host deletes it with the person.
    pub(super) fn is_kept_here(self) -> bool {
        self.kept.get() && self.place.with_value(|p| *p == Place::Here)
    }

    /// Where it is, in words.
    pub(super) fn where_kept(self) -> String {
        match self.place.with_value(Clone::clone) {
            Place::Here => say(k("training-here")),
            Place::Host(_) => say(k("training-at-host")),
        }
    }

    /// Takes an entry out of one of its lists. The same may stand there twice: one of them goes.
    pub(super) fn drop_one<T: PartialEq + Send + Sync + 'static>(
        self,
        list: fn(&mut Record) -> &mut Vec<T>,
        entry: T,
    ) {
        self.change(move |record| {
            let list = list(record);
            if let Some(at) = list.iter().position(|e| *e == entry) {
                list.remove(at);
            }
        });
    }

    /// Changes it and keeps it.
    pub(super) fn change(self, change: impl Fn(&mut Record) + Send + Sync + 'static) {
        let change: Change = Arc::new(change);
        self.seen.update(|seen| {
            if let Some(Ok(seen)) = seen {
                change(&mut seen.is);
            }
        });
        self.open.update_value(|open| open.push_back(change));
        if self.busy.get_value() {
            return;
        }
        self.busy.set_value(true);
        leptos::task::spawn_local(async move {
            // None, when the page is gone.
            while self.open.try_with_value(VecDeque::is_empty) == Some(false) {
                if let Err(why) = self.keep_open().await {
                    self.trouble.try_set(Some(why));
                    break;
                }
                self.trouble.try_set(None);
                self.kept.try_set(true);
            }
            self.busy.try_set_value(false);
        });
    }

    /// Keeps what is open now. What cannot be kept stays open, and is kept with the next change.
    async fn keep_open(self) -> Result<(), String> {
        let of = |seen: &Option<Result<Seen, String>>| seen.as_ref()?.as_ref().ok().cloned();
        let Some(Some(seen)) = self.seen.try_with_untracked(of) else { return Ok(()) };
        let Some(place) = self.place.try_get_value() else { return Ok(()) };
        let count = self.open.with_value(VecDeque::len);
        let not_kept =
            |why: Trouble| say_with(k("training-not-kept"), vec![("why", text(why.sentence()))]);
        match keep(&place, &seen).await {
            Ok(edition) => {
                self.seen.try_update(|now| {
                    if let Some(Ok(now)) = now {
                        now.edition = edition;
                    }
                });
                self.open.try_update_value(|open| drop(open.drain(..count)));
                Ok(())
            }
            Err(Trouble::Refused(409, _)) => {
                let Place::Host(id) = &place else { return Ok(()) };
                let path = format!("people/{id}/training");
                let mut newer: Seen = get(&path).await.map_err(not_kept)?;
                self.open.with_value(|open| open.iter().for_each(|change| change(&mut newer.is)));
                self.seen.try_set(Some(Ok(newer)));
                Ok(())
            }
            Err(why) => Err(not_kept(why)),
        }
    }

    /// Deletes it from this browser.
    pub(super) fn forget(self) {
        let person = self.with_untracked(|r| r.person.clone());
        leptos::task::spawn_local(async move {
            let done = async { Store::open().await?.forget_training(&person).await };
            let done = done.await;
            if done.is_ok() {
                self.kept.try_set(false);
                self.seen.try_update(|seen| {
                    if let Some(Ok(seen)) = seen {
                        *seen = Seen { edition: 0, is: Record::new(&person, &seen.is.operator) };
                    }
                });
            }
            self.trouble.try_set(done.err());
        });
    }
}

fn of<T>(seen: &Option<Result<Seen, String>>, what: impl FnOnce(&Record) -> T) -> T {
    match seen {
        Some(Ok(seen)) => what(&seen.is),
        _ => what(&Record::new("", "")),
    }
}

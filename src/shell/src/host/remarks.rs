//! What is said of drives, exchanged with the host: what was said here goes there, and what was said there comes here. Both
//! may have changed since they were the same last; then each side has what the other said, and lacks what it unsaid.

use std::collections::BTreeMap;

use coneyard_core::class::Remarks;
use coneyard_core::outside::to_json;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use super::{HostDesk, Role, Trouble, call, get};
use crate::canvas;
use crate::route::Route;
use crate::store::{Attempt, Store, StoreDesk};

/// One tab exchanges at a time.
const LOCK: &str = "coneyard-remarks";
/// So often it is tried anew when others write at the same time.
const TRIES: usize = 3;

/// As the host hands it out and takes it.
#[derive(Serialize, Deserialize)]
struct Seen {
    edition: i64,
    is: Remarks,
}

#[derive(Deserialize)]
struct Edition {
    #[serde(rename = "edition")]
    _edition: i64,
}

fn of(attempt: &Attempt) -> Remarks {
    Remarks { own: attempt.own.clone(), notes: attempt.notes.clone(), ..Remarks::default() }
}

/// Exchanges what was said of one attempt, whose run the host knows by this name. What came is kept with the attempt
/// where `takes`: a page that shows the attempt would go on from what it has.
///
/// # Errors
/// The host is away, or refuses.
pub(crate) async fn exchange(
    store: StoreDesk,
    attempt: &Attempt,
    run: &str,
    takes: bool,
) -> Result<(), Trouble> {
    let path = format!("runs/{run}/remarks");
    let marks = Store::open().await.map_err(Trouble::Away)?;
    let base = marks.said_alike(&attempt.id).await.map_err(Trouble::Away)?;
    let here = of(attempt);
    for _ in 0..TRIES {
        let there: Seen = get(&path).await?;
        let merged = Remarks::merged(&base, &here, &there.is);
        let mut now = there.is;
        if merged != now {
            let sent = Seen { edition: there.edition, is: merged };
            let body = to_json(&sent).map_err(Trouble::Away)?;
            match call::<Edition>("PUT", &path, Some(body)).await {
                Err(Trouble::Refused(409, _)) => continue,
                done => done?,
            };
            // As the host has it now: it signs notes, and keeps what is not this one's to change.
            now = get::<Seen>(&path).await?.is;
        }
        let common = if takes { now.clone() } else { Remarks::in_common(&here, &now) };
        marks.keep_said_alike(&attempt.id, &common).await.map_err(Trouble::Away)?;
        if takes && now != here {
            store.take_remarks(&attempt.id, now).await;
        }
        return Ok(());
    }
    Ok(())
}

/// Exchanges whenever something was said here; and what others said of one's own drives when the network comes back, the
/// page is looked at again, or another page is opened.
pub(crate) fn follow(host: HostDesk, store: StoreDesk, route: RwSignal<Route>) {
    let wakes = RwSignal::new(0_u32);
    let wake = move || {
        wakes.try_update(|n| *n = n.wrapping_add(1));
    };
    let back = window_event_listener(leptos::ev::online, move |_| wake());
    let seen = window_event_listener_untyped("visibilitychange", move |_| wake());
    on_cleanup(move || {
        back.remove();
        seen.remove();
    });
    let role = Memo::new(move |_| host.role());
    Effect::new(move |_| {
        wakes.track();
        store.learned.track();
        host.waiting.track();
        let takes = route
            .with(|r| !matches!(r, Route::Debrief(_) | Route::Replay { .. } | Route::Tour { .. }));
        let (Some(role), true) = (role.get(), store.ready.get()) else { return };
        leptos::task::spawn_local(async move {
            if !canvas::hold(LOCK).await {
                // Another tab is at it, or this one still is.
                return;
            }
            // What could not be exchanged now is the next time.
            let _ = all(store, role, takes).await;
            canvas::let_go(LOCK);
        });
    });
}

async fn all(store: StoreDesk, role: Role, takes: bool) -> Result<(), Trouble> {
    let marks = Store::open().await.map_err(Trouble::Away)?;
    let sent = marks.sent_as().await.map_err(Trouble::Away)?;
    let attempts = store.attempts.get_untracked();
    let attempts: BTreeMap<&str, &Attempt> = attempts.iter().map(|a| (a.id.as_str(), a)).collect();
    // What others said of one's own drives.
    let theirs: BTreeMap<String, Remarks> = match takes && role == Role::Trainee && !sent.is_empty()
    {
        true => get::<Vec<(String, Remarks)>>("remarks").await?.into_iter().collect(),
        false => BTreeMap::new(),
    };
    for (id, run) in sent {
        let Some(attempt) = attempts.get(id.as_str()) else { continue };
        let base = marks.said_alike(&id).await.map_err(Trouble::Away)?;
        let news = theirs.get(&run).is_some_and(|is| *is != of(attempt));
        if of(attempt) != base || news {
            match exchange(store, attempt, &run, takes).await {
                // Not this one, which may have been deleted there; the others are none the worse.
                Err(Trouble::Refused(404 | 422, _)) => {}
                done => done?,
            }
        }
    }
    Ok(())
}

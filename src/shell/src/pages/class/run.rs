//! A run of the class, taken over to this device to be looked at.

use leptos::prelude::*;
use serde_json::value::RawValue;

use crate::host::{Trouble, exchange, get};
use crate::pages::import::take_run;
use crate::route::{Route, go_instead};
use crate::store::{Attempt, Store, StoreDesk, use_store};
use crate::words::{k, say, say_with, text, tr};

/// Takes over what was said of it, and marks it as one that the host has: what is said here goes there.
async fn said_of(store: StoreDesk, page: &Route, run: &str) -> Result<(), String> {
    let Route::Debrief(id) = page else { return Ok(()) };
    Store::open().await?.mark_sent(id, run).await?;
    let find = |all: &Vec<Attempt>| all.iter().find(|a| a.id == *id).cloned();
    match store.attempts.with_untracked(find) {
        Some(attempt) => exchange(store, &attempt, run, true).await.map_err(Trouble::sentence),
        None => Ok(()),
    }
}

/// Fetches a run of the class's host and drives it again here; the page that tells of it.
///
/// # Errors
/// One sentence: the host is away, or the run cannot be read.
pub(super) async fn fetch(store: StoreDesk, run: &str) -> Result<Route, String> {
    let file: Box<RawValue> = get(&format!("runs/{run}")).await.map_err(Trouble::sentence)?;
    let page = take_run(store, run, file.get().to_owned()).await?;
    // Without what was said of it, it can be looked at all the same.
    let _ = said_of(store, &page, run).await;
    Ok(page)
}

/// Fetches it, and goes on to its debrief.
#[component]
pub(crate) fn ClassRun(run: String) -> impl IntoView {
    let store = use_store();
    let trouble = RwSignal::new(None::<String>);
    leptos::task::spawn_local(async move {
        match fetch(store, &run).await {
            Ok(page) => go_instead(&page),
            Err(why) => {
                trouble.try_set(Some(why));
            }
        }
    });
    move || match trouble.get() {
        None => view! { <p role="status">{say(k("class-run-opening"))}</p> }.into_any(),
        Some(why) => view! {
            <p class="note warn" role="alert">
                {say_with(k("import-trouble"), vec![("why", text(why))])}
            </p>
            <p>
                <a class="button" href="#/class">
                    {tr("class-to")}
                </a>
            </p>
        }
        .into_any(),
    }
}

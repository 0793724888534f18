//! A run or a whole pre-test that comes in as a file: read at the border, judged, and kept with
//! the others.

use coneyard_core::pretest;
use coneyard_core::reading::{CameIn, Question};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;

use crate::browser::new_id;
use crate::canvas;
use crate::reader;
use crate::route::Route;
use crate::route::go;
use crate::store::{Attempt, Place, StoreDesk, Taken, use_store};
use crate::words::{k, say, say_with, text, tr};

/// The field for a file.
#[component]
pub(crate) fn Import() -> impl IntoView {
    let store = use_store();
    let working = RwSignal::new(false);
    let trouble = RwSignal::new(None::<String>);
    let take = move |ev: leptos::ev::Event| {
        let input = event_target::<web_sys::HtmlInputElement>(&ev);
        let Some(file) = input.files().and_then(|files| files.get(0)) else {
            return;
        };
        working.set(true);
        trouble.set(None);
        leptos::task::spawn_local(async move {
            match taken_in(store, &file).await {
                Ok(page) => go(&page),
                Err(why) => {
                    trouble.try_set(Some(why));
                }
            }
            working.try_set(false);
            // The same file may be chosen again.
            input.set_value("");
        });
    };
    view! {
        <section class="card" aria-labelledby="import-title">
            <h2 id="import-title">{tr("import-title")}</h2>
            <label class="field">
                <span>{tr("import-label")}</span>
                <input type="file" accept=".json,application/json" on:change=take />
            </label>
            <p role="status">
                {move || working.get().then(|| say(k("import-judging")))}
                {move || {
                    trouble
                        .get()
                        .map(|why| say_with(k("import-trouble"), vec![("why", text(why))]))
                }}
            </p>
        </section>
    }
}

/// Reads, judges and keeps what came in; gives the page that tells of it.
async fn taken_in(store: StoreDesk, file: &web_sys::File) -> Result<Route, String> {
    let name = file.name();
    // Before it is read into memory: no run and no pre-test is as large as this.
    if file.size() > pretest::MAX_BYTES as f64 {
        let bytes = text(format!("{:.0}", file.size()));
        return Err(say_with(k("import-too-large"), vec![("file", text(name)), ("bytes", bytes)]));
    }
    let blob: &web_sys::Blob = file.unchecked_ref();
    let whole = JsFuture::from(blob.text()).await.map_err(canvas::sentence)?;
    let whole = whole.as_string().unwrap_or_default();
    canvas::load().await?;
    let came = Question::CameIn { file: name.clone(), text: whole.clone(), id: new_id() };
    if let CameIn::Sitting(taken, runs) = reader::ask(&came).await? {
        return sitting(store, &name, taken, runs).await;
    }
    let attempt = judged(&name, &whole)?;
    let known = store
        .attempts
        .with_untracked(|all| all.iter().find(|a| a.is_same_run(&attempt)).map(|a| a.id.clone()));
    let id = known.clone().unwrap_or_else(|| attempt.id.clone());
    if known.is_none() {
        store.keep(attempt, whole).await;
    }
    Ok(Route::Debrief(id))
}

/// The attempt that a run comes to.
fn judged(name: &str, run: &str) -> Result<Attempt, String> {
    let verdict = canvas::judge(run)?;
    Ok(Attempt::new(new_id(), canvas::told(name, run)?, verdict, true))
}

/// Keeps a pre-test with its parts; all of them are judged before the first is kept.
async fn sitting(
    store: StoreDesk,
    name: &str,
    taken: Taken,
    runs: Vec<String>,
) -> Result<Route, String> {
    let mut parts = Vec::new();
    for (part, run) in runs.into_iter().enumerate() {
        let mut attempt = judged(&format!("{name}, part {}", part + 1), &run)?;
        attempt.place = Some(Place { sitting: taken.id.clone(), part });
        parts.push((attempt, run));
    }
    let same = |known: &Taken| {
        let driven = untrack(|| store.driven(&known.id));
        let is_same = |t: &Taken| (t.class_word.clone(), t.seat, t.who.clone(), t.started.clone());
        is_same(known) == is_same(&taken)
            && known.pauses == taken.pauses
            && driven.len() == parts.len()
            && driven.iter().zip(&parts).all(|(a, (b, _))| a.is_same_run(b))
    };
    let known =
        store.sittings.with_untracked(|all| all.iter().find(|t| same(t)).map(|t| t.id.clone()));
    if let Some(id) = known {
        return Ok(Route::Sitting(id));
    }
    let page = Route::Sitting(taken.id.clone());
    for (attempt, run) in parts {
        store.keep(attempt, run).await;
    }
    store.keep_sitting(taken).await;
    Ok(page)
}

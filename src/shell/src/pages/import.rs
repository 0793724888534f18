//! A run that comes in as a file: read at the border, judged, and kept with the others.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;

use crate::app::go;
use crate::browser::new_id;
use crate::route::Route;
use crate::store::{Attempt, use_store};
use crate::words::{k, say, say_with, text, tr};
use crate::yard;

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
            match read(&file).await {
                Ok((attempt, run)) => {
                    let known = store.attempts.with_untracked(|all| {
                        all.iter().find(|a| same_run(a, &attempt)).map(|a| a.id.clone())
                    });
                    let id = known.clone().unwrap_or_else(|| attempt.id.clone());
                    if known.is_none() {
                        store.keep(attempt, run).await;
                    }
                    go(&Route::Debrief(id));
                }
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

/// The same drive: a file that comes in twice, or comes back, is not another attempt.
fn same_run(a: &Attempt, b: &Attempt) -> bool {
    a.started == b.started
        && a.who == b.who
        && a.verdict.final_digest == b.verdict.final_digest
        && a.verdict.reproduces == b.verdict.reproduces
}

/// Reads, judges and names what came in.
async fn read(file: &web_sys::File) -> Result<(Attempt, String), String> {
    let name = file.name();
    // Before it is read into memory: no run is as large as this.
    if file.size() > coneyard_core::run::file::MAX_BYTES as f64 {
        let bytes = text(format!("{:.0}", file.size()));
        return Err(say_with(k("import-too-large"), vec![("file", text(name)), ("bytes", bytes)]));
    }
    let blob: &web_sys::Blob = file.unchecked_ref();
    let run = JsFuture::from(blob.text()).await.map_err(yard::sentence)?;
    let run = run.as_string().unwrap_or_default();
    yard::load().await?;
    let verdict = yard::judge(&run)?;
    let attempt = Attempt::of(new_id(), &name, &run, verdict, true)?;
    Ok((attempt, run))
}

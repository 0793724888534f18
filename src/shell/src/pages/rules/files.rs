//! The rules out as a file and in from one: as the two programs and the site's builder read it.

use coneyard_core::reading::Question;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;

use super::Desk;
use crate::browser;
use crate::canvas;
use crate::parts::press::Press;
use crate::reader;
use crate::words::{k, say, tr};

/// Name of the file that goes out.
const FILE: &str = "site-rules.json";
/// A larger file is not read at all, bytes: no rules are as large (`core::rules` refuses them at a quarter of it).
const MOST: f64 = 1024.0 * 1024.0;

/// Out, and in.
#[component]
pub(super) fn Files(desk: Desk) -> impl IntoView {
    let refused = RwSignal::new(None::<String>);
    let out = move |_| {
        leptos::task::spawn_local(async move {
            let question = Question::RulesFile(desk.draft.get_untracked());
            let saved = match reader::ask::<String>(&question).await {
                Ok(text) => browser::save_file(FILE, &text).map_err(canvas::sentence),
                Err(why) => Err(why),
            };
            refused.try_set(saved.err());
        });
    };
    let take = move |ev: leptos::ev::Event| {
        let input = event_target::<web_sys::HtmlInputElement>(&ev);
        let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
        leptos::task::spawn_local(async move {
            let taken = take_in(desk, &file).await;
            if taken.is_ok() {
                desk.news.try_set(say(k("rules-came-in")));
            }
            refused.try_set(taken.err());
            // The same file may be chosen again.
            input.set_value("");
        });
    };
    view! {
        <section class="card" aria-labelledby="rules-files-title">
            <h2 id="rules-files-title">{tr("rules-files")}</h2>
            <p>{tr("rules-files-lead")}</p>
            <div class="fields">
                <label class="field">
                    <span>{tr("rules-in")}</span>
                    <input type="file" id="rules-in" accept=".json,application/json" on:change=take />
                </label>
            </div>
            <p class="actions">
                <Press name=k("rules-out") id="rules-out" act=out />
            </p>
            <p role="alert" id="rules-file-refused">
                {refused}
            </p>
        </section>
    }
}

/// Takes a file as the draft.
async fn take_in(desk: Desk, file: &web_sys::File) -> Result<(), String> {
    desk.take(read(file).await?).await
}

/// What is in a file.
///
/// # Errors
/// One sentence when it is larger than anything that a site sets, or cannot be read.
pub(super) async fn read(file: &web_sys::File) -> Result<String, String> {
    if file.size() > MOST {
        return Err(say(k("rules-too-large")));
    }
    let blob: &web_sys::Blob = file.unchecked_ref();
    let text = JsFuture::from(blob.text()).await.map_err(canvas::sentence)?;
    Ok(text.as_string().unwrap_or_default())
}

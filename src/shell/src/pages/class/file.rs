//! The class as one file, out and in.

use leptos::prelude::*;
use serde::Deserialize;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;

use crate::canvas;
use crate::host::{Trouble, call};
use crate::words::{k, number, say_with, tr};

/// What came of taking a file in.
#[derive(Deserialize)]
struct Taken {
    runs: u32,
    new: u32,
}

async fn take_in(file: &web_sys::File) -> Result<String, String> {
    let blob: &web_sys::Blob = file.unchecked_ref();
    let text = JsFuture::from(blob.text()).await.map_err(canvas::sentence)?;
    let text = text.as_string().unwrap_or_default();
    let Taken { runs, new } =
        call("PUT", "class/file", Some(text)).await.map_err(Trouble::sentence)?;
    Ok(say_with(k("class-file-taken"), vec![("new", number(new)), ("runs", number(runs))]))
}

/// Both ways; `changed` is called when something came in.
#[component]
pub(super) fn File(#[prop(into)] changed: Callback<()>) -> impl IntoView {
    let said = RwSignal::new(None::<String>);
    let take = move |ev: leptos::ev::Event| {
        let input = event_target::<web_sys::HtmlInputElement>(&ev);
        let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
        leptos::task::spawn_local(async move {
            said.try_set(Some(take_in(&file).await.unwrap_or_else(|why| why)));
            // The same file may be chosen again.
            input.set_value("");
            changed.run(());
        });
    };
    view! {
        <section aria-labelledby="class-file-title">
            <h2 id="class-file-title">{tr("class-file")}</h2>
            <p class="quiet">{tr("class-file-more")}</p>
            <div class="fields">
                <p>
                    <a class="button" id="save-class" href="api/class/file" download="class.coneyard.json">
                        {tr("class-file-save")}
                    </a>
                </p>
                <label class="field">
                    <span>{tr("class-file-take")}</span>
                    <input type="file" id="take-class" accept=".json,application/json" on:change=take />
                </label>
            </div>
            <p role="status">{move || said.get()}</p>
        </section>
    }
}

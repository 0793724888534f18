//! The list of what is seen at the real truck, by which sheets for practice and evaluation are filled in: the site's own
//! in from a file, out as one, and back to the one that came with the site.

use coneyard_core::class::workplace::List;
use coneyard_core::reading::Question;
use leptos::prelude::*;

use super::files::read;
use crate::browser;
use crate::canvas;
use crate::courses::said;
use crate::parts::press::Press;
use crate::reader;
use crate::site::{keep_own_list, own_list};
use crate::words::{k, say_with, text, tr};

/// Name of the file that goes out.
const FILE: &str = "workplace.json";

/// The list that holds, and whether it is the site's own.
async fn in_force() -> Result<(List, bool), String> {
    let own = own_list().await?;
    let is_own = own.is_some();
    let list = reader::ask(&Question::Workplace(own.unwrap_or_default())).await?;
    Ok((list, is_own))
}

/// Takes a file as the site's own list, if the reader takes it.
async fn take_in(file: &web_sys::File) -> Result<(), String> {
    let given = read(file).await?;
    // The reader refuses what is no list, in one sentence.
    let list: String = reader::ask(&Question::WorkplaceFile(given)).await?;
    keep_own_list(Some(&list)).await
}

/// The card.
#[component]
pub(super) fn SheetList() -> impl IntoView {
    let holds = RwSignal::new(None::<Result<(List, bool), String>>);
    let refused = RwSignal::new(None::<String>);
    let look = move || async move {
        let found = in_force().await;
        holds.try_set(Some(found));
    };
    leptos::task::spawn_local(look());
    let take = move |ev: leptos::ev::Event| {
        let input = event_target::<web_sys::HtmlInputElement>(&ev);
        let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
        leptos::task::spawn_local(async move {
            refused.try_set(take_in(&file).await.err());
            look().await;
            // The same file may be chosen again.
            input.set_value("");
        });
    };
    let out = move |_| {
        leptos::task::spawn_local(async move {
            let saved = async {
                let file = Question::WorkplaceFile(own_list().await?.unwrap_or_default());
                let text: String = reader::ask(&file).await?;
                browser::save_file(FILE, &text).map_err(canvas::sentence)
            };
            refused.try_set(saved.await.err());
        });
    };
    let back = move |_| {
        leptos::task::spawn_local(async move {
            refused.try_set(keep_own_list(None).await.err());
            look().await;
        });
    };
    let is_own = Signal::derive(move || holds.with(|h| matches!(h, Some(Ok((_, true))))));
    let told = move || match holds.get() {
        None => None,
        Some(Err(why)) => Some(why),
        Some(Ok((list, own))) => {
            let which = if own { k("rules-sheets-own") } else { k("rules-sheets-shipped") };
            Some(say_with(which, vec![("list", text(said(&list.name)))]))
        }
    };
    view! {
        <section class="card" aria-labelledby="rules-sheets-title">
            <h2 id="rules-sheets-title">{tr("rules-sheets")}</h2>
            <p>{tr("rules-sheets-lead")}</p>
            <p id="rules-sheets-holds" data-own=move || is_own.get().to_string()>
                {told}
            </p>
            <div class="fields">
                <label class="field">
                    <span>{tr("rules-sheets-in")}</span>
                    <input
                        type="file"
                        id="rules-sheets-in"
                        accept=".json,application/json"
                        on:change=take
                    />
                </label>
            </div>
            <p class="actions">
                <Press name=k("rules-sheets-out") id="rules-sheets-out" act=out />
                <Show when=move || is_own.get()>
                    <Press name=k("rules-sheets-back") id="rules-sheets-back" act=back />
                </Show>
            </p>
            <p role="alert" id="rules-sheets-refused">
                {refused}
            </p>
        </section>
    }
}

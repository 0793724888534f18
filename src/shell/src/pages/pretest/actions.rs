//! What can be done with a sitting: save it as a file, give it up, delete it.

use coneyard_core::reading::Question;
use leptos::prelude::*;

use crate::browser::save_file;
use crate::canvas;
use crate::parts::press::{Delete, Press};
use crate::reader;
use crate::route::Route;
use crate::route::go;
use crate::store::{Attempt, StoreDesk, Taken, use_store};
use crate::words::{k, say, say_with, text, tr};

/// The file of a sitting, and its name.
async fn file(
    store: StoreDesk,
    taken: &Taken,
    driven: &[Attempt],
) -> Result<(String, String), String> {
    let mut runs = Vec::new();
    for part in driven {
        runs.push(store.run(&part.id).await?.ok_or_else(|| say(k("run-not-there")))?);
    }
    reader::ask(&Question::SittingFile(taken.clone(), runs)).await
}

/// Hands the sitting out as a file.
#[component]
pub(super) fn Save(taken: Taken, driven: Vec<Attempt>) -> impl IntoView {
    let store = use_store();
    let trouble = RwSignal::new(None::<String>);
    let all = StoredValue::new((taken, driven));
    let save = move |_| {
        leptos::task::spawn_local(async move {
            let (taken, driven) = all.get_value();
            let saved = file(store, &taken, &driven)
                .await
                .and_then(|(name, text)| save_file(&name, &text).map_err(canvas::sentence));
            trouble.try_set(saved.err());
        });
    };
    view! {
        <Press name=k("pretest-save") id="save-sitting" act=save />
        {move || {
            trouble
                .get()
                .map(|why| {
                    let said = say_with(k("pretest-save-trouble"), vec![("why", text(why))]);
                    view! {
                        <p class="note warn" role="alert">
                            {said}
                        </p>
                    }
                })
        }}
    }
}

/// Ends a sitting before its last part, after a question.
#[component]
pub(super) fn GiveUp(taken: Taken) -> impl IntoView {
    let store = use_store();
    let asking = RwSignal::new(false);
    let taken = StoredValue::new(taken);
    let give_up = move |_| {
        leptos::task::spawn_local(async move { store.give_up(taken.get_value()).await });
    };
    move || {
        if !asking.get() {
            let ask = move |_| asking.set(true);
            return view! { <Press name=k("pretest-give-up") id="give-up" act=ask /> }.into_any();
        }
        view! {
            <div class="note warn" role="alert">
                <p>{tr("pretest-give-up-sure")}</p>
                <p class="actions">
                    <Press name=k("pretest-give-up-no") act=move |_| asking.set(false) />
                    <Press
                        name=k("pretest-give-up-yes")
                        id="give-up-sure"
                        class="grave"
                        act=give_up
                    />
                </p>
            </div>
        }
        .into_any()
    }
}

/// Deletes a sitting with its parts.
#[component]
pub(super) fn Forget(id: String) -> impl IntoView {
    let store = use_store();
    let id = StoredValue::new(id);
    let delete = move |_| {
        leptos::task::spawn_local(async move {
            store.forget_sitting(&id.get_value()).await;
            go(&Route::PreTest);
        });
    };
    view! { <Delete act=delete /> }
}

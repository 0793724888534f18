//! What can be done with a finished attempt: at the top what most people want, at the end the rest.

use coneyard_core::class::run_file_name;
use leptos::prelude::*;

use super::next::Next;
use crate::browser::save_file;
use crate::canvas;
use crate::parts::press::{Delete, Press};
use crate::route::Route;
use crate::route::go;
use crate::store::{Attempt, use_store};
use crate::words::{k, say, say_with, text, tr};

/// Drive on, look at it, print it. A part is not driven again: the way leads back to its pre-test.
#[component]
pub(super) fn TopActions(attempt: Attempt) -> impl IntoView {
    let replay = Route::Replay { id: attempt.id.clone(), at: None, finding: None }.href();
    let can_replay = attempt.can_be_driven_again();
    let print = Route::Print(attempt.id.clone()).href();
    let on = match &attempt.place {
        Some(place) => {
            let href = Route::Sitting(place.sitting.clone()).href();
            view! {
                <a class="button primary" id="to-sitting" href=href>
                    {tr("pretest-to-whole")}
                </a>
            }
            .into_any()
        }
        None => view! { <Next attempt /> }.into_any(),
    };
    view! {
        <div class="actions top-actions no-print">
            {on}
            {can_replay
                .then(|| {
                    view! {
                        <a class="button" id="open-replay" href=replay>
                            {tr("debrief-replay")}
                        </a>
                    }
                })} <a class="button" id="open-print" href=print>
                {tr("debrief-print")}
            </a>
        </div>
    }
}

/// Save it, or delete it. A part goes with its pre-test.
#[component]
pub(super) fn Actions(attempt: Attempt) -> impl IntoView {
    let store = use_store();
    let trouble = RwSignal::new(None::<String>);
    let place = attempt.place.clone();
    let is_part = move || place.as_ref().is_some_and(|p| store.sitting(&p.sitting).is_some());
    let is_part = Memo::new(move |_| is_part());
    let id = StoredValue::new(attempt.id.clone());
    let attempt = StoredValue::new(attempt);
    let export = move |_| {
        leptos::task::spawn_local(async move {
            let saved = match store.run(&id.get_value()).await {
                Ok(Some(run)) => {
                    save_file(&attempt.with_value(run_file_name), &run).map_err(canvas::sentence)
                }
                Ok(None) => Err(say(k("run-not-there"))),
                Err(why) => Err(why),
            };
            trouble.try_set(saved.err());
        });
    };
    let delete = move |_| {
        leptos::task::spawn_local(async move {
            store.forget(&id.get_value()).await;
            go(&Route::Path);
        });
    };
    view! {
        <p class="actions no-print">
            <Press name=k("debrief-export") id="export-run" act=export />
            <Show when=move || !is_part.get()>
                <Delete act=delete />
            </Show>
        </p>
        <p role="status">
            {move || {
                trouble.get().map(|why| say_with(k("export-trouble"), vec![("why", text(why))]))
            }}
        </p>
    }
}

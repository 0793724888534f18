//! What can be done with a finished attempt: replay, again, save, print, delete.

use coneyard_core::class::run_file_name;
use leptos::prelude::*;

use crate::browser::save_file;
use crate::canvas;
use crate::parts::press::{Delete, Press};
use crate::route::Route;
use crate::route::go;
use crate::store::{Attempt, use_store};
use crate::words::{k, say, say_with, text, tr};

/// The buttons.
#[component]
pub(super) fn Actions(attempt: Attempt) -> impl IntoView {
    let store = use_store();
    let trouble = RwSignal::new(None::<String>);
    let replay = Route::Replay { id: attempt.id.clone(), at: None }.href();
    let can_replay = attempt.can_be_driven_again();
    let print = Route::Print(attempt.id.clone()).href();
    let again =
        Route::Drive { course: attempt.course.clone(), truck: attempt.truck.clone() }.href();
    let place = attempt.place.clone();
    // A part is not driven again, and goes with its pre-test.
    let whole = place.as_ref().map(|p| Route::Sitting(p.sitting.clone()).href());
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
            {can_replay
                .then(|| {
                    view! {
                        <a class="button" id="open-replay" href=replay>
                            {tr("debrief-replay")}
                        </a>
                    }
                })}
            {whole
                .clone()
                .map(|href| {
                    view! {
                        <a class="button" id="to-sitting" href=href>
                            {tr("pretest-to-whole")}
                        </a>
                    }
                })}
            {whole
                .is_none()
                .then(|| {
                    view! {
                        <a class="button" id="drive-again" href=again>
                            {tr("debrief-again")}
                        </a>
                    }
                })}
            <Press name=k("debrief-export") id="export-run" act=export />
            <a class="button" id="open-print" href=print>
                {tr("debrief-print")}
            </a>
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

//! What cannot be read, what was not done and what is not kept, said above every page until it is
//! mended. What is not kept can be saved as a file.

use coneyard_core::class::run_file_name;
use leptos::prelude::*;

use super::press::Press;
use crate::browser::save_file;
use crate::canvas;
use crate::courses::use_library;
use crate::parts::when::Moment;
use crate::route::Route;
use crate::store::{Attempt, Loose, use_store};
use crate::words::{k, number, say_with, text};

/// All of it; nothing when all is well.
#[component]
pub(crate) fn Kept() -> impl IntoView {
    let store = use_store();
    let lines = Memo::new(move |_| {
        let why = |why: String| vec![("why", text(why))];
        let unreadable = store.unreadable.get();
        let count = vec![("count", number(unreadable as f64))];
        [
            store.trouble.get().map(|e| ("trouble", say_with(k("store-trouble"), why(e)))),
            (unreadable > 0).then(|| ("unreadable", say_with(k("store-unreadable"), count))),
            store.undone.get().map(|e| ("undone", say_with(k("store-undone"), why(e)))),
        ]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
    });
    let lines = move || {
        let line = |(what, said): (&'static str, String)| {
            view! {
                <p class="note warn" role="alert" data-store=what>
                    <span aria-hidden="true">"▲ "</span>
                    {said}
                </p>
            }
        };
        lines.get().into_iter().map(line).collect_view()
    };
    view! {
        <div class="kept no-print">{lines} <NotKept /></div>
    }
}

/// The attempts that the database did not take.
#[component]
fn NotKept() -> impl IntoView {
    let store = use_store();
    let trouble = RwSignal::new(None::<String>);
    let again = move |_| leptos::task::spawn_local(store.refresh());
    move || {
        let loose = store.loose.get();
        let why = loose.last()?.why.clone();
        let values = vec![("count", number(loose.len() as f64)), ("why", text(why))];
        let rows = loose
            .into_iter()
            .map(|Loose { record: (attempt, run), .. }| view! { <Row attempt run trouble /> })
            .collect_view();
        Some(view! {
            <section class="note warn" role="alert" data-store="loose">
                <p>
                    <span aria-hidden="true">"▲ "</span>
                    {say_with(k("store-loose"), values)}
                </p>
                <ul class="plain">{rows}</ul>
                <p class="actions">
                    <Press name=k("store-try-again") id="keep-again" act=again />
                </p>
                <p role="status">
                    {move || {
                        trouble
                            .get()
                            .map(|why| say_with(k("export-trouble"), vec![("why", text(why))]))
                    }}
                </p>
            </section>
        })
    }
}

#[component]
fn Row(attempt: Attempt, run: String, trouble: RwSignal<Option<String>>) -> impl IntoView {
    let library = use_library();
    let href = Route::Debrief(attempt.id.clone()).href();
    let (course, at) = (attempt.course.clone(), attempt.started.clone());
    let save = move |_| {
        let saved = save_file(&run_file_name(&attempt), &run).map_err(canvas::sentence);
        trouble.set(saved.err());
    };
    view! {
        <li>
            <a href=href>
                {move || library.title(&course)} " · " <Moment at />
            </a>
            " "
            <Press name=k("debrief-export") act=save />
        </li>
    }
}

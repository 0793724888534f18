//! Lessons that were given: when, with how many, and what was left out.

use coneyard_core::class::{Taught, write_record};
use leptos::prelude::*;

use super::desk::Desk;
use crate::browser;
use crate::canvas;
use crate::courses::said;
use crate::parts::press::{Delete, Press};
use crate::parts::when::Moment;
use crate::route::Route;
use crate::words::{k, number, say_with, tr};

/// Hands the record out as a file.
pub(super) fn save(desk: Desk, taught: &Taught) {
    let saved = write_record(taught)
        .and_then(|text| browser::save_file(&taught.file_name(), &text).map_err(canvas::sentence));
    if let Err(why) = saved {
        desk.trouble.set(Some(why));
    }
}

/// Names of the topics that were left out, in a line.
pub(super) fn left_out(taught: &Taught) -> String {
    taught.left_out().map(|t| said(&t.title)).collect::<Vec<_>>().join(" · ")
}

/// The list, the latest first.
#[component]
pub(super) fn Past(desk: Desk) -> impl IntoView {
    let row = move |taught: Taught| {
        let (id, again, gone) = (taught.id.clone(), taught.id.clone(), taught.id.clone());
        let href = Route::LessonRecord(taught.id.clone()).href();
        let counts = vec![
            ("covered", number(taught.covered() as f64)),
            ("count", number(taught.topics.len() as f64)),
            ("present", number(taught.present.len() as f64)),
        ];
        let (at, missing, file) = (taught.started.clone(), left_out(&taught), taught);
        view! {
            <li data-lesson=id>
                <p>
                    <a href=href>
                        <Moment at />
                    </a>
                    " · "
                    {say_with(k("lesson-past-counts"), counts)}
                </p>
                {(!missing.is_empty())
                    .then(|| view! { <p class="quiet">{tr("lesson-left-out")} ": " {missing}</p> })}
                <p class="actions">
                    <Press name=k("lesson-go-on") act=move |_| desk.go_on(&again) />
                    <Press name=k("lesson-save") act=move |_| save(desk, &file) />
                    <Delete act=move |_| desk.forget(gone.clone()) />
                </p>
            </li>
        }
    };
    move || {
        let all = desk.all.get();
        (!all.is_empty()).then(|| {
            let rows = all.into_iter().rev().map(row).collect_view();
            view! {
                <section aria-labelledby="past-title">
                    <h2 id="past-title">{tr("lesson-past")}</h2>
                    <ul class="lesson-past">{rows}</ul>
                </section>
            }
        })
    }
}

//! The class: joining it, what of one's own drives has arrived, and for a trainer who drives what.

mod board;
mod bring;
mod figures;
mod file;
mod join;
mod own;
mod people;
mod ready;
mod run;
mod runs;

use coneyard_core::class::Brief;
use coneyard_core::class::board::Board;
use leptos::prelude::*;

use crate::host::{Role, use_host};
use crate::route::Route;
use crate::store::use_store;
use crate::words::{k, say, tr};

pub(crate) use bring::Bring;
pub(crate) use figures::InFigures;
pub(crate) use run::ClassRun;

/// The page.
#[component]
pub(crate) fn Class() -> impl IntoView {
    let (host, store) = (use_host(), use_store());
    leptos::task::spawn_local(host.ask());
    let there = Memo::new(move |_| host.hosted.with(|h| h.as_ref().map(|h| h.class.name.clone())));
    let role = Memo::new(move |_| host.role());
    move || {
        let Some(name) = there.get() else {
            // What came in as files makes a class too.
            let board = move || {
                let briefs = |all: &Vec<_>| all.iter().map(Brief::of).collect::<Vec<_>>();
                Board::of(&store.attempts.with(briefs))
            };
            return view! {
                <p class="note">{say(k("host-none"))}</p>
                <ready::Ready board=Signal::derive(board) page=Route::Debrief />
                <p>
                    <a href=Route::InFigures.href()>{tr("figures-to")}</a>
                </p>
            }
            .into_any();
        };
        let page = match role.get() {
            None => view! { <join::Join /> }.into_any(),
            Some(Role::Trainee) => view! { <own::Own /> }.into_any(),
            Some(Role::Trainer | Role::Owner) => view! { <board::TrainersPage /> }.into_any(),
        };
        view! {
            <p class="lead" id="class-name">
                {name}
            </p>
            <p>
                <Show when=move || host.teaches()>
                    <a href=Route::InFigures.href()>{tr("figures-to")}</a>
                    " · "
                    <a href=Route::Rules.href()>{tr("rules-title")}</a>
                    " · "
                </Show>
                <a href=Route::Lesson.href()>{tr("lesson-to")}</a>
                " · "
                <a href=Route::Kinds.href()>{tr("moments-to")}</a>
            </p>
            {page}
            <section class="card caution">
                <h2>{tr("caution-title")}</h2>
                <p>{tr("class-certifies-nobody")}</p>
                <p>{tr("caution")}</p>
            </section>
        }
        .into_any()
    }
}

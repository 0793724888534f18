//! The pre-test: what it is and its start, a sitting with its parts, and what it came to.

mod actions;
mod begin;
mod offered;
mod parts;
mod result;
mod sheet;

use coneyard_core::class::is_open;
use coneyard_core::pretest::count;
use leptos::prelude::*;

pub(crate) use begin::PreTest;
pub(crate) use offered::OpenSittings;

use crate::parts::names::truck_name;
use crate::parts::when::Moment;
use crate::store::{Taken, use_store};
use crate::words::{k, number, say, say_with, text, tr};

/// "Pre-test, part 3 of 10"; parts are numbered from 0.
pub(crate) fn part_text(part: usize) -> String {
    let (part, parts) = (number((part + 1) as f64), number(count() as f64));
    say_with(k("pretest-part-of"), vec![("part", part), ("parts", parts)])
}

/// Who takes a pre-test, as shown.
fn who_text(taken: &Taken) -> String {
    if taken.who.is_empty() { say(k("who-nobody")) } else { taken.who.clone() }
}

/// Person, class, seat, truck and day in a line.
#[component]
fn Headline(taken: Taken) -> impl IntoView {
    let started = taken.started.clone();
    let what = move || {
        let seat = number(taken.seat);
        let class = text(taken.class_word.clone());
        let sat = say_with(k("pretest-class-seat"), vec![("class", class), ("seat", seat)]);
        format!("{} · {sat} · {}", who_text(&taken), truck_name(&taken.truck))
    };
    // A scripted rider's sitting has no date.
    let when = (!started.is_empty()).then(|| {
        view! {
            " · "
            <Moment at=started />
        }
    });
    view! {
        {what}
        {when}
    }
}

/// A pre-test that was begun: its parts while any is left, then the result.
#[component]
pub(crate) fn Sitting(id: String) -> impl IntoView {
    let store = use_store();
    leptos::task::spawn_local(store.refresh());
    let sitting = id.clone();
    let found = Memo::new(move |_| store.sitting(&sitting));
    let driven = Memo::new(move |_| store.driven(&id));
    // The store is read again and again; only what has changed may take a question off the page.
    let ready = Memo::new(move |_| store.ready.get());
    move || match (found.get(), ready.get()) {
        (Some(taken), _) => {
            let driven = driven.get();
            if is_open(&taken, driven.len()) && !taken.imported {
                view! { <parts::Open taken driven /> }.into_any()
            } else {
                view! { <result::Result taken driven /> }.into_any()
            }
        }
        (None, false) => view! { <p role="status">{say(k("debrief-loading"))}</p> }.into_any(),
        (None, true) => view! {
            <p class="note warn">{say(k("pretest-not-there"))}</p>
            <p>
                <a class="button" href="#/pre-test">
                    {tr("pretest-to")}
                </a>
            </p>
        }
        .into_any(),
    }
}

/// Says so when nothing of this can be kept.
#[component]
fn KeepTrouble() -> impl IntoView {
    let store = use_store();
    move || {
        let loose = store.loose_sittings.with(|all| all.last().map(|l| l.why.clone()));
        loose.or(store.trouble.get()).map(|why| {
            view! {
                <p class="note warn" role="alert">
                    <span aria-hidden="true">"▲ "</span>
                    {say_with(k("pretest-not-kept"), vec![("why", text(why))])}
                </p>
            }
        })
    }
}

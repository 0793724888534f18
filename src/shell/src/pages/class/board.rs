//! For a trainer: who drives what now, and what has arrived. The host says when something has changed.

use std::collections::BTreeMap;

use coneyard_core::class::board::Board;
use coneyard_core::time::TICK_RATE;
use leptos::prelude::*;
use serde::Deserialize;

use super::file::File;
use super::people::{self, People};
use super::ready::Ready;
use super::runs::{Run, Runs, fetch};
use crate::courses::use_library;
use crate::host::{get, hear, use_host};
use crate::parts::names::truck_name;
use crate::parts::press::Press;
use crate::parts::when::Length;
use crate::route::Route;
use crate::words::{k, number, say, say_with, tr};

/// What the host tells: somebody drives; a run arrived or was judged, somebody joined or was deleted, or there is
/// something that it could not tell.
const EVENTS: [&str; 6] = ["live", "run-arrived", "run-judged", "joined", "gone", "look-again"];
/// Who has not been heard of for so long no longer drives.
const QUIET: std::time::Duration = std::time::Duration::from_secs(10);

/// What somebody drives.
#[derive(Clone, Debug, PartialEq, Deserialize)]
struct Live {
    person: String,
    name: String,
    course: String,
    truck: String,
    seconds: f64,
    step: u32,
    findings: u32,
}

/// So many of the newest runs are listed before older ones are asked for.
const NEWEST: u32 = 50;

/// Does something whenever it is asked for, but never twice at a time: a class that ends its drives in the same
/// minute is looked at once more when the last look is over, not once for each of them.
fn one_at_a_time<F: Future<Output = ()> + 'static>(
    what: impl Fn() -> F + Copy + Send + Sync + 'static,
) -> impl Fn() + Copy + Send + Sync + 'static {
    let (busy, again) = (StoredValue::new(false), StoredValue::new(false));
    move || {
        if busy.try_get_value() != Some(false) {
            again.try_set_value(true);
            return;
        }
        busy.set_value(true);
        leptos::task::spawn_local(async move {
            loop {
                what().await;
                // None, when the page is gone.
                if again.try_get_value() != Some(true) {
                    break;
                }
                again.try_set_value(false);
            }
            busy.try_set_value(false);
        });
    }
}

/// The page.
#[component]
pub(super) fn TrainersPage() -> impl IntoView {
    let host = use_host();
    let runs = RwSignal::new(None::<Result<Vec<Run>, String>>);
    let live = RwSignal::new(BTreeMap::<String, (Live, u32)>::new());
    let told = StoredValue::new(0_u32);
    let people = RwSignal::new(None);
    let board = RwSignal::new(Board::default());
    let newest = RwSignal::new(NEWEST);
    let refresh = one_at_a_time(move || async move {
        let most = newest.try_get_untracked().unwrap_or(NEWEST);
        runs.try_set(Some(fetch(Some(most)).await));
        people.try_set(Some(people::fetch().await));
        // Where it cannot be had, what was known stays; the runs say why.
        if let Ok(now) = get::<Board>("board").await {
            board.try_set(now);
        }
    });
    refresh();
    let older = move |()| {
        newest.update(|most| *most = most.saturating_mul(4));
        refresh();
    };
    hear("live", &EVENTS, move |what, data| {
        if what != "live" {
            refresh();
            return;
        }
        let Ok(note) = serde_json::from_str::<Live>(&data) else { return };
        let number = told.get_value().wrapping_add(1);
        told.set_value(number);
        let person = note.person.clone();
        live.update(|all| {
            all.insert(person.clone(), (note, number));
        });
        set_timeout(
            move || {
                let is_last = |all: &BTreeMap<String, (Live, u32)>| {
                    all.get(&person).is_some_and(|(_, last)| *last == number)
                };
                if live.try_with_untracked(is_last) == Some(true) {
                    live.update(|all| {
                        all.remove(&person);
                    });
                }
            },
            QUIET,
        );
    });
    let leave = move |_| leptos::task::spawn_local(host.leave());
    let code = move || host.hosted.with(|h| h.as_ref()?.class.code.clone());
    // Whoever has just entered is told it when they ask again.
    leptos::task::spawn_local(host.ask());
    view! {
        {move || {
            code()
                .map(|code| {
                    view! {
                        <p id="join-code">
                            {tr("class-code")} ": " <strong>{code}</strong>
                        </p>
                    }
                })
        }}
        <p class="actions">
            <Press name=k("class-leave") id="leave-class" act=leave />
        </p>
        <section aria-labelledby="live-title">
            <h2 id="live-title">{tr("class-live")}</h2>
            <Now live />
        </section>
        <Ready board page=Route::ClassRun />
        <Runs runs names=true all=Signal::derive(move || board.with(|b| b.drives)) older />
        <People people changed=move |()| refresh() />
        <File changed=move |()| refresh() />
    }
}

/// Who drives what now.
#[component]
fn Now(live: RwSignal<BTreeMap<String, (Live, u32)>>) -> impl IntoView {
    let library = use_library();
    let row = move |note: Live| {
        let ticks = (note.seconds.max(0.0) * f64::from(TICK_RATE)) as u32;
        let step = vec![("step", number(note.step + 1))];
        view! {
            <li data-live=note.person>
                <strong>{note.name}</strong>
                " · "
                {library.title(&note.course)}
                " · "
                {truck_name(&note.truck)}
                " · "
                {say_with(k("class-at-step"), step)}
                " · "
                <Length ticks />
                " · "
                {say_with(k("class-faults"), vec![("count", number(note.findings))])}
            </li>
        }
    };
    move || {
        let now: Vec<Live> = live.with(|all| all.values().map(|(note, _)| note.clone()).collect());
        if now.is_empty() {
            return view! { <p>{say(k("class-nobody-drives"))}</p> }.into_any();
        }
        view! { <ul class="plain" id="live">{now.into_iter().map(row).collect_view()}</ul> }
            .into_any()
    }
}

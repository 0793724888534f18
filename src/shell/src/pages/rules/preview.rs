//! What would become of the drives that are kept here, and judging them again.

use coneyard_core::class::judged::{Counted, moved};
use coneyard_core::debrief::Debrief;
use leptos::prelude::*;

use super::compared::{Compared, Phase, Says, Turn, look, sorted};
use super::saving::first_again;
use super::{Desk, focus_on};
use crate::browser;
use crate::courses::use_library;
use crate::parts::press::Press;
use crate::parts::when::date_text;
use crate::route::Route;
use crate::store::use_store;
use crate::words::{k, number, say, say_with, steady_number, text, title, tr};

/// The part of the page.
#[component]
pub(super) fn Preview(desk: Desk) -> impl IntoView {
    let store = use_store();
    let phase = RwSignal::new(Phase::Idle);
    let rows = RwSignal::new(Vec::<Compared>::new());
    // The rules that the rows go by.
    let by = RwSignal::new(String::new());
    let busy = RwSignal::new(false);
    let turns = StoredValue::new(0);
    let working = Memo::new(move |_| phase.with(|p| matches!(p, Phase::Working(..))));
    let sorts = Memo::new(move |_| {
        store.attempts.with(|all| {
            let (can, cannot) = sorted(all);
            (can.len(), cannot)
        })
    });
    let begin = move |_| {
        let (can, _) = store.attempts.with_untracked(|all| sorted(all));
        rows.set(Vec::new());
        by.set(desk.draft.get_untracked());
        desk.news.set(String::new());
        if can.is_empty() {
            phase.set(Phase::Done);
            return;
        }
        phase.set(Phase::Working(0, can.len(), 0.0));
        let turn = Turn::begin(turns);
        leptos::task::spawn_local(async move {
            let rules = by.get_untracked();
            if let Err(why) = look(rules, store, can, turn, (phase, rows)).await {
                phase.try_set(Phase::Trouble(why));
            }
        });
    };
    let state = move || match phase.get() {
        Phase::Idle => None,
        Phase::Working(n, count, share) => {
            let values = vec![
                ("n", number(n as f64 + 1.0)),
                ("count", number(count as f64)),
                ("percent", number((share * 100.0).floor())),
            ];
            Some(say_with(k("rules-looking"), values))
        }
        Phase::Done | Phase::Stopped => {
            let (all, differ) =
                rows.with(|rows| (rows.len(), rows.iter().filter(|row| row.differs()).count()));
            let values = vec![("all", number(all as f64)), ("changed", number(differ as f64))];
            let stopped = phase.with(|p| *p == Phase::Stopped);
            Some(say_with(if stopped { k("rules-looked-some") } else { k("rules-looked") }, values))
        }
        Phase::Trouble(why) => Some(say_with(k("rules-look-trouble"), vec![("why", text(why))])),
    };
    let is_stale = move || {
        let asked = phase.with(|p| *p != Phase::Idle);
        asked && by.with(|by| desk.draft.with(|draft| by != draft))
    };
    let cannot_now = Signal::derive(move || {
        let none = rows.with(|rows| !rows.iter().any(|r| matches!(r.says, Says::Debrief(_))));
        none || working.get() || busy.get() || is_stale() || desk.is_unsaved()
    });
    let why_not = move || {
        let has_rows = rows.with(|rows| !rows.is_empty());
        if has_rows && is_stale() {
            Some(say(k("rules-stale")))
        } else if has_rows && desk.is_unsaved() {
            Some(say(k("rules-save-first")))
        } else {
            None
        }
    };
    let again = move |_| {
        busy.set(true);
        leptos::task::spawn_local(async move {
            let (judged, rules, at) = (rows.get_untracked(), by.get_untracked(), browser::now());
            let mut count = 0;
            for Compared { attempt, says } in judged {
                let Says::Debrief(debrief) = says else { continue };
                // As it is by now: a note may have been pinned meanwhile.
                let Some(attempt) = untrack(|| store.attempt(&attempt.id)) else { continue };
                let then = attempt.clone().judged_by(&rules, &at, debrief);
                if then != attempt {
                    store.learn(then).await;
                    count += 1;
                }
            }
            store.refresh().await;
            rows.try_set(Vec::new());
            phase.try_set(Phase::Idle);
            busy.try_set(false);
            let values = vec![("drives", number(f64::from(count)))];
            desk.news.try_set(say_with(k("rules-judged-again"), values));
        });
    };
    let judged_again =
        Memo::new(move |_| store.attempts.with(|all| all.iter().any(|a| a.judged_again.is_some())));
    let first = move |_| {
        busy.set(true);
        leptos::task::spawn_local(async move {
            let drives = first_again(store).await;
            rows.try_set(Vec::new());
            phase.try_set(Phase::Idle);
            busy.try_set(false);
            let values = vec![("drives", number(drives as f64))];
            desk.news.try_set(say_with(k("rules-first-again"), values));
        });
    };
    let left = move || {
        let (_, [pretest, old, other]) = sorts.get();
        let lines = [
            (pretest, k("rules-not-pretest")),
            (old, k("rules-not-old")),
            (other, k("rules-not-what-it-says")),
        ];
        lines
            .into_iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, key)| {
                let said = move || say_with(key, vec![("drives", number(count as f64))]);
                view! { <li>{said}</li> }
            })
            .collect_view()
    };
    view! {
        <section class="card" aria-labelledby="rules-preview-title">
            <h2 id="rules-preview-title">{tr("rules-preview")}</h2>
            <p>{tr("rules-preview-lead")}</p>
            <ul class="plain quiet">{left}</ul>
            <p class="actions">
                <Press
                    name=k("rules-look")
                    id="rules-look"
                    disabled=Signal::derive(move || {
                        working.get() || busy.get() || sorts.get().0 == 0
                    })
                    act=begin
                />
                <Show when=move || working.get()>
                    <Press
                        name=k("rules-stop")
                        id="rules-stop"
                        act=move |_| {
                            Turn::begin(turns);
                            phase.set(Phase::Stopped);
                            focus_on("rules-look".to_owned());
                        }
                    />
                </Show>
                <Press
                    name=k("rules-judge-again")
                    id="rules-judge-again"
                    disabled=cannot_now
                    act=again
                />
                <Show when=move || judged_again.get()>
                    <Press name=k("rules-first") id="rules-first" disabled=busy act=first />
                </Show>
            </p>
            <p role="status" id="rules-look-state">
                {state}
            </p>
            <p class="quiet">{why_not}</p>
            <Show when=move || sorts.get().0 == 0>
                <p class="quiet">{tr("rules-no-drives")}</p>
            </Show>
            <Table rows />
        </section>
    }
}

/// Every drive before and after.
#[component]
fn Table(rows: RwSignal<Vec<Compared>>) -> impl IntoView {
    let lines = move || {
        rows.with(|rows| rows.iter().map(|row| view! { <Line row=row.clone() /> }).collect_view())
    };
    view! {
        <Show when=move || rows.with(|rows| !rows.is_empty())>
            <div class="table-wrap" tabindex="0" role="region" aria-label=tr("rules-compared")>
                <table class="rules-compared">
                    <thead>
                        <tr>
                            <th scope="col">{tr("rules-col-drive")}</th>
                            <th scope="col">{tr("rules-col-points")}</th>
                            <th scope="col">{tr("rules-col-faults")}</th>
                            <th scope="col">{tr("rules-col-clean")}</th>
                            <th scope="col">{tr("rules-col-moved")}</th>
                        </tr>
                    </thead>
                    <tbody>{lines}</tbody>
                </table>
            </div>
        </Show>
    }
}

/// Two values, now and then; one where they are the same.
fn both(now: String, then: String) -> AnyView {
    if now == then {
        return view! { <span class="same">{now}</span> }.into_any();
    }
    let read =
        say_with(k("rules-then"), vec![("now", text(now.clone())), ("then", text(then.clone()))]);
    view! {
        <span aria-hidden="true">{now} " → " <strong>{then}</strong></span>
        <span class="sr">{read}</span>
    }
    .into_any()
}

fn points_text(counted: &Counted) -> String {
    counted.total.map_or_else(|| say(k("rules-no-points")), |points| steady_number(points, 0))
}

fn faults_text(counted: &Counted) -> String {
    let [critical, major, minor] = counted.faults.map(|n| number(n as f64));
    say_with(k("rules-faults"), vec![("critical", critical), ("major", major), ("minor", minor)])
}

fn clean_text(counted: &Counted) -> String {
    say(if counted.clean { k("rules-clean") } else { k("rules-not-clean") })
}

fn moved_text(now: &Debrief, then: &Debrief) -> AnyView {
    let items = moved(now, then)
        .into_iter()
        .map(|(code, times)| {
            let name = title(&code);
            let said = match times {
                0 => say_with(k("rules-otherwise"), vec![("name", text(name))]),
                more if more > 0 => {
                    let values = vec![("name", text(name)), ("times", number(more as f64))];
                    say_with(k("rules-more"), values)
                }
                less => {
                    let values = vec![("name", text(name)), ("times", number(-less as f64))];
                    say_with(k("rules-less"), values)
                }
            };
            view! { <li>{said}</li> }
        })
        .collect_view();
    view! { <ul class="plain">{items}</ul> }.into_any()
}

#[component]
fn Line(row: Compared) -> impl IntoView {
    let library = use_library();
    let Compared { attempt, says } = row;
    let href = Route::Debrief(attempt.id.clone()).href();
    let (course, who, started) =
        (attempt.course.clone(), attempt.who.clone(), attempt.started.clone());
    let about = move || {
        let who = if who.is_empty() { say(k("who-nobody")) } else { who.clone() };
        format!("{who} · {}", date_text(&started))
    };
    let cells = move || {
        let now = &attempt.verdict.debrief;
        match &says {
            Says::Nothing(why) => view! { <td colspan="4">{why.clone()}</td> }.into_any(),
            Says::Debrief(then) => {
                let (was, is) = (Counted::of(now), Counted::of(then));
                view! {
                    <td>{both(points_text(&was), points_text(&is))}</td>
                    <td>{both(faults_text(&was), faults_text(&is))}</td>
                    <td>{both(clean_text(&was), clean_text(&is))}</td>
                    <td>{moved_text(now, then)}</td>
                }
                .into_any()
            }
        }
    };
    view! {
        <tr>
            <th scope="row">
                <a href=href>{move || library.title(&course)}</a>
                <small class="quiet">{about}</small>
            </th>
            {cells}
        </tr>
    }
}

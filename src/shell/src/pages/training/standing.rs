//! How somebody stands, by truck: what the certification asks for, what of it is not there, and what is due.

use coneyard_core::class::date::Date;
use coneyard_core::class::record::{Decided, Lacks};
use coneyard_core::class::workplace::List;
use leptos::prelude::*;

use super::desk::Desk;
use super::form::day_by;
use crate::browser::today;
use crate::courses::said;
use crate::parts::due::{day_text, why_text};
use crate::parts::names::truck_name;
use crate::words::{k, say, say_with, text, tr};

/// The operator's name, as it is to stand in the certification.
#[component]
pub(super) fn Operator(desk: Desk) -> impl IntoView {
    let change = move |ev: leptos::ev::Event| {
        let name = event_target_value(&ev).trim().to_owned();
        if !name.is_empty() {
            desk.change(move |record| record.operator.clone_from(&name));
        }
    };
    view! {
        <label class="field no-print">
            <span>{tr("training-operator")}</span>
            <input
                type="text"
                id="training-operator"
                maxlength="100"
                autocomplete="off"
                prop:value=move || desk.with(|r| r.operator.clone())
                on:change=change
            />
        </label>
    }
}

/// The trucks that the record is about; the single one when there is none yet.
#[component]
pub(super) fn Standing(desk: Desk, lists: StoredValue<Vec<List>>) -> impl IntoView {
    let trucks = Memo::new(move |_| {
        desk.with(|r| {
            let mut all: Vec<String> = r.trucks().into_iter().rev().map(str::to_owned).collect();
            if all.is_empty() {
                all.push("single".to_owned());
            }
            all
        })
    });
    move || {
        let of = |truck: String| view! { <OfTruck desk lists truck /> };
        trucks.get().into_iter().map(of).collect_view()
    }
}

#[component]
fn OfTruck(desk: Desk, lists: StoredValue<Vec<List>>, truck: String) -> impl IntoView {
    let today = Date::read(&today());
    let heading = truck_name(&truck);
    let id = format!("standing-{truck}");
    let body = move || {
        let today = today?;
        let lists = lists.get_value();
        Some(desk.with(|record| {
            let is = record.certified(&truck, &lists, today);
            let training = is.training.map_or_else(none, |t| day_by(t.on, &t.by));
            let evaluation = is.evaluation.map_or_else(none, |s| {
                let day = day_by(s.on, &s.by);
                match s.decided {
                    Some(Decided::Safe) => format!("{day} · {}", say(k("training-safe"))),
                    _ => format!("{day} · {}", say(k("training-not-yet"))),
                }
            });
            let lacks: Vec<String> = is.lacks.iter().map(|l| lacks_text(l, &lists)).collect();
            let due = coneyard_core::class::again::due(&record.past(&truck, None));
            let due = due
                .into_iter()
                .filter(|d| !d.why.is_hint())
                .map(|d| {
                    let now = d.is_due(today);
                    let day = d.on.filter(|_| !now).map(|on| {
                        let on = vec![("day", text(day_text(on)))];
                        format!(" · {}", say_with(k("due-from"), on))
                    });
                    let mark = if now { "▲ " } else { "" };
                    view! {
                        <li>
                            <span aria-hidden="true">{mark}</span>
                            {why_text(d.why)}
                            {day}
                        </li>
                    }
                })
                .collect_view();
            let whole = lacks.is_empty();
            let lacks = lacks.into_iter().map(|l| view! { <li>{l}</li> }).collect_view();
            view! {
                <dl class="facts">
                    <div>
                        <dt>{tr("training-operator")}</dt>
                        <dd>{is.operator.to_owned()}</dd>
                    </div>
                    <div>
                        <dt>{tr("training-trained")}</dt>
                        <dd>{training}</dd>
                    </div>
                    <div>
                        <dt>{tr("training-evaluated")}</dt>
                        <dd>{evaluation}</dd>
                    </div>
                </dl>
                {if whole {
                    view! { <p class="whole">{say(k("training-whole"))}</p> }.into_any()
                } else {
                    view! {
                        <p>{say(k("training-lacks"))}</p>
                        <ul class="lacks">{lacks}</ul>
                    }
                        .into_any()
                }}
                <h4>{tr("due-title")}</h4>
                <ul class="plain">{due}</ul>
            }
        }))
    };
    view! {
        <section class="card keep" data-standing=id>
            <h3>{heading}</h3>
            {body}
        </section>
    }
}

fn none() -> String {
    say(k("training-none"))
}

/// What lacks, in words.
fn lacks_text(lacks: &Lacks, lists: &[List]) -> String {
    match lacks {
        Lacks::Training => say(k("lacks-training")),
        Lacks::Evaluation => say(k("lacks-evaluation")),
        Lacks::EvaluatedBefore => say(k("lacks-evaluated-before")),
        Lacks::OwnWord => say(k("lacks-own-word")),
        Lacks::YetToCome => say(k("lacks-yet-to-come")),
        Lacks::List { id } => say_with(k("lacks-list"), vec![("list", text(id.clone()))]),
        Lacks::Items { open } => {
            let named = |id: &String| {
                let item = lists.iter().flat_map(|l| &l.items).find(|i| i.id == *id);
                item.map_or_else(|| id.clone(), |i| said(&i.asks))
            };
            let items: Vec<String> = open.iter().map(named).collect();
            say_with(k("lacks-items"), vec![("items", text(items.join(" ")))])
        }
    }
}

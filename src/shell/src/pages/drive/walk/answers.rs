//! The answer to a point: fine, or how grave, then why and a note. It can be changed until the truck is taken or
//! tagged out.

use coneyard_core::acts::{Act, NOTE_MOST};
use leptos::prelude::*;

use super::names;
use super::round::Round;
use crate::courses::said;
use crate::words::{k, say, tr};

/// All of it.
#[component]
pub(super) fn Answers(round: Round, point: usize) -> impl IntoView {
    let answer = Memo::new(move |_| round.answer(point));
    let is_done = Memo::new(move |_| round.is_done(point));
    let reason = move || round.noted.with(|n| n.reasons.get(&(point as u8)).copied());
    let codes = 0..=round.list.with_value(|list| list.grades.len()) as u8;
    let one = move |code: u8| {
        let chosen = Memo::new(move |_| answer.get() == Some(code));
        view! {
            <button
                type="button"
                class="answer"
                class:fine=code == 0
                id=format!("walk-answer-{code}")
                aria-pressed=move || chosen.get().to_string()
                aria-keyshortcuts=(code + 1).to_string()
                on:click=move |_| round.say(code, untrack(reason))
            >
                <kbd class="cap" aria-hidden="true">
                    {code + 1}
                </kbd>
                <span class="word">{move || names::answer_name(round, code)}</span>
            </button>
        }
    };
    view! {
        <div class="walk-answers" role="group" aria-label=tr("walk-answers-label")>
            {codes.map(one).collect_view()}
        </div>
        <div aria-live="polite">
            {move || {
                (answer.get().is_some() && !is_done.get())
                    .then(|| view! { <p class="walk-state">{say(k("walk-answered-unseen"))}</p> })
            }}
        </div>
        <div class="walk-why">
            <Show when=move || answer.get().is_some_and(|code| code > 0)>
                <Reason round point />
            </Show>
            <Show when=move || answer.get().is_some()>
                <Note round point=point as u8 name=k("walk-note") id="walk-note" />
            </Show>
        </div>
    }
}

/// The reason, from the short list.
#[component]
fn Reason(round: Round, point: usize) -> impl IntoView {
    let chosen = move || round.noted.with(|n| n.reasons.get(&(point as u8)).copied());
    let reasons = move || {
        round.list.with_value(|list| list.reasons.iter().map(|r| said(&r.name)).collect::<Vec<_>>())
    };
    let choose = move |ev: leptos::ev::Event| {
        let reason = event_target_value(&ev).parse().ok();
        if let Some(answer) = untrack(|| round.answer(point)) {
            round.say(answer, reason);
        }
    };
    view! {
        <label class="field">
            <span>{tr("walk-reason")}</span>
            <select id="walk-reason" on:change=choose>
                <option value="" selected=move || chosen().is_none()>
                    {tr("walk-reason-none")}
                </option>
                {move || {
                    reasons()
                        .into_iter()
                        .enumerate()
                        .map(|(i, name)| {
                            let is_it = move || chosen().is_some_and(|c| usize::from(c) == i);
                            view! {
                                <option value=i.to_string() selected=is_it>
                                    {name}
                                </option>
                            }
                        })
                        .collect_view()
                }}
            </select>
        </label>
    }
}

/// A note on a point or on the whole truck.
#[component]
pub(super) fn Note(round: Round, point: u8, name: &'static str, id: &'static str) -> impl IntoView {
    let kept = move || round.noted.with(|n| n.notes.get(&point).cloned()).unwrap_or_default();
    let change = move |ev: leptos::ev::Event| {
        let text = event_target_value(&ev);
        let text = text.trim();
        if text != untrack(kept) {
            let note = Act::Note { point, text: text.to_owned() };
            round.act(note.fitted());
        }
    };
    view! {
        <label class="field">
            <span>{tr(name)}</span>
            <input
                type="text"
                id=id
                maxlength=NOTE_MOST.to_string()
                autocomplete="off"
                prop:value=kept
                on:change=change
            />
        </label>
    }
}

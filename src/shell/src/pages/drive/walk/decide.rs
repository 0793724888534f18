//! The end of a walk-round: the truck is taken or tagged out. It is asked once, with what is left out so far.

use coneyard_core::acts::Act;
use leptos::prelude::*;

use super::round::Round;
use crate::courses::said;
use crate::parts::press::Press;
use crate::words::{k, number, say, say_with, text, tr};

/// So many names of points are told; more are counted.
const NAMED_MOST: usize = 6;

/// How far one is, and both ways out.
#[component]
pub(super) fn Decide(round: Round) -> impl IntoView {
    view! {
        <div class="walk-decide" role="group" aria-label=tr("walk-decide-label")>
            <Press
                name=k("walk-take")
                id="walk-take"
                act=move |_| round.deciding.set(Some(true))
            />
            <Press
                name=k("walk-tag-out")
                id="walk-tag-out"
                act=move |_| round.deciding.set(Some(false))
            />
        </div>
        <Sure round />
    }
}

/// Names of these points, or of the first of them and how many more.
fn names(round: Round, points: &[usize]) -> String {
    let named: Vec<String> = points
        .iter()
        .take(NAMED_MOST)
        .filter_map(|p| round.of(*p, |point| said(&point.name)))
        .collect();
    let named = named.join(", ");
    match points.len().saturating_sub(NAMED_MOST) {
        0 => named,
        more => say_with(
            k("walk-and-more"),
            vec![("names", text(named)), ("more", number(more as u32))],
        ),
    }
}

/// The question, with what has no answer, what was answered without a look, and whether the hours are there.
#[component]
fn Sure(round: Round) -> impl IntoView {
    let dialog = NodeRef::<leptos::html::Dialog>::new();
    Effect::new(move |_| {
        let Some(dialog) = dialog.get() else {
            return;
        };
        if round.deciding.get().is_some() {
            // It is closed here, so that it can be opened.
            let _ = dialog.show_modal();
        } else {
            dialog.close();
        }
    });
    let takes = move || round.deciding.get() == Some(true);
    let points = move |open: bool| -> Vec<usize> {
        let said = round.said.get();
        let which = |p: &usize| match said[*p] {
            None => open,
            Some(_) => !open && !round.is_done(*p),
        };
        (0..said.len()).filter(which).collect()
    };
    let line = move |open: bool, key: &'static str| {
        let points = points(open);
        (!points.is_empty()).then(|| {
            let count = number(points.len() as u32);
            let values = vec![("count", count), ("names", text(names(round, &points)))];
            view! { <p>{say_with(key, values)}</p> }
        })
    };
    let decide = move |_| {
        let act = if untrack(takes) { Act::Take } else { Act::TagOut };
        round.deciding.set(None);
        round.act(act);
    };
    let left_out = move || {
        round.deciding.get().is_some().then(|| {
            view! {
                {line(true, k("walk-unanswered"))}
                {line(false, k("walk-unseen"))}
                {round.hours_read.get().is_none().then(|| view! { <p>{say(k("walk-no-hours"))}</p> })}
            }
        })
    };
    view! {
        <dialog
            node_ref=dialog
            id="walk-sure"
            aria-labelledby="walk-sure-title"
            on:close=move |_| round.deciding.set(None)
        >
            <h2 id="walk-sure-title">
                {move || say(if takes() { k("walk-take-sure") } else { k("walk-tag-out-sure") })}
            </h2>
            {left_out}
            <div class="choices">
                <Press
                    name=k("walk-back")
                    id="walk-not-yet"
                    act=move |_| round.deciding.set(None)
                />
                <button type="button" id="walk-decided" class="primary" on:click=decide>
                    {move || say(if takes() { k("walk-take") } else { k("walk-tag-out") })}
                </button>
            </div>
        </dialog>
    }
}

//! All points of the list by their parts, each with how far one is with it; pressed, it leads there.

use coneyard_core::checks::list::Part;
use leptos::prelude::*;

use super::names;
use super::round::Round;
use crate::courses::said;
use crate::words::{k, number, say, say_with, text, tr};

const PARTS: [Part; 3] = [Part::Outside, Part::Desk, Part::Tried];

/// The list.
#[component]
pub(super) fn AllPoints(round: Round) -> impl IntoView {
    let part = move |part: Part| {
        let points: Vec<usize> = round.list.with_value(|list| {
            let of = list.points.iter().enumerate().filter(|(_, p)| p.part == part);
            of.map(|(i, _)| i).collect()
        });
        if points.is_empty() {
            return None;
        }
        let all = points.len();
        let of_part = points.clone();
        let answered =
            Memo::new(move |_| of_part.iter().filter(|p| round.answer(**p).is_some()).count());
        let count = move || {
            let values =
                vec![("answered", number(answered.get() as u32)), ("all", number(all as u32))];
            say_with(k("walk-answered-of"), values)
        };
        let rows = points.into_iter().map(|point| view! { <Row round point /> }).collect_view();
        Some(view! {
            <section>
                <h2>{tr(names::part_name(part))} <small>{count}</small></h2>
                <ul>{rows}</ul>
            </section>
        })
    };
    view! {
        <div class="walk-list" role="group" aria-label=tr("walk-list-label")>
            <div class="walk-parts">{PARTS.into_iter().map(part).collect_view()}</div>
        </div>
    }
}

#[component]
fn Row(round: Round, point: usize) -> impl IntoView {
    let mark = Memo::new(move |_| names::mark(round, point));
    let is_here = Memo::new(move |_| round.place().and_then(|p| p.point()) == Some(point));
    let reason = move || {
        let reason = round.noted.with(|n| n.reasons.get(&(point as u8)).copied())?;
        round.list.with_value(|list| list.reasons.get(usize::from(reason)).map(|r| said(&r.name)))
    };
    let note = move || {
        let note = round.noted.with(|n| n.notes.get(&(point as u8)).cloned())?;
        (!note.is_empty()).then(|| say_with(k("walk-noted"), vec![("note", text(note))]))
    };
    let more = move || {
        let more: Vec<String> = [reason(), note()].into_iter().flatten().collect();
        (!more.is_empty()).then(|| view! { <span class="more">{more.join(". ")}</span> })
    };
    view! {
        <li>
            <button
                type="button"
                class="row"
                class:found=move || mark.get() == "▲"
                aria-current=move || is_here.get().then_some("true")
                tabindex=move || if is_here.get() { "0" } else { "-1" }
                on:click=move |_| round.go_to_point(point)
            >
                <span class="mark" aria-hidden="true">{mark}</span>
                <span class="name">
                    {move || round.of(point, |p| said(&p.name))}
                </span>
                <span class="state">{move || names::point_state(round, point)}</span>
                {more}
            </button>
        </li>
    }
}

/// How many points have no answer, and the way back to them once something was found: who has found one thing
/// easily overlooks the next.
#[component]
pub(super) fn Left(round: Round) -> impl IntoView {
    let left = Memo::new(move |_| round.left());
    let found = Memo::new(move |_| round.has_found());
    move || {
        let left = left.get();
        if !found.get() {
            return None;
        }
        if left == 0 {
            return Some(view! { <p class="walk-left">{say(k("walk-none-left"))}</p> }.into_any());
        }
        Some(
            view! {
                <p class="walk-left">
                    <span>{say_with(k("walk-left"), vec![("left", number(left as u32))])}</span>
                    <button type="button" id="walk-to-open" on:click=move |_| round.go_to_open()>
                        {say(k("walk-to-open"))}
                    </button>
                </p>
            }
            .into_any(),
        )
    }
}

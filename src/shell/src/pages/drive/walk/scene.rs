//! The truck as it stands there: the way from view to view, and in each the places at which there is something to
//! be looked at or tried.

use coneyard_core::checks::list::{ASPECTS, Aspect};
use leptos::prelude::*;

use super::drawing::{Drawing, Drawn};
use super::names;
use super::places::Place;
use super::round::{Page, Round, spot_id};
use crate::words::{k, number, say, say_with, text, tr};

/// How many points of a view have no answer.
fn open_in(round: Round, view: Aspect) -> usize {
    round.places.with_value(|all| {
        let here = all.iter().filter(|p| p.view == view).filter_map(Place::point);
        here.filter(|p| round.answer(*p).is_none()).count()
    })
}

/// The ways round: the views, the list and the sheet. One of them takes the keys, arrows lead to the others.
#[component]
pub(super) fn Ways(round: Round) -> impl IntoView {
    let here = move || round.place().map(|p| p.view);
    let view = move |aspect: Aspect| {
        let is_here = Memo::new(move |_| round.page.get() == Page::Truck && here() == Some(aspect));
        let open = Memo::new(move |_| open_in(round, aspect));
        let count = move || match open.get() {
            0 => "✓".to_owned(),
            n => n.to_string(),
        };
        let said = move || say_with(k("walk-view-open"), vec![("open", number(open.get() as u32))]);
        view! {
            <button
                type="button"
                class="way"
                aria-current=move || is_here.get().then_some("true")
                title=tr(names::view_text(aspect))
                tabindex=move || if is_here.get() { "0" } else { "-1" }
                on:click=move |_| round.go_to_view(aspect)
            >
                <span>{tr(names::view_name(aspect))}</span>
                <span class="count">
                    <span aria-hidden="true">{count}</span>
                    <span class="sr">" " {said}</span>
                </span>
            </button>
        }
    };
    let page = move |to: Page, name: &'static str, id: &'static str| {
        let is_here = Memo::new(move |_| round.page.get() == to);
        view! {
            <button
                type="button"
                id=id
                class="way paper"
                aria-current=move || is_here.get().then_some("true")
                tabindex=move || if is_here.get() { "0" } else { "-1" }
                on:click=move |_| round.page.set(to)
            >
                {tr(name)}
            </button>
        }
    };
    view! {
        <nav class="walk-ways" aria-label=tr("walk-ways-label")>
            {ASPECTS.into_iter().map(view).collect_view()}
            {page(Page::List, k("walk-list"), "walk-to-list")}
            {page(Page::Sheet, k("walk-sheet"), "walk-to-sheet")}
        </nav>
    }
}

/// The view with its places.
#[component]
pub(super) fn Scene(round: Round) -> impl IntoView {
    let view = Memo::new(move |_| round.place().map(|p| p.view));
    let drawn = Signal::derive(move || {
        let name = names::view_drawing(view.get()?).to_owned();
        Some(Drawn { name, present: present(round) })
    });
    let spots = move || {
        let view = view.get();
        let places =
            round.places.with_value(|all| all.iter().copied().enumerate().collect::<Vec<_>>());
        let here = places.into_iter().filter(|(_, p)| Some(p.view) == view);
        here.map(|(at, place)| view! { <Spot round at place /> }).collect_view()
    };
    let label = move || view.get().map(|view| say(names::view_text(view)));
    view! {
        <div class="walk-scene">
            <div class="walk-picture" role="group" aria-label=label>
                <Drawing round what=drawn />
                {spots}
            </div>
        </div>
    }
}

/// For each point the state as which it is drawn in a view.
fn present(round: Round) -> Vec<String> {
    round.list.with_value(|list| {
        let looks = round.looks.get();
        let state = |(p, point): (usize, &coneyard_core::checks::list::Point)| {
            let defect = looks.get(p).copied().flatten();
            let state = defect.and_then(|d| point.defects.get(usize::from(d)));
            format!("{}/{}", point.id, state.map_or("sound", |d| &d.id))
        };
        list.points.iter().enumerate().map(state).collect()
    })
}

/// A place: pressed, what lies there is looked at closer, or tried.
#[component]
fn Spot(round: Round, at: usize, place: Place) -> impl IntoView {
    let is_here = Memo::new(move |_| round.here.get() == at);
    let mark = Memo::new(move |_| place.point().map_or("", |p| names::mark(round, p)));
    let is_said = Memo::new(move |_| place.point().is_some_and(|p| round.answer(p).is_some()));
    let is_seen = Memo::new(move |_| round.is_seen(&place));
    let name = move || {
        let name = names::stop_name(round, place.stop);
        match names::place_state(round, &place) {
            state if state.is_empty() => name,
            state => say_with(k("walk-named"), vec![("name", text(name)), ("state", text(state))]),
        }
    };
    let percent = |part: f64, of: f64| format!("{:.2}%", part / of * 100.0);
    view! {
        <button
            type="button"
            id=spot_id(at)
            class="spot"
            class:said=is_said
            class:seen=is_seen
            aria-label=name
            title=move || names::stop_name(round, place.stop)
            aria-current=move || is_here.get().then_some("true")
            tabindex=move || if is_here.get() { "0" } else { "-1" }
            style:left=percent(place.at[0], 1000.0)
            style:top=percent(place.at[1], 600.0)
            on:click=move |_| {
                round.go(at);
                round.look();
            }
        >
            <span aria-hidden="true">{mark}</span>
        </button>
    }
}

//! What to teach the class again, with the run that shows it and what trains it.

use coneyard_core::class::items::Told;
use coneyard_core::class::teach::Again;
use leptos::prelude::*;

use crate::courses::{LibraryDesk, use_library};
use crate::parts::finding;
use crate::parts::share::percent;
use crate::route::Route;
use crate::words::{k, number, say, say_with, text, title, tr};

/// So many are listed,
const MOST: usize = 8;
/// each with so many exercises.
const TRAINS_MOST: usize = 3;

/// The section; nothing where nobody made a fault.
#[component]
pub(super) fn Teach(again: Vec<Again>, page: fn(String) -> Route) -> impl IntoView {
    let library = use_library();
    if again.is_empty() {
        return None;
    }
    let rows = again.into_iter().take(MOST).map(|a| row(library, a, page)).collect_view();
    Some(view! {
        <section aria-labelledby="teach-title">
            <h2 id="teach-title">{tr("figures-teach")}</h2>
            <p class="quiet">{tr("figures-teach-more")}</p>
            <ol class="plain" id="teach">
                {rows}
            </ol>
        </section>
    })
}

fn row(library: LibraryDesk, again: Again, page: fn(String) -> Route) -> impl IntoView {
    let missed = again.missed;
    let shares = vec![
        ("people", number(missed.people as f64)),
        ("of", number(again.of as f64)),
        ("low", text(percent(again.share.low))),
        ("high", text(percent(again.share.high))),
    ];
    let exercises: Vec<String> =
        again.exercises.iter().take(TRAINS_MOST).map(|id| library.title(id)).collect();
    let trains = (!exercises.is_empty()).then(|| {
        let exercises = vec![("exercises", text(exercises.join(", ")))];
        view! { <small>{say_with(k("board-trains"), exercises)}</small> }
    });
    // Only a class of a hundred can tell.
    let tells = match again.rest {
        Told::Is(rest) if rest.stands_out => Some(k("figures-teach-all")),
        Told::Is(_) => Some(k("figures-teach-weak")),
        Told::TooFew | Told::Undefined => None,
    };
    let tells = tells.map(|key| view! { <small>{say(key)}</small> });
    view! {
        <li data-code=missed.code.clone()>
            <span aria-hidden="true">{finding::mark(missed.severity)} " "</span>
            <a href=Route::Moments(missed.code.clone()).href()>{title(&missed.code)}</a>
            " · "
            {say_with(k("figures-teach-of"), shares)}
            " · "
            <a href=page(missed.attempt).href()>{tr("figures-teach-run")}</a>
            {trains}
            {tells}
        </li>
    }
}

//! Looked before entering: the headline of a class.

use coneyard_core::class::glance::{Glances, OfClass};
use leptos::prelude::*;

use crate::parts::share::{EstimateBar, percent};
use crate::words::{k, number, say, say_with, text, tr};

/// The section; one sentence where nothing was entered yet.
#[component]
pub(super) fn Looked(glance: OfClass) -> impl IntoView {
    let headline = match glance.mean {
        None => say(k("figures-looked-none")),
        Some(mean) => say_with(
            k("figures-looked-mean"),
            vec![("share", text(percent(mean))), ("people", number(glance.people.len() as f64))],
        ),
    };
    let rows = glance.people.into_iter().map(|(who, is)| row(who, is)).collect_view();
    view! {
        <section class="card" aria-labelledby="looked-title">
            <h2 id="looked-title">{tr("figures-looked")}</h2>
            <p class="headline" id="looked-mean">
                {headline}
            </p>
            <ul class="skills" id="looked">
                {rows}
            </ul>
            <p class="quiet">{tr("figures-looked-more")}</p>
        </section>
    }
}

fn row(who: String, is: Glances) -> impl IntoView {
    let counted = vec![("is", number(is.looked)), ("of", number(is.entries))];
    let missed = (is.crossings_missed > 0).then(|| {
        let count = vec![("count", number(is.crossings_missed))];
        view! { " · " {say_with(k("figures-looked-crossings"), count)} }
    });
    view! {
        <li class="skill sure">
            <span class="name">{who}</span>
            {is.share.map(|share| view! { <EstimateBar is=share /> })}
            <span class="word">
                <strong>{say_with(k("progress-walks-of"), counted)}</strong>
                {missed}
            </span>
        </li>
    }
}

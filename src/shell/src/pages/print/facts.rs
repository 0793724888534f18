//! Who drove what, when and how it ended; and whether the run is what it says it is.

use coneyard_core::debrief::Ending;
use leptos::prelude::*;

use crate::courses::use_library;
use crate::pages::debrief::who_text;
use crate::parts::ended::how_it_ended;
use crate::parts::names::truck_name;
use crate::parts::notes::{other_simulation_text, slowed_text, verdict_text};
use crate::parts::papers::Papers;
use crate::parts::skillbar::points_word;
use crate::parts::when::{Moment, iso_length, length_text};
use crate::store::Attempt;
use crate::words::{k, say, say_with, steady_number, text, tr};

/// Whose rules these are.
pub(crate) fn rules_text(site_name: Option<&str>, changed: bool) -> String {
    match site_name {
        Some(name) => name.to_owned(),
        None if changed => say(k("print-rules-unnamed")),
        None => say(k("print-rules-shipped")),
    }
}

/// The facts, as a list of names and values.
#[component]
pub(super) fn Facts(attempt: Attempt, papers: Papers) -> impl IntoView {
    let library = use_library();
    let debrief = attempt.verdict.debrief.clone();
    let ticks = debrief.ticks;
    let done = debrief.ending == Ending::Done;
    let changed = !debrief.changed_rules.is_empty();
    let course = attempt.course.clone();
    let truck = attempt.truck.clone();
    let started = attempt.started.clone();
    let result = move || {
        let Some(points) = debrief.total else {
            return say(k("points-not-shown"));
        };
        let shown = steady_number(points, 0);
        let of = say(k("debrief-of-hundred"));
        // Points of a part say little of the whole: no word of praise for it.
        let terms = library.terms().filter(|_| done);
        let word = terms.map(|terms| format!(", {}", say(points_word(points, terms))));
        format!("{shown} {of}{}", word.unwrap_or_default())
    };
    let slowed = {
        let attempt = attempt.clone();
        move || slowed_text(&attempt).map(|said| format!(" {said}"))
    };
    let ended = attempt.verdict.debrief.clone();
    let ending = move || how_it_ended(&ended);
    view! {
        <dl class="facts">
            <div>
                <dt>{tr("print-trainee")}</dt>
                <dd>{move || who_text(&attempt)}</dd>
            </div>
            <div>
                <dt>{tr("print-exercise")}</dt>
                <dd>{move || library.title(&course)}</dd>
            </div>
            <div>
                <dt>{tr("print-truck")}</dt>
                <dd>{move || truck_name(&truck)}</dd>
            </div>
            <div>
                <dt>{tr("print-started")}</dt>
                <dd>
                    <Moment at=started />
                </dd>
            </div>
            <div>
                <dt>{tr("print-duration")}</dt>
                <dd>
                    <time datetime=iso_length(ticks)>{move || length_text(ticks)}</time>
                </dd>
            </div>
            <div>
                <dt>{tr("print-rules")}</dt>
                <dd>
                    {move || {
                        papers.rules.with(|r| r.as_ref().map(|r| rules_text(r.site.as_deref(), changed)))
                    }}
                </dd>
            </div>
            <div class="result">
                <dt>{tr("debrief-total")}</dt>
                <dd>
                    <strong>{result}</strong>
                    " · "
                    {ending}
                    {slowed}
                </dd>
            </div>
        </dl>
    }
}

/// Whether the run is what it says it is, by which a copy of it can be told.
#[component]
pub(super) fn Truth(attempt: Attempt) -> impl IntoView {
    move || {
        let digest: String = attempt.verdict.final_digest.chars().take(16).collect();
        view! {
            <section class="keep">
                <h2>{say(k("verdict-title"))}</h2>
                <p>
                    {verdict_text(&attempt)} " "
                    {other_simulation_text(&attempt)} " "
                    {say_with(k("verdict-digest"), vec![("digest", text(digest))])}
                </p>
            </section>
        }
    }
}

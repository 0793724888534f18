//! What has to be said beside a result: that the run is not what it says it is, that time went by too
//! slowly, that it is slowed practice, and that its run can no longer be driven again.

use leptos::prelude::*;

use crate::courses::use_library;
use crate::files::not_again;
use crate::store::Attempt;
use crate::words::{k, number, say, say_with};

/// That slower time was chosen, and what follows from it.
pub(crate) fn slowed_text(attempt: &Attempt) -> Option<String> {
    let percent = number((100.0 * attempt.pace).floor());
    attempt.is_slowed().then(|| say_with(k("attempt-slowed"), vec![("percent", percent)]))
}

/// That another simulation made the run, and what follows from it.
pub(crate) fn other_simulation_text(attempt: &Attempt) -> Option<String> {
    (!attempt.can_be_driven_again()).then(|| not_again(attempt.simulation))
}

/// Whether the run is what it says it is, as the answer to that question.
pub(crate) fn verdict_text(attempt: &Attempt) -> String {
    let verdict = &attempt.verdict;
    let key = match (verdict.reproduces, verdict.first_difference_s) {
        (true, _) => k("verdict-reproduces"),
        (false, None) => k("verdict-debrief-differs"),
        (false, Some(_)) => k("verdict-differs"),
    };
    say_with(key, vec![("second", number(verdict.first_difference_s.unwrap_or(0)))])
}

/// That the run is not what it says it is.
fn forged_text(attempt: &Attempt) -> Option<String> {
    (!attempt.verdict.reproduces).then(|| say(k("attempt-forged")))
}

/// Percent of real time, where the computer did not keep up by itself as well as this site's rules ask.
fn too_slow(attempt: &Attempt) -> Option<f64> {
    let least = use_library().terms()?.time_ratio_least;
    let share = attempt.share_of_real_time()?;
    (!attempt.is_slowed() && share < least).then(|| (100.0 * share).floor())
}

/// That the computer was too slow, and what follows from it.
pub(crate) fn too_slow_text(attempt: &Attempt) -> Option<String> {
    too_slow(attempt).map(|p| say_with(k("attempt-too-slow"), vec![("percent", number(p))]))
}

/// All of them in a few words, for lists; empty when there is nothing to say.
pub(crate) fn marks_text(attempt: &Attempt) -> String {
    [
        (!attempt.verdict.reproduces).then(|| say(k("attempt-forged-short"))),
        too_slow(attempt).map(|_| say(k("attempt-too-slow-short"))),
        attempt.is_slowed().then(|| say(k("attempt-slowed-short"))),
        (!attempt.can_be_driven_again()).then(|| say(k("attempt-other-simulation-short"))),
    ]
    .into_iter()
    .flatten()
    .map(|mark| format!(" · ▲ {mark}"))
    .collect()
}

/// All of them in full.
#[component]
pub(crate) fn Notes(attempt: Attempt) -> impl IntoView {
    let note = |id: &'static str, class: &'static str, said: Option<String>| {
        said.map(|said| {
            view! {
                <p class=class id=id>
                    <span aria-hidden="true">"▲ "</span>
                    {said}
                </p>
            }
        })
    };
    move || {
        [
            note("forged", "note warn", forged_text(&attempt)),
            note("too-slow", "note warn", too_slow_text(&attempt)),
            note("slowed", "note", slowed_text(&attempt)),
            note("other-simulation", "note", other_simulation_text(&attempt)),
        ]
        .into_iter()
        .flatten()
        .collect_view()
    }
}

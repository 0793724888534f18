//! What has to be said beside a result: that it is slowed practice, and that its run can no longer
//! be driven again.

use leptos::prelude::*;

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

/// Both in a few words, for lists; empty when there is nothing to say.
pub(crate) fn marks_text(attempt: &Attempt) -> String {
    let slowed = attempt.is_slowed().then(|| say(k("attempt-slowed-short")));
    let other = (!attempt.can_be_driven_again()).then(|| say(k("attempt-other-simulation-short")));
    slowed.into_iter().chain(other).map(|mark| format!(" · ▲ {mark}")).collect()
}

/// Both in full.
#[component]
pub(crate) fn Notes(attempt: Attempt) -> impl IntoView {
    let note = |id: &'static str, said: Option<String>| {
        said.map(|said| {
            view! {
                <p class="note" id=id>
                    <span aria-hidden="true">"▲ "</span>
                    {said}
                </p>
            }
        })
    };
    move || {
        let slowed = note("slowed", slowed_text(&attempt));
        let other = note("other-simulation", other_simulation_text(&attempt));
        view! {
            {slowed}
            {other}
        }
    }
}

//! A sitting on its way: the parts with what is done, and one button to go on.

use coneyard_core::class::other_simulation;
use coneyard_core::debrief::Ending;
use coneyard_core::pretest::{count, course_of};
use coneyard_core::run::file::SIMULATION;
use leptos::prelude::*;

use super::actions::{GiveUp, Save};
use super::offered::so_far_text;
use super::{Headline, KeepTrouble};
use crate::courses::{LibraryDesk, use_library};
use crate::parts::names::{chosen_truck, ending_word};
use crate::parts::prepare::prepare;
use crate::parts::when::Length;
use crate::reader;
use crate::route::Route;
use crate::settings::use_settings;
use crate::store::{Attempt, Place, Taken, use_store};
use crate::words::{k, number, say, say_with, text, tr};

/// What people call a part. The second of two on the same course is driven the other way round.
pub(super) fn part_title(library: LibraryDesk, n: usize, truck: &str) -> String {
    let course = course_of(n, truck);
    let title = library.title(course.unwrap_or_default());
    if n > 0 && course == course_of(n - 1, truck) {
        say_with(k("pretest-other-way"), vec![("title", text(title))])
    } else {
        title
    }
}

/// The names of all parts, whoever takes them: which side and seed they have does not show.
#[component]
pub(super) fn Names() -> impl IntoView {
    let (library, settings) = (use_library(), use_settings());
    move || {
        let truck = settings.with(chosen_truck);
        let name = |n| view! { <li>{part_title(library, n, truck)}</li> };
        let names = (0..count()).map(name).collect_view();
        view! { <ol class="plain numbered">{names}</ol> }
    }
}

/// How fast time went by in a part, where it was too slow.
pub(super) fn slow_text(attempt: &Attempt, least: f64) -> Option<String> {
    let ratio = attempt.share_of_real_time()?;
    // Rounded down, so that it never seems to be enough.
    let percent = number((100.0 * ratio).floor());
    (ratio < least).then(|| say_with(k("pretest-part-too-slow"), vec![("percent", percent)]))
}

/// That a part is driven, and how it ended. One whose time ran out is a result like the others.
fn driven_text(ending: Ending) -> String {
    if ending == Ending::TimeOut {
        return say(k("pretest-part-out-of-time"));
    }
    say_with(k("pretest-part-driven"), vec![("ending", text(say(ending_word(ending))))])
}

fn other_text(made: u32) -> String {
    let versions = vec![("made", number(made)), ("here", number(SIMULATION))];
    say_with(k("pretest-other-simulation"), versions)
}

/// The page while parts are left.
#[component]
pub(super) fn Open(taken: Taken, driven: Vec<Attempt>) -> impl IntoView {
    let library = use_library();
    let store = use_store();
    prepare();
    let due = driven.len();
    let place = Place { sitting: taken.id.clone(), part: due };
    let go_on = Route::Part { sitting: place.sitting.clone(), part: due }.href();
    let under = other_simulation(&driven);
    let cut = Memo::new(move |_| store.cut_part(&place).map(|cut| cut.drive.simulation));
    let is_cut = Memo::new(move |_| cut.get().is_some());
    // Parts that are driven, or the one that was cut off, may be of another simulation.
    let other = Memo::new(move |_| under.or(cut.get().filter(|made| *made != SIMULATION)));
    let go_on_text = move || {
        let part = vec![("part", number((due + 1) as f64))];
        match (is_cut.get(), due) {
            (true, _) => say_with(k("pretest-part-on"), part),
            (false, 0) => say(k("pretest-first-part")),
            (false, _) => say_with(k("pretest-next-part"), part),
        }
    };
    let terms = reader::terms_signal(taken.rules.clone());
    let taken_pauses = taken.pauses;
    let pauses = move || {
        let left = terms.get()?.pauses_most.saturating_sub(taken_pauses);
        Some(say_with(k("pretest-pauses-left"), vec![("pauses", number(left))]))
    };
    let truck = taken.truck.clone();
    let rows = (0..count())
        .map(|n| {
            let truck = truck.clone();
            let attempt = driven.get(n).cloned();
            let (mark, class) = match (n < due, n == due) {
                (true, _) => ("✓", "part driven"),
                (_, true) => ("▶", "part due"),
                _ => ("○", "part"),
            };
            let state = move || match (&attempt, n == due) {
                (Some(attempt), _) => {
                    let said = driven_text(attempt.verdict.debrief.ending);
                    let slow = terms.get().and_then(|t| slow_text(attempt, t.time_ratio_least));
                    let slow = slow.map(|s| format!(" · ▲ {s}")).unwrap_or_default();
                    let ticks = attempt.verdict.debrief.ticks;
                    view! {
                        {said}
                        " · "
                        <Length ticks />
                        {slow}
                    }
                    .into_any()
                }
                (None, true) if is_cut.get() => say(k("pretest-part-cut")).into_any(),
                (None, true) => say(k("pretest-part-due")).into_any(),
                (None, false) => say(k("pretest-part-left")).into_any(),
            };
            view! {
                <li class=class aria-current=(n == due).then_some("step")>
                    <span class="mark" aria-hidden="true">
                        {mark}
                    </span>
                    <span class="title">{move || part_title(library, n, &truck)}</span>
                    <span class="state">{state}</span>
                </li>
            }
        })
        .collect_view();
    view! {
        <p class="lead">
            <Headline taken=taken.clone() />
        </p>
        <KeepTrouble />
        <section class="card" aria-labelledby="parts-title">
            <h2 id="parts-title">{move || so_far_text(due)}</h2>
            {move || match other.get() {
                Some(made) => {
                    view! {
                        <p class="note warn" id="cannot-go-on">
                            <span aria-hidden="true">"▲ "</span>
                            {other_text(made)}
                        </p>
                    }
                        .into_any()
                }
                None => {
                    view! {
                        <p class="actions">
                            <a class="button primary huge" id="next-part" href=go_on.clone()>
                                {go_on_text}
                            </a>
                        </p>
                        <p class="quiet">{pauses} " " {tr("pretest-stop-between")}</p>
                    }
                        .into_any()
                }
            }}
            <ol class="parts">{rows}</ol>
        </section>
        <section class="card" aria-labelledby="stop-title">
            <h2 id="stop-title">{tr("pretest-stop")}</h2>
            <p class="quiet">{tr("pretest-save-more")}</p>
            <div class="actions">
                <Save taken=taken.clone() driven />
                <GiveUp taken />
            </div>
        </section>
    }
}

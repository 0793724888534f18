//! Every moment of one kind, over all drives that are kept here: to show a class each missed horn, one after the
//! other.

use coneyard_core::class::note::{codes, moments};
use leptos::prelude::*;

use crate::courses::use_library;
use crate::pages::class::Bring;
use crate::pages::debrief::findings::{LEAD_IN, measured_text};
use crate::pages::debrief::who_text;
use crate::pages::replay::tour;
use crate::parts::when::{Moment, Since};
use crate::route::Route;
use crate::settings::use_settings;
use crate::store::use_store;
use crate::words::{changed, k, number, say, say_with, tr};

/// What was found at fault, and how often.
#[component]
pub(crate) fn Kinds() -> impl IntoView {
    let store = use_store();
    let list = move || {
        let all = store.attempts.with(|all| codes(all));
        if all.is_empty() {
            return view! { <p>{say(k("moments-none"))}</p> }.into_any();
        }
        let row = |(code, count): (String, usize)| {
            let href = Route::Moments(code.clone()).href();
            view! {
                <li>
                    <a href=href>{changed(&code)}</a>
                    " "
                    <span class="quiet">
                        {say_with(k("moments-count"), vec![("count", number(count as f64))])}
                    </span>
                </li>
            }
        };
        view! { <ul class="moment-list">{all.into_iter().map(row).collect_view()}</ul> }.into_any()
    };
    view! {
        <p class="lead">{tr("moments-lead")}</p>
        {list}
    }
}

/// Every moment at which this was found.
#[component]
pub(crate) fn Moments(code: String) -> impl IntoView {
    let (store, library, settings) = (use_store(), use_library(), use_settings());
    let (title, of_class) = (code.clone(), code.clone());
    let list = move || {
        let units = settings.with(|s| s.units);
        store.attempts.with(|all| {
            moments(all, &code)
                .map(|found| {
                    let from = found.finding.from;
                    let at = Some(from.saturating_sub(LEAD_IN));
                    let id = found.attempt.id.clone();
                    let href = Route::Replay { id, at, finding: Some(found.number) }.href();
                    let (who, course) =
                        (who_text(found.attempt), library.title(&found.attempt.course));
                    let started = found.attempt.started.clone();
                    view! {
                        <li>
                            <a href=href>
                                <Since ticks=from />
                                " · "
                                {who}
                                " · "
                                {course}
                            </a>
                            " "
                            <span class="quiet">
                                <Moment at=started />
                                " "
                                {measured_text(found.finding, units)}
                            </span>
                        </li>
                    }
                })
                .collect_view()
        })
    };
    let play = {
        let of = title.clone();
        let href = tour::href(&title);
        move || {
            let some = store.attempts.with(|all| moments(all, &of).next().is_some());
            let href = href.clone();
            some.then(|| {
                view! {
                    <p class="actions">
                        <a class="button primary" id="play-moments" href=href>
                            {tr("tour-play")}
                        </a>
                    </p>
                    <p class="quiet">{tr("tour-play-how")}</p>
                }
            })
        }
    };
    view! {
        <h2>{move || changed(&title)}</h2>
        <Bring code=of_class />
        {play}
        <ol class="moment-list">{list}</ol>
        <p>
            <a class="button" href="#/moments">
                {tr("moments-all")}
            </a>
        </p>
    }
}

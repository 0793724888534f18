//! Pre-tests that were begun and are not at their end, offered wherever people come in, and those
//! that are.

use coneyard_core::class::is_open;
use coneyard_core::pretest::count;
use leptos::prelude::*;

use super::Headline;
use crate::route::Route;
use crate::store::{Taken, use_store};
use crate::words::{k, number, say_with, tr};

/// "3 of 10 parts driven".
pub(super) fn so_far_text(driven: usize) -> String {
    let (driven, parts) = (number(driven as f64), number(count() as f64));
    say_with(k("pretest-so-far"), vec![("driven", driven), ("parts", parts)])
}

/// The pre-tests that are, or are not, still open, latest first, with how many parts are driven.
fn listed(open: bool) -> Vec<(Taken, usize)> {
    let store = use_store();
    let with_driven = |t: Taken| {
        let driven = store.driven(&t.id).len();
        (t, driven)
    };
    let goes_on = |(t, driven): &(Taken, usize)| is_open(t, *driven) && !t.imported;
    let all = store.sittings.get().into_iter().rev().map(with_driven);
    all.filter(|one| goes_on(one) == open).collect()
}

/// Those that go on; nothing when there is none.
#[component]
pub(crate) fn OpenSittings() -> impl IntoView {
    move || {
        let rows: Vec<_> = listed(true)
            .into_iter()
            .map(|(taken, driven)| {
                let href = Route::Sitting(taken.id.clone()).href();
                view! {
                    <li>
                        <p>
                            <Headline taken />
                            " · "
                            {move || so_far_text(driven)}
                        </p>
                        <p class="actions">
                            <a class="button primary go-on-pre-test" href=href>
                                {tr("pretest-go-on")}
                            </a>
                        </p>
                    </li>
                }
            })
            .collect();
        (!rows.is_empty()).then(|| {
            view! {
                <section class="card cut-off" aria-labelledby="open-pre-test">
                    <h2 id="open-pre-test">{tr("pretest-open-title")}</h2>
                    <p>{tr("pretest-open-lead")}</p>
                    <ul>{rows}</ul>
                </section>
            }
        })
    }
}

/// Those at their end; nothing when there is none.
#[component]
pub(super) fn PastSittings() -> impl IntoView {
    move || {
        let rows: Vec<_> = listed(false)
            .into_iter()
            .map(|(taken, driven)| {
                let href = Route::Sitting(taken.id.clone()).href();
                view! {
                    <li>
                        <a href=href>
                            <Headline taken />
                        </a>
                        " · "
                        {move || so_far_text(driven)}
                    </li>
                }
            })
            .collect();
        (!rows.is_empty()).then(|| {
            view! {
                <section class="card" aria-labelledby="past-pre-tests">
                    <h2 id="past-pre-tests">{tr("pretest-past-title")}</h2>
                    <ul class="plain">{rows}</ul>
                </section>
            }
        })
    }
}

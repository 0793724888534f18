//! How well people know how they drove: what they had said before their debriefs opened, beside what was found.

use std::collections::BTreeMap;

use coneyard_core::class::own::{Asked, Knowing};
use leptos::prelude::*;

use crate::words::{k, number, say_with, tr};

/// Key of what is asked.
pub(crate) fn question(asked: Asked) -> &'static str {
    match asked {
        Asked::People => k("own-people"),
        Asked::Looking => k("own-looking"),
        Asked::Stopping => k("own-stopping"),
        Asked::Tidy => k("own-tidy"),
    }
}

/// The figures; nothing where nothing was said yet.
#[component]
pub(crate) fn Noticed(all: BTreeMap<Asked, Knowing>) -> impl IntoView {
    if all.is_empty() {
        return None;
    }
    let rows = all
        .into_iter()
        .map(|(asked, Knowing { with_faults, noticed, without, too_hard })| {
            let counts = vec![
                ("noticed", number(noticed)),
                ("faults", number(with_faults)),
                ("hard", number(too_hard)),
                ("fine", number(without)),
            ];
            view! {
                <div>
                    <dt>{tr(question(asked))}</dt>
                    <dd>{say_with(k("own-progress"), counts)}</dd>
                </div>
            }
        })
        .collect_view();
    Some(view! {
        <section aria-labelledby="own-progress-title">
            <h2 id="own-progress-title">{tr("own-progress-title")}</h2>
            <p class="quiet">{tr("own-progress-more")}</p>
            <dl class="own-noticed">{rows}</dl>
        </section>
    })
}

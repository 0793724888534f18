//! How well somebody knows how they drove: what they had said before their debriefs opened, beside what was found.

use coneyard_core::class::own::{Knowing, knowing};
use leptos::prelude::*;

use crate::pages::debrief::own::question;
use crate::store::Attempt;
use crate::words::{k, number, say_with, tr};

/// The figures; nothing where nothing was said yet.
#[component]
pub(super) fn Noticed(attempts: Memo<Vec<Attempt>>) -> impl IntoView {
    move || {
        let all = attempts.with(|all| knowing(all));
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
}

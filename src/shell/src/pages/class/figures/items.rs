//! What the pre-test tells of itself: how hard its items are, and whether they go together; by how many took it.

use coneyard_core::class::detection::Estimate;
use coneyard_core::class::items::{ALPHA_FROM, Item, Items, REST_FROM, SHARES_FROM, Told as Is};
use coneyard_core::score::points::SKILLS;
use coneyard_core::words::skill_key;
use leptos::prelude::*;

use crate::parts::share::estimate_text;
use crate::words::{k, number, say, say_with, steady_number, text, tr};

/// The section.
#[component]
pub(super) fn Told(items: Items) -> impl IntoView {
    let people = vec![("people", number(items.people as f64))];
    let thresholds = vec![
        ("shares", number(SHARES_FROM as f64)),
        ("alpha", number(ALPHA_FROM as f64)),
        ("rest", number(REST_FROM as f64)),
    ];
    let alpha = match items.alpha {
        Is::TooFew => None,
        Is::Undefined => Some(say(k("figures-items-alpha-none"))),
        Is::Is(alpha) => Some(say_with(k("figures-items-alpha"), interval(alpha))),
    };
    let alpha = alpha.map(|told| {
        view! {
            <p id="alpha">{told}</p>
            <p class="quiet">{tr("figures-items-alpha-more")}</p>
        }
    });
    let some = items.people > 0;
    // An item's name is the word of its skill, in the order of the skills.
    let rows =
        items.items.iter().zip(SKILLS).map(|(i, skill)| row(i, skill_key(skill))).collect_view();
    view! {
        <section>
            <h2 id="items-title">{tr("figures-items")}</h2>
            <p id="items-people">{say_with(k("figures-items-people"), people)}</p>
            <p class="quiet">{say_with(k("figures-items-from"), thresholds)}</p>
            {some
                .then(|| {
                    view! {
                        <div
                            class="table-wrap"
                            tabindex="0"
                            role="region"
                            aria-label=tr("figures-items")
                        >
                            <table id="items">
                                <thead>
                                    <tr>
                                        <th scope="col">{tr("figures-items-item")}</th>
                                        <th scope="col" class="num">
                                            {tr("figures-items-right")}
                                        </th>
                                        <th scope="col" class="num">
                                            {tr("figures-items-share")}
                                        </th>
                                        <th scope="col" class="num">
                                            {tr("figures-items-with")}
                                        </th>
                                    </tr>
                                </thead>
                                <tbody>{rows}</tbody>
                            </table>
                        </div>
                    }
                })}
            {alpha}
        </section>
    }
}

fn interval(is: Estimate) -> Vec<(&'static str, crate::words::Arg)> {
    let shown = |value| text(steady_number(value, 2));
    vec![("value", shown(is.value)), ("low", shown(is.low)), ("high", shown(is.high))]
}

fn row(item: &Item, name: &'static str) -> impl IntoView + use<> {
    let counted = vec![("is", number(item.right)), ("of", number(item.known))];
    let share = match item.share {
        Is::Is(share) => estimate_text(share),
        Is::TooFew => say(k("figures-too-few")),
        Is::Undefined => "–".to_owned(),
    };
    let with = match item.rest {
        Is::Is(rest) => {
            let said = say_with(k("figures-items-goes"), interval(rest.with));
            let mark = if rest.stands_out { "▲ " } else { "" };
            format!("{mark}{said}")
        }
        Is::TooFew => say(k("figures-too-few")),
        Is::Undefined => say(k("figures-items-alike")),
    };
    view! {
        <tr data-item=item.name.clone()>
            <th scope="row">{say(name)}</th>
            <td class="num">{say_with(k("progress-walks-of"), counted)}</td>
            <td class="num">{share}</td>
            <td class="num">{with}</td>
        </tr>
    }
}

//! Points of a skill: a bar, the number and a word.

use coneyard_core::debrief::SkillResult;
use coneyard_core::reading::Terms;
use coneyard_core::words::skill_key;
use leptos::prelude::*;

use crate::words::{k, number, say, say_with, steady_number};

/// A word for so many points, by what a pre-test asks for: its total of the whole is well shown,
/// its mark of a single skill is enough.
pub(crate) fn points_word(points: f64, terms: Terms) -> &'static str {
    if points >= terms.pass_total {
        k("points-well")
    } else if points >= terms.pass_skill {
        k("points-enough")
    } else {
        k("points-practise")
    }
}

/// How the bar is drawn for so many points.
fn points_class(points: f64, terms: Terms) -> &'static str {
    if points >= terms.pass_total {
        "well"
    } else if points >= terms.pass_skill {
        "enough"
    } else {
        "practise"
    }
}

/// One skill's row. Without what the site asks for, as long as that is on its way, it has no word.
#[component]
pub(crate) fn SkillBar(result: SkillResult, terms: Option<Terms>) -> impl IntoView {
    let name = skill_key(result.skill);
    let (opportunities, clean) = (result.opportunities, result.clean);
    let shown = result.points;
    view! {
        <li class="skill">
            <span class="name">{move || say(name)}</span>
            {match shown {
                Some(points) => {
                    view! {
                        <span class="points">{move || steady_number(points, 0)}</span>
                        <span class="bar" aria-hidden="true">
                            <span
                                class=format!("fill {}", terms.map_or("", |t| points_class(points, t)))
                                style:width=format!("{points:.0}%")
                            ></span>
                        </span>
                        <span class="word">
                            {move || terms.map(|t| say(points_word(points, t)))} " · "
                            {move || {
                                say_with(
                                    k("debrief-clean-of"),
                                    vec![
                                        ("clean", number(clean)),
                                        ("opportunities", number(opportunities)),
                                    ],
                                )
                            }}
                        </span>
                    }
                        .into_any()
                }
                None => view! { <span class="word none">{move || say(k("points-not-shown"))}</span> }.into_any(),
            }}
        </li>
    }
}

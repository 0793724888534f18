//! Points of a skill: a bar, the number and a word.

use coneyard_core::debrief::SkillResult;
use leptos::prelude::*;

use crate::app::skill_name;
use crate::browser::number_text;
use crate::words::{k, number, say, say_with};

/// From this on a skill is well shown; a pre-test asks for as much.
const WELL: f64 = 80.0;
/// Below this it needs practice.
const ENOUGH: f64 = 70.0;

/// A word for so many points.
pub(crate) fn points_word(points: f64) -> &'static str {
    if points >= WELL {
        k("points-well")
    } else if points >= ENOUGH {
        k("points-enough")
    } else {
        k("points-practise")
    }
}

/// How the bar is drawn for so many points.
pub(crate) fn points_class(points: f64) -> &'static str {
    if points >= WELL {
        "well"
    } else if points >= ENOUGH {
        "enough"
    } else {
        "practise"
    }
}

/// One skill's row.
#[component]
pub(crate) fn SkillBar(result: SkillResult) -> impl IntoView {
    let name = skill_name(result.skill);
    let (opportunities, clean) = (result.opportunities, result.clean);
    let shown = result.points;
    view! {
        <li class="skill">
            <span class="name">{move || say(name)}</span>
            {match shown {
                Some(points) => {
                    view! {
                        <span class="points">{move || number_text(points, 0)}</span>
                        <span class="bar" aria-hidden="true">
                            <span
                                class=format!("fill {}", points_class(points))
                                style:width=format!("{points:.0}%")
                            ></span>
                        </span>
                        <span class="word">
                            {move || say(points_word(points))} " · "
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

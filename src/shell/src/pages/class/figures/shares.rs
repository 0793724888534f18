//! People's shares of clean opportunities, drawn towards the middle of the class: by truck and skill, as bars with the
//! same in words.

use coneyard_core::class::figures::{OfSkill, Shown};
use coneyard_core::words::skill_key;
use leptos::prelude::*;

use crate::parts::names::truck_name;
use crate::parts::share::{EstimateBar, estimate_text, percent};
use crate::words::{k, number, say, say_with, text, tr};

/// The section; nothing where too few have shown anything.
#[component]
pub(super) fn Shares(skills: Vec<OfSkill>) -> impl IntoView {
    if skills.is_empty() {
        return None;
    }
    let all = skills.into_iter().map(of_skill).collect_view();
    Some(view! {
        <section aria-labelledby="pooled-title">
            <h2 id="pooled-title">{tr("figures-shares")}</h2>
            <p class="quiet">{tr("figures-shares-more")}</p>
            {all}
        </section>
    })
}

fn of_skill(of: OfSkill) -> impl IntoView {
    let middle = vec![
        ("middle", text(percent(of.middle))),
        ("apart", text(percent(of.apart))),
        ("people", number(of.people.len() as f64)),
    ];
    let rows = of.people.into_iter().map(person).collect_view();
    view! {
        <details class="pooled">
            <summary>
                <strong>{say(skill_key(of.skill))}</strong>
                " · "
                {truck_name(&of.truck)}
                " · "
                {say_with(k("figures-shares-middle"), middle)}
            </summary>
            <ul class="skills">{rows}</ul>
        </details>
    }
}

fn person(is: Shown) -> impl IntoView {
    let counted = vec![("clean", number(is.clean)), ("opportunities", number(is.all))];
    view! {
        <li class="skill sure">
            <span class="name">{is.who}</span>
            <EstimateBar is=is.drawn />
            <span class="word">
                <strong>{estimate_text(is.drawn)}</strong>
                " · "
                {say_with(k("debrief-clean-of"), counted)}
            </span>
        </li>
    }
}

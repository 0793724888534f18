//! The findings by the numbers that they have on the plan: each fault with what was measured, why it
//! matters, what to do instead, and the rule it comes from, the worst first; then what went well.

use coneyard_core::finding::Severity;
use coneyard_core::words::severity_key;
use leptos::prelude::*;

use crate::pages::debrief::findings::{
    Numbered, by_code, citation_text, measured_text, together, what_text, worst_first,
};
use crate::parts::papers::Papers;
use crate::parts::when::Since;
use crate::plan::{Marker, numbered};
use crate::settings::use_settings;
use crate::store::Attempt;
use crate::words::{say, tell, tr};

/// Good deeds, or faults, with their numbers.
fn found(attempt: &Attempt, good: bool) -> Vec<Numbered> {
    let all = numbered(&attempt.verdict.debrief.findings).into_iter();
    all.filter(|(_, f)| (f.severity == Severity::Good) == good).collect()
}

/// One time that it came up, or several points of the truck: number, time, and what happened.
fn once(ones: Vec<Numbered>, papers: Papers) -> Option<impl IntoView> {
    let settings = use_settings();
    let (number, finding) = ones.first()?.clone();
    let (severity, from) = (finding.severity, finding.from);
    // What is about a point of the truck has no place on the plan.
    let on_plan = finding.point.is_none().then_some(number);
    let words = Memo::new(move |_| {
        let units = settings.with(|s| s.units);
        let measured = (severity != Severity::Good).then(|| measured_text(&finding, units));
        (measured.flatten(), what_text(&ones, papers, units))
    });
    Some(view! {
        <li data-number=number>
            <Marker number=on_plan severity />
            <div>
                <Since ticks=from />
                " "
                {move || words.with(|w| w.1.clone())}
                {move || {
                    words
                        .with(|w| w.0.clone())
                        .map(|measured| view! { " " <strong>{measured}"."</strong> })
                }}
            </div>
        </li>
    })
}

/// All times that one thing came up.
fn times(group: Vec<Numbered>, papers: Papers) -> impl IntoView {
    let items = together(group).into_iter().filter_map(|ones| once(ones, papers)).collect_view();
    view! { <ul class="times">{items}</ul> }
}

/// What went well.
#[component]
pub(super) fn Good(attempt: Attempt, papers: Papers) -> impl IntoView {
    let settings = use_settings();
    let groups = by_code(found(&attempt, true), |(_, f)| f);
    let none = groups.is_empty();
    let items = groups
        .into_iter()
        .filter_map(|group| {
            let first = group.first()?.1.clone();
            Some(view! {
                <div class="found short">
                    <h3>{move || tell(&first, settings.with(|s| s.units)).title}</h3>
                    {times(group, papers)}
                </div>
            })
        })
        .collect_view();
    view! {
        <section>
            <h2>{tr("debrief-good")}</h2>
            {none.then(|| view! { <p>{tr("print-no-good")}</p> })}
            {items}
        </section>
    }
}

/// What to do better.
#[component]
pub(super) fn Faults(attempt: Attempt, papers: Papers) -> impl IntoView {
    let groups = worst_first(found(&attempt, false));
    let none = groups.is_empty();
    let items = groups.into_iter().filter_map(|group| fault(group, papers)).collect_view();
    view! {
        <section>
            <h2>{tr("debrief-faults")}</h2>
            {none.then(|| view! { <p>{tr("debrief-no-faults")}</p> })}
            {items}
        </section>
    }
}

/// One code with every time it came up; None for an empty group.
fn fault(group: Vec<Numbered>, papers: Papers) -> Option<impl IntoView> {
    let settings = use_settings();
    let gravest = group.iter().map(|(_, f)| f.severity).max()?;
    let first = group.first()?.1.clone();
    let code = first.code.clone();
    let cited =
        move || papers.rules.with(|rules| rules.as_ref().and_then(|r| citation_text(r, &code)));
    let told = Memo::new(move |_| tell(&first, settings.with(|s| s.units)));
    Some(view! {
        <div class="found">
            <h3>
                {move || told.with(|t| t.title.clone())} " "
                <span class="severity">{move || say(severity_key(gravest))}</span>
            </h3>
            {times(group, papers)}
            <p>{move || told.with(|t| t.why.clone())}</p>
            <p class="instead">
                <span aria-hidden="true">"→ "</span>
                {move || told.with(|t| t.instead.clone())}
            </p>
            <p class="small">{cited}</p>
        </div>
    })
}

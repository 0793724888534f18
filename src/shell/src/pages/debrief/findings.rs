//! The findings of a debrief: first what went well, then each fault with what was measured, why it
//! matters, what to do instead, and the rule it comes from.

use coneyard_core::finding::{Finding, Severity, TICK_RATE};
use coneyard_core::score::SiteRules;
use coneyard_core::words::severity_key;
use leptos::prelude::*;

use crate::parts::finding;
use crate::route::Route;
use crate::settings::use_settings;
use crate::words::{fine_time_text, k, quantity, say, say_with, source, tell, text, tr};

/// "Look at it" opens the replay this much before, ticks.
const LEAD_IN: u32 = 2 * TICK_RATE;

fn look_link(id: &str, finding: &Finding) -> impl IntoView + use<> {
    let at = finding.from.saturating_sub(LEAD_IN);
    let href = Route::Replay { id: id.to_owned(), at }.href();
    let from = finding.from;
    view! {
        <a class="look" href=href>
            {move || say_with(k("debrief-look"), vec![("at", text(fine_time_text(from)))])}
        </a>
    }
}

/// The good deeds.
#[component]
pub(super) fn Good(good: Vec<Finding>, id: String) -> impl IntoView {
    if good.is_empty() {
        return view! { <p>{tr("debrief-no-good")}</p> }.into_any();
    }
    let items = good.into_iter().map(|f| view! { <Deed f id=id.clone() /> }).collect_view();
    view! { <ul class="deeds">{items}</ul> }.into_any()
}

#[component]
fn Deed(f: Finding, id: String) -> impl IntoView {
    let settings = use_settings();
    let look = look_link(&id, &f);
    let told = Memo::new(move |_| tell(&f, settings.with(|s| s.units)));
    view! {
        <li class="deed">
            <span class="mark good" aria-hidden="true">
                {finding::mark(Severity::Good)}
            </span>
            <strong>{move || told.with(|t| t.title.clone())}</strong>
            <span>{move || told.with(|t| t.what.clone())}</span>
            {look}
        </li>
    }
}

/// The faults.
#[component]
pub(super) fn Faults(
    faults: Vec<Finding>,
    id: String,
    rules: RwSignal<Option<SiteRules>>,
) -> impl IntoView {
    if faults.is_empty() {
        return view! { <p>{tr("debrief-no-faults")}</p> }.into_any();
    }
    let items =
        faults.into_iter().map(|f| view! { <Fault f id=id.clone() rules /> }).collect_view();
    view! { <ol class="faults">{items}</ol> }.into_any()
}

#[component]
fn Fault(f: Finding, id: String, rules: RwSignal<Option<SiteRules>>) -> impl IntoView {
    let settings = use_settings();
    let look = look_link(&id, &f);
    let class = format!("fault {}", finding::class(f.severity));
    let severity = f.severity;
    let code = f.code.clone();
    let cited = move || {
        rules.with(|rules| {
            let rule = rules.as_ref()?.rules.get(&code)?;
            let note = rule.note.as_ref().map(|n| format!(" {n}")).unwrap_or_default();
            let cited = text(source(&rule.citation));
            Some(format!("{}{note}", say_with(k("debrief-rule"), vec![("rule", cited)])))
        })
    };
    let (measured, limit, unit) = (f.measured, f.limit, f.unit);
    let beside = move || {
        let units = settings.with(|s| s.units);
        say_with(
            k("debrief-measured"),
            vec![
                ("measured", text(quantity(measured, unit, units))),
                ("limit", text(quantity(limit, unit, units))),
            ],
        )
    };
    let told = Memo::new(move |_| tell(&f, settings.with(|s| s.units)));
    view! {
        <li class=class>
            <h3>
                <span class="mark" aria-hidden="true">
                    {finding::mark(severity)}
                </span>
                {move || told.with(|t| t.title.clone())}
                <span class="severity">{move || say(severity_key(severity))}</span>
            </h3>
            <p class="measured">{beside}</p>
            <p>{move || told.with(|t| t.what.clone())} " " {move || told.with(|t| t.why.clone())}</p>
            <p class="instead">
                <span aria-hidden="true">"→ "</span>
                {move || told.with(|t| t.instead.clone())}
            </p>
            <p class="cite">{cited} " " {look}</p>
        </li>
    }
}

//! The findings of a debrief: first what went well, then each fault with what was measured, why it
//! matters, what to do instead, and the rule it comes from.

use coneyard_core::finding::{Finding, Severity, Unit};
use coneyard_core::reading::RulesShown;
use coneyard_core::time::TICK_RATE;
use coneyard_core::words::{Units, severity_key};
use leptos::prelude::*;

use crate::parts::finding;
use crate::parts::when::iso_length;
use crate::route::Route;
use crate::settings::use_settings;
use crate::words::{
    fine_time_text, k, lang, measured_and_limit, number, say, say_with, source, tell, text, tr,
};

/// "Look at it" opens the replay this much before, ticks.
const LEAD_IN: u32 = 2 * TICK_RATE;

pub(crate) fn look_link(id: &str, finding: &Finding) -> impl IntoView + use<> {
    let at = finding.from.saturating_sub(LEAD_IN);
    let href = Route::Replay { id: id.to_owned(), at: Some(at) }.href();
    let from = finding.from;
    view! {
        <a class="look" href=href>
            <time datetime=iso_length(from)>
                {move || say_with(k("debrief-look"), vec![("at", text(fine_time_text(from)))])}
            </time>
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
    let code = f.code.clone();
    let told = Memo::new(move |_| tell(&f, settings.with(|s| s.units)));
    view! {
        <li class="deed" data-code=code>
            <span class="mark good" aria-hidden="true">
                {finding::mark(Severity::Good)}
            </span>
            <strong>{move || told.with(|t| t.title.clone())}</strong>
            <span>{move || told.with(|t| t.what.clone())}</span>
            {look}
        </li>
    }
}

/// Puts findings of the same code together, in the order in which each code first came up: what
/// to do instead is said once.
pub(crate) fn by_code<T>(all: Vec<T>, finding: fn(&T) -> &Finding) -> Vec<Vec<T>> {
    let mut groups: Vec<Vec<T>> = Vec::new();
    for one in all {
        let code = &finding(&one).code;
        match groups.iter_mut().find(|g| g.first().is_some_and(|f| finding(f).code == *code)) {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    groups
}

/// The faults.
#[component]
pub(super) fn Faults(
    faults: Vec<Finding>,
    id: String,
    rules: RwSignal<Option<RulesShown>>,
) -> impl IntoView {
    let items = by_code(faults, |f| f)
        .into_iter()
        .filter_map(|group| fault(group, &id, rules))
        .collect_view();
    view! { <ol class="faults">{items}</ol> }
}

/// What was measured beside its limit. A count says nothing that the sentence does not, and a
/// limit of nothing is none.
pub(crate) fn measured_text(f: &Finding, units: Units) -> Option<String> {
    if f.unit == Unit::Count {
        return None;
    }
    let [measured, limit] = measured_and_limit(f, units).map(text);
    if f.limit == 0.0 {
        return Some(say_with(k("debrief-measured-alone"), vec![("measured", measured)]));
    }
    Some(say_with(k("debrief-measured"), vec![("measured", measured), ("limit", limit)]))
}

/// The rule that a finding comes from, and what the site wants said beside it.
pub(crate) fn citation_text(rules: &RulesShown, code: &str) -> Option<String> {
    let rule = rules.citations.get(code)?;
    let note = rule.note(lang().code()).map(|n| format!(" {n}")).unwrap_or_default();
    let cited = text(source(&rule.source));
    Some(format!("{}{note}", say_with(k("debrief-rule"), vec![("rule", cited)])))
}

/// One code with every time it came up; None for an empty group.
fn fault(
    group: Vec<Finding>,
    id: &str,
    rules: RwSignal<Option<RulesShown>>,
) -> Option<impl IntoView + use<>> {
    let settings = use_settings();
    let gravest = group.iter().map(|f| f.severity).max()?;
    let first = group.first()?.clone();
    let times = group.len();
    let code = first.code.clone();
    let cited = move || rules.with(|rules| citation_text(rules.as_ref()?, &code));
    let told = Memo::new(move |_| tell(&first, settings.with(|s| s.units)));
    let occurrences =
        group.into_iter().map(|f| view! { <Occurrence f id=id.to_owned() /> }).collect_view();
    Some(view! {
        <li class=format!("fault {}", finding::class(gravest))>
            <h3>
                <span class="mark" aria-hidden="true">
                    {finding::mark(gravest)}
                </span>
                " "
                {move || told.with(|t| t.title.clone())}
                <span class="severity">{move || say(severity_key(gravest))}</span>
                {(times > 1)
                    .then(|| {
                        view! {
                            <span class="severity">
                                {move || {
                                    say_with(k("debrief-times"), vec![("times", number(times as f64))])
                                }}
                            </span>
                        }
                    })}
            </h3>
            <ul class="occurrences">{occurrences}</ul>
            <p>{move || told.with(|t| t.why.clone())}</p>
            <p class="instead">
                <span aria-hidden="true">"→ "</span>
                {move || told.with(|t| t.instead.clone())}
            </p>
            <p class="cite">{cited}</p>
        </li>
    })
}

#[component]
fn Occurrence(f: Finding, id: String) -> impl IntoView {
    let settings = use_settings();
    let look = look_link(&id, &f);
    let code = f.code.clone();
    let words = Memo::new(move |_| {
        let units = settings.with(|s| s.units);
        (measured_text(&f, units), tell(&f, units).what)
    });
    view! {
        <li data-code=code>
            {move || {
                words
                    .with(|w| w.0.clone())
                    .map(|measured| view! { <strong class="measured">{measured}</strong> })
            }}
            <span>{move || words.with(|w| w.1.clone())}</span>
            {look}
        </li>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn faults_of_one_code_stand_together_in_the_order_of_the_first() {
        let fault = |code: &str, from| Finding {
            code: code.into(),
            severity: Severity::Minor,
            from,
            to: from,
            measured: 1.0,
            limit: 0.0,
            unit: Unit::Count,
            at: coneyard_core::math::vec2(0.0, 0.0),
            before: None,
            cause: None,
        };
        let groups = by_code(vec![fault("b", 1), fault("a", 2), fault("b", 3)], |f| f);
        let shape: Vec<(&str, usize)> =
            groups.iter().map(|g| (g[0].code.as_str(), g.len())).collect();
        assert_eq!(shape, [("b", 2), ("a", 1)]);
        assert_eq!(groups[0][1].from, 3);
    }
}

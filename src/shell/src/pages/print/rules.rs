//! Which values this site changed from the defaults: a result is read by them.

use coneyard_core::debrief::Debrief;
use coneyard_core::reading::{Change, RuleValue};
use coneyard_core::words::{Units, severity_key, skill_key};
use leptos::prelude::*;

use crate::parts::papers::Papers;
use crate::settings::use_settings;
use crate::words::{changed, k, quantity, say, say_with, steady_number, text};

fn value_text(value: Option<&RuleValue>, units: Units) -> String {
    match value {
        None => say(k("rule-none")),
        Some(RuleValue::On(true)) => say(k("rule-on")),
        Some(RuleValue::On(false)) => say(k("rule-off")),
        Some(RuleValue::Severity(severity)) => say(severity_key(*severity)),
        Some(RuleValue::Skill(skill)) => say(skill_key(*skill)),
        Some(RuleValue::Limit(value, unit)) => quantity(*value, *unit, units),
        Some(RuleValue::Points(points)) => steady_number(*points, 0),
    }
}

fn change_text(change: &Change, units: Units) -> String {
    say_with(
        k("rule-changed"),
        vec![
            ("name", text(say(&format!("limit-{}", change.name)))),
            ("here", text(value_text(change.here.as_ref(), units))),
            ("usual", text(value_text(change.usual.as_ref(), units))),
        ],
    )
}

/// What of a changed rule is otherwise, value by value; nothing where it is not known yet.
pub(crate) fn changes_text(papers: Papers, what: &str, units: Units) -> String {
    papers.rules.with(|rules| {
        let changes = rules.as_ref().and_then(|r| r.changes.get(what));
        let texts = changes.into_iter().flatten().map(|c| change_text(c, units));
        texts.collect::<Vec<_>>().join("; ")
    })
}

/// The list; nothing when nothing was changed.
#[component]
pub(super) fn Rules(debrief: Debrief, papers: Papers) -> impl IntoView {
    let settings = use_settings();
    move || {
        if debrief.changed_rules.is_empty() {
            return None;
        }
        let units = settings.with(|s| s.units);
        let items = debrief
            .changed_rules
            .iter()
            .map(|what| {
                let changes = changes_text(papers, what, units);
                view! {
                    <li>
                        <strong>{changed(what)}</strong>
                        ": "
                        {changes}
                    </li>
                }
            })
            .collect_view();
        Some(view! {
            <section>
                <h2>{say(k("print-rules-changed"))}</h2>
                <ul class="changes">{items}</ul>
            </section>
        })
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::rules::DUTIES;
    use coneyard_core::words::Words;

    #[test]
    fn every_value_that_a_site_can_change_has_a_name() {
        let own = ["on", "severity", "skill", "graver", "graver-above", "graver-below", "value"];
        let points = ["minor", "major", "most-by-one-code", "pass-skill", "pass-total"];
        let limits = DUTIES.iter().flat_map(|d| d.limits.iter().map(|l| l.name));
        for name in limits.chain(own).chain(points).chain(["speed-limit"]) {
            for lang in ["en", "es"] {
                assert!(Words::new(lang).has(&format!("limit-{name}")), "{lang}: limit-{name}");
            }
        }
    }
}

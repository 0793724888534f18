//! One number of the rules: its field in the person's units, what it usually is, what it may be and where it comes from.

use coneyard_core::rules::{Edit, Number, Sheet};
use coneyard_core::words::measure::Scale;
use leptos::prelude::*;

use super::{Desk, focus_on};
use crate::settings::use_settings;
use crate::words::{Lang, changed, k, lang, say, say_with, source, text, tr};

/// Where a number stands on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Slot {
    /// What a pre-test asks for.
    PreTest(usize),
    /// What findings cost.
    Points(usize),
    /// What several rules share.
    Shared(usize),
    /// Of a rule: which, and which of its numbers.
    Rule(usize, usize),
}

impl Slot {
    /// The number.
    pub(super) fn of(self, sheet: &Sheet) -> Option<&Number> {
        match self {
            Self::PreTest(n) => sheet.pretest.get(n),
            Self::Points(n) => sheet.points.get(n),
            Self::Shared(n) => sheet.shared.get(n),
            Self::Rule(rule, n) => sheet.rules.get(rule)?.numbers.get(n),
        }
    }

    /// Its name in the page.
    fn id(self) -> String {
        match self {
            Self::PreTest(n) => format!("pre-test-{n}"),
            Self::Points(n) => format!("points-{n}"),
            Self::Shared(n) => format!("shared-{n}"),
            Self::Rule(rule, n) => format!("number-{rule}-{n}"),
        }
    }
}

/// What a number is called.
pub(super) fn number_name(number: &Number) -> String {
    if number.place.starts_with("terms.") {
        changed(&number.name)
    } else {
        say(&format!("limit-{}", number.name))
    }
}

/// A number of a field in the set language.
fn as_written(scale: Scale, value: f64) -> String {
    let plain = scale.written(value);
    if lang() == Lang::Es { plain.replace('.', ",") } else { plain }
}

/// What was typed, in the number's unit. What reads like its usual value, or like one of its bounds, is meant to be it:
/// in miles and inches few of them are round.
fn meant(number: &Number, scale: Scale, typed: &str) -> Option<f64> {
    let value = scale.read(typed)?;
    let same = |known: &&f64| scale.read(&scale.written(**known)) == Some(value);
    let known = [number.usual, number.least, number.most];
    Some(known.iter().find(same).copied().unwrap_or(value))
}

/// The field.
#[component]
pub(super) fn NumberField(place: Slot, desk: Desk) -> impl IntoView {
    let settings = use_settings();
    let refused = RwSignal::new(None::<String>);
    let number = Memo::new(move |_| desk.read(|sheet| place.of(sheet).cloned()));
    let scale = move |n: &Number| settings.with(|s| s.units.field(n.usual, n.unit));
    let shown = move || {
        number.with(|n| {
            let n = n.as_ref()?;
            Some(n.value.map_or_else(String::new, |value| as_written(scale(n), value)))
        })
    };
    let unit = move || {
        number.with(|n| {
            let key = scale(n.as_ref()?).unit;
            (!key.is_empty()).then(|| say(key))
        })
    };
    let name = move || number.with(|n| n.as_ref().map(number_name).unwrap_or_default());
    let more = move || {
        number.with(|n| {
            let n = n.as_ref()?;
            let bound = |value| text(as_written(scale(n), value));
            let usual = as_written(scale(n), n.usual);
            let usual = match scale(n).unit {
                "" => usual,
                "unit-deg" => format!("{usual}{}", say("unit-deg")),
                sign => format!("{usual}\u{a0}{}", say(sign)),
            };
            let mut values =
                vec![("usual", text(usual)), ("least", bound(n.least)), ("most", bound(n.most))];
            if n.source.is_empty() {
                return Some(say_with(k("rules-usual"), values));
            }
            values.push(("source", text(source(&n.source))));
            Some(say_with(k("rules-usual-source"), values))
        })
    };
    let differs = Memo::new(move |_| number.with(|n| n.as_ref().is_some_and(Number::differs)));
    let change = move |ev| {
        let typed = event_target_value(&ev);
        let Some(n) = number.get_untracked() else { return };
        let scale = untrack(|| scale(&n));
        if untrack(shown).is_some_and(|shown| shown == typed.trim()) {
            refused.set(None);
            return;
        }
        let bound = |value| text(untrack(|| as_written(scale, value)));
        match meant(&n, scale, &typed) {
            None => refused.set(Some(say(k("rules-no-number")))),
            Some(value) if !(n.least..=n.most).contains(&value) => {
                let bounds = vec![("least", bound(n.least)), ("most", bound(n.most))];
                refused.set(Some(say_with(k("rules-outside"), bounds)));
            }
            Some(value) => desk.edit(Edit::Number(n.place, value), refused),
        }
    };
    let back = move |_| {
        if let Some(n) = number.get_untracked() {
            desk.edit(Edit::Back(n.place), refused);
            focus_on(place.id());
        }
    };
    let (id, about) = (place.id(), format!("{}-about", place.id()));
    let back_name = move || say_with(k("rules-back-of"), vec![("name", text(name()))]);
    view! {
        <div class="rule-number" class:differs=move || differs.get()>
            <label for=id.clone()>{name}</label>
            <span class="rule-value">
                <input
                    type="text"
                    id=id
                    inputmode="decimal"
                    autocomplete="off"
                    size="8"
                    aria-describedby=about.clone()
                    aria-invalid=move || refused.with(Option::is_some).then_some("true")
                    prop:value=shown
                    on:change=change
                />
                <span class="unit">{unit}</span>
                <Show when=move || differs.get()>
                    <span class="mark-changed">{tr("rules-changed-mark")}</span>
                    <button type="button" aria-label=back_name on:click=back>
                        {tr("rules-back")}
                    </button>
                </Show>
            </span>
            <span class="quiet" id=about>
                {more}
            </span>
            <span class="refused" role="alert">
                {refused}
            </span>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::finding::Unit;
    use coneyard_core::words::Units;

    use super::*;

    fn number(usual: f64, unit: Unit, [least, most]: [f64; 2]) -> Number {
        let place = "terms.a".to_owned();
        let (name, source) = ("a".to_owned(), String::new());
        Number { place, name, unit, value: Some(usual), usual, least, most, source }
    }

    #[test]
    fn what_reads_like_a_bound_is_the_bound() {
        let limit = number(2.7, Unit::MetrePerSecond, [0.2, 6.0]);
        let mph = Units::Imperial.field(limit.usual, limit.unit);
        assert_eq!((mph.written(0.2), mph.written(6.0)), ("0.45".to_owned(), "13.4".to_owned()));
        assert_eq!(meant(&limit, mph, "0.45"), Some(0.2));
        assert_eq!(meant(&limit, mph, "13.4"), Some(6.0));
        assert_eq!(meant(&limit, mph, "6"), Some(2.7), "as it is usually");
        // A little farther is beyond it, from either side.
        assert!(meant(&limit, mph, "0.44").is_some_and(|v| v < 0.2));
        assert!(meant(&limit, mph, "13.5").is_some_and(|v| v > 6.0));
        assert_eq!(meant(&limit, mph, "10"), Some(4.4704));
        assert_eq!(meant(&limit, mph, "fast"), None);
        let share = number(0.7, Unit::Share, [0.1, 0.99]);
        let percent = Units::Metric.field(share.usual, share.unit);
        assert_eq!(meant(&share, percent, "75"), Some(0.75));
    }
}

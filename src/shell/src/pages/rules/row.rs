//! One rule: whether it is watched, its numbers, and what the site wants said beside it.

use coneyard_core::rules::{Edit, RuleRow};
use coneyard_core::words::severity_key;
use leptos::prelude::*;

use super::number::{NumberField, Slot};
use super::{Desk, focus_on};
use crate::words::{k, lang, say, say_with, source, text, title, tr};

/// The rule at this place of the sheet.
#[component]
pub(super) fn RuleCard(at: usize, desk: Desk) -> impl IntoView {
    let (code, numbers) =
        untrack(|| desk.rule(at, |r| (r.code.clone(), r.numbers.len()))).unwrap_or_default();
    let code = StoredValue::new(code);
    let watched_id = StoredValue::new(format!("watched-{at}"));
    let refused = RwSignal::new(None::<String>);
    let name = move || title(&code.get_value());
    let differs = Memo::new(move |_| desk.rule(at, RuleRow::differs).unwrap_or_default());
    let on = Memo::new(move |_| desk.rule(at, |r| r.on).unwrap_or(true));
    let about = move || {
        desk.rule(at, |r| {
            let severity = text(say(severity_key(r.severity)));
            let source = text(source(&r.citation));
            match r.graver {
                Some(graver) => {
                    let graver = text(say(severity_key(graver)));
                    let values =
                        vec![("severity", severity), ("graver", graver), ("source", source)];
                    say_with(k("rules-about-graver"), values)
                }
                None => {
                    say_with(k("rules-about"), vec![("severity", severity), ("source", source)])
                }
            }
        })
    };
    let fields = (0..numbers)
        .map(|n| {
            view! {
                <li>
                    <NumberField place=Slot::Rule(at, n) desk />
                </li>
            }
        })
        .collect_view();
    let back_name = move || say_with(k("rules-back-rule-of"), vec![("name", text(name()))]);
    let watched_name = move || say_with(k("rules-watched-of"), vec![("name", text(name()))]);
    view! {
        <div
            role="group"
            class="rule"
            class:differs=move || differs.get()
            class:off=move || !on.get()
            data-code=code.get_value()
            aria-label=name
            hidden=move || !desk.shows_rule(at)
        >
            <h3>{name}</h3>
            <p class="quiet">{about}</p>
            <label class="switch">
                <input
                    type="checkbox"
                    id=watched_id.get_value()
                    aria-label=watched_name
                    prop:checked=move || on.get()
                    on:change=move |ev| {
                        desk.edit(Edit::On(code.get_value(), event_target_checked(&ev)), refused);
                    }
                />
                <span>
                    {move || say(if on.get() { k("rules-watched") } else { k("rules-not-watched") })}
                </span>
            </label>
            <ul class="rule-numbers">{fields}</ul>
            <OwnSentence at code desk refused />
            <p role="alert" class="refused">
                {refused}
            </p>
            <Show when=move || differs.get()>
                <p class="actions">
                    <button
                        type="button"
                        aria-label=back_name
                        on:click=move |_| {
                            desk.edit(Edit::RuleBack(code.get_value()), refused);
                            focus_on(watched_id.get_value());
                        }
                    >
                        {tr("rules-back-rule")}
                    </button>
                </p>
            </Show>
        </div>
    }
}

/// A sentence of the site's own beside findings of this rule, in the set language.
#[component]
fn OwnSentence(
    at: usize,
    code: StoredValue<String>,
    desk: Desk,
    refused: RwSignal<Option<String>>,
) -> impl IntoView {
    let said = move || {
        let lang = lang().code();
        desk.rule(at, |r| r.said.get(lang).cloned()).flatten().unwrap_or_default()
    };
    // In another language, so that nobody thinks that nothing is said.
    let elsewhere = move || {
        let here = lang().code();
        let other = desk.rule(at, |r| {
            let other = r.said.iter().find(|(lang, _)| lang.as_str() != here);
            other.map(|(_, sentence)| sentence.clone())
        });
        let other = other.flatten()?;
        Some(say_with(k("rules-said-elsewhere"), vec![("said", text(other))]))
    };
    let is_said = untrack(|| desk.rule(at, |r| !r.said.is_empty())).unwrap_or_default();
    view! {
        <details open=is_said>
            <summary>{tr("rules-say")}</summary>
            <label class="field">
                <span>{tr("rules-say-label")}</span>
                <input
                    type="text"
                    class="own-sentence"
                    autocomplete="off"
                    maxlength="400"
                    prop:value=said
                    on:change=move |ev| {
                        let (lang, sentence) = (lang().code().to_owned(), event_target_value(&ev));
                        desk.edit(Edit::Say(code.get_value(), lang, sentence), refused);
                    }
                />
            </label>
            <p class="quiet">{elsewhere}</p>
        </details>
    }
}

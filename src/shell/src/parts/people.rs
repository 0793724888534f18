//! Choices that stand on more than one page: who, language, units.

use coneyard_core::words::Units;
use leptos::prelude::*;

use crate::settings::use_settings;
use crate::words::{Lang, k, tr};

/// The longest name that is kept, characters.
const LONGEST_NAME: &str = "40";

/// Who drives; may stay empty.
#[component]
pub(crate) fn WhoField() -> impl IntoView {
    let settings = use_settings();
    view! {
        <label class="field">
            <span>{tr("who-label")}</span>
            <input
                type="text"
                autocomplete="nickname"
                maxlength=LONGEST_NAME
                placeholder=tr("who-example")
                prop:value=move || settings.with(|s| s.who.clone())
                on:change=move |ev| {
                    let who = event_target_value(&ev).trim().to_owned();
                    settings.update(|s| s.who = who);
                }
            />
        </label>
    }
}

/// The language of every text.
#[component]
pub(crate) fn LanguageField() -> impl IntoView {
    let settings = use_settings();
    view! {
        <fieldset class="segments">
            <legend>{tr("language-label")}</legend>
            {Lang::ALL
                .into_iter()
                .map(|lang| {
                    view! {
                        <label>
                            <input
                                type="radio"
                                name="language"
                                prop:checked=move || settings.with(|s| s.lang == lang.code())
                                on:change=move |_| {
                                    settings.update(|s| lang.code().clone_into(&mut s.lang));
                                }
                            />
                            <span lang=lang.code()>{tr(lang.name_key())}</span>
                        </label>
                    }
                })
                .collect_view()}
        </fieldset>
    }
}

/// Units on the screen.
#[component]
pub(crate) fn UnitsField() -> impl IntoView {
    let settings = use_settings();
    let choices = [(Units::Imperial, k("units-imperial")), (Units::Metric, k("units-metric"))];
    view! {
        <fieldset class="segments">
            <legend>{tr("units-label")}</legend>
            {choices
                .into_iter()
                .map(|(units, name)| {
                    view! {
                        <label>
                            <input
                                type="radio"
                                name="units"
                                prop:checked=move || settings.with(|s| s.units == units)
                                on:change=move |_| settings.update(|s| s.units = units)
                            />
                            <span>{tr(name)}</span>
                        </label>
                    }
                })
                .collect_view()}
        </fieldset>
    }
}

//! Choices that stand on more than one page: who, language, units.

use coneyard_core::words::Units;
use leptos::prelude::*;

use crate::host::use_host;
use crate::parts::press::{Choice, Option1};
use crate::settings::use_settings;
use crate::words::{Lang, k, tr};

/// The longest name that is kept, characters.
const LONGEST_NAME: &str = "40";

/// Who drives; may stay empty. Who drives for a class is called what they joined as: their drives go there under
/// that name.
#[component]
pub(crate) fn WhoField() -> impl IntoView {
    let settings = use_settings();
    let host = use_host();
    view! {
        <label class="field">
            <span>{tr("who-label")}</span>
            <input
                type="text"
                autocomplete="nickname"
                maxlength=LONGEST_NAME
                placeholder=tr("who-example")
                disabled=move || host.trainee().is_some()
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
    let options = Lang::ALL
        .into_iter()
        .map(|lang| {
            Option1::new(
                lang.name_key(),
                move || settings.with(|s| s.lang == lang.code()),
                move || settings.update(|s| lang.code().clone_into(&mut s.lang)),
            )
        })
        .collect();
    view! { <Choice legend=k("language-label") group="language" options /> }
}

/// Units on the screen.
#[component]
pub(crate) fn UnitsField() -> impl IntoView {
    let settings = use_settings();
    let option = |units: Units, name| {
        Option1::new(
            name,
            move || settings.with(|s| s.units == units),
            move || settings.update(|s| s.units = units),
        )
    };
    let options = vec![
        option(Units::Imperial, k("units-imperial")),
        option(Units::Metric, k("units-metric")),
    ];
    view! { <Choice legend=k("units-label") group="units" options /> }
}

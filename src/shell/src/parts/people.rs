//! Choices that stand on more than one page: who, language, units.

use coneyard_core::class::same_person;
use coneyard_core::words::Units;
use leptos::prelude::*;

use crate::host::use_host;
use crate::parts::press::{Choice, Option1};
use crate::settings::use_settings;
use crate::site::use_site;
use crate::store::{Attempt, use_store};
use crate::words::{Lang, k, tr};

/// The longest name that is kept, characters.
const LONGEST_NAME: &str = "40";

/// Who drives; may stay empty. Who drives for a class is called what they joined as: their drives go there under
/// that name.
#[component]
pub(crate) fn WhoField() -> impl IntoView {
    let settings = use_settings();
    let host = use_host();
    let (site, store) = (use_site(), use_store());
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
                    let known = |a: &Attempt| same_person(&a.who, &who);
                    let is_new = !who.is_empty() && !store.attempts.with_untracked(|all| all.iter().any(known));
                    settings.update(|s| {
                        // Somebody who was never here begins with what the class goes by.
                        if is_new && s.who != who {
                            site.class.with_untracked(|class| class.greet(s));
                        }
                        s.who = who;
                    });
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

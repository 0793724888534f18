//! Settings: each works at once and is kept in this browser.

mod keys;
mod pad;

use leptos::prelude::*;

use crate::parts::people::{LanguageField, UnitsField, WhoField};
use crate::route::Route;
use crate::settings::{Settings, use_settings};
use crate::words::{k, tr};
use keys::KeySettings;
use pad::PadSettings;

/// A setting that is on or off.
#[component]
fn Switch(
    name: &'static str,
    more: &'static str,
    get: fn(&Settings) -> bool,
    set: fn(&mut Settings, bool),
) -> impl IntoView {
    let settings = use_settings();
    view! {
        <label class="switch">
            <input
                type="checkbox"
                prop:checked=move || settings.with(get)
                on:change=move |ev| {
                    let on = event_target_checked(&ev);
                    settings.update(|s| set(s, on));
                }
            />
            <span>
                <strong>{tr(name)}</strong>
                <span class="quiet">{tr(more)}</span>
            </span>
        </label>
    }
}

/// Sound, and how loud.
#[component]
fn Sound() -> impl IntoView {
    let settings = use_settings();
    let set = move |ev| {
        // A browser gives no other text for a field of this kind.
        if let Ok(volume) = event_target_value(&ev).parse() {
            settings.update(|s| s.volume = volume);
        }
    };
    view! {
        <section class="card" aria-labelledby="sound-title">
            <h2 id="sound-title">{tr("drive-sound")}</h2>
            <Switch
                name=k("settings-sound")
                more=k("settings-sound-more")
                get=|s| s.sound
                set=|s, on| s.sound = on
            />
            <label class="field">
                <span>{tr("settings-volume")}</span>
                <input
                    type="range"
                    id="volume"
                    min="10"
                    max="100"
                    step="10"
                    prop:value=move || settings.with(|s| s.volume.to_string())
                    on:change=set
                />
            </label>
        </section>
    }
}

/// The page.
#[component]
pub(crate) fn SettingsPage() -> impl IntoView {
    view! {
        <section class="card" aria-labelledby="who-title">
            <h2 id="who-title">{tr("home-who-title")}</h2>
            <div class="fields">
                <WhoField />
                <LanguageField />
                <UnitsField />
            </div>
        </section>
        <section class="card" aria-labelledby="view-title">
            <h2 id="view-title">{tr("settings-driving")}</h2>
            <Switch
                name=k("settings-helps")
                more=k("settings-helps-more")
                get=|s| s.helps
                set=|s, on| s.helps = on
            />
            <Switch
                name=k("settings-north-up")
                more=k("settings-north-up-more")
                get=|s| s.north_up
                set=|s, on| s.north_up = on
            />
            <Switch
                name=k("settings-tiller-returns")
                more=k("settings-tiller-returns-more")
                get=|s| s.tiller_returns
                set=|s, on| s.tiller_returns = on
            />
            <Switch
                name=k("settings-touch")
                more=k("settings-touch-more")
                get=Settings::shows_touch
                set=|s, on| s.touch = Some(on)
            />
            <Switch
                name=k("settings-one-finger")
                more=k("settings-one-finger-more")
                get=|s| s.one_finger
                set=|s, on| s.one_finger = on
            />
            <Switch
                name=k("settings-swapped")
                more=k("settings-swapped-more")
                get=|s| s.swapped
                set=|s, on| s.swapped = on
            />
        </section>
        <section class="card" aria-labelledby="to-rules-title">
            <h2 id="to-rules-title">{tr("rules-title")}</h2>
            <p>{tr("settings-rules-more")}</p>
            <p class="actions">
                <a class="button" id="to-rules" href=Route::Rules.href()>
                    {tr("rules-title")}
                </a>
            </p>
        </section>
        <Sound />
        <KeySettings />
        <PadSettings />
    }
}

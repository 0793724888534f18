//! Keys, drawn.

use leptos::prelude::*;

use crate::devices::Action;
use crate::devices::keys::plain_name;
use crate::settings::use_settings;
use crate::words::{k, say};

/// What is printed on the keys of this keyboard, where the browser can tell.
#[derive(Clone, Copy)]
pub(crate) struct KeyNames(pub(crate) RwSignal<Vec<(String, String)>>);

/// Name of a key for a drawing.
pub(crate) fn key_name(code: &str) -> String {
    match code {
        "Space" => return say(k("key-space")),
        "ShiftLeft" | "ShiftRight" => return say(k("key-shift")),
        _ => {}
    }
    let known = use_context::<KeyNames>().and_then(|names| {
        names.0.with(|all| all.iter().find(|(c, _)| c == code).map(|(_, name)| name.clone()))
    });
    known.unwrap_or_else(|| plain_name(code))
}

/// A key as a drawing.
#[component]
pub(crate) fn Keycap(code: String) -> impl IntoView {
    let wide = code == "Space";
    view! {
        <kbd class="cap" class:wide=wide>
            {move || key_name(&code)}
        </kbd>
    }
}

/// The keys of an action, each name once: both Shift keys bear the same.
#[component]
pub(crate) fn KeysOf(action: Action) -> impl IntoView {
    let settings = use_settings();
    move || {
        let mut codes = settings.with(|s| s.keys.codes(action).to_vec());
        let mut seen = Vec::new();
        codes.retain(|code| {
            let name = key_name(code);
            let new = !seen.contains(&name);
            seen.push(name);
            new
        });
        if codes.is_empty() {
            return view! { <span class="quiet">{say(k("keys-none"))}</span> }.into_any();
        }
        codes.into_iter().map(|code| view! { <Keycap code /> }).collect_view().into_any()
    }
}

/// The first key of an action; nothing when it has none.
#[component]
pub(crate) fn KeyOf(action: Action) -> impl IntoView {
    let settings = use_settings();
    move || {
        settings
            .with(|s| s.keys.codes(action).first().cloned())
            .map(|code| view! { <Keycap code /> })
    }
}

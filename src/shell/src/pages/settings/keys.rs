//! Which key does what. An action may have no key, which switches it off.

use leptos::ev::{KeyboardEvent, keydown};
use leptos::prelude::*;

use crate::devices::Action;
use crate::devices::keys::KeyMap;
use crate::parts::keycap::{KeysOf, key_name};
use crate::parts::press::Press;
use crate::settings::use_settings;
use crate::words::{k, say, say_with, text, tr};

/// Keys that stay the browser's: without them the keyboard could not leave the page.
const NOT_GIVEN: [&str; 3] = ["Tab", "Escape", "Enter"];

/// The table of keys.
#[component]
pub(super) fn KeySettings() -> impl IntoView {
    let settings = use_settings();
    // The action that waits for its key, and what was done last, for who cannot see it.
    let waiting = RwSignal::new(None::<Action>);
    let news = RwSignal::new(String::new());
    let heard = window_event_listener(keydown, move |ev: KeyboardEvent| {
        let Some(action) = waiting.get_untracked() else {
            return;
        };
        ev.prevent_default();
        ev.stop_propagation();
        waiting.set(None);
        let code = ev.code();
        if NOT_GIVEN.contains(&code.as_str()) || code.is_empty() {
            news.set(String::new());
            return;
        }
        settings.update(|s| s.keys.give(&code, action));
        news.set(say_with(
            k("keys-given"),
            vec![("key", text(key_name(&code))), ("action", text(say(action.name())))],
        ));
    });
    on_cleanup(move || heard.remove());
    let rows =
        Action::ALL.into_iter().map(|action| view! { <KeyRow action waiting /> }).collect_view();
    view! {
        <section class="card" aria-labelledby="keys-title">
            <h2 id="keys-title">{tr("keys-title")}</h2>
            <p>{tr("keys-lead")}</p>
            <ul class="key-rows">{rows}</ul>
            <p role="status">{news}</p>
            <p>
                <Press name=k("keys-reset") act=move |_| settings.update(|s| s.keys = KeyMap::default()) />
            </p>
        </section>
    }
}

#[component]
fn KeyRow(action: Action, waiting: RwSignal<Option<Action>>) -> impl IntoView {
    let settings = use_settings();
    let is_waiting = move || waiting.get() == Some(action);
    let named =
        move |key: &'static str| move || say_with(key, vec![("action", text(say(action.name())))]);
    view! {
        <li>
            <span class="name">{tr(action.name())}</span>
            <span class="caps"><KeysOf action /></span>
            <span class="actions">
                <button
                    type="button"
                    aria-label=named(k("keys-add-for"))
                    on:click=move |_| waiting.set(Some(action))
                >
                    {move || say(if is_waiting() { k("keys-press") } else { k("keys-add") })}
                </button>
                <button
                    type="button"
                    aria-label=named(k("keys-clear-for"))
                    on:click=move |_| settings.update(|s| s.keys.clear(action))
                >
                    {tr("keys-clear")}
                </button>
            </span>
        </li>
    }
}

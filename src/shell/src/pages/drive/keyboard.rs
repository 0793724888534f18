//! Keys on the drive page. They are heard wherever the focus is, except in a field; Space and
//! Enter stay with a button that has the focus, and Tab always moves on, so no key is a trap.

use leptos::ev::{KeyboardEvent, blur, keydown, keyup, pagehide, visibilitychange};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::{Desk, Phase, session};
use crate::devices::Action;

/// The key belongs to what has the focus, not to the truck.
fn belongs_elsewhere(ev: &KeyboardEvent) -> bool {
    if ev.ctrl_key() || ev.meta_key() || ev.alt_key() {
        return true;
    }
    let Some(target) = ev.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok()) else {
        return false;
    };
    match target.tag_name().as_str() {
        "INPUT" | "SELECT" | "TEXTAREA" => true,
        "BUTTON" | "A" | "SUMMARY" => matches!(ev.code().as_str(), "Space" | "Enter"),
        _ => false,
    }
}

fn action_of(desk: Desk, ev: &KeyboardEvent) -> Option<Action> {
    desk.settings.with_untracked(|s| s.keys.action(&ev.code()))
}

fn down(desk: Desk, ev: &KeyboardEvent) {
    if desk.phase.get_untracked() != Phase::Driving || desk.leaving.get_untracked() {
        return;
    }
    if belongs_elsewhere(ev) {
        return;
    }
    let Some(action) = action_of(desk, ev) else {
        return;
    };
    // Arrows and Space would scroll the page.
    ev.prevent_default();
    if ev.repeat() {
        return;
    }
    if action == Action::Pause {
        desk.ask_pause(!desk.paused.get_untracked());
        return;
    }
    session::with(desk, |s| s.hands.press(action));
}

fn up(desk: Desk, ev: &KeyboardEvent) {
    if let Some(action) = action_of(desk, ev) {
        session::with(desk, |s| s.hands.keys.release(action));
    }
}

/// Listens to keys, and pauses when the window loses them or the tab is hidden.
pub(crate) fn listen(desk: Desk) {
    let hidden = move || {
        if document().hidden() {
            desk.hold_for_elsewhere();
            session::keep_now(desk);
        }
    };
    let heard = [
        window_event_listener(keydown, move |ev| down(desk, &ev)),
        window_event_listener(keyup, move |ev| up(desk, &ev)),
        window_event_listener(blur, move |_| desk.hold_for_elsewhere()),
        window_event_listener(pagehide, move |_| session::keep_now(desk)),
    ];
    let visible = window_event_listener(visibilitychange, move |_| hidden());
    on_cleanup(move || {
        for handle in heard {
            handle.remove();
        }
        visible.remove();
    });
}

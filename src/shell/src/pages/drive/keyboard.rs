//! Keys on the drive page. They are heard wherever the focus is. While the drive runs they are the
//! truck's, and Space above all: letting go of the arm must not press a button that happens to have the
//! focus. Enter stays with what has the focus, and Tab always moves on, so no key is a trap; while the
//! drive is held still, Space presses buttons as everywhere.

use leptos::ev::{KeyboardEvent, blur, keydown, keyup, pagehide, visibilitychange};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::{Desk, Phase, session};
use crate::devices::Action;
use crate::devices::held::By;
use crate::sound;

/// What has the focus, as far as keys belong to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Focus {
    /// Nothing that wants keys.
    Free,
    /// A button or a link: Enter and Space press it.
    Button,
    /// A choice of one among a few: the arrows choose, Space as well.
    Choice,
    /// A field that takes every key.
    Field,
}

fn focus(ev: &KeyboardEvent) -> Focus {
    let Some(target) = ev.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok()) else {
        return Focus::Free;
    };
    match target.tag_name().as_str() {
        "BUTTON" | "A" | "SUMMARY" => Focus::Button,
        "INPUT" if target.get_attribute("type").as_deref() == Some("radio") => Focus::Choice,
        "INPUT" | "SELECT" | "TEXTAREA" => Focus::Field,
        _ => Focus::Free,
    }
}

/// The key belongs to what has the focus, not to the truck. `brakes`: it lets go of the arm in a drive
/// that runs, which comes before everything but a field that is written in.
fn belongs_elsewhere(focus: Focus, code: &str, brakes: bool, runs: bool) -> bool {
    match focus {
        Focus::Free => false,
        Focus::Field => true,
        Focus::Button | Focus::Choice if brakes => false,
        Focus::Button => code == "Enter" || (code == "Space" && !runs),
        Focus::Choice => code.starts_with("Arrow") || (code == "Space" && !runs),
    }
}

fn action_of(desk: Desk, ev: &KeyboardEvent) -> Option<Action> {
    desk.settings.with_untracked(|s| s.keys.action(&ev.code()))
}

/// What a key does to the truck now.
fn asked(desk: Desk, ev: &KeyboardEvent) -> Option<Action> {
    if desk.phase.get_untracked() != Phase::Driving || desk.leaving.get_untracked() {
        return None;
    }
    if ev.ctrl_key() || ev.meta_key() || ev.alt_key() {
        return None;
    }
    let action = action_of(desk, ev)?;
    // Nobody stands on the truck yet.
    let of_the_page = matches!(action, Action::Pause | Action::Sound);
    if untrack(|| desk.walks()) && !of_the_page {
        return None;
    }
    let runs = !desk.paused.get_untracked();
    let brakes = runs && action == Action::LetGo;
    (!belongs_elsewhere(focus(ev), &ev.code(), brakes, runs)).then_some(action)
}

fn down(desk: Desk, ev: &KeyboardEvent) {
    let Some(action) = asked(desk, ev) else {
        return;
    };
    // Arrows and Space would scroll the page, and Space press a button.
    ev.prevent_default();
    if ev.repeat() {
        return;
    }
    if action == Action::Pause {
        desk.ask_pause(!desk.paused.get_untracked());
        return;
    }
    match action {
        Action::Sound => sound::toggle(desk.settings),
        Action::Overview => desk.looking.toggle_overview(),
        Action::ZoomIn => desk.looking.nearer(),
        Action::ZoomOut => desk.looking.farther(),
        _ => {
            session::with(desk, |s| s.hands.press(action, By::Key));
        }
    }
}

fn up(desk: Desk, ev: &KeyboardEvent) {
    if asked(desk, ev).is_some() {
        // Some browsers press a button when Space comes up, whatever became of its going down.
        ev.prevent_default();
    }
    if let Some(action) = action_of(desk, ev) {
        session::with(desk, |s| s.hands.release(action, By::Key));
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letting_go_brakes_from_every_focus_while_the_drive_runs() {
        for focus in [Focus::Free, Focus::Button, Focus::Choice] {
            assert!(!belongs_elsewhere(focus, "Space", true, true), "{focus:?}");
            assert!(!belongs_elsewhere(focus, "Enter", true, true), "{focus:?}, given that key");
        }
    }

    #[test]
    fn held_still_buttons_are_pressed_as_everywhere() {
        assert!(belongs_elsewhere(Focus::Button, "Space", false, false));
        assert!(belongs_elsewhere(Focus::Choice, "Space", false, false));
        for runs in [false, true] {
            assert!(belongs_elsewhere(Focus::Button, "Enter", false, runs));
            assert!(belongs_elsewhere(Focus::Choice, "ArrowLeft", false, runs));
            assert!(!belongs_elsewhere(Focus::Button, "KeyS", false, runs));
            assert!(belongs_elsewhere(Focus::Field, "KeyS", false, runs));
        }
    }
}

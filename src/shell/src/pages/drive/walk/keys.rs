//! Keys of the walk-round, wherever the focus is: arrows lead from place to place and on into the next view, page
//! keys from view to view, digits answer, Escape leaves the closer view. Enter presses what has the focus.

use leptos::ev::{KeyboardEvent, keydown};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::places;
use super::round::{Page, Round, focus_soon};
use crate::pages::drive::Phase;

/// What a key asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Asked {
    /// So many places, rows or views on.
    Step(isize),
    /// So many views on.
    View(isize),
    /// This answer, by its code.
    Say(u8),
    /// Away with the closer view.
    Close,
}

fn asked(code: &str) -> Option<Asked> {
    Some(match code {
        "ArrowRight" | "ArrowDown" => Asked::Step(1),
        "ArrowLeft" | "ArrowUp" => Asked::Step(-1),
        "PageDown" => Asked::View(1),
        "PageUp" => Asked::View(-1),
        "Escape" => Asked::Close,
        _ => {
            let digit = code.strip_prefix("Digit").or_else(|| code.strip_prefix("Numpad"))?;
            Asked::Say(digit.parse::<u8>().ok()?.checked_sub(1)?)
        }
    })
}

/// Where in the page the key came down.
fn target(ev: &KeyboardEvent) -> Option<web_sys::Element> {
    ev.target()?.dyn_into().ok()
}

fn is_in(ev: &KeyboardEvent, css: &str) -> bool {
    target(ev).and_then(|e| e.closest(css).ok().flatten()).is_some()
}

/// Gives the keys to another of these elements, so many on.
fn rove(css: &str, by: isize) {
    let Ok(all) = document().query_selector_all(css) else {
        return;
    };
    let elements: Vec<web_sys::HtmlElement> =
        (0..all.length()).filter_map(|i| all.get(i)?.dyn_into().ok()).collect();
    let active = document().active_element();
    let now = elements.iter().position(|e| Some(e.as_ref()) == active.as_ref());
    let next = match now {
        Some(now) => places::onward(elements.len(), now, by),
        None => 0,
    };
    if let Some(element) = elements.get(next) {
        // What cannot take the focus leaves it where it is.
        let _ = element.focus();
    }
}

fn down(round: Round, ev: &KeyboardEvent) {
    let desk = round.desk;
    let busy = desk.phase.get_untracked() != Phase::Driving
        || desk.paused.get_untracked()
        || desk.leaving.get_untracked()
        || round.deciding.get_untracked().is_some();
    if busy || ev.ctrl_key() || ev.meta_key() || ev.alt_key() || is_in(ev, "dialog, #menu") {
        return;
    }
    let Some(asked) = asked(&ev.code()) else {
        return;
    };
    if is_in(ev, "input, select, textarea") {
        // Fields keep their keys; Escape leads back.
        if asked == Asked::Close {
            // At once, so that the next key is none of the field's any more.
            if let Some(field) = target(ev).and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok())
            {
                let _ = field.blur();
            }
            round.focus();
        }
        return;
    }
    ev.prevent_default();
    let in_ways = is_in(ev, ".walk-ways");
    match asked {
        Asked::Step(by) if in_ways => rove(".walk-ways .way", by),
        Asked::Step(by) if round.page.get_untracked() == Page::List => rove(".walk-list .row", by),
        Asked::Step(by) => round.step(by),
        Asked::View(by) => {
            round.step_view(by);
            round.focus();
        }
        Asked::Say(code) if round.page.get_untracked() == Page::Truck => {
            let reason = untrack(|| {
                let point = round.place()?.point()? as u8;
                round.noted.with(|n| n.reasons.get(&point).copied())
            });
            round.say(code, reason);
        }
        Asked::Say(_) => {}
        Asked::Close => round.close(),
    }
}

/// Listens to keys as long as the walk-round is on the page, and begins where one stands.
pub(super) fn listen(round: Round) {
    let heard = window_event_listener(keydown, move |ev| down(round, &ev));
    on_cleanup(move || heard.remove());
    focus_soon(move || round.focus());
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_are_answers_from_fine_on_whatever_the_keyboard() {
        assert_eq!(asked("Digit1"), Some(Asked::Say(0)));
        assert_eq!(asked("Numpad4"), Some(Asked::Say(3)));
        for none in ["Digit0", "NumpadAdd", "KeyW", "Enter", "Space", "Tab"] {
            assert_eq!(asked(none), None, "{none}");
        }
    }
}

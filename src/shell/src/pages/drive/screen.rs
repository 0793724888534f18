//! The screen while a drive is on it: full when that is asked for, awake, held still when the device is
//! turned, and how much of it lies under instrument and controls.

use coneyard_core::desk::Covered;
use leptos::ev::{keydown, pointerdown, resize};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::{Desk, Phase};
use crate::browser;
use crate::canvas;

/// Fills the screen with the page, or gives the screen back.
pub(super) fn toggle_full() {
    if document().fullscreen_element().is_some() {
        document().exit_fullscreen();
    } else if let Some(page) = document().document_element() {
        // A browser that does not allow it leaves the page as it is.
        let _ = page.request_fullscreen();
    }
}

fn is_upright() -> bool {
    browser::media("(orientation: portrait)")
}

/// What the styles lay over the whole width of the yard, as shares of its height: the task above, below
/// the thumbs of a phone held upright, and elsewhere half of the instrument, which leaves both sides free.
fn covered(touch: bool) -> Covered {
    let height = window().inner_height().ok().and_then(|h| h.as_f64()).unwrap_or(0.0).max(1.0);
    let is_narrow = browser::media("(max-width: 39rem)");
    let is_low = browser::media("(max-height: 30rem)");
    if browser::media("(max-height: 18rem)") {
        let strip = if touch { 58.0 / height } else { 0.0 };
        return Covered { top: 0.25, bottom: strip.min(0.3) };
    }
    let (top_px, bottom_px) = match (touch, is_narrow, is_low) {
        (true, true, _) => (146.0, (0.38 * height).min(352.0)),
        (false, true, _) => (158.0, 0.0),
        (true, false, true) => (75.0, 60.0),
        (false, false, true) => (107.0, 60.0),
        (_, false, false) => (128.0, 85.0),
    };
    let share = |px: f64| (px / height).clamp(0.0, 0.45);
    Covered { top: share(top_px), bottom: share(bottom_px) }
}

/// Listens to the screen as long as the drive is on it.
pub(super) fn listen(desk: Desk) {
    let touch = move || desk.settings.with(|s| s.shows_touch());
    Effect::new(move |_| desk.covered.set(covered(touch())));
    let upright = StoredValue::new(is_upright());
    let resized = window_event_listener(resize, move |_| {
        let touch = untrack(touch);
        desk.covered.set(covered(touch));
        let now = is_upright();
        if upright.get_value() != now {
            upright.set_value(now);
            // Thumbs lie elsewhere after a turn, and nobody drives meanwhile.
            if touch && desk.phase.get_untracked() == Phase::Driving {
                desk.hold_for_elsewhere();
            }
        }
    });
    let escaped = window_event_listener(keydown, move |ev| {
        if ev.code() == "Escape" {
            desk.more.set(false);
        }
    });
    // Whoever touches the yard again wants nothing of what is behind the button.
    let touched = window_event_listener(pointerdown, move |ev| {
        let on = ev.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok());
        let inside = on.is_some_and(|e| e.closest("#menu, #more").ok().flatten().is_some());
        if !inside {
            desk.more.set(false);
        }
    });
    Effect::new(move |_| canvas::stay_awake(desk.phase.get() == Phase::Driving));
    on_cleanup(move || {
        resized.remove();
        escaped.remove();
        touched.remove();
        canvas::stay_awake(false);
    });
}

//! How near the yard is looked at: a zoom by keys, wheel and two fingers, and an overview of all of it.

use coneyard_core::desk::View;
use coneyard_core::math::pow;
use leptos::ev::{pointercancel, pointerdown, pointermove, pointerup, wheel};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// One step of the zoom.
const STEP: f64 = 1.25;
/// Nearest and farthest: metres seen over the usual.
const NEAREST: f64 = 0.4;
/// See there.
const FARTHEST: f64 = 4.0;
/// A wheel goes a step in so many pixels.
const WHEEL_PX: f64 = 100.0;

/// Zoom and overview of one page.
#[derive(Clone, Copy)]
pub(crate) struct Looking {
    /// Metres seen over the usual.
    zoom: RwSignal<f64>,
    /// All of the yard is shown.
    pub(crate) overview: RwSignal<bool>,
}

/// The zoom after it was changed by a factor.
fn zoomed(zoom: f64, by: f64) -> f64 {
    let zoom = (zoom * by).clamp(NEAREST, FARTHEST);
    // Steps in and out meet at the usual again.
    if (zoom - 1.0).abs() < 0.02 { 1.0 } else { zoom }
}

impl Looking {
    /// As usual.
    pub(crate) fn new() -> Self {
        Self { zoom: RwSignal::new(1.0), overview: RwSignal::new(false) }
    }

    fn by(self, factor: f64) {
        self.overview.set(false);
        self.zoom.update(|zoom| *zoom = zoomed(*zoom, factor));
    }

    /// A step nearer.
    pub(crate) fn nearer(self) {
        self.by(1.0 / STEP);
    }

    /// A step farther.
    pub(crate) fn farther(self) {
        self.by(STEP);
    }

    /// All of the yard, or what is about the truck again.
    pub(crate) fn toggle_overview(self) {
        self.overview.update(|on| *on = !*on);
    }

    /// The view as it is looked at.
    pub(crate) fn on(self, view: View) -> View {
        View { zoom: self.zoom.get(), overview: self.overview.get(), ..view }
    }

    /// Listens to the wheel over the yard, and to two fingers on it while `pinches`: who drives has thumbs
    /// there.
    pub(crate) fn listen(self, pinches: impl Fn() -> bool + 'static) {
        let turned = window_event_listener(wheel, move |ev| {
            // With Ctrl it is the browser's own zoom.
            if on_yard(ev.target()) && !ev.ctrl_key() {
                self.by(pow(STEP, (ev.delta_y() / WHEEL_PX).clamp(-2.0, 2.0)));
            }
        });
        let fingers = StoredValue::new(Fingers::default());
        let down = window_event_listener(pointerdown, move |ev| {
            if on_yard(ev.target()) && ev.pointer_type() == "touch" && pinches() {
                fingers.update_value(|f| f.down(ev.pointer_id(), place(&ev)));
            }
        });
        let moved = window_event_listener(pointermove, move |ev| {
            let mut factor = None;
            fingers.update_value(|f| factor = f.slide(ev.pointer_id(), place(&ev)));
            if let Some(factor) = factor {
                self.by(factor);
            }
        });
        let lift = move |id| fingers.update_value(|f| f.up(id));
        let lifted = window_event_listener(pointerup, move |ev| lift(ev.pointer_id()));
        let lost = window_event_listener(pointercancel, move |ev| lift(ev.pointer_id()));
        on_cleanup(move || {
            for handle in [turned, down, moved, lifted, lost] {
                handle.remove();
            }
        });
    }
}

fn place(ev: &web_sys::PointerEvent) -> (f64, f64) {
    (f64::from(ev.client_x()), f64::from(ev.client_y()))
}

/// It is the yard itself, or what lies over it without being pressed.
fn on_yard(target: Option<web_sys::EventTarget>) -> bool {
    let element = target.and_then(|t| t.dyn_into::<web_sys::Element>().ok());
    element.is_some_and(|e| e.closest(".stage, .over").ok().flatten().is_some())
}

/// Fingers on the yard, by number.
#[derive(Debug, Default)]
struct Fingers(Vec<(i32, (f64, f64))>);

impl Fingers {
    fn down(&mut self, id: i32, at: (f64, f64)) {
        self.up(id);
        self.0.push((id, at));
    }

    fn up(&mut self, id: i32) {
        self.0.retain(|(finger, _)| *finger != id);
    }

    fn apart(&self) -> Option<f64> {
        let [(_, a), (_, b)] = self.0.as_slice() else {
            return None;
        };
        let squared = (a.0 - b.0) * (a.0 - b.0) + (a.1 - b.1) * (a.1 - b.1);
        Some(squared.sqrt().max(1.0))
    }

    /// By how much more is seen after one of two fingers has moved.
    fn slide(&mut self, id: i32, to: (f64, f64)) -> Option<f64> {
        let before = self.apart();
        let finger = self.0.iter_mut().find(|(finger, _)| *finger == id)?;
        finger.1 = to;
        Some(before? / self.apart()?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_in_and_out_meet_again_and_end_somewhere() {
        let (mut zoom, mut steps) = (1.0, 0);
        while zoom < FARTHEST {
            zoom = zoomed(zoom, STEP);
            steps += 1;
        }
        assert!(steps < 10, "{steps}");
        assert_eq!(zoomed(zoomed(1.0, STEP), 1.0 / STEP), 1.0);
        assert_eq!(zoomed(FARTHEST, STEP), FARTHEST);
        assert_eq!(zoomed(NEAREST, 1.0 / STEP), NEAREST);
    }

    #[test]
    fn two_fingers_apart_show_less_and_one_shows_nothing_else() {
        let mut fingers = Fingers::default();
        fingers.down(7, (100.0, 100.0));
        assert_eq!(fingers.slide(7, (120.0, 100.0)), None);
        fingers.down(9, (220.0, 100.0));
        assert_eq!(fingers.slide(9, (320.0, 100.0)), Some(0.5));
        assert_eq!(fingers.slide(3, (0.0, 0.0)), None, "a finger that is elsewhere");
        fingers.up(7);
        assert_eq!(fingers.slide(9, (0.0, 100.0)), None);
    }
}

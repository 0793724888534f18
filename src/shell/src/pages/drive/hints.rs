//! Where the step wants the truck next, and why it is not done though the truck stands, in words.

use coneyard_core::finding::Unit;
use coneyard_core::math::vec2;
use coneyard_core::task::hint::Hint;
use coneyard_core::time::{TICK_RATE, Tick};
use coneyard_core::words::Units;
use coneyard_core::words::measure::FOOT;
use leptos::prelude::*;

use super::Desk;
use crate::words::{k, quantity, say, say_with, text};

/// Nearer than this it is in the picture anyway, m.
const NEAR: f64 = 3.0;

/// The eighth of the circle in which a place lies, counted counter-clockwise from straight ahead.
fn eighth([ahead, left]: [f64; 2]) -> usize {
    let angle = vec2(ahead, left).angle();
    (angle / core::f64::consts::FRAC_PI_4).round().rem_euclid(8.0) as usize
}

fn direction(eighth: usize) -> &'static str {
    match eighth {
        0 => k("toward-ahead"),
        1 => k("toward-ahead-left"),
        2 => k("toward-left"),
        3 => k("toward-behind-left"),
        4 => k("toward-behind"),
        5 => k("toward-behind-right"),
        6 => k("toward-right"),
        _ => k("toward-ahead-right"),
    }
}

/// How far it is to what is due, and where; nothing near it, and where the task line says it already.
pub(super) fn toward(desk: Desk) -> impl Fn() -> Option<String> + Copy {
    // To the nearest metre or foot: the text need not flicker.
    let place = Memo::new(move |_| {
        let to = desk
            .status
            .with(|s| s.as_ref().filter(|s| s.task.mark_ahead.is_none())?.task.toward)?;
        let away = vec2(to[0], to[1]).length();
        let whole = match desk.settings.with(|s| s.units) {
            Units::Metric => 1.0,
            Units::Imperial => FOOT,
        };
        (away > NEAR).then(|| ((away / whole).round() * whole, eighth(to)))
    });
    move || {
        let (away, eighth) = place.get()?;
        let distance = quantity(away, Unit::Metre, desk.settings.with(|s| s.units));
        let place = say(direction(eighth));
        Some(say_with(k("toward"), vec![("distance", text(distance)), ("place", text(place))]))
    }
}

/// What is missing.
#[component]
pub(super) fn WhyNot(desk: Desk) -> impl IntoView {
    let missing = Memo::new(move |_| desk.status.with(|s| s.as_ref().and_then(|s| s.task.hint)));
    move || {
        let (key, by) = words(missing.get()?);
        let distance = by.map(|by| quantity(by, Unit::Metre, desk.settings.with(|s| s.units)));
        let distance = distance.unwrap_or_default();
        let sentence = say_with(key, vec![("distance", text(distance))]);
        Some(view! { <p class="message">{sentence}</p> })
    }
}

/// A truck that was switched on tests its lights for so long, ticks.
const SELF_TEST: Tick = 3 * TICK_RATE;

/// The truck was switched on a moment ago: what it does then is waited for.
#[component]
pub(super) fn SelfTest(desk: Desk) -> impl IntoView {
    let key_on = Memo::new(move |_| desk.status.with(|s| s.as_ref().map(|s| s.truck.key_on)));
    let since = RwSignal::new(None::<Tick>);
    let tick = move || desk.status.with(|s| s.as_ref().map_or(0, |s| s.tick));
    Effect::new(move |was: Option<Option<bool>>| {
        let on = key_on.get();
        if was == Some(Some(false)) {
            since.set((on == Some(true)).then(|| untrack(tick)));
        }
        on
    });
    let runs = Memo::new(move |_| since.get().is_some_and(|since| tick() < since + SELF_TEST));
    move || runs.get().then(|| view! { <p class="message">{say(k("drive-self-test"))}</p> })
}

/// The sentence, and how far, m.
fn words(hint: Hint) -> (&'static str, Option<f64>) {
    match hint {
        Hint::NoseOut(by) => (k("hint-nose-out"), Some(by)),
        Hint::TipsOut(by) => (k("hint-tips-out"), Some(by)),
        Hint::SideOut(by) => (k("hint-side-out"), Some(by)),
        Hint::ForksUp => (k("hint-forks-up"), None),
        Hint::Throttle => (k("hint-throttle"), None),
        Hint::KeyOn => (k("hint-key-on"), None),
        Hint::Aboard => (k("hint-aboard"), None),
        Hint::ShortOfMark(by) => (k("hint-short-of-mark"), Some(by)),
        Hint::TooFar(by) => (k("hint-too-far"), Some(by)),
        Hint::StepOff => (k("hint-step-off"), None),
        Hint::StepOn => (k("hint-step-on"), None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_circle_is_cut_into_eight_and_left_is_left() {
        assert_eq!(eighth([1.0, 0.0]), 0);
        assert_eq!(eighth([1.0, 1.0]), 1);
        assert_eq!(eighth([0.0, 1.0]), 2);
        assert_eq!(eighth([-1.0, 0.0]), 4);
        assert_eq!(eighth([-1.0, -0.0]), 4);
        assert_eq!(eighth([0.0, -1.0]), 6);
        // Half of an eighth is 22.5 degrees: tan 22 and tan 23.
        assert_eq!((eighth([1.0, -0.404]), eighth([1.0, -0.4245])), (0, 7));
    }
}

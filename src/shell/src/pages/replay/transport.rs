//! Playing: the buttons and the keys. The keys are none that write a character, so they cannot
//! collide with speech input; each has its button.

use coneyard_core::time::{TICK_RATE, Tick};
use leptos::ev::{KeyboardEvent, keydown};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::asks::Fold;
use super::drawing::Begin;
use super::tour::Tour;
use super::{Desk, Phase};
use crate::parts::press::{Choice, Option1, Press};
use crate::words::{fine_time_text, k, say, time_text};

/// Paces a run can be looked at.
const PACES: [(f64, &str, &str); 5] = [
    (0.25, "¼", k("pace-quarter")),
    (0.5, "½", k("pace-half")),
    (1.0, "1", k("pace-full")),
    (2.0, "2", k("pace-double")),
    (4.0, "4", k("pace-fourfold")),
];

/// Going back to "the finding before" passes over one that began just now, ticks.
const JUST_NOW: Tick = TICK_RATE / 2;

/// Of findings that begin at these ticks, which ascend, the one after the chosen one, else after this tick.
fn after(starts: &[Tick], chosen: Option<usize>, now: Tick) -> Option<usize> {
    match chosen {
        Some(n) => (n + 1 < starts.len()).then_some(n + 1),
        None => starts.iter().position(|t| *t > now),
    }
}

/// And the one before.
fn before(starts: &[Tick], chosen: Option<usize>, now: Tick) -> Option<usize> {
    match chosen {
        Some(n) => n.checked_sub(1),
        None => starts.iter().rposition(|t| t + JUST_NOW < now),
    }
}

fn jump(desk: Desk, forward: bool) {
    let to = untrack(move || {
        let starts: Vec<Tick> = desk.findings().iter().map(|f| f.from).collect();
        let now = desk.now();
        // The chosen one counts only where it is shown: playing leaves it behind.
        let chosen = desk.chosen.get().filter(|n| starts.get(*n) == Some(&now));
        if forward { after(&starts, chosen, now) } else { before(&starts, chosen, now) }
    });
    if let Some(index) = to {
        desk.choose(index);
    }
}

fn step(desk: Desk, by: i64) {
    let last = untrack(move || desk.last());
    desk.done(crate::canvas::replay_play(false, desk.pace.get_untracked()));
    let to = (i64::from(desk.now_untracked()) + by).clamp(0, i64::from(last));
    desk.seek(to as Tick);
}

fn key_down(desk: Desk, tour: Option<Tour>, ev: &KeyboardEvent) {
    if ev.ctrl_key() || ev.meta_key() || ev.alt_key() {
        return;
    }
    let element = ev.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok());
    let tag = element.map(|e| e.tag_name()).unwrap_or_default();
    let writes = matches!(tag.as_str(), "INPUT" | "TEXTAREA" | "SELECT");
    let on_control = writes || matches!(tag.as_str(), "BUTTON" | "A");
    if desk.drawing.key(desk, ev, on_control) {
        ev.prevent_default();
        return;
    }
    // The keys of a presenter's remote lead on from a button as well.
    let forward = match ev.code().as_str() {
        "PageUp" => Some(false),
        "PageDown" => Some(true),
        _ => None,
    };
    if let (Some(tour), Some(forward)) = (tour, forward.filter(|_| tag != "TEXTAREA")) {
        ev.prevent_default();
        tour.step(forward);
        return;
    }
    if on_control || desk.phase.try_get_untracked() != Some(Phase::Open) {
        return;
    }
    let by = if ev.shift_key() { i64::from(TICK_RATE) } else { 1 };
    match ev.code().as_str() {
        "Space" => desk.play(!untrack(move || desk.playing())),
        "ArrowLeft" => step(desk, -by),
        "ArrowRight" => step(desk, by),
        "PageUp" => jump(desk, false),
        "PageDown" => jump(desk, true),
        "Home" => desk.seek(0),
        "End" => desk.seek(untrack(move || desk.last())),
        _ => return,
    }
    ev.prevent_default();
}

/// Listens to the keys.
pub(super) fn listen(desk: Desk, tour: Option<Tour>) {
    let heard = window_event_listener(keydown, move |ev| key_down(desk, tour, &ev));
    on_cleanup(move || heard.remove());
}

/// Fills the screen with the page's main part, for a projector, or gives the screen back.
fn toggle_full_screen() {
    if document().fullscreen_element().is_some() {
        document().exit_fullscreen();
        return;
    }
    if let Some(main) = document().get_element_by_id("main") {
        // A browser that does not allow it leaves the page as it is.
        let _ = main.request_fullscreen();
    }
}

/// The buttons.
#[component]
pub(super) fn Transport(desk: Desk) -> impl IntoView {
    let idle = Signal::derive(move || desk.phase.get() != Phase::Open);
    let playing = Memo::new(move |_| desk.playing());
    let none = Memo::new(move |_| desk.findings().is_empty());
    let sign = move |mark: &'static str, name: &'static str, act: fn(Desk)| {
        view! { <Press name=name mark=mark mark_only=true disabled=idle act=move |_| act(desk) /> }
    };
    let paces = PACES
        .into_iter()
        .map(|(pace, mark, name)| Option1 {
            mark,
            disabled: idle,
            ..Option1::new(name, move || desk.pace.get() == pace, move || desk.set_pace(pace))
        })
        .collect();
    view! {
        <button
            type="button"
            id="play"
            class="primary play"
            disabled=idle
            on:click=move |_| desk.play(!playing.get_untracked())
        >
            <span aria-hidden="true">{move || if playing.get() { "❚❚" } else { "▶" }}</span>
            {move || say(if playing.get() { k("replay-pause") } else { k("replay-play") })}
        </button>
        <Show when=move || !none.get()>
            {sign("⇤", k("replay-finding-before"), |desk| jump(desk, false))}
            {sign("⇥", k("replay-finding-after"), |desk| jump(desk, true))}
        </Show>
        {sign("−", k("replay-tick-back"), |desk| step(desk, -1))}
        {sign("+", k("replay-tick-on"), |desk| step(desk, 1))}
        <Choice legend=k("replay-pace") group="replay-pace" options=paces />
        <span class="clock">
            {move || fine_time_text(desk.now())} " / " {move || time_text(desk.last())}
        </span>
        <Press
            name=k("drive-helps")
            pressed=Signal::derive(move || desk.settings.with(|s| s.helps))
            act=move |_| desk.settings.update(|s| s.helps = !s.helps)
        />
        <Press
            name=k("replay-everything")
            id="everything"
            pressed=desk.everything
            act=move |_| desk.everything.update(|on| *on = !*on)
        />
        <Press
            name=k("action-overview")
            id="overview-replay"
            pressed=desk.looking.overview
            act=move |_| desk.looking.toggle_overview()
        />
        <Press
            name=k("drive-sound")
            id="sound"
            pressed=Signal::derive(move || desk.settings.with(|s| s.sound))
            act=move |_| crate::sound::toggle(desk.settings)
        />
        <Begin desk />
        <Fold desk />
        <Press
            name=k("replay-full-screen")
            id="full-screen"
            mark="⤢"
            act=|_| toggle_full_screen()
        />
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn jumping_goes_to_the_neighbours_and_not_to_where_one_is() {
        let starts = [100, 300, 900];
        assert_eq!(after(&starts, None, 300), Some(2));
        assert_eq!(after(&starts, None, 900), None);
        assert_eq!(before(&starts, None, 310), Some(0), "300 has just begun");
        assert_eq!(before(&starts, None, 400), Some(1));
        assert_eq!(before(&starts, None, 100), None);
    }

    #[test]
    fn jumping_passes_over_none_that_begins_at_the_same_tick() {
        let starts = [100, 300, 300, 300];
        assert_eq!(after(&starts, None, 100), Some(1));
        assert_eq!(after(&starts, Some(1), 300), Some(2));
        assert_eq!(after(&starts, Some(3), 300), None);
        assert_eq!(before(&starts, Some(2), 300), Some(1));
        assert_eq!(before(&starts, Some(0), 100), None);
    }
}

//! One clock for drives that play beside each other as drawings, and what moves it.

use coneyard_core::lesson::scene::A_SECOND;
use leptos::prelude::*;

use crate::browser;
use crate::parts::press::Press;
use crate::words::{k, say, steady_number, tr};

/// The slower pace.
const SLOW: f64 = 0.5;

/// The clock of both drives.
#[derive(Clone, Copy)]
pub(crate) struct Clock {
    /// In places of the drives.
    now: RwSignal<f64>,
    last: f64,
    playing: RwSignal<bool>,
    slow: RwSignal<bool>,
}

impl Clock {
    /// At the start of something with so many places.
    pub(crate) fn new(places: usize) -> Self {
        Self {
            now: RwSignal::new(0.0),
            last: places.saturating_sub(1) as f64,
            playing: RwSignal::new(false),
            slow: RwSignal::new(false),
        }
    }

    /// The time, in places of the drives.
    pub(crate) fn now(self) -> RwSignal<f64> {
        self.now
    }

    /// The last of them.
    pub(crate) fn last(self) -> f64 {
        self.last
    }

    /// Plays, or pauses. At the end it plays from the start.
    pub(crate) fn play(self, playing: bool) {
        if playing && self.now.get_untracked() >= self.last {
            self.now.set(0.0);
        }
        if playing && !self.playing.get_untracked() {
            let begun = browser::clock_ms();
            request_animation_frame(move || self.frame(begun));
        }
        self.playing.set(playing);
    }

    /// Plays when it stands, and stands when it plays.
    pub(crate) fn toggle(self) {
        self.play(!self.playing.get_untracked());
    }

    /// Goes to a time and stands there.
    pub(crate) fn seek(self, to: f64) {
        self.playing.set(false);
        self.now.set(to.clamp(0.0, self.last));
    }

    fn frame(self, before_ms: f64) {
        // The page may have been left.
        if self.playing.try_get_untracked() != Some(true) {
            return;
        }
        let now_ms = browser::clock_ms();
        let pace = if self.slow.get_untracked() { SLOW } else { 1.0 };
        // A page that was hidden goes on where it stood.
        let passed = ((now_ms - before_ms) / 1000.0).clamp(0.0, 0.25);
        let to = self.now.get_untracked() + passed * A_SECOND * pace;
        self.now.set(to.min(self.last));
        if to >= self.last {
            self.playing.set(false);
            return;
        }
        request_animation_frame(move || self.frame(now_ms));
    }
}

/// Plays, again, slower, and a slider of the time.
#[component]
pub(crate) fn Transport(clock: Clock) -> impl IntoView {
    let (now, last) = (clock.now, clock.last);
    view! {
        <div class="lesson-transport">
            <button type="button" id="play" class="play" on:click=move |_| clock.toggle()>
                <span aria-hidden="true">{move || if clock.playing.get() { "❚❚" } else { "▶" }}</span>
                {move || say(if clock.playing.get() { k("replay-pause") } else { k("replay-play") })}
            </button>
            <Press
                name=k("lesson-again")
                id="again"
                act=move |_| {
                    clock.seek(0.0);
                    clock.play(true);
                }
            />
            <Press
                name=k("lesson-slow")
                id="slow"
                pressed=Signal::from(clock.slow)
                act=move |_| clock.slow.update(|on| *on = !*on)
            />
            <input
                type="range"
                id="seek"
                min="0"
                max=last.to_string()
                step="1"
                aria-label=tr("lesson-time")
                prop:value=move || now.get().floor().to_string()
                aria-valuetext=move || {
                    format!("{} s", steady_number((now.get() / A_SECOND).floor(), 0))
                }
                on:input=move |ev| clock.seek(event_target_value(&ev).parse().unwrap_or(0.0))
            />
            <span class="clock">
                {move || format!("{} s", steady_number(now.get() / A_SECOND, 1))}
            </span>
        </div>
    }
}

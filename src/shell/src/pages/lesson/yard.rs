//! Two drives side by side: one clock for both, a yard each, what is watched, and what was found, measured beside
//! its limit.

use coneyard_core::finding::{Finding, Severity};
use coneyard_core::lesson::Show;
use coneyard_core::lesson::scene::{A_SECOND, Drawn, EVERY, Scene};
use coneyard_core::outside::Said;
use leptos::prelude::*;

use super::gauges::Gauges;
use crate::browser;
use crate::courses::said;
use crate::pages::debrief::findings::measured_text;
use crate::parts::finding;
use crate::parts::names::truck_name;
use crate::parts::press::Press;
use crate::plan::{Ground, Playing};
use crate::settings::use_settings;
use crate::words::{k, say, steady_number, tell, tr};

/// The slower pace.
const SLOW: f64 = 0.5;
/// Who wants less motion sees how it stands so long after the first fault, s.
const AFTER: f64 = 0.5;

/// The clock of both drives.
#[derive(Clone, Copy)]
pub(super) struct Clock {
    /// In places of the drives.
    now: RwSignal<f64>,
    last: f64,
    playing: RwSignal<bool>,
    slow: RwSignal<bool>,
}

impl Clock {
    fn new(scene: &Scene) -> Self {
        let last = scene.sides.iter().map(|s| s.truck.len()).max().unwrap_or(1).saturating_sub(1);
        Self {
            now: RwSignal::new(0.0),
            last: last as f64,
            playing: RwSignal::new(false),
            slow: RwSignal::new(false),
        }
    }

    /// Plays, or pauses. At the end it plays from the start.
    pub(super) fn play(self, playing: bool) {
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
    pub(super) fn toggle(self) {
        self.play(!self.playing.get_untracked());
    }

    fn seek(self, to: f64) {
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

/// When a finding is made, in places of the drive.
fn place_of(drawn: &Drawn, found: &Finding) -> f64 {
    f64::from(found.from.saturating_sub(drawn.of.from())) / f64::from(EVERY)
}

/// How a side is headed.
enum Head {
    Right,
    Wrong,
    Truck(String),
}

/// The two.
#[component]
pub(super) fn Yard(
    /// What is shown.
    show: Show,
    /// As it was driven.
    scene: Scene,
    /// The courses, both of them where they differ.
    grounds: [Ground; 2],
    /// Called once with the clock, for the keys.
    #[prop(into)]
    keys: Callback<Clock>,
) -> impl IntoView {
    let clock = Clock::new(&scene);
    keys.run(clock);
    let heads: [(Head, Said); 2] = match &show {
        Show::Ways(ways) => {
            [(Head::Right, ways.right.says.clone()), (Head::Wrong, ways.wrong.says.clone())]
        }
        Show::Trucks(both) => [0, 1].map(|n| {
            let one = &both.trucks[n];
            (Head::Truck(one.truck.clone()), one.says.clone())
        }),
        Show::Part { .. } => return ().into_any(),
    };
    let faults = scene.sides.iter().flat_map(|side| {
        let bad = side.found.iter().filter(|f| f.severity != Severity::Good);
        bad.map(|f| place_of(side, f))
    });
    let first_fault = faults.fold(f64::MAX, f64::min);
    let still = browser::media("(prefers-reduced-motion: reduce)");
    if still {
        clock.seek(if first_fault < f64::MAX {
            first_fault + AFTER * A_SECOND
        } else {
            clock.last
        });
    } else {
        clock.play(true);
    }
    let region = scene.region;
    let watch = show.watch().to_vec();
    let sides = heads
        .into_iter()
        .zip(grounds)
        .enumerate()
        .map(|(side, ((head, says), ground))| {
            let drawn = scene.sides[side].clone();
            let first = drawn.of.from();
            let name = says.clone();
            let (class, mark, title) = match head {
                Head::Right => ("right", "✓", Signal::derive(|| say(k("lesson-right")))),
                Head::Wrong => ("wrong", "✗", Signal::derive(|| say(k("lesson-wrong")))),
                Head::Truck(truck) => {
                    ("truck-side", "", Signal::derive(move || truck_name(&truck)))
                }
            };
            view! {
                <section class=format!("way-side {class}")>
                    <h3>
                        <span class="way-mark" aria-hidden="true">
                            {mark}
                        </span>
                        {title}
                        <span class="says">{move || said(&says)}</span>
                    </h3>
                    <div class="yard-box">
                        <Playing
                            ground
                            region
                            drawn=drawn.clone()
                            now=clock.now
                            first
                            name=Signal::derive(move || said(&name))
                        />
                    </div>
                    <Gauges watch=watch.clone() sides=scene.sides.clone() side now=clock.now />
                    <Found drawn now=clock.now />
                </section>
            }
        })
        .collect_view();
    view! {
        <Transport clock />
        <div class="ways">{sides}</div>
    }
    .into_any()
}

/// What was found up to now. Its room is there from the start.
#[component]
fn Found(drawn: Drawn, #[prop(into)] now: Signal<f64>) -> impl IntoView {
    let settings = use_settings();
    // What goes on is found again and again, and told once.
    let mut told: Vec<&Finding> = Vec::new();
    let bad = |f: &&Finding| f.severity != Severity::Good;
    // Beside a fault it is the fault that is to be seen.
    let only_bad = drawn.found.iter().any(|f| bad(&f));
    for found in drawn.found.iter().filter(|f| !only_bad || bad(f)) {
        if told.iter().all(|f| f.code != found.code) {
            told.push(found);
        }
    }
    let items = told
        .into_iter()
        .map(|found| {
            let from = place_of(&drawn, found);
            let shown = Memo::new(move |_| now.get() >= from);
            let severity = found.severity;
            let (told, measured) = (found.clone(), found.clone());
            let title = move || tell(&told, settings.with(|s| s.units)).title;
            // What went well is no less well for a number.
            let limit = move || {
                let units = settings.with(|s| s.units);
                (severity != Severity::Good).then(|| measured_text(&measured, units)).flatten()
            };
            view! {
                <li class=finding::class(severity) class:gone=move || !shown.get()>
                    <span class="mark" aria-hidden="true">
                        {finding::mark(severity)}
                    </span>
                    <span>
                        <strong>{title}</strong>
                        " "
                        {limit}
                    </span>
                </li>
            }
        })
        .collect_view();
    view! { <ul class="way-found">{items}</ul> }
}

#[component]
fn Transport(clock: Clock) -> impl IntoView {
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

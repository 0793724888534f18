//! A recorded drive on the canvas, with its timeline under it and the dashboard beside it.

mod companion;
mod transport;

use coneyard_core::desk::{Opened, Sight, Status, View};
use coneyard_core::finding::Finding;
use coneyard_core::time::{TICK_RATE, Tick};
use leptos::prelude::*;

use super::debrief::Headline;
use crate::browser;
use crate::canvas;
use crate::files;
use crate::looking::Looking;
use crate::parts::dash::Dash;
use crate::parts::finding;
use crate::parts::when::Since;
use crate::route::Route;
use crate::settings::{Settings, use_settings};
use crate::sound;
use crate::store::{Attempt, StoreDesk, use_store};
use crate::timeline::Timeline;
use crate::words::{k, say, tell, tr};
use companion::Companion;
use transport::Transport;

/// Milliseconds from one look at the yard's status to the next.
const STATUS_MS: f64 = 50.0;
/// A finding is told for this long after it began, ticks.
const TOLD_FOR: Tick = 3 * TICK_RATE;

/// How far opening has come.
#[derive(Clone, Debug, PartialEq)]
enum Phase {
    Loading,
    Open,
    Trouble(String),
}

/// What the parts of the replay page share.
#[derive(Clone, Copy)]
pub(crate) struct Desk {
    phase: RwSignal<Phase>,
    /// What opening gave.
    opened: RwSignal<Option<Opened>>,
    /// The run file that is shown.
    run: RwSignal<String>,
    /// The yard's own word.
    status: RwSignal<Option<Status>>,
    /// Simulated seconds a second.
    pace: RwSignal<f64>,
    /// Also what the rider does not see is shown.
    everything: RwSignal<bool>,
    /// How near the yard is looked at.
    looking: Looking,
    settings: RwSignal<Settings>,
    store: StoreDesk,
}

impl Desk {
    fn now(self) -> Tick {
        self.status.with(|s| s.as_ref().map_or(0, |s| s.tick))
    }

    fn now_untracked(self) -> Tick {
        untrack(move || self.now())
    }

    fn last(self) -> Tick {
        self.opened.with(|o| o.as_ref().map_or(0, |o| o.last_tick))
    }

    fn playing(self) -> bool {
        self.status.with(|s| s.as_ref().is_some_and(|s| !s.paused))
    }

    fn done<T>(self, asked: canvas::Asked<T>) {
        if let Err(why) = asked {
            self.phase.set(Phase::Trouble(why));
        }
    }

    /// Goes to a tick.
    fn seek(self, tick: Tick) {
        self.done(canvas::replay_to(tick));
        self.look();
    }

    /// Plays, or stops. At the end it plays from the start.
    fn play(self, playing: bool) {
        let pace = self.pace.get_untracked();
        if playing && untrack(move || self.now() >= self.last()) {
            self.done(canvas::replay_to(0));
        }
        self.done(canvas::replay_play(playing, pace));
        self.look();
    }

    /// Plays as fast as this.
    fn set_pace(self, pace: f64) {
        self.pace.set(pace);
        self.done(canvas::replay_play(untrack(move || self.playing()), pace));
    }

    /// Reads how the yard stands.
    fn look(self) {
        match canvas::status() {
            Ok(status) => {
                self.status.try_set(Some(status));
            }
            Err(why) => {
                self.phase.try_set(Phase::Trouble(why));
            }
        }
    }

    /// The run's findings.
    fn findings(self) -> Vec<Finding> {
        self.opened
            .with(|o| o.as_ref().map(|o| o.verdict.debrief.findings.clone()).unwrap_or_default())
    }
}

/// A recorded drive.
#[component]
pub(crate) fn Replay(id: String, at: Option<Tick>) -> impl IntoView {
    let desk = Desk {
        phase: RwSignal::new(Phase::Loading),
        opened: RwSignal::new(None),
        run: RwSignal::new(String::new()),
        status: RwSignal::new(None),
        pace: RwSignal::new(1.0),
        everything: RwSignal::new(false),
        looking: Looking::new(),
        settings: use_settings(),
        store: use_store(),
    };
    let attempt = {
        let id = id.clone();
        Memo::new(move |_| desk.store.attempt(&id))
    };
    let back = Route::Debrief(id.clone()).href();
    leptos::task::spawn_local(async move {
        if let Err(why) = open(desk, &id, at).await {
            desk.phase.try_set(Phase::Trouble(why));
        }
    });
    transport::listen(desk);
    sound::listen(desk.settings, Signal::derive(move || desk.phase.get() == Phase::Open));
    Effect::new(move |_| {
        let sight = if desk.everything.get() { Sight::Everything } else { Sight::WhatTheRiderSees };
        let view = desk.looking.on(View { sight, ..desk.settings.with(Settings::view) });
        if desk.phase.get() == Phase::Open {
            desk.done(canvas::set_view(&view));
        }
    });
    desk.looking.listen(|| true);
    on_cleanup(|| {
        // Nothing may be open yet when the page is left early.
        let _ = canvas::close();
    });
    view! {
        <p class="task replay-head">
            {move || attempt.get().map(|attempt: Attempt| view! { <Headline attempt /> })} " "
            <a href=back>{tr("replay-to-debrief")}</a>
        </p>
        <Over desk />
        <div class="buttons">
            <Transport desk />
        </div>
        <div class="under">
            {move || {
                desk.opened
                    .get()
                    .map(|o| {
                        view! {
                            <Timeline
                                last=o.last_tick
                                traces=o.traces
                                findings=o.verdict.debrief.findings
                                now=Signal::derive(move || desk.now())
                                units=Signal::derive(move || desk.settings.with(|s| s.units))
                                seek=Callback::new(move |tick| desk.seek(tick))
                            />
                        }
                    })
            }}
        </div>
        <div class="side">
            <Dash status=desk.status />
            <FindingList desk />
            <Companion desk attempt />
        </div>
    }
}

async fn open(desk: Desk, id: &str, at: Option<Tick>) -> Result<(), String> {
    let run = desk.store.run(id).await?.ok_or_else(|| say(k("run-not-there")))?;
    files::can_be_driven_again(files::simulation_of(id, &run)?)?;
    canvas::load().await?;
    if desk.phase.is_disposed() {
        return Ok(());
    }
    let opened = canvas::open_replay(&run)?;
    canvas::replay_to(at.unwrap_or(0).min(opened.last_tick))?;
    // "Look at it" shows what happened; a run opened from its start waits to be played.
    let still = browser::media("(prefers-reduced-motion: reduce)");
    canvas::replay_play(at.is_some() && !still, 1.0)?;
    desk.run.set(run);
    desk.opened.set(Some(opened));
    desk.phase.set(Phase::Open);
    desk.look();
    request_animation_frame(move || frame(desk, 0.0));
    Ok(())
}

fn frame(desk: Desk, looked_ms: f64) {
    if desk.phase.try_get_untracked() != Some(Phase::Open) {
        return;
    }
    let now = browser::clock_ms();
    let due = now - looked_ms >= STATUS_MS;
    if due {
        desk.look();
    }
    let looked_ms = if due { now } else { looked_ms };
    request_animation_frame(move || frame(desk, looked_ms));
}

/// What lies over the canvas: how opening stands, and the finding that is being shown.
#[component]
fn Over(desk: Desk) -> impl IntoView {
    let shown = Memo::new(move |_| {
        let now = desk.now();
        let told = |f: &Finding| f.from <= now && now <= f.to.max(f.from + TOLD_FOR);
        desk.findings().into_iter().rfind(told)
    });
    view! {
        <div class="over">
            <div class="messages">
                {move || {
                    shown
                        .get()
                        .map(|f| {
                            let told = tell(&f, desk.settings.with(|s| s.units));
                            view! {
                                <p class=format!("message {}", finding::class(f.severity))>
                                    <span aria-hidden="true">{finding::mark(f.severity)}</span>
                                    <span>
                                        <strong>{told.title}</strong>
                                        <span class="what">" " {told.what}</span>
                                    </span>
                                </p>
                            }
                        })
                }}
            </div>
            <div class="centre" role="status">
                {move || match desk.phase.get() {
                    Phase::Loading => {
                        view! { <p class="veil">{say(k("replay-loading"))}</p> }.into_any()
                    }
                    Phase::Trouble(why) => {
                        view! {
                            <div class="veil">
                                <p>{say(k("replay-trouble"))}</p>
                                <p class="why">{why}</p>
                            </div>
                        }
                            .into_any()
                    }
                    Phase::Open => ().into_any(),
                }}
            </div>
        </div>
    }
}

/// Every finding as a button that goes there: what the marks on the timeline are for the eye.
#[component]
fn FindingList(desk: Desk) -> impl IntoView {
    move || {
        let findings = desk.findings();
        if findings.is_empty() {
            return None;
        }
        let units = desk.settings.with(|s| s.units);
        let items = findings
            .into_iter()
            .map(|f| {
                let title = tell(&f, units).title;
                let from = f.from;
                view! {
                    <li>
                        <button
                            type="button"
                            class=format!("jump {}", finding::class(f.severity))
                            on:click=move |_| desk.seek(from)
                        >
                            <Since ticks=from />
                            <span aria-hidden="true">{finding::mark(f.severity)}</span>
                            <span>{title}</span>
                        </button>
                    </li>
                }
            })
            .collect_view();
        Some(view! {
            <section class="jumps" aria-labelledby="jumps-title">
                <h2 id="jumps-title">{say(k("replay-findings"))}</h2>
                <ol>{items}</ol>
            </section>
        })
    }
}

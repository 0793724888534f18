//! A recorded drive on the canvas, with its timeline under it and the dashboard beside it.

mod asks;
mod companion;
mod drawing;
mod lie;
pub(crate) mod notes;
pub(crate) mod tour;
mod transport;

use coneyard_core::desk::{Opened, Sight, Status, View};
use coneyard_core::finding::Finding;
use coneyard_core::math::{Vec2, vec2};
use coneyard_core::time::{TICK_RATE, Tick};
use leptos::prelude::*;

use super::debrief::Headline;
use crate::browser;
use crate::canvas;
use crate::files;
use crate::looking::Looking;
use crate::parts::arriving::Arriving;
use crate::parts::dash::Dash;
use crate::parts::finding;
use crate::parts::notes::marks_text;
use crate::parts::when::Since;
use crate::reader;
use crate::route::Route;
use crate::settings::{Settings, use_settings};
use crate::sound;
use crate::store::{Attempt, StoreDesk, use_store};
use crate::timeline::Timeline;
use crate::words::{k, say, tell, tr};
use asks::Asks;
use companion::Companion;
use drawing::{Drawing, Marks};
use notes::Notes;
use tour::Tour;
use transport::Transport;

/// Milliseconds from one look at the yard's status to the next.
const STATUS_MS: f64 = 50.0;
/// A finding is told for this long after it began, ticks; one that was chosen also for as long before.
const TOLD_FOR: Tick = 3 * TICK_RATE;
/// So many findings of the same moment are told at most.
const TOLD_MOST: usize = 3;

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
    /// The finding that was chosen, by its index; it is told, and no other.
    chosen: RwSignal<Option<usize>>,
    /// How near the yard is looked at.
    looking: Looking,
    /// The attempt as it is kept, with its notes.
    kept: RwSignal<Option<Attempt>>,
    /// What is drawn into the yard.
    drawing: Drawing,
    /// The three questions are there.
    asks: RwSignal<bool>,
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

    /// Goes to a tick; nothing is chosen any more.
    fn seek(self, tick: Tick) {
        self.chosen.set(None);
        self.go_to(tick);
    }

    /// Goes to where the finding of this index began, and tells of it and no other.
    fn choose(self, index: usize) {
        if let Some(from) = untrack(move || self.findings()).get(index).map(|f| f.from) {
            self.chosen.set(Some(index));
            self.go_to(from);
        }
    }

    fn go_to(self, tick: Tick) {
        self.done(canvas::replay_to(tick));
        self.look();
    }

    /// Plays, or pauses. At the end it plays from the start.
    fn play(self, playing: bool) {
        // A moment that ends may end with its page.
        let Some(pace) = self.pace.try_get_untracked() else { return };
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

    /// Where the truck's platform is, m.
    fn truck_at(self) -> Option<Vec2> {
        self.opened.with(|o| {
            let traces = &o.as_ref()?.traces;
            let last = traces.path.len().checked_sub(1)?;
            let now = f64::from(self.now()) / f64::from(traces.every.max(1));
            let n = (now as usize).min(last);
            let place = |n: usize| {
                let [x, y] = traces.path[n.min(last)];
                vec2(f64::from(x), f64::from(y))
            };
            Some(place(n) + (place(n + 1) - place(n)) * (now - n as f64).clamp(0.0, 1.0))
        })
    }

    /// The run's findings, by the rules by which it was judged last.
    fn findings(self) -> Vec<Finding> {
        let again = self.kept.with(|kept| {
            let again = kept.as_ref().filter(|attempt| attempt.judged_again.is_some());
            again.map(|attempt| attempt.verdict.debrief.findings.clone())
        });
        let own = || self.opened.with(|o| Some(o.as_ref()?.verdict.debrief.findings.clone()));
        again.or_else(own).unwrap_or_default()
    }
}

/// A recorded drive.
#[component]
pub(crate) fn Replay(
    /// Which.
    id: String,
    /// Where to begin to play; None waits at the start.
    at: Option<Tick>,
    /// The finding to tell of there, by its number on the plan.
    finding: Option<usize>,
    /// The moments that are played one after another, where it is one of them.
    #[prop(optional)]
    tour: Option<Tour>,
) -> impl IntoView {
    let desk = Desk {
        phase: RwSignal::new(Phase::Loading),
        opened: RwSignal::new(None),
        run: RwSignal::new(String::new()),
        status: RwSignal::new(None),
        pace: RwSignal::new(1.0),
        everything: RwSignal::new(false),
        // People count from 1.
        chosen: RwSignal::new(finding.and_then(|n| n.checked_sub(1))),
        looking: Looking::new(),
        kept: RwSignal::new(None),
        drawing: Drawing::new(),
        asks: RwSignal::new(asks::now()),
        settings: use_settings(),
        store: use_store(),
    };
    let attempt = {
        let id = id.clone();
        Memo::new(move |_| desk.store.attempt(&id))
    };
    Effect::new(move |_| {
        if let Some(attempt) = attempt.get() {
            desk.kept.set(Some(attempt));
        }
    });
    let found = Memo::new(move |_| desk.findings());
    let (back, of) = (Route::Debrief(id.clone()).href(), id.clone());
    leptos::task::spawn_local(async move {
        if let Err(why) = open(desk, &id, at, tour).await {
            desk.phase.try_set(Phase::Trouble(why));
        }
    });
    if let Some(tour) = tour {
        follow(desk, tour, of);
    }
    transport::listen(desk, tour);
    asks::listen(desk);
    sound::listen(desk.settings, Signal::derive(move || desk.phase.get() == Phase::Open));
    Effect::new(move |_| {
        let sight = if desk.everything.get() { Sight::Everything } else { Sight::WhatTheRiderSees };
        let view = desk.looking.on(View { sight, ..desk.settings.with(Settings::view) });
        if desk.phase.get() == Phase::Open {
            desk.done(canvas::set_view(&view));
        }
    });
    desk.looking.listen(move || !untrack(move || desk.drawing.is_on()));
    on_cleanup(|| {
        // Nothing may be open yet when the page is left early.
        let _ = canvas::close();
    });
    view! {
        <p class="task replay-head">
            {move || {
                attempt
                    .get()
                    .map(|attempt: Attempt| {
                        let marks = marks_text(&attempt);
                        view! { <Headline attempt /> {marks} }
                    })
            }} " "
            <a href=back>{tr("replay-to-debrief")}</a>
        </p>
        <Over desk tour />
        <div class="buttons">
            <Transport desk />
        </div>
        <Asks desk />
        <div class="under">
            {move || {
                desk.opened
                    .get()
                    .map(|o| {
                        view! {
                            <Timeline
                                last=o.last_tick
                                traces=o.traces
                                findings=found.get()
                                now=Signal::derive(move || desk.now())
                                units=Signal::derive(move || desk.settings.with(|s| s.units))
                                seek=Callback::new(move |tick| desk.seek(tick))
                                pick=Callback::new(move |index| desk.choose(index))
                            />
                        }
                    })
            }}
        </div>
        <div class="side">
            <Dash status=desk.status />
            <FindingList desk />
            <Notes desk />
            <Companion desk attempt />
        </div>
    }
}

/// Another moment of the same drive is gone to, and played.
fn follow(desk: Desk, tour: Tour, id: String) {
    Effect::new(move |before: Option<Option<tour::Stop>>| {
        let stop = tour.stop();
        if let (Some(before), Some(stop)) = (before, &stop)
            && before.as_ref() != Some(stop)
            && stop.id == id
            && desk.phase.try_get_untracked() == Some(Phase::Open)
        {
            desk.chosen.set(stop.finding.checked_sub(1));
            desk.go_to(stop.from);
            desk.play(moves());
        }
        stop
    });
}

/// Whether a moment that was asked for plays by itself.
fn moves() -> bool {
    !browser::media("(prefers-reduced-motion: reduce)")
}

async fn open(desk: Desk, id: &str, at: Option<Tick>, tour: Option<Tour>) -> Result<(), String> {
    let run = desk.store.run(id).await?.ok_or_else(|| say(k("run-not-there")))?;
    files::can_be_driven_again(files::simulation_of(id, &run)?)?;
    canvas::load().await?;
    if desk.phase.is_disposed() {
        return Ok(());
    }
    let opened = canvas::open_replay(&run).map_err(reader::in_english)?;
    // Somebody may have gone on to another moment of the same drive meanwhile.
    let stop = tour.and_then(|tour| untrack(move || tour.stop())).filter(|stop| stop.id == id);
    if let Some(stop) = &stop {
        desk.chosen.set(stop.finding.checked_sub(1));
    }
    let at = stop.map(|stop| stop.from).or(at);
    canvas::replay_to(at.unwrap_or(0).min(opened.last_tick))?;
    // "Look at it" shows what happened; a run opened from its start waits to be played.
    canvas::replay_play(at.is_some() && moves(), 1.0)?;
    desk.run.set(run);
    desk.opened.set(Some(opened));
    desk.phase.set(Phase::Open);
    desk.look();
    request_animation_frame(move || frame(desk, tour, 0.0));
    Ok(())
}

fn frame(desk: Desk, tour: Option<Tour>, looked_ms: f64) {
    if desk.phase.try_get_untracked() != Some(Phase::Open) {
        return;
    }
    let now = browser::clock_ms();
    let due = now - looked_ms >= STATUS_MS;
    if due {
        let (played, before) = untrack(move || (desk.playing(), desk.now()));
        desk.look();
        let (plays, now, last) = untrack(move || (desk.playing(), desk.now(), desk.last()));
        // What was gone to, and not played to, ends nothing; at the drive's end it stands by itself.
        if let Some(tour) = tour.filter(|_| played && (plays || now >= last)) {
            tour.look(desk, before, now);
            // The next moment may be another drive's, with a replay of its own.
            if desk.phase.is_disposed() {
                return;
            }
        }
    }
    desk.drawing.follow();
    let looked_ms = if due { now } else { looked_ms };
    request_animation_frame(move || frame(desk, tour, looked_ms));
}

/// Which findings are told at this tick: the chosen one around its time, else those of the time.
fn told_at(findings: &[Finding], chosen: Option<usize>, now: Tick) -> Vec<usize> {
    let until = |f: &Finding| f.to.max(f.from + TOLD_FOR);
    if let Some((n, f)) = chosen.and_then(|n| Some((n, findings.get(n)?)))
        && f.from <= now + TOLD_FOR
        && now <= until(f)
    {
        return vec![n];
    }
    let of_now = |f: &Finding| f.from <= now && now <= until(f);
    let mut told: Vec<usize> = (0..findings.len()).filter(|n| of_now(&findings[*n])).collect();
    // The latest, when there are many.
    told.drain(..told.len().saturating_sub(TOLD_MOST));
    told
}

/// What lies over the canvas: how opening stands, and the findings that are being shown.
#[component]
fn Over(desk: Desk, tour: Option<Tour>) -> impl IntoView {
    let shown = Memo::new(move |_| {
        let findings = desk.findings();
        let told = told_at(&findings, desk.chosen.get(), desk.now());
        told.into_iter().map(|n| findings[n].clone()).collect::<Vec<_>>()
    });
    view! {
        <div class="over">
            <Marks desk />
            <div class="over-top">
                {tour.map(|tour| view! { <tour::Bar tour /> })} <drawing::Bar desk />
            </div>
            <div class="messages">
                {move || {
                    shown
                        .get()
                        .into_iter()
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
                        .collect_view()
                }}
            </div>
            <div class="centre" role="status">
                {move || match desk.phase.get() {
                    Phase::Loading => {
                        view! {
                            <p class="veil">
                                {say(k("replay-loading"))} " " <Arriving />
                            </p>
                        }
                            .into_any()
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
            .enumerate()
            .map(|(n, f)| {
                let title = tell(&f, units).title;
                let from = f.from;
                let is_chosen = move || desk.chosen.get() == Some(n);
                view! {
                    <li>
                        <button
                            type="button"
                            class=format!("jump {}", finding::class(f.severity))
                            aria-current=move || is_chosen().then_some("true")
                            on:click=move |_| desk.choose(n)
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

#[cfg(test)]
mod tests {
    use coneyard_core::finding::Severity;

    use super::*;

    fn found(code: &str, from: Tick) -> Finding {
        crate::test_support::found(code, Severity::Minor, from)
    }

    #[test]
    fn the_one_that_was_chosen_is_told_also_when_others_have_the_same_tick() {
        let all = [found("a", 640), found("b", 640), found("c", 640), found("d", 6_400)];
        for chosen in 0..3 {
            assert_eq!(told_at(&all, Some(chosen), 640), [chosen]);
            assert_eq!(told_at(&all, Some(chosen), 640 - 2 * TICK_RATE), [chosen], "on the way");
        }
        assert_eq!(told_at(&all, None, 640), [0, 1, 2], "nothing is hidden by another");
        assert_eq!(told_at(&all, Some(0), 6_400), [3], "its time is over");
        assert_eq!(told_at(&all, Some(9), 640), [0, 1, 2]);
        let many: Vec<Finding> = (0..9).map(|n| found("x", 640 + n)).collect();
        assert_eq!(told_at(&many, None, 700), [6, 7, 8]);
    }
}

//! Moments of one kind, one after another: each is played from some seconds before it to some seconds after, then the
//! next opens by itself. Page Up and Page Down, the keys of a presenter's remote, lead back and on.

use coneyard_core::class::clip;
use coneyard_core::class::note::moments;
use coneyard_core::time::Tick;
use leptos::prelude::*;

use super::{Desk, Replay};
use crate::canvas;
use crate::courses::use_library;
use crate::pages::debrief::who_text;
use crate::parts::press::Press;
use crate::parts::when::date_text;
use crate::route::Route;
use crate::store::use_store;
use crate::words::{changed, k, number, say, say_with, tr};

/// A moment of the tour.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stop {
    /// In which drive.
    pub(super) id: String,
    /// The finding, by its number on the plan.
    pub(super) finding: usize,
    /// Played from this tick on.
    pub(super) from: Tick,
    /// Until this one.
    until: Tick,
    who: String,
    course: String,
    started: String,
}

/// All moments of one kind, and which of them is played.
#[derive(Clone, Copy)]
pub(crate) struct Tour {
    code: StoredValue<String>,
    stops: Memo<Vec<Stop>>,
    /// From 0.
    place: RwSignal<usize>,
    /// The last one was played to its end.
    over: RwSignal<bool>,
}

impl Tour {
    /// The moment that is played.
    pub(super) fn stop(self) -> Option<Stop> {
        self.stops.with(|stops| stops.get(self.place.get()).cloned())
    }

    fn last(self) -> usize {
        self.stops.with_untracked(Vec::len).saturating_sub(1)
    }

    /// Goes to the moment of this place.
    fn go(self, place: usize) {
        self.over.set(false);
        self.place.set(place.min(self.last()));
        let code = self.code.get_value();
        let number = self.place.get_untracked() + 1;
        canvas::show_address(&Route::Tour { code, number }.href());
    }

    /// On, or back.
    pub(super) fn step(self, forward: bool) {
        let Some(place) = self.place.try_get_untracked() else { return };
        let to = if forward { (place + 1).min(self.last()) } else { place.saturating_sub(1) };
        if to != place {
            self.go(to);
        }
    }

    /// The moment has been played to its end: the next one opens. False after the last.
    fn ended(self) -> bool {
        let more = self.place.get_untracked() < self.last();
        if more {
            self.step(true);
        } else {
            self.over.set(true);
        }
        more
    }

    /// Goes on when the replay has come to the moment's end. `before` and `now` are ticks that were shown one after
    /// the other while it played.
    pub(super) fn look(self, desk: Desk, before: Tick, now: Tick) {
        let (stop, last) = untrack(move || (self.stop(), desk.last()));
        let until = stop.map(|s| s.until.min(last));
        if until.is_some_and(|until| before < until && now >= until) && !self.ended() {
            desk.play(false);
        }
    }
}

/// Moments of this kind, one after another, from this number on.
#[component]
pub(crate) fn TourPage(code: String, number: usize) -> impl IntoView {
    let (store, library) = (use_store(), use_library());
    let of = code.clone();
    let stops = Memo::new(move |_| {
        store.attempts.with(|all| {
            moments(all, &of)
                .map(|found| {
                    let ticks = found.attempt.verdict.debrief.ticks;
                    let (from, until) = clip::of(found.finding, ticks);
                    Stop {
                        id: found.attempt.id.clone(),
                        finding: found.number,
                        from,
                        until,
                        who: who_text(found.attempt),
                        course: library.title(&found.attempt.course),
                        started: found.attempt.started.clone(),
                    }
                })
                .collect::<Vec<_>>()
        })
    });
    let tour = Tour {
        code: StoredValue::new(code),
        stops,
        place: RwSignal::new(number.saturating_sub(1)),
        over: RwSignal::new(false),
    };
    let count = Memo::new(move |_| stops.with(Vec::len));
    // Only another drive is another replay.
    let drive = Memo::new(move |_| {
        let place = tour.place.get().min(count.get().saturating_sub(1));
        stops.with(|stops| stops.get(place).map(|s| s.id.clone()))
    });
    move || match (drive.get(), store.ready.get()) {
        (Some(id), _) => {
            tour.place.update_untracked(|place| *place = (*place).min(tour.last()));
            let stop = untrack(move || tour.stop());
            let (at, finding) = (stop.as_ref().map(|s| s.from), stop.map(|s| s.finding));
            view! { <Replay id at finding tour /> }.into_any()
        }
        (None, false) => view! { <p role="status">{say(k("debrief-loading"))}</p> }.into_any(),
        (None, true) => view! { <p class="task">{say(k("moments-none"))}</p> }.into_any(),
    }
}

/// Which moment it is, and the way back and on.
#[component]
pub(super) fn Bar(tour: Tour) -> impl IntoView {
    let here = move || {
        let stop = tour.stop()?;
        let place = say_with(
            k("tour-place"),
            vec![
                ("number", number(tour.place.get() as f64 + 1.0)),
                ("count", number(tour.stops.with(Vec::len) as f64)),
            ],
        );
        let what = tour.code.with_value(|code| changed(code));
        let when = date_text(&stop.started);
        let line = format!("{} · {} · {when}", stop.who, stop.course);
        Some(view! {
            <strong>{place}</strong>
            <span>{what}</span>
            <span class="quiet">{line}</span>
        })
    };
    let first = Signal::derive(move || tour.place.get() == 0);
    let last = Signal::derive(move || tour.place.get() + 1 >= tour.stops.with(Vec::len));
    view! {
        <div class="tour" role="group" aria-label=tr("tour-label")>
            <Press
                name=k("tour-back")
                id="tour-back"
                mark="←"
                mark_only=true
                disabled=first
                act=move |_| tour.step(false)
            />
            <p role="status">
                {here}
                {move || tour.over.get().then(|| view! { <span>{say(k("tour-over"))}</span> })}
            </p>
            <Press
                name=k("tour-on")
                id="tour-on"
                mark="→"
                mark_only=true
                disabled=last
                act=move |_| tour.step(true)
            />
        </div>
    }
}

/// The address of the tour of all moments of a kind.
pub(crate) fn href(code: &str) -> String {
    Route::Tour { code: code.to_owned(), number: 1 }.href()
}

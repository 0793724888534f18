//! A part of a pre-test: a drive like any other, but without helps, and with one pause for the
//! whole sitting.

use std::time::Duration;

use coneyard_core::class::{is_open, other_simulation, part};
use coneyard_core::reading::{Begun, Question};
use leptos::prelude::*;

use super::{Begin, Desk, Phase, begin, session};
use crate::browser;
use crate::canvas;
use crate::reader;
use crate::route::Route;
use crate::route::go_instead;
use crate::store::{CutDrive, PartSoFar, Place, Store, Taken};
use crate::words::{k, say};

use super::view::DriveView;

/// A tab that was closed a moment ago may not have given its lock back yet: it is asked so often.
const ASKED: u32 = 8;
/// With this time between.
const ASK_AGAIN: Duration = Duration::from_millis(500);

impl Desk {
    /// A part of a pre-test is driven.
    pub(crate) fn is_part(self) -> bool {
        self.place.with(Option::is_some)
    }

    fn taken(self) -> Option<Taken> {
        self.place.with(|place| self.store.sitting(&place.as_ref()?.sitting))
    }

    /// It may be paused once more. A drive for practice always may.
    pub(crate) fn pause_left(self) -> bool {
        let most = self.terms.with(|terms| terms.map_or(0, |t| t.pauses_most));
        !self.is_part() || self.taken().is_some_and(|t| t.pauses < most)
    }

    /// A computer that simulates less than this share of the time on the wall is too slow.
    pub(crate) fn time_ratio_least(self) -> f64 {
        self.terms.with(|terms| terms.map_or(0.0, |t| t.time_ratio_least))
    }

    /// The person asks for a pause, or to go on. In a pre-test the one pause is counted as it is
    /// taken; another one is not given.
    pub(crate) fn ask_pause(self, paused: bool) {
        if self.phase.get_untracked() != Phase::Driving {
            return;
        }
        if paused {
            if !untrack(|| self.pause_left()) {
                return;
            }
            if let Some(mut taken) = untrack(|| self.taken()) {
                taken.pauses += 1;
                leptos::task::spawn_local(self.store.keep_sitting(taken));
            }
            self.asked.set(true);
        }
        self.pause(paused);
    }

    /// Asks how to leave. The drive is held still meanwhile, as long as a pause is left for it.
    pub(crate) fn ask_leave(self) {
        let held = self.paused.get_untracked();
        if !held && untrack(|| self.pause_left()) {
            self.ask_pause(true);
        } else if !held {
            session::let_go(self);
        }
        self.leaving.set(true);
    }

    /// What the question of how to leave costs, in a part of a pre-test.
    pub(crate) fn leaving_costs(self) -> Option<&'static str> {
        if !self.is_part() {
            return None;
        }
        match (self.paused.get(), self.asked.get()) {
            (true, true) => Some(k("pretest-leave-held")),
            (true, false) => None,
            (false, _) => Some(k("pretest-leave-not-held")),
        }
    }
}

/// The part of this number, from its start or from where it was cut off.
#[component]
pub(crate) fn Part(sitting: String, part: usize) -> impl IntoView {
    let place = Place { sitting, part };
    let desk = Desk::new(Callback::new(|()| {}), Some(place.clone()));
    let begun = StoredValue::new(false);
    // What was driven so far may still be on its way when the page is opened by its address.
    Effect::new(move |_| {
        if !desk.store.ready.get() || begun.get_value() {
            return;
        }
        begun.set_value(true);
        let place = place.clone();
        let taken = untrack(|| desk.store.sitting(&place.sitting));
        let due = untrack(|| desk.store.driven(&place.sitting).len());
        let Some(taken) = taken else {
            desk.phase.set(Phase::Trouble(say(k("pretest-not-there"))));
            return;
        };
        // Nothing is driven twice, and nothing out of its turn: the sitting's page says what is due.
        if due != place.part || !is_open(&taken, due) {
            go_instead(&Route::Sitting(place.sitting));
            return;
        }
        // What was driven of it before cannot be joined with what would be driven now.
        let driven = untrack(|| desk.store.driven(&place.sitting));
        if let Some(made) = other_simulation(&driven) {
            desk.phase.set(Phase::Trouble(super::other_simulation(made)));
            return;
        }
        leptos::task::spawn_local(async move {
            match so_far(&place).await {
                Ok(Some(cut)) => begin(desk, Begin::On(cut.drive)).await,
                Ok(None) => match fresh(taken, place.part).await {
                    Ok(drive) => begin(desk, Begin::Fresh(drive)).await,
                    Err(e) => trouble(desk, e),
                },
                Err(e) => trouble(desk, e),
            }
        });
    });
    view! { <DriveView desk /> }
}

/// The drive of a part, from its start.
async fn fresh(sitting: Taken, part: usize) -> Result<Begun, String> {
    let (id, now) = (browser::new_id(), browser::now());
    reader::ask(&Question::Part { sitting, part, id, now }).await
}

fn trouble(desk: Desk, why: String) {
    desk.phase.try_set(Phase::Trouble(why));
}

/// What was driven of the part; None when nothing was. Without a database nothing can have been.
async fn so_far(place: &Place) -> Result<Option<CutDrive>, String> {
    let Ok(store) = Store::open().await else {
        return Ok(None);
    };
    for _ in 0..ASKED {
        match part(&store, place, &canvas::held().await).await? {
            PartSoFar::Nothing => return Ok(None),
            PartSoFar::Cut(cut) => return Ok(Some(cut)),
            PartSoFar::Unreadable => return Err(say(k("drive-unreadable"))),
            PartSoFar::Elsewhere => browser::wait(ASK_AGAIN).await,
        }
    }
    Err(say(k("pretest-elsewhere")))
}

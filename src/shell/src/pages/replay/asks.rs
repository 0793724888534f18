//! The three questions of a debrief, in their order, beside the drive that they are about (Tannenbaum and Cerasoli
//! 2013, from memory: debriefs raise performance by about a quarter). What is answered becomes a note of this moment.

use coneyard_core::class::note::Answers;
use leptos::ev::fullscreenchange;
use leptos::prelude::*;

use super::Desk;
use super::notes::Field;
use crate::browser;
use crate::parts::press::Press;
use crate::words::{k, number, say_with, tr};

/// Name under which the browser keeps whether the questions are folded away.
const KEPT: &str = "coneyard-replay-asks";
/// Where nobody has chosen, they are there when the window has so much room.
const ROOM: &str = "(min-width: 60rem) and (min-height: 60rem)";

/// The questions, with their places in the page.
const ASKS: [(Answers, &str); 3] =
    [(Answers::Meant, "meant"), (Answers::Happened, "happened"), (Answers::Next, "next")];

/// Whether they are there when a replay opens.
pub(super) fn now() -> bool {
    !is_full() && as_kept()
}

/// Whether they are there outside of full screen.
fn as_kept() -> bool {
    match browser::recall(KEPT).as_deref() {
        Some("open") => true,
        Some("folded") => false,
        _ => browser::media(ROOM),
    }
}

fn is_full() -> bool {
    document().fullscreen_element().is_some()
}

/// In full screen they are folded away until somebody asks for them: the yard has the picture.
pub(super) fn listen(desk: Desk) {
    let changed = window_event_listener(fullscreenchange, move |_| {
        desk.asks.set(now());
    });
    on_cleanup(move || changed.remove());
}

/// The button that folds them away, or brings them.
#[component]
pub(super) fn Fold(desk: Desk) -> impl IntoView {
    let fold = move |_| {
        desk.asks.update(|open| *open = !*open);
        if !is_full() {
            browser::remember(KEPT, if desk.asks.get_untracked() { "open" } else { "folded" });
        }
    };
    view! { <Press name=k("asks-fold") id="asks-fold" pressed=desk.asks act=fold /> }
}

/// The questions.
#[component]
pub(super) fn Asks(desk: Desk) -> impl IntoView {
    let noted = move |answers: Answers| {
        let count = desk.kept.with(|kept| {
            let notes = kept.as_ref().map(|a| a.notes.as_slice()).unwrap_or_default();
            notes.iter().filter(|n| n.answers == answers).count()
        });
        (count > 0).then(|| say_with(k("asks-noted"), vec![("count", number(count as f64))]))
    };
    let fields = move || {
        ASKS.map(|(answers, id)| {
            view! {
                <li>
                    <Field desk answers id />
                    <span class="quiet" role="status">
                        {move || noted(answers)}
                    </span>
                </li>
            }
        })
        .into_iter()
        .collect_view()
    };
    view! {
        <section class="asks" class:folded=move || !desk.asks.get() aria-label=tr("asks-label")>
            <ol>{fields}</ol>
        </section>
    }
}

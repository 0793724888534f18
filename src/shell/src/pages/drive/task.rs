//! The task: which step, what to do and with which keys, how far. Its place and height never change,
//! however long a sentence is.

use coneyard_core::finding::Unit;
use leptos::prelude::*;

use super::Desk;
use super::hints;
use super::needs::Needs;
use crate::words::{k, number, quantity, say, say_with, text, tr};

/// A sentence longer than this is written smaller, letters.
const LONG: usize = 110;

fn mark_text(desk: Desk, ahead: f64) -> String {
    let units = desk.settings.with(|s| s.units);
    let key = if ahead >= 0.0 { k("drive-mark-ahead") } else { k("drive-mark-behind") };
    say_with(key, vec![("distance", text(quantity(ahead.abs(), Unit::Metre, units)))])
}

fn signal_text(desk: Desk, from: f64) -> String {
    let units = desk.settings.with(|s| s.units);
    say_with(
        k("drive-signal-from"),
        vec![("speed", text(quantity(from, Unit::MetrePerSecond, units)))],
    )
}

/// The task line.
#[component]
pub(super) fn TaskLine(desk: Desk) -> impl IntoView {
    let task = Memo::new(move |_| desk.status.with(|s| s.as_ref().map(|s| s.task.clone())));
    let step = Memo::new(move |_| task.with(|t| t.as_ref().map(|t| (t.step, t.steps, t.done))));
    let sentence = Memo::new(move |_| match step.get() {
        Some((_, _, true)) => say(k("drive-task-done")),
        Some((step, _, false)) => desk.step_text(step),
        None => String::new(),
    });
    let where_in = move || {
        step.get().filter(|(_, _, done)| !done).map(|(step, steps, _)| {
            say_with(k("drive-step-of"), vec![("step", number(step + 1)), ("steps", number(steps))])
        })
    };
    let laps = Memo::new(move |_| task.with(|t| t.as_ref().map_or(0, |t| t.laps_done)));
    let gate = Memo::new(move |_| task.with(|t| t.as_ref().and_then(|t| t.next_gate)));
    // To the nearest tenth of a metre: the text need not flicker.
    let mark = Memo::new(move |_| {
        task.with(|t| t.as_ref().and_then(|t| t.mark_ahead).map(|m| (m * 10.0).round() / 10.0))
    });
    let signal_from = Memo::new(move |_| task.with(|t| t.as_ref().and_then(|t| t.signal_from)));
    let due = Memo::new(move |_| desk.step());
    let way = hints::toward(desk);
    view! {
        <section class="task" aria-label=tr("drive-task-label")>
            <p class="where">
                {where_in} " "
                <span class="more">
                    {move || {
                        (laps.get() > 0)
                            .then(|| {
                                say_with(k("drive-laps-done"), vec![("laps", number(laps.get()))])
                            })
                    }} " "
                    {move || {
                        gate.get()
                            .map(|g| say_with(k("drive-next-gate"), vec![("gate", number(g + 1))]))
                    }} " " {move || mark.get().map(|m| mark_text(desk, m))} " "
                    {move || signal_from.get().map(|v| signal_text(desk, v))} " " {way}
                </span>
            </p>
            <p
                class="sentence"
                class:long=move || sentence.with(|s| s.chars().count() > LONG)
                aria-live="polite"
            >
                {sentence}
            </p>
            <Needs desk step=due />
        </section>
    }
}

//! The buttons under the canvas, and the question of how to leave.

use leptos::ev::MouseEvent;
use leptos::prelude::*;

use super::{Desk, Phase, finish};
use crate::app::focus_yard;
use crate::devices::Action;
use crate::parts::keycap::KeyOf;
use crate::words::{k, say, tr};
use crate::yard;

/// Paces a drive can be practised at, with their names.
const PACES: [(f64, &str); 3] =
    [(1.0, k("pace-full")), (0.5, k("pace-half")), (0.25, k("pace-quarter"))];

/// After a click by pointer the keys go to the truck again; by keyboard the focus stays.
fn back_to_yard(ev: &MouseEvent) {
    if ev.detail() > 0 {
        focus_yard();
    }
}

fn set_pace(desk: Desk, pace: f64) {
    match yard::set_pace(pace) {
        Ok(()) => desk.pace.set(pace),
        Err(e) => desk.phase.set(Phase::Trouble(e)),
    }
}

/// Pause, start again, slower time, helps, leave.
#[component]
pub(super) fn Buttons(desk: Desk) -> impl IntoView {
    let idle = move || desk.phase.get() != Phase::Driving;
    let helps = move || desk.settings.with(|s| s.helps);
    view! {
        <div class="buttons" role="group" aria-label=tr("drive-buttons-label")>
            <button
                type="button"
                id="pause"
                disabled=idle
                on:click=move |ev| {
                    desk.pause(!desk.paused.get_untracked());
                    back_to_yard(&ev);
                }
            >
                {move || say(if desk.paused.get() { k("drive-go-on") } else { k("drive-pause") })}
                <KeyOf action=Action::Pause />
            </button>
            <button type="button" id="again" disabled=idle on:click=move |_| finish::again(desk)>
                {tr("drive-again")}
            </button>
            <fieldset class="segments">
                <legend>{tr("drive-pace")}</legend>
                {PACES
                    .into_iter()
                    .map(|(pace, name)| {
                        view! {
                            <label>
                                <input
                                    type="radio"
                                    name="pace"
                                    prop:checked=move || desk.pace.get() == pace
                                    disabled=idle
                                    on:change=move |_| {
                                        set_pace(desk, pace);
                                    }
                                />
                                <span>{tr(name)}</span>
                            </label>
                        }
                    })
                    .collect_view()}
            </fieldset>
            <button
                type="button"
                aria-pressed=move || helps().to_string()
                on:click=move |ev| {
                    desk.settings.update(|s| s.helps = !s.helps);
                    back_to_yard(&ev);
                }
            >
                {tr("drive-helps")}
            </button>
            <button
                type="button"
                id="leave"
                disabled=idle
                on:click=move |_| {
                    desk.pause(true);
                    desk.leaving.set(true);
                }
            >
                {tr("drive-leave")}
            </button>
        </div>
    }
}

/// How to leave: the browser's own dialog, so that the focus stays in it and Escape closes it.
#[component]
pub(super) fn LeaveDialog(desk: Desk) -> impl IntoView {
    let dialog = NodeRef::<leptos::html::Dialog>::new();
    Effect::new(move |_| {
        let Some(dialog) = dialog.get() else {
            return;
        };
        if desk.leaving.get() {
            // It is closed here, so that it can be opened.
            let _ = dialog.show_modal();
        } else {
            dialog.close();
        }
    });
    view! {
        <dialog node_ref=dialog aria-labelledby="leave-title" on:close=move |_| desk.leaving.set(false)>
            <h2 id="leave-title">{tr("leave-title")}</h2>
            <div class="choices">
                <button
                    type="button"
                    class="primary"
                    on:click=move |_| {
                        desk.leaving.set(false);
                        desk.pause(false);
                        focus_yard();
                    }
                >
                    {tr("leave-go-on")}
                </button>
                <button
                    type="button"
                    id="end-here"
                    on:click=move |_| {
                        desk.leaving.set(false);
                        finish::finish(desk);
                    }
                >
                    {tr("leave-debrief")}
                </button>
                <button
                    type="button"
                    id="keep-for-later"
                    on:click=move |_| {
                        desk.leaving.set(false);
                        finish::keep_for_later(desk);
                    }
                >
                    {tr("leave-later")}
                </button>
                <button
                    type="button"
                    id="throw-away"
                    on:click=move |_| {
                        desk.leaving.set(false);
                        finish::throw_away(desk);
                    }
                >
                    {tr("leave-throw-away")}
                </button>
            </div>
        </dialog>
    }
}

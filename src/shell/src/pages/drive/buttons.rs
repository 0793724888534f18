//! The buttons under the canvas, and the question of how to leave.

use leptos::ev::MouseEvent;
use leptos::prelude::*;

use super::{Desk, Phase, finish, session};
use crate::canvas;
use crate::canvas::focus_yard;
use crate::devices::Action;
use crate::devices::held::By;
use crate::parts::keycap::KeyOf;
use crate::parts::press::{Choice, Option1, Press};
use crate::words::{k, say, tr};

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
    match canvas::set_pace(pace) {
        Ok(()) => desk.pace.set(pace),
        Err(e) => desk.phase.set(Phase::Trouble(e)),
    }
}

/// Off the platform and back on, and the word that something is wrong.
#[component]
fn OnFoot(desk: Desk) -> impl IntoView {
    let idle = move || desk.phase.get() != Phase::Driving;
    let aboard =
        Memo::new(move |_| desk.status.with(|s| s.as_ref().is_none_or(|s| s.truck.aboard)));
    let key_on =
        Memo::new(move |_| desk.status.with(|s| s.as_ref().is_none_or(|s| s.truck.key_on)));
    view! {
        <button
            type="button"
            id="step-off"
            disabled=idle
            on:click=move |ev| {
                session::with(desk, |s| s.hands.tap(Action::StepOff, By::Finger));
                back_to_yard(&ev);
            }
        >
            {move || say(if aboard.get() { k("drive-step-off") } else { k("drive-step-on") })}
            <KeyOf action=Action::StepOff />
        </button>
        <button
            type="button"
            id="key"
            disabled=idle
            on:click=move |ev| {
                session::with(desk, |s| s.hands.tap(Action::Key, By::Finger));
                back_to_yard(&ev);
            }
        >
            {move || say(if key_on.get() { k("drive-key-off") } else { k("drive-key-on") })}
            <KeyOf action=Action::Key />
        </button>
        <button
            type="button"
            id="report"
            disabled=idle
            on:click=move |ev| {
                session::with(desk, |s| s.hands.tap(Action::Report, By::Finger));
                back_to_yard(&ev);
            }
        >
            {tr("drive-report")}
            <KeyOf action=Action::Report />
        </button>
    }
}

/// What makes driving easier: slower time, and helps on the canvas.
#[component]
fn Practice(desk: Desk, idle: Signal<bool>) -> impl IntoView {
    let helps = Signal::derive(move || desk.settings.with(|s| s.helps));
    let paces = PACES
        .into_iter()
        .map(|(pace, name)| Option1 {
            disabled: idle,
            ..Option1::new(name, move || desk.pace.get() == pace, move || set_pace(desk, pace))
        })
        .collect();
    view! {
        <Choice legend=k("drive-pace") group="pace" options=paces />
        <Press
            name=k("drive-helps")
            pressed=helps
            act=move |ev| {
                desk.settings.update(|s| s.helps = !s.helps);
                back_to_yard(&ev);
            }
        />
    }
}

/// Pause, start again, off and on, report, slower time, helps, leave.
#[component]
pub(super) fn Buttons(desk: Desk) -> impl IntoView {
    let idle = Signal::derive(move || desk.phase.get() != Phase::Driving);
    let practising = move || !desk.is_part();
    view! {
        <div class="buttons" role="group" aria-label=tr("drive-buttons-label")>
            <button
                type="button"
                id="pause"
                disabled=move || idle.get() || !(desk.paused.get() || desk.pause_left())
                on:click=move |ev| {
                    desk.ask_pause(!desk.paused.get_untracked());
                    back_to_yard(&ev);
                }
            >
                {move || {
                    say(
                        match (desk.paused.get(), desk.pause_left()) {
                            (true, _) => k("drive-go-on"),
                            (false, true) => k("drive-pause"),
                            (false, false) => k("pretest-no-pause-left"),
                        },
                    )
                }}
                <KeyOf action=Action::Pause />
            </button>
            <Show when=practising>
                <Press
                    name=k("drive-again")
                    id="again"
                    disabled=idle
                    act=move |_| finish::again(desk)
                />
            </Show>
            <OnFoot desk />
            <Show when=practising>
                <Practice desk idle />
            </Show>
            <Press
                name=k("drive-leave")
                id="leave"
                disabled=idle
                act=move |_| desk.ask_leave()
            />
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
    let choice = move |name: &'static str, id: &'static str, class: &'static str, act: fn(Desk)| {
        view! {
            <Press
                name=name
                id=id
                class=class
                act=move |_| {
                    desk.leaving.set(false);
                    act(desk);
                }
            />
        }
    };
    view! {
        <dialog
            node_ref=dialog
            aria-labelledby="leave-title"
            on:close=move |_| desk.leaving.set(false)
        >
            <h2 id="leave-title">
                {move || say(if desk.is_part() { k("pretest-leave") } else { k("leave-title") })}
            </h2>
            {move || desk.leaving_costs().map(|key| view! { <p>{say(key)}</p> })}
            <div class="choices">
                {choice(k("leave-go-on"), "go-on", "primary", go_on)}
                <Show
                    when=move || desk.is_part()
                    fallback=move || {
                        view! {
                            {choice(k("leave-debrief"), "end-here", "", finish::finish)}
                            {choice(k("leave-later"), "keep-for-later", "", finish::keep_for_later)}
                            {choice(k("leave-throw-away"), "throw-away", "", finish::throw_away)}
                        }
                    }
                >
                    // With no pause left it would be a second one.
                    <Show when=move || desk.paused.get()>
                        {choice(k("leave-later"), "keep-for-later", "", finish::keep_for_later)}
                    </Show>
                    {choice(k("pretest-leave-end"), "end-here", "grave", finish::finish)}
                </Show>
            </div>
        </dialog>
    }
}

fn go_on(desk: Desk) {
    desk.pause(false);
    focus_yard();
}

//! What is pressed on the page: pause, and one button behind which the rest is.

use leptos::ev::MouseEvent;
use leptos::prelude::*;

use super::{Desk, Phase, finish, screen, session};
use crate::canvas;
use crate::canvas::focus_yard;
use crate::devices::Action;
use crate::devices::held::By;
use crate::parts::keycap::KeyOf;
use crate::parts::press::{Choice, Option1, Press};
use crate::parts::tap::Tap;
use crate::sound;
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

/// Pause, upper left. Its place and size never change.
#[component]
pub(super) fn Pause(desk: Desk) -> impl IntoView {
    let idle = move || desk.phase.get() != Phase::Driving;
    let name = move || {
        say(match (desk.paused.get(), desk.pause_left()) {
            (true, _) => k("drive-go-on"),
            (false, true) => k("drive-pause"),
            (false, false) => k("pretest-no-pause-left"),
        })
    };
    view! {
        <button
            type="button"
            id="pause"
            class="corner"
            title=name
            aria-label=name
            disabled=move || idle() || !(desk.paused.get() || desk.pause_left())
            on:click=move |ev| {
                desk.ask_pause(!desk.paused.get_untracked());
                back_to_yard(&ev);
            }
        >
            <svg viewBox="0 0 24 24" aria-hidden="true">
                <path d=move || {
                    if desk.paused.get() { "M7 4l13 8-13 8z" } else { "M6 4h4v16H6zM14 4h4v16h-4z" }
                } />
            </svg>
        </button>
    }
}

/// All of the yard, below it where there is room.
#[component]
pub(super) fn Overview(desk: Desk) -> impl IntoView {
    view! {
        <button
            type="button"
            id="overview"
            class="corner"
            title=tr("action-overview")
            aria-label=tr("action-overview")
            aria-pressed=move || desk.looking.overview.get().to_string()
            on:click=move |ev| {
                desk.looking.toggle_overview();
                back_to_yard(&ev);
            }
        >
            <svg viewBox="0 0 24 24" aria-hidden="true">
                <path d="M3 3h7v2H5v5H3zM14 3h7v7h-2V5h-5zM3 14h2v5h5v2H3zM19 14h2v7h-7v-2h5zM9 9h6v6H9z" />
            </svg>
        </button>
    }
}

/// How near the yard is looked at, by buttons.
#[component]
fn Near(desk: Desk) -> impl IntoView {
    view! {
        <Press
            name=k("action-overview")
            id="menu-overview"
            pressed=desk.looking.overview
            act=move |ev| {
                desk.looking.toggle_overview();
                back_to_yard(&ev);
            }
        />
        <div class="pair">
            <Press
                name=k("action-zoom-in")
                id="zoom-in"
                act=move |ev| {
                    desk.looking.nearer();
                    back_to_yard(&ev);
                }
            />
            <Press
                name=k("action-zoom-out")
                id="zoom-out"
                act=move |ev| {
                    desk.looking.farther();
                    back_to_yard(&ev);
                }
            />
        </div>
    }
}

/// The button behind which the rest is, upper right.
#[component]
pub(super) fn More(desk: Desk) -> impl IntoView {
    let idle = move || matches!(desk.phase.get(), Phase::Ending | Phase::Struck);
    view! {
        <button
            type="button"
            id="more"
            class="corner"
            title=tr("drive-more")
            aria-label=tr("drive-more")
            aria-expanded=move || desk.more.get().to_string()
            aria-controls="menu"
            data-driving=move || (desk.phase.get() == Phase::Driving).then_some("")
            disabled=idle
            on:click=move |ev| {
                desk.more.update(|more| *more = !*more);
                back_to_yard(&ev);
            }
        >
            <svg viewBox="0 0 24 24" aria-hidden="true">
                <path d="M4 5h16v3H4zM4 10.5h16v3H4zM4 16h16v3H4z" />
            </svg>
        </button>
    }
}

/// A button that presses something of the truck once, with its key.
#[component]
pub(super) fn Once(
    desk: Desk,
    action: Action,
    id: &'static str,
    #[prop(into)] name: Signal<&'static str>,
) -> impl IntoView {
    let idle = Signal::derive(move || desk.phase.get() != Phase::Driving);
    let press = move |by_pointer: bool| {
        session::with(desk, |s| s.hands.tap(action, By::Finger));
        if by_pointer {
            focus_yard();
        }
    };
    view! {
        <Tap id disabled=idle act=press>
            {move || say(name.get())}
            <KeyOf action />
        </Tap>
    }
}

/// Off the platform and back on, the key, and the word that something is wrong.
#[component]
fn OnFoot(desk: Desk) -> impl IntoView {
    view! {
        <Once desk action=Action::StepOff id="step-off" name=step_off_name(desk) />
        <Once desk action=Action::Key id="key" name=key_name(desk) />
        <Once desk action=Action::Report id="report" name=Signal::stored(k("drive-report")) />
    }
}

/// What stepping off, or back on, is called now.
pub(super) fn step_off_name(desk: Desk) -> Signal<&'static str> {
    let aboard =
        Memo::new(move |_| desk.status.with(|s| s.as_ref().is_none_or(|s| s.truck.aboard)));
    Signal::derive(move || if aboard.get() { k("drive-step-off") } else { k("drive-step-on") })
}

/// What turning the key is called now.
pub(super) fn key_name(desk: Desk) -> Signal<&'static str> {
    let key_on =
        Memo::new(move |_| desk.status.with(|s| s.as_ref().is_none_or(|s| s.truck.key_on)));
    Signal::derive(move || if key_on.get() { k("drive-key-off") } else { k("drive-key-on") })
}

/// What makes driving easier: slower time, and helps on the canvas.
#[component]
fn Practice(desk: Desk, idle: Signal<bool>) -> impl IntoView {
    let helps = Signal::derive(move || desk.settings.with(|s| s.helps) && !desk.rests.get());
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
                // Who switches them on in a drive in which they rest has them on.
                if desk.rests.get_untracked() {
                    desk.rests.set(false);
                    desk.settings.update(|s| s.helps = true);
                } else {
                    desk.settings.update(|s| s.helps = !s.helps);
                }
                back_to_yard(&ev);
            }
        />
    }
}

/// Sound on, and off again.
#[component]
pub(super) fn SoundSwitch(desk: Desk, id: &'static str) -> impl IntoView {
    let is_on = move || desk.settings.with(|s| s.sound).to_string();
    view! {
        <button
            type="button"
            id=id
            aria-pressed=is_on
            on:click=move |ev| {
                sound::toggle(desk.settings);
                back_to_yard(&ev);
            }
        >
            {tr("drive-sound")}
            <KeyOf action=Action::Sound />
        </button>
    }
}

/// What is behind the one button.
#[component]
pub(super) fn Menu(desk: Desk) -> impl IntoView {
    let idle = Signal::derive(move || desk.phase.get() != Phase::Driving);
    let practising = move || !desk.is_part();
    let touch = move || desk.settings.with(|s| s.shows_touch());
    let walks = Memo::new(move |_| desk.walks());
    let one_finger = Signal::derive(move || desk.settings.with(|s| s.one_finger));
    let content = move || {
        view! {
            <div class="menu" id="menu" role="group" aria-label=tr("drive-buttons-label")>
                <Show when=move || practising() && !walks.get()>
                    <Practice desk idle />
                </Show>
                <Show when=move || !walks.get()>
                    <OnFoot desk />
                </Show>
                <SoundSwitch desk id="sound" />
                <Show when=move || !walks.get()>
                    <Near desk />
                </Show>
                <Show when=move || touch() && !walks.get()>
                    <Press
                        name=k("settings-one-finger")
                        id="one-finger"
                        pressed=one_finger
                        act=move |_| desk.settings.update(|s| s.one_finger = !s.one_finger)
                    />
                </Show>
                <Press
                    name=k("drive-full-screen")
                    id="full-screen"
                    act=move |ev| {
                        screen::toggle_full();
                        back_to_yard(&ev);
                    }
                />
                <Show when=practising>
                    <Press
                        name=k("drive-again")
                        id="again"
                        disabled=idle
                        act=move |_| finish::again(desk)
                    />
                </Show>
                <Show
                    when=move || !idle.get()
                    fallback=move || view! { <a class="button" href="#/path">{tr("to-path")}</a> }
                >
                    <Press
                        name=k("drive-leave")
                        id="leave"
                        act=move |_| {
                            desk.more.set(false);
                            desk.ask_leave();
                        }
                    />
                </Show>
            </div>
        }
    };
    view! { <Show when=move || desk.more.get()>{content()}</Show> }
}

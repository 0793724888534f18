//! What lies over the yard and is read: the signal, findings, the first hint, and why it stands still.

use coneyard_core::course::BrakeZone;
use coneyard_core::desk::Status;
use leptos::prelude::*;

use super::asked::Asked;
use super::hints::{SelfTest, WhyNot};
use super::menu::SoundSwitch;
use super::{Desk, Phase, finish};
use crate::canvas::focus_yard;
use crate::devices::Action;
use crate::parts::arriving::Arriving;
use crate::parts::finding;
use crate::parts::keycap::KeyOf;
use crate::parts::press::Press;
use crate::settings::use_settings;
use crate::words::{k, say, tell, tr};

fn signal_of(status: Option<&Status>) -> Option<BrakeZone> {
    status.and_then(|s| s.task.signal)
}

/// Why it stands still. In a pre-test it matters whether that counts.
fn paused_text(desk: Desk) -> String {
    say(match (desk.is_part(), desk.asked.get()) {
        (true, true) => k("pretest-paused"),
        (true, false) => k("pretest-held"),
        (false, _) => k("drive-paused"),
    })
}

/// All of it.
#[component]
pub(super) fn Over(desk: Desk) -> impl IntoView {
    let signal = Memo::new(move |_| desk.status.with(|s| signal_of(s.as_ref())));
    let signal_text = move || {
        signal.get().map(|zone| {
            let (mark, what) = match zone {
                BrakeZone::Upper => ("▲", k("drive-signal-let-go")),
                BrakeZone::Lower => ("▼", k("drive-signal-push-down")),
            };
            view! {
                <p class="signal">
                    <span class="octagon" aria-hidden="true">
                        {mark}
                    </span>
                    <strong>{say(k("drive-signal-stop"))}</strong>
                    <span>{say(what)}</span>
                </p>
            }
        })
    };
    let message = move || {
        let units = desk.settings.with(|s| s.units);
        desk.news
            .get()
            .into_iter()
            .map(|(_, f)| {
                view! {
                    <p class=format!("message {}", finding::class(f.severity))>
                        <span aria-hidden="true">{finding::mark(f.severity)}</span>
                        <span>{tell(&f, units).title}</span>
                    </p>
                }
            })
            .collect_view()
    };
    let reported = move || {
        desk.reported
            .get()
            .then(|| view! { <p class="message good">{say(k("drive-reported"))}</p> })
    };
    view! {
        <div class="over">
            <div aria-live="assertive" class="signals">
                {signal_text}
            </div>
            <div class="asked">
                <Asked desk />
            </div>
            <div aria-live="polite" class="messages">
                {reported}
                <SelfTest desk />
                <WhyNot desk />
                {message}
            </div>
            <Veil desk />
            <Show when=move || {
                let waits = desk.phase.get() == Phase::Driving && !desk.moved.get();
                waits && !desk.paused.get() && !desk.walks()
            }>
                <FirstKeys desk />
            </Show>
        </div>
    }
}

/// Why nothing moves, in the middle.
#[component]
fn Veil(desk: Desk) -> impl IntoView {
    view! {
        <div class="centre" role="status">
            {move || match desk.phase.get() {
                Phase::Loading => {
                    view! {
                        <p class="veil">
                            {say(k("drive-loading"))} " " <Arriving />
                        </p>
                    }
                        .into_any()
                }
                Phase::Ending => {
                    let what =
                        if desk.is_part() { k("pretest-part-ending") } else { k("drive-ending") };
                    view! { <p class="veil">{say(what)}</p> }.into_any()
                }
                Phase::Trouble(why) => {
                    view! {
                        <div class="veil">
                            <p>{say(k("drive-trouble"))}</p>
                            <p class="why">{why}</p>
                            <p>
                                <a class="button" href="#/path">
                                    {say(k("to-path"))}
                                </a>
                            </p>
                        </div>
                    }
                        .into_any()
                }
                Phase::Struck => view! { <Struck desk /> }.into_any(),
                Phase::Driving => {
                    view! {
                        <Show when=move || desk.paused.get()>
                            <div class="veil paused">
                                <p>{move || paused_text(desk)}</p>
                                <button
                                    type="button"
                                    id="go-on-driving"
                                    class="primary"
                                    on:click=move |_| {
                                        desk.ask_pause(false);
                                        focus_yard();
                                    }
                                >
                                    {tr("drive-go-on")}
                                    <KeyOf action=Action::Pause />
                                </button>
                            </div>
                        </Show>
                    }
                        .into_any()
                }
            }}
        </div>
    }
}

/// Someone was struck: that ends the drive, and nothing else is as important.
#[component]
fn Struck(desk: Desk) -> impl IntoView {
    let veil = NodeRef::<leptos::html::Div>::new();
    Effect::new(move |_| {
        if let Some(veil) = veil.get() {
            // Read out from its beginning; a browser that cannot leaves the focus where it is.
            let _ = veil.focus();
        }
    });
    view! {
        <div
            class="veil struck"
            node_ref=veil
            tabindex="-1"
            role="alertdialog"
            aria-labelledby="struck-title"
            aria-describedby="struck-more"
        >
            <p id="struck-title">
                <span class="octagon" aria-hidden="true">
                    "!"
                </span>
                <strong>{tr("struck-title")}</strong>
            </p>
            <p class="why" id="struck-more">
                {move || say(if desk.is_part() { k("struck-part") } else { k("struck-more") })}
            </p>
            <div class="actions">
                <Show when=move || !desk.is_part()>
                    <Press
                        name=k("drive-again")
                        id="struck-again"
                        class="primary"
                        act=move |_| finish::again(desk)
                    />
                </Show>
                <Press
                    name=if desk.is_part() { k("struck-on") } else { k("struck-debrief") }
                    id="struck-debrief"
                    act=move |_| finish::finish(desk)
                />
            </div>
        </div>
    }
}

/// The keys a newcomer needs, until the truck has moved.
#[component]
fn FirstKeys(desk: Desk) -> impl IntoView {
    let touch = move || desk.settings.with(|s| s.shows_touch());
    let hint = move || {
        desk.settings.with(|s| match (s.one_finger, s.swapped) {
            (false, false) => k("hint-touch"),
            (false, true) => k("hint-touch-swapped"),
            (true, false) => k("hint-one-finger"),
            (true, true) => k("hint-one-finger-swapped"),
        })
    };
    view! {
        <div class="first-keys">
            <Show when=touch fallback=move || view! { <FewKeys /> }>
                <p>{move || say(hint())}</p>
            </Show>
            <Show when=move || !desk.is_part()>
                <p class="welcome">{tr("drive-errors-welcome")}</p>
            </Show>
            <Show when=move || desk.rests.get() && desk.settings.with(|s| s.helps)>
                <p class="welcome" id="helps-rest">
                    {tr("drive-helps-rest")}
                </p>
            </Show>
            <SoundSwitch desk id="first-sound" />
        </div>
    }
}

/// The few things to know, on their keys.
#[component]
pub(crate) fn FewKeys() -> impl IntoView {
    let settings = use_settings();
    view! {
        <ul class="few-keys">
            <li>
                <KeyOf action=Action::Ahead />
                <span>{tr("hint-ahead")}</span>
            </li>
            <li>
                <span class="pair">
                    <KeyOf action=Action::TillerLeft />
                    <KeyOf action=Action::TillerRight />
                </span>
                <span>{tr("hint-tiller")}</span>
            </li>
            <Show when=move || !settings.with(|s| s.tiller_returns)>
                <li>
                    <KeyOf action=Action::Centre />
                    <span>{tr("hint-centre")}</span>
                </li>
            </Show>
            <li>
                <KeyOf action=Action::Back />
                <span>{tr("hint-brake")}</span>
            </li>
            <li>
                <KeyOf action=Action::LetGo />
                <span>{tr("hint-stop")}</span>
            </li>
        </ul>
    }
}

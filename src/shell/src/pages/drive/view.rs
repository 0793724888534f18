//! How the drive page looks.

use coneyard_core::course::BrakeZone;
use coneyard_core::desk::Status;
use coneyard_core::finding::Unit;
use leptos::prelude::*;

use super::asked::Asked;
use super::buttons::{Buttons, LeaveDialog};
use super::needs::Needs;
use super::{Desk, Phase, keyboard, session};
use crate::canvas;
use crate::devices::Action;
use crate::devices::held::By;
use crate::parts::dash::{Dash, STANDING_MPS};
use crate::parts::finding;
use crate::parts::keycap::KeyOf;
use crate::parts::touchpad::Touchpad;
use crate::words::{k, number, quantity, say, say_with, steady_number, tell, text, tr};

/// The first seconds do not count: the browser is still warming up. Ticks.
const SLOW_AFTER: u32 = 5 * 64;
/// Time for the last piece to be written and the lock to be given back, before the list is read.
const SETTLE: std::time::Duration = std::time::Duration::from_millis(200);

/// The page under its heading.
#[component]
pub(crate) fn DriveView(desk: Desk) -> impl IntoView {
    keyboard::listen(desk);
    on_cleanup(move || {
        session::keep_now(desk);
        let left = session::with(desk, |s| s.drive.id.clone());
        if let Some(id) = left {
            canvas::let_go(&id);
            // Nothing is open any more when the drive was finished: then there is nothing to close.
            let _ = canvas::close();
        }
        let store = desk.store;
        set_timeout(move || leptos::task::spawn_local(store.refresh()), SETTLE);
    });
    let shows_touch = move || desk.settings.with(|s| s.shows_touch());
    view! {
        <TaskLine desk />
        <Over desk />
        <Buttons desk />
        <Show when=shows_touch>
            <Touchpad
                change=move |work| {
                    session::with(desk, |s| work(&mut s.hands.touch));
                }
                hold=move |action, down| {
                    session::with(desk, |s| {
                        if down {
                            s.hands.press(action, By::Finger);
                        } else {
                            s.hands.release(action, By::Finger);
                        }
                    });
                }
            />
        </Show>
        <div class="side">
            <Dash status=desk.status />
            <TooSlow desk />
            <KeepTrouble desk />
        </div>
        <LeaveDialog desk />
    }
}

/// Says so when this computer cannot keep up with real time: what is driven in slowed time is not
/// what a truck asks of a person.
#[component]
fn TooSlow(desk: Desk) -> impl IntoView {
    let least = Memo::new(move |_| desk.time_ratio_least());
    let percent = Memo::new(move |_| {
        desk.status.with(|s| {
            s.as_ref()
                .filter(|s| s.tick > SLOW_AFTER && s.time_ratio < least.get())
                .map(|s| (s.time_ratio * 20.0).round() * 5.0)
        })
    });
    move || {
        percent.get().map(|percent| {
            view! {
                <p class="note">
                    {say_with(k("drive-too-slow"), vec![("percent", number(percent))])} " "
                    {desk.is_part().then(|| say(k("pretest-too-slow")))}
                </p>
            }
        })
    }
}

#[component]
fn KeepTrouble(desk: Desk) -> impl IntoView {
    move || {
        desk.keep_trouble.get().map(|why| {
            view! {
                <p class="note warn" role="status">
                    <span aria-hidden="true">"▲ "</span>
                    {say_with(k("drive-not-being-kept"), vec![("why", text(why))])}
                </p>
            }
        })
    }
}

fn mark_text(desk: Desk, ahead: f64) -> String {
    let units = desk.settings.with(|s| s.units);
    let key = if ahead >= 0.0 { k("drive-mark-ahead") } else { k("drive-mark-behind") };
    say_with(key, vec![("distance", text(quantity(ahead.abs(), Unit::Metre, units)))])
}

/// The task: which step, what to do, how far.
#[component]
fn TaskLine(desk: Desk) -> impl IntoView {
    let task = Memo::new(move |_| desk.status.with(|s| s.as_ref().map(|s| s.task.clone())));
    let step = Memo::new(move |_| task.with(|t| t.as_ref().map(|t| (t.step, t.steps, t.done))));
    let sentence = move || match step.get() {
        Some((_, _, true)) => say(k("drive-task-done")),
        Some((step, _, false)) => desk.step_text(step),
        None => String::new(),
    };
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
    view! {
        <section class="task" aria-label=tr("drive-task-label")>
            <p class="where">{where_in}</p>
            <p class="sentence" aria-live="polite">
                {sentence}
            </p>
            <Needs
                desk
                step=Signal::derive(move || step.get().filter(|s| !s.2).map(|s| s.0))
            />
            <p class="more">
                {move || {
                    (laps.get() > 0)
                        .then(|| say_with(k("drive-laps-done"), vec![("laps", number(laps.get()))]))
                }} " "
                {move || {
                    gate.get()
                        .map(|g| say_with(k("drive-next-gate"), vec![("gate", number(g + 1))]))
                }} " " {move || mark.get().map(|m| mark_text(desk, m))}
            </p>
            <Asked desk />
        </section>
    }
}

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

/// What lies over the canvas: the signal, the first hint, messages, pause.
#[component]
fn Over(desk: Desk) -> impl IntoView {
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
    view! {
        <div class="over">
            <Strip desk />
            <div aria-live="assertive" class="signals">
                {signal_text}
            </div>
            <div aria-live="polite" class="messages">
                {message}
            </div>
            <div class="centre" role="status">
                {move || match desk.phase.get() {
                    Phase::Loading => {
                        view! { <p class="veil">{say(k("drive-loading"))}</p> }.into_any()
                    }
                    Phase::Ending => {
                        let what = if desk.is_part() {
                            k("pretest-part-ending")
                        } else {
                            k("drive-ending")
                        };
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
                    Phase::Driving => {
                        view! {
                            <Show when=move || desk.paused.get()>
                                <p class="veil">
                                    {move || paused_text(desk)} " " <KeyOf action=Action::Pause />
                                </p>
                            </Show>
                        }
                            .into_any()
                    }
                }}
            </div>
            <Show when=move || {
                desk.phase.get() == Phase::Driving && !desk.moved.get() && !desk.paused.get()
            }>
                <FirstKeys desk />
            </Show>
        </div>
    }
}

/// Speed and arm once more, for a screen so small that the dashboard lies below its edge. Hidden
/// from screen readers, which read the dashboard.
#[component]
fn Strip(desk: Desk) -> impl IntoView {
    let words = Memo::new(move |_| {
        let units = desk.settings.with(|s| s.units);
        desk.status.with(|s| {
            let truck = &s.as_ref()?.truck;
            let way = match truck.speed {
                v if v > STANDING_MPS => "→",
                v if v < -STANDING_MPS => "←",
                _ => "·",
            };
            let shown = units.show(truck.speed.abs(), Unit::MetrePerSecond);
            let speed = format!("{way} {} {}", steady_number(shown.value, 1), say(shown.unit));
            let brake = truck.braking.then(|| format!("■ {}", say(k("dash-braking"))));
            Some((speed, brake))
        })
    });
    move || {
        words.get().map(|(speed, brake)| {
            view! {
                <p class="strip" aria-hidden="true">
                    <span>{speed}</span>
                    {brake.map(|b| view! { <strong>{b}</strong> })}
                </p>
            }
        })
    }
}

/// The keys a newcomer needs, until the truck has moved.
#[component]
fn FirstKeys(desk: Desk) -> impl IntoView {
    let touch = move || desk.settings.with(|s| s.shows_touch());
    view! {
        <div class="first-keys">
            <Show when=touch fallback=move || view! { <FewKeys /> }>
                <p>{tr("hint-touch")}</p>
            </Show>
        </div>
    }
}

/// The few things to know, on their keys.
#[component]
pub(crate) fn FewKeys() -> impl IntoView {
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

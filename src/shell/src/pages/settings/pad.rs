//! The gamepad: its live values, the dead zone, and which part does what.

use leptos::prelude::*;

use crate::browser;
use crate::browser::Snapshot;
use crate::devices::Action;
use crate::devices::gamepad::{PadMap, beyond_dead_zone, read};
use crate::parts::press::Press;
use crate::settings::use_settings;
use crate::words::{k, number, say, say_with, steady_number, text, tr};

/// Milliseconds between two looks at the gamepad.
const LOOK_MS: u64 = 50;
/// A stick moved this far, or a button pressed this far, is the one that was meant.
const MEANT: f64 = 0.6;

/// The part of a gamepad that waits to be chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Wanted {
    Tiller,
    Twist,
    Button(Action),
}

/// Actions that a button can do.
const BUTTONS: [Action; 16] = [
    Action::Horn,
    Action::LetGo,
    Action::PushDown,
    Action::HighSpeed,
    Action::StandLeft,
    Action::StandRight,
    Action::ForksUp,
    Action::ForksDown,
    Action::LookLeft,
    Action::LookRight,
    Action::LookBehind,
    Action::Centre,
    Action::StepOff,
    Action::Key,
    Action::Report,
    Action::Pause,
];

fn moved_axis(pad: &Snapshot) -> Option<(usize, f64)> {
    pad.axes.iter().copied().enumerate().find(|(_, v)| v.abs() > MEANT)
}

fn pressed_button(pad: &Snapshot) -> Option<usize> {
    pad.buttons.iter().position(|v| *v > MEANT)
}

/// Gives the wanted part to what is moved now; true when something was.
fn choose(wanted: Wanted, pad: &Snapshot, map: &mut PadMap) -> bool {
    match wanted {
        // The stick is moved left, or up: where it goes tells which way round it is.
        Wanted::Tiller => moved_axis(pad).is_some_and(|(axis, value)| {
            map.tiller_axis = axis;
            map.tiller_flipped = value > 0.0;
            true
        }),
        Wanted::Twist => moved_axis(pad).is_some_and(|(axis, value)| {
            map.twist_axis = axis;
            map.twist_flipped = value > 0.0;
            true
        }),
        Wanted::Button(action) => pressed_button(pad).is_some_and(|button| {
            map.give(button, action);
            true
        }),
    }
}

/// The gamepad's part of the page.
#[component]
pub(super) fn PadSettings() -> impl IntoView {
    let settings = use_settings();
    let pad = RwSignal::new(None::<Snapshot>);
    let wanted = RwSignal::new(None::<Wanted>);
    let ticking = set_interval_with_handle(
        move || {
            let now = browser::gamepad();
            if let (Some(wants), Some(now)) = (wanted.get_untracked(), &now) {
                let mut map = settings.with_untracked(|s| s.pad.clone());
                if choose(wants, now, &mut map) {
                    settings.update(|s| s.pad = map);
                    wanted.set(None);
                }
            }
            if pad.with_untracked(|p| *p != now) {
                pad.set(now);
            }
        },
        std::time::Duration::from_millis(LOOK_MS),
    );
    on_cleanup(move || {
        if let Ok(handle) = ticking {
            handle.clear();
        }
    });
    let there = Memo::new(move |_| pad.with(Option::is_some));
    view! {
        <section class="card" aria-labelledby="pad-title">
            <h2 id="pad-title">{tr("pad-title")}</h2>
            <Show when=move || there.get() fallback=move || view! { <p>{tr("pad-none")}</p> }>
                <Live pad />
            </Show>
            <DeadZone />
            <Show when=move || there.get()>
                <Parts wanted />
            </Show>
            <p>
                <Press name=k("pad-reset") act=move |_| settings.update(|s| s.pad = PadMap::default()) />
            </p>
        </section>
    }
}

/// What the gamepad shows now, and what it asks for.
#[component]
fn Live(pad: RwSignal<Option<Snapshot>>) -> impl IntoView {
    let settings = use_settings();
    let ask = move || {
        let pad = pad.get()?;
        let ask = settings.with(|s| read(&pad, &s.pad));
        let held: Vec<String> = ask.held.iter().map(|a| say(a.name())).collect();
        Some(say_with(
            k("pad-asks"),
            vec![
                ("tiller", number((ask.tiller * 100.0).round())),
                ("twist", number(ask.twist)),
                ("held", text(held.join(", "))),
            ],
        ))
    };
    let axes = move || {
        let dead_zone = settings.with(|s| s.pad.dead_zone);
        pad.get()
            .map(|p| p.axes)
            .unwrap_or_default()
            .into_iter()
            .enumerate()
            .map(|(n, value)| {
                let rests = beyond_dead_zone(value, dead_zone) == 0.0;
                view! {
                    <li class:rests=rests>
                        {say_with(k("pad-axis"), vec![("n", number(n as f64))])} " "
                        <span class="num">{steady_number(value, 2)}</span>
                        <span class="twist" aria-hidden="true">
                            <span
                                class="fill"
                                class:back=value < 0.0
                                style:width=format!("{:.1}%", value.abs().min(1.0) * 50.0)
                            ></span>
                        </span>
                    </li>
                }
            })
            .collect_view()
    };
    view! {
        <p class="quiet">{move || pad.get().map(|p| p.name)}</p>
        <ul class="axes">{axes}</ul>
        <p>{ask}</p>
    }
}

#[component]
fn DeadZone() -> impl IntoView {
    let settings = use_settings();
    let percent = move || settings.with(|s| s.pad.dead_zone * 100.0);
    view! {
        <label class="field">
            <span>
                {move || {
                    say_with(k("pad-dead-zone"), vec![("percent", number(percent().round()))])
                }}
            </span>
            <input
                type="range"
                min="0"
                max="50"
                step="1"
                prop:value=move || percent().round().to_string()
                on:input=move |ev| {
                    let percent = event_target::<web_sys::HtmlInputElement>(&ev).value_as_number();
                    if percent.is_finite() {
                        settings.update(|s| s.pad.dead_zone = (percent / 100.0).clamp(0.0, 0.5));
                    }
                }
            />
        </label>
    }
}

/// Which part does what, each to be chosen by moving it.
#[component]
fn Parts(wanted: RwSignal<Option<Wanted>>) -> impl IntoView {
    let settings = use_settings();
    let row = move |part: Wanted, name: &'static str, ask: &'static str| {
        let now = move || {
            settings.with(|s| match part {
                Wanted::Tiller => axis_text(s.pad.tiller_axis),
                Wanted::Twist => axis_text(s.pad.twist_axis),
                Wanted::Button(action) => match s.pad.button(action) {
                    Some(n) => say_with(k("pad-button"), vec![("n", number(n as f64))]),
                    None => say(k("keys-none")),
                },
            })
        };
        let label = move || say_with(k("pad-change-for"), vec![("action", text(say(name)))]);
        view! {
            <li>
                <span class="name">{tr(name)}</span>
                <span class="caps">{now}</span>
                <span class="actions">
                    <button
                        type="button"
                        aria-label=label
                        on:click=move |_| wanted.set(Some(part))
                    >
                        {move || {
                            say(if wanted.get() == Some(part) { ask } else { k("pad-change") })
                        }}
                    </button>
                </span>
            </li>
        }
    };
    view! {
        <ul class="key-rows">
            {row(Wanted::Tiller, k("pad-tiller"), k("pad-move-left"))}
            {row(Wanted::Twist, k("pad-twist"), k("pad-move-up"))}
            {BUTTONS
                .into_iter()
                .map(|a| row(Wanted::Button(a), a.name(), k("pad-press")))
                .collect_view()}
        </ul>
    }
}

fn axis_text(axis: usize) -> String {
    say_with(k("pad-axis"), vec![("n", number(axis as f64))])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moving_a_stick_left_or_up_chooses_it_the_right_way_round() {
        let mut map = PadMap::default();
        let rest = Snapshot { name: String::new(), axes: vec![0.1, 0.0], buttons: vec![0.0; 4] };
        assert!(!choose(Wanted::Tiller, &rest, &mut map));
        let left = Snapshot { axes: vec![0.0, -0.9], ..rest.clone() };
        assert!(choose(Wanted::Tiller, &left, &mut map));
        assert_eq!((map.tiller_axis, map.tiller_flipped), (1, false));
        assert_eq!(read(&left, &map).tiller, beyond_dead_zone(0.9, map.dead_zone));
        let other_way = Snapshot { axes: vec![0.9, 0.0], ..rest };
        assert!(choose(Wanted::Twist, &other_way, &mut map));
        assert!(map.twist_flipped);
        assert!(read(&other_way, &map).twist > 0);
    }

    #[test]
    fn a_button_does_one_thing() {
        let mut map = PadMap::default();
        let pad = Snapshot { name: String::new(), axes: vec![], buttons: vec![1.0] };
        assert!(choose(Wanted::Button(Action::Pause), &pad, &mut map));
        assert_eq!(map.button(Action::Pause), Some(0));
        assert_eq!(map.button(Action::Horn), None);
    }
}

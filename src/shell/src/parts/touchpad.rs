//! Controls for fingers: a tiller to drag, a twist for the thumb, and buttons to hold. A tap on
//! either track does the same as a drag to that place, and step buttons need no aim.

use coneyard_core::controls::TILLER_MAX_HALF_DEGREES;
use leptos::ev::PointerEvent;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::press::Press;
use crate::devices::Action;
use crate::devices::touch::{Touch, tiller_at, twist_at};
use crate::words::{k, say, tr};

/// Where on its track a pointer is: across and down, 0 to 1.
fn place(ev: &PointerEvent) -> Option<(f64, f64)> {
    let track: web_sys::Element = ev.current_target()?.dyn_into().ok()?;
    let area = track.get_bounding_client_rect();
    if area.width() <= 0.0 || area.height() <= 0.0 {
        return None;
    }
    Some((
        (f64::from(ev.client_x()) - area.left()) / area.width(),
        (f64::from(ev.client_y()) - area.top()) / area.height(),
    ))
}

/// Keeps the pointer with its track, wherever the finger strays.
fn capture(ev: &PointerEvent) {
    ev.prevent_default();
    if let Some(track) = ev.current_target().and_then(|t| t.dyn_into::<web_sys::Element>().ok()) {
        // Without capture the drag ends at the track's edge, which is safe.
        let _ = track.set_pointer_capture(ev.pointer_id());
    }
}

fn held(ev: &PointerEvent) -> bool {
    ev.buttons() != 0
}

/// Step of the tiller's buttons, half degrees.
const TILLER_STEP: i16 = 30;
/// Step of the twist's buttons, percent.
const TWIST_STEP: i8 = 25;

/// How long a button stays pressed that no hand holds.
const PRESSED_FOR: std::time::Duration = std::time::Duration::from_millis(500);

/// A button that acts while it is held.
#[component]
fn HoldButton(
    name: &'static str,
    mark: &'static str,
    action: Action,
    hold: impl Fn(Action, bool) + Copy + 'static,
) -> impl IntoView {
    let set = move |down| hold(action, down);
    view! {
        <button
            type="button"
            class="hold"
            on:pointerdown=move |ev| {
                capture(&ev);
                set(true);
            }
            on:pointerup=move |_| set(false)
            on:pointercancel=move |_| set(false)
            on:click=move |ev| {
                // Pressed by key or by a screen reader: there is no hand to let go, so it is
                // held for a moment.
                if ev.detail() == 0 {
                    set(true);
                    set_timeout(move || set(false), PRESSED_FOR);
                }
            }
            on:contextmenu=move |ev| ev.prevent_default()
        >
            <span aria-hidden="true">{mark}</span>
            {tr(name)}
        </button>
    }
}

/// The touch controls. `change` hands over what the fingers ask for, `hold` what is pressed, or let go.
#[component]
pub(crate) fn Touchpad(
    change: impl Fn(&dyn Fn(&mut Touch)) + Copy + Send + Sync + 'static,
    hold: impl Fn(Action, bool) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let tap = move |action| {
        hold(action, true);
        hold(action, false);
    };
    let tiller = RwSignal::new(None::<i16>);
    let twist = RwSignal::new(0i8);
    let high = RwSignal::new(false);
    let set_tiller = move |angle: Option<i16>| {
        tiller.set(angle);
        change(&move |t| t.tiller = angle);
    };
    let set_twist = move |percent: i8| {
        twist.set(percent);
        change(&move |t| t.twist = percent);
    };
    let drag_tiller = move |ev: &PointerEvent| {
        if let Some((across, _)) = place(ev) {
            set_tiller(Some(tiller_at(across, TILLER_MAX_HALF_DEGREES)));
        }
    };
    let drag_twist = move |ev: &PointerEvent| {
        if let Some((_, down)) = place(ev) {
            set_twist(twist_at(down));
        }
    };
    let step_tiller = move |by: i16| {
        let angle = tiller.get_untracked().unwrap_or(0) + by;
        set_tiller(Some(angle.clamp(-TILLER_MAX_HALF_DEGREES, TILLER_MAX_HALF_DEGREES)));
    };
    let step_twist = move |by: i8| set_twist((twist.get_untracked() + by).clamp(-100, 100));
    let tiller_left = move || {
        let share = f64::from(tiller.get().unwrap_or(0)) / f64::from(TILLER_MAX_HALF_DEGREES);
        format!("{:.1}%", 50.0 - share * 50.0)
    };
    let twist_top = move || format!("{:.1}%", 50.0 - f64::from(twist.get()) / 2.0);
    view! {
        <section class="touchpad" aria-label=tr("touch-label")>
            <div class="tiller-side">
                <div
                    class="track across"
                    role="img"
                    aria-label=tr("touch-tiller")
                    on:pointerdown=move |ev| {
                        capture(&ev);
                        drag_tiller(&ev);
                    }
                    on:pointermove=move |ev| {
                        if held(&ev) {
                            drag_tiller(&ev);
                        }
                    }
                    on:pointerup=move |_| set_tiller(None)
                    on:pointercancel=move |_| set_tiller(None)
                >
                    <span class="rest" aria-hidden="true"></span>
                    <span class="knob" aria-hidden="true" style:left=tiller_left></span>
                    <span class="name" aria-hidden="true">
                        {tr("touch-tiller")}
                    </span>
                </div>
                <div class="steps" role="group" aria-label=tr("touch-tiller-steps")>
                    <Press name=k("action-tiller-left") mark="↶" mark_only=true act=move |_| step_tiller(TILLER_STEP) />
                    <Press name=k("action-centre") mark="↑" mark_only=true act=move |_| set_tiller(None) />
                    <Press name=k("action-tiller-right") mark="↷" mark_only=true act=move |_| step_tiller(-TILLER_STEP) />
                </div>
            </div>
            <div class="twist-side">
                <div
                    class="track down"
                    role="img"
                    aria-label=tr("touch-twist")
                    on:pointerdown=move |ev| {
                        capture(&ev);
                        drag_twist(&ev);
                    }
                    on:pointermove=move |ev| {
                        if held(&ev) {
                            drag_twist(&ev);
                        }
                    }
                    on:pointerup=move |_| set_twist(0)
                    on:pointercancel=move |_| set_twist(0)
                >
                    <span class="rest" aria-hidden="true"></span>
                    <span class="end top-end" aria-hidden="true">
                        {tr("touch-ahead")}
                    </span>
                    <span class="end bottom-end" aria-hidden="true">
                        {tr("touch-back")}
                    </span>
                    <span class="knob" aria-hidden="true" style:top=twist_top></span>
                </div>
                <div class="steps" role="group" aria-label=tr("touch-twist-steps")>
                    <Press name=k("action-ahead") mark="+" mark_only=true act=move |_| step_twist(TWIST_STEP) />
                    <Press name=k("touch-neutral") mark="0" mark_only=true act=move |_| set_twist(0) />
                    <Press name=k("action-back") mark="−" mark_only=true act=move |_| step_twist(-TWIST_STEP) />
                </div>
            </div>
                <div class="holds">
                    <HoldButton
                        name="touch-let-go"
                        mark="⤒"
                        action=Action::LetGo
                        hold
                    />
                    <HoldButton
                        name="touch-push-down"
                        mark="⤓"
                        action=Action::PushDown
                        hold
                    />
                    <HoldButton
                        name="touch-horn"
                        mark="◉"
                        action=Action::Horn
                        hold
                    />
                    <HoldButton
                        name="touch-forks-up"
                        mark="▲"
                        action=Action::ForksUp
                        hold
                    />
                    <HoldButton
                        name="touch-forks-down"
                        mark="▼"
                        action=Action::ForksDown
                        hold
                    />
                    <HoldButton
                        name="touch-look-left"
                        mark="◁"
                        action=Action::LookLeft
                        hold
                    />
                    <HoldButton
                        name="touch-look-behind"
                        mark="▽"
                        action=Action::LookBehind
                        hold
                    />
                    <HoldButton
                        name="touch-look-right"
                        mark="▷"
                        action=Action::LookRight
                        hold
                    />
                    <Press
                    name=k("touch-high-speed")
                    class="hold"
                    mark="»"
                    pressed=high
                    act=move |_| {
                        let on = !high.get_untracked();
                        high.set(on);
                        change(&move |t| t.high_speed = on);
                    }
                />
                    <Press
                    name=k("touch-stand-left")
                    class="hold"
                    mark="◧"
                    act=move |_| tap(Action::StandLeft)
                />
                    <Press
                    name=k("touch-stand-right")
                    class="hold"
                    mark="◨"
                    act=move |_| tap(Action::StandRight)
                />
                </div>
            <p class="sr" aria-live="polite">
                {move || {
                    let percent = twist.get();
                    (percent != 0)
                        .then(|| format!("{percent}\u{a0}{}", say(k("unit-percent"))))
                }}
            </p>
        </section>
    }
}

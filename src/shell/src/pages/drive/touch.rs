//! Touch on the drive page: two zones for the thumbs with buttons above them, or buttons that step for one
//! finger. A thumb may land anywhere in its zone and slide out of it; every slide has its button.

use coneyard_core::controls::Side;
use coneyard_core::controls::thumbs::{Place, Thumbs, TillerThumb, TwistThumb};
use leptos::ev::PointerEvent;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::menu::{Once, key_name, step_off_name};
use super::{Desk, session};
use crate::devices::Action;
use crate::devices::held::By;
use crate::devices::touch;
use crate::parts::press::Press;
use crate::parts::tap::Tap;
use crate::words::{k, say, tr};

/// How long a button stays pressed that no hand holds.
const PRESSED_FOR: std::time::Duration = std::time::Duration::from_millis(500);
/// A thumb that comes into neutral feels it for so long, ms.
const NEUTRAL_MS: u32 = 15;
/// The twist is drawn along so many pixels each way.
const TWIST_DRAWN_PX: f64 = 60.0;

fn place(ev: &PointerEvent) -> Place {
    Place { x: f64::from(ev.client_x()), y: f64::from(ev.client_y()) }
}

/// Keeps the pointer with what it came down on, wherever the finger strays.
fn capture(ev: &PointerEvent) {
    ev.prevent_default();
    if let Some(element) = ev.current_target().and_then(|t| t.dyn_into::<web_sys::Element>().ok()) {
        // Without capture the slide ends at the element's edge, which is safe.
        let _ = element.set_pointer_capture(ev.pointer_id());
    }
}

fn hold(desk: Desk, action: Action, down: bool) {
    session::with(desk, |s| {
        if down {
            s.hands.press(action, By::Finger);
        } else {
            s.hands.release(action, By::Finger);
        }
    });
}

fn touch(desk: Desk, change: impl FnOnce(&mut touch::Touch)) {
    session::with(desk, |s| change(&mut s.hands.touch));
}

/// A button that acts while it is held.
#[component]
fn Hold(desk: Desk, name: &'static str, mark: &'static str, action: Action) -> impl IntoView {
    let set = move |down| hold(desk, action, down);
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
                // Pressed by key or by a screen reader: there is no hand to let go, so it is held for
                // a moment.
                if ev.detail() == 0 {
                    set(true);
                    set_timeout(move || set(false), PRESSED_FOR);
                }
            }
            on:contextmenu=move |ev| ev.prevent_default()
        >
            <span class="mark" aria-hidden="true">{mark}</span>
            <span class="word">{tr(name)}</span>
        </button>
    }
}

/// The side of the screen on which the tiller is, and the one of the throttle.
fn sides(desk: Desk) -> [Side; 2] {
    let swapped = desk.settings.with_untracked(|s| s.swapped);
    if swapped { [Side::Right, Side::Left] } else { [Side::Left, Side::Right] }
}

/// One of two, by the side.
fn on(side: Side, left: &'static str, right: &'static str) -> &'static str {
    match side {
        Side::Left => left,
        Side::Right => right,
    }
}

/// All of it.
#[component]
pub(super) fn Touch(desk: Desk) -> impl IntoView {
    let one_finger = move || desk.settings.with(|s| s.one_finger);
    let hold = move |name, mark, action| view! { <Hold desk name mark action /> };
    let [tiller, twist] = sides(desk).map(|side| on(side, "above left", "above right"));
    view! {
        <section class="touch" aria-label=tr("touch-label")>
            <Show
                when=one_finger
                fallback=move || {
                    view! {
                        <TillerZone desk />
                        <TwistZone desk />
                    }
                }
            >
                <Steps desk />
            </Show>
            <div class=tiller>
                <div class="row looks">
                    {hold(k("touch-look-left"), "◁", Action::LookLeft)}
                    {hold(k("touch-look-behind"), "▽", Action::LookBehind)}
                    {hold(k("touch-look-right"), "▷", Action::LookRight)}
                </div>
                <div class="row large">
                    {hold(k("touch-let-go"), "⤒", Action::LetGo)}
                    {hold(k("touch-push-down"), "⤓", Action::PushDown)}
                </div>
            </div>
            <div class=twist>
                <div class="row">
                    {hold(k("touch-forks-down"), "▼", Action::ForksDown)}
                    {hold(k("touch-forks-up"), "▲", Action::ForksUp)}
                </div>
                <div class="row large">{hold(k("touch-horn"), "◉", Action::Horn)}</div>
            </div>
            <Between desk />
        </section>
    }
}

/// What stands between the zones: the side to stand on, high speed, and what the step asks of one who
/// steps off, turns the key or reports.
#[component]
fn Between(desk: Desk) -> impl IntoView {
    let left = Memo::new(move |_| {
        desk.status.with(|s| s.as_ref().is_none_or(|s| s.truck.stance == Side::Left))
    });
    let high = RwSignal::new(false);
    let needed = Memo::new(move |_| {
        let step = desk.step();
        [Action::StepOff, Action::Key, Action::Report].map(|action| {
            step.is_some_and(|step| {
                desk.steps.with(|all| all.get(step as usize).is_some_and(|s| s.needs(action)))
            })
        })
    });
    let across = move |_| {
        let other = if left.get_untracked() { Action::StandRight } else { Action::StandLeft };
        session::with(desk, |s| s.hands.tap(other, By::Finger));
    };
    let faster = move |_| {
        let on = !high.get_untracked();
        high.set(on);
        touch(desk, |t| t.high_speed = on);
    };
    view! {
        <div class="between">
            <div class="row asked-for">
                <Show when=move || needed.get()[0]>
                    <Once desk action=Action::StepOff id="step-off-now" name=step_off_name(desk) />
                </Show>
                <Show when=move || needed.get()[1]>
                    <Once desk action=Action::Key id="key-now" name=key_name(desk) />
                </Show>
                <Show when=move || needed.get()[2]>
                    <Once
                        desk
                        action=Action::Report
                        id="report-now"
                        name=Signal::stored(k("need-report"))
                    />
                </Show>
            </div>
            <Tap id="stance" class="hold" act=across>
                <span class="mark" aria-hidden="true">
                    {move || if left.get() { "◧" } else { "◨" }}
                </span>
                <span class="word">
                    {move || {
                        say(if left.get() { k("touch-stand-right") } else { k("touch-stand-left") })
                    }}
                </span>
            </Tap>
            <Tap id="high-speed" class="hold" pressed=high act=faster>
                <span aria-hidden="true">"»"</span>
                {tr("touch-high-speed")}
            </Tap>
        </div>
    }
}

/// Where one thumb lands and slides. One pointer at a time: a second finger beside a thumb is none of it.
#[component]
fn Zone(
    /// Which, for how it looks.
    class: &'static str,
    /// Key of what it is called.
    name: &'static str,
    /// The thumb landed here.
    land: impl Fn(Place) + Copy + 'static,
    /// It slid from where it landed to here; what is drawn of it.
    slide: impl Fn(Place, Place) -> Place + Copy + 'static,
    /// It lifted.
    lift: impl Fn() + Copy + 'static,
    /// What is drawn under a thumb.
    mark: &'static str,
    /// What is written in it.
    children: Children,
) -> impl IntoView {
    let pointer = StoredValue::new(None::<i32>);
    let drawn = RwSignal::new(None::<(Place, Place)>);
    let is_its = move |ev: &PointerEvent| pointer.get_value() == Some(ev.pointer_id());
    let lands = move |ev: PointerEvent| {
        capture(&ev);
        if pointer.get_value().is_some() {
            return;
        }
        let at = place(&ev);
        pointer.set_value(Some(ev.pointer_id()));
        drawn.set(Some((at, at)));
        land(at);
    };
    let slides = move |ev: PointerEvent| {
        if let Some((from, _)) = drawn.get_untracked().filter(|_| is_its(&ev)) {
            let shown = slide(from, place(&ev));
            drawn.set(Some((from, shown)));
        }
    };
    let lifts = move |ev: PointerEvent| {
        if is_its(&ev) {
            pointer.set_value(None);
            drawn.set(None);
            lift();
        }
    };
    view! {
        <div
            class=class
            role="img"
            aria-label=tr(name)
            on:pointerdown=lands
            on:pointermove=slides
            on:pointerup=lifts
            on:pointercancel=lifts
            on:lostpointercapture=lifts
            on:contextmenu=move |ev| ev.prevent_default()
        >
            {children()}
        </div>
        {move || drawn.get().map(|(from, to)| view! { <Drawn class=mark from to /> })}
    }
}

/// Where the thumb of the tiller lands, it appears.
#[component]
fn TillerZone(desk: Desk) -> impl IntoView {
    let [side, _] = sides(desk);
    let change = move |work: &dyn Fn(&mut Thumbs)| touch(desk, |t| t.with_thumbs(|all| work(all)));
    let slide = move |_, to| {
        change(&move |all| {
            if let Some(thumb) = &mut all.tiller {
                thumb.slide(to);
            }
        });
        to
    };
    view! {
        <Zone
            class=on(side, "zone left", "zone right")
            name=k("touch-tiller")
            mark="tiller-mark"
            land=move |at| change(&move |all| all.tiller = Some(TillerThumb::land(at)))
            slide
            lift=move || change(&|all| all.tiller = None)
        >
            <span class="name" aria-hidden="true">
                {tr("touch-tiller")}
            </span>
        </Zone>
    }
}

/// Where that of the throttle lands, it is in neutral.
#[component]
fn TwistZone(desk: Desk) -> impl IntoView {
    let [inwards, side] = sides(desk);
    let twist = StoredValue::new(0i8);
    let change = move |work: &dyn Fn(&mut Thumbs)| {
        touch(desk, |t| t.with_thumbs(|all| work(all)));
        let now = session::with(desk, |s| s.hands.touch.twist()).unwrap_or(0);
        if now == 0 && twist.get_value() != 0 {
            // Not every device can, and not every person lets it.
            window().navigator().vibrate_with_duration(NEUTRAL_MS);
        }
        twist.set_value(now);
    };
    let slide = move |from: Place, to| {
        change(&move |all| {
            if let Some(thumb) = &mut all.twist {
                thumb.slide(to);
            }
        });
        let y = f64::from(twist.get_value()) / 100.0 * -TWIST_DRAWN_PX;
        Place { y: from.y + y, ..from }
    };
    view! {
        <Zone
            class=on(side, "zone left", "zone right")
            name=k("touch-twist")
            mark="twist-mark"
            land=move |at| change(&move |all| all.twist = Some(TwistThumb::land(at, inwards)))
            slide
            lift=move || change(&|all| all.twist = None)
        >
            <span class="end" aria-hidden="true">
                {tr("touch-ahead")}
            </span>
            <span class="name" aria-hidden="true">
                {tr("touch-twist")}
            </span>
            <span class="end low" aria-hidden="true">
                {tr("touch-back")}
            </span>
        </Zone>
    }
}

/// Where a thumb landed, and where it asks to be.
#[component]
fn Drawn(class: &'static str, from: Place, to: Place) -> impl IntoView {
    let px = |length: f64| format!("{length:.0}px");
    view! {
        <span
            class=format!("thumb-base {class}")
            aria-hidden="true"
            style:left=px(from.x)
            style:top=px(from.y)
        ></span>
        <span
            class=format!("thumb-knob {class}")
            aria-hidden="true"
            style:left=px(to.x)
            style:top=px(to.y)
        ></span>
    }
}

/// Tiller and throttle step by step, for one finger.
#[component]
fn Steps(desk: Desk) -> impl IntoView {
    let tiller = move |way| touch(desk, |t| t.step_tiller(way));
    let twist = move |way| touch(desk, |t| t.step_twist(way));
    let step = move |name, mark, act: Callback<()>| {
        view! { <Press name=name mark=mark mark_only=true act=move |_| act.run(()) /> }
    };
    let [tiller_side, twist_side] = sides(desk).map(|side| on(side, "steps left", "steps right"));
    view! {
        <div class=tiller_side role="group" aria-label=tr("touch-tiller-steps")>
            {step(k("action-tiller-left"), "↶", Callback::new(move |()| tiller(1)))}
            {step(k("action-centre"), "↑", Callback::new(move |()| tiller(0)))}
            {step(k("action-tiller-right"), "↷", Callback::new(move |()| tiller(-1)))}
        </div>
        <div class=twist_side role="group" aria-label=tr("touch-twist-steps")>
            {step(k("action-ahead"), "+", Callback::new(move |()| twist(1)))}
            {step(k("touch-neutral"), "0", Callback::new(move |()| twist(0)))}
            {step(k("action-back"), "−", Callback::new(move |()| twist(-1)))}
        </div>
    }
}

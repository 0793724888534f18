//! The dashboard: the truck's state in words, numbers and small drawings, on the page and not in
//! the canvas, so that a screen reader reads it and a phone shows it.

use coneyard_core::controls::{Look, Side};
use coneyard_core::desk::{Status, TruckStatus};
use coneyard_core::finding::Unit;
use coneyard_core::truck::arm::ArmZone;
use leptos::prelude::*;

use super::dials::{ArmDial, ForkDial, StanceDial, TillerDial};
use crate::settings::use_settings;
use crate::words::{k, number, quantity, say, say_with, steady_number, text, tr};

/// Slower than this the truck counts as standing, m/s.
pub(crate) const STANDING_MPS: f64 = 0.05;
/// Less than this the tiller counts as in the middle, degrees.
const MIDDLE_DEG: f64 = 1.0;

fn direction(speed: f64) -> &'static str {
    if speed.abs() < STANDING_MPS {
        k("dash-standing")
    } else if speed > 0.0 {
        k("dash-power-unit-first")
    } else {
        k("dash-forks-first")
    }
}

fn arm_word(zone: ArmZone) -> &'static str {
    match zone {
        ArmZone::UpperBrake => k("dash-arm-upper"),
        ArmZone::Driving => k("dash-arm-driving"),
        ArmZone::LowerBrake => k("dash-arm-lower"),
    }
}

fn look_word(look: Look) -> &'static str {
    match look {
        Look::Ahead => k("dash-look-ahead"),
        Look::Left => k("dash-look-left"),
        Look::Right => k("dash-look-right"),
        Look::Behind => k("dash-look-behind"),
    }
}

fn tiller_text(degrees: f64) -> String {
    if degrees.abs() < MIDDLE_DEG {
        return say(k("dash-tiller-middle"));
    }
    let key = if degrees > 0.0 { k("dash-tiller-left") } else { k("dash-tiller-right") };
    say_with(key, vec![("degrees", number(degrees.abs().round()))])
}

/// What the truck does besides rolling: each a word with its own shape.
fn states(truck: &TruckStatus) -> Vec<(&'static str, &'static str)> {
    [
        (truck.braking, "■", k("dash-braking")),
        (truck.plugging, "◆", k("dash-plugging")),
        (truck.slipping, "≈", k("dash-slipping")),
        (truck.high_speed, "»", k("dash-high-speed")),
        (truck.horn, "◉", k("dash-horn")),
        (truck.stepping, "↔", k("dash-stepping")),
    ]
    .into_iter()
    .filter(|(on, _, _)| *on)
    .map(|(_, mark, word)| (mark, word))
    .collect()
}

/// A part of the truck's state that changes on the page only when it differs.
fn part<T: Clone + PartialEq + Send + Sync + 'static>(
    status: Signal<Option<Status>>,
    pick: impl Fn(&TruckStatus) -> T + Send + Sync + 'static,
    rest: T,
) -> Memo<T> {
    Memo::new(move |_| status.with(|s| s.as_ref().map_or_else(|| rest.clone(), |s| pick(&s.truck))))
}

/// One value of the dashboard.
#[component]
fn Cell(name: &'static str, class: &'static str, children: Children) -> impl IntoView {
    view! {
        <div class=format!("cell {class}")>
            <dt>{tr(name)}</dt>
            <dd>{children()}</dd>
        </div>
    }
}

/// The dashboard of what is shown on the canvas.
#[component]
pub(crate) fn Dash(
    /// The yard's word.
    #[prop(into)]
    status: Signal<Option<Status>>,
) -> impl IntoView {
    let settings = use_settings();
    let units = Memo::new(move |_| settings.with(|s| s.units));
    // Rounded before they are compared, so that the page is touched only when the text changes.
    let speed = part(status, |t| (t.speed * 50.0).round() / 50.0, 0.0);
    let steer = part(status, |t| t.steer.to_degrees().round(), 0.0);
    let arm = part(status, |t| t.arm.to_degrees().round(), 45.0);
    let zone = part(status, |t| Some(t.arm_zone), None);
    let forks = part(status, |t| (t.forks * 1_000.0).round() / 1_000.0, 0.0);
    let left = part(status, |t| t.stance == Side::Left, true);
    let stepping = part(status, |t| t.stepping, false);
    let contacts = part(status, |t| t.contacts, 4);
    let look = part(status, |t| t.look, Look::Ahead);
    let throttle = part(status, |t| t.throttle, 0);
    let limit = part(status, |t| t.zone_limit, None);
    let on = part(status, states, Vec::new());

    let speed_shown = move || units.get().show(speed.get().abs(), Unit::MetrePerSecond);
    let over = move || limit.get().is_some_and(|l| speed.get().abs() > l);
    let limit_text = move || {
        limit.get().map(|l| {
            let limit = quantity(l, Unit::MetrePerSecond, units.get());
            let key = if over() { k("dash-over-limit") } else { k("dash-limit") };
            say_with(key, vec![("limit", text(limit))])
        })
    };
    let stance = move || {
        say(if stepping.get() {
            k("dash-stance-between")
        } else if left.get() {
            k("dash-stance-left")
        } else {
            k("dash-stance-right")
        })
    };
    view! {
        <section class="dash" aria-label=tr("dash-label")>
            <dl>
                <Cell name="dash-speed" class="speed">
                    <span class="big">{move || steady_number(speed_shown().value, 1)}</span>
                    <span class="unit">{move || say(speed_shown().unit)}</span>
                    <span class="under">{move || say(direction(speed.get()))}</span>
                    <span class="limit" class:over=over>
                        {limit_text}
                    </span>
                </Cell>
                <Cell name="dash-throttle" class="throttle">
                    <span class="twist" aria-hidden="true">
                        <span
                            class="fill"
                            class:back=move || throttle.get() < 0
                            style:width=move || {
                                format!("{}%", f64::from(throttle.get().unsigned_abs()) / 2.0)
                            }
                        ></span>
                    </span>
                    <span class="under">
                        {move || format!("{}\u{a0}{}", throttle.get(), say(k("unit-percent")))}
                    </span>
                </Cell>
                <Cell name="dash-tiller" class="with-dial">
                    <TillerDial degrees=steer />
                    <span class="under">{move || tiller_text(steer.get())}</span>
                </Cell>
                <Cell name="dash-arm" class="with-dial">
                    <ArmDial degrees=arm zone=zone />
                    <span class="under">
                        {move || zone.get().map(|z| say(arm_word(z)))}
                    </span>
                </Cell>
                <Cell name="dash-forks" class="with-dial">
                    <ForkDial height=forks />
                    <span class="under">{move || quantity(forks.get(), Unit::Metre, units.get())}</span>
                </Cell>
                <Cell name="dash-stance" class="with-dial">
                    <StanceDial left=left stepping=stepping />
                    <span class="under">{stance}</span>
                </Cell>
                <Cell name="dash-contacts" class="small">
                    {move || {
                        say_with(
                            k("dash-contacts-of-four"),
                            vec![("count", number(contacts.get()))],
                        )
                    }}
                </Cell>
                <Cell name="dash-look" class="small">
                    {move || say(look_word(look.get()))}
                </Cell>
            </dl>
            <ul class="states" aria-label=tr("dash-states")>
                {move || {
                    on.get()
                        .into_iter()
                        .map(|(mark, word)| {
                            view! {
                                <li>
                                    <span aria-hidden="true">{mark}</span>
                                    {say(word)}
                                </li>
                            }
                        })
                        .collect_view()
                }}
            </ul>
        </section>
    }
}

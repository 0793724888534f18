//! The dashboard: the truck's state in words, numbers and small drawings, on the page and not in
//! the canvas, so that a screen reader reads it and a phone shows it.

use coneyard_core::controls::{Look, Side};
use coneyard_core::desk::{Status, TruckStatus};
use coneyard_core::finding::Unit;
use coneyard_core::truck::arm::ArmZone;
use coneyard_core::words::Units;
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

/// What is on the forks. Site rules and plates give masses in kilograms and pounds.
fn load_text(pallets: u32, load_kg: f64, plugging_most: f64, units: Units) -> String {
    const POUND_KG: f64 = 0.453_592_37;
    const FOOT_M: f64 = 0.3048;
    if pallets == 0 {
        return say(k("dash-load-none"));
    }
    let (key, mass, most) = match units {
        Units::Metric => (k("dash-load-kg"), load_kg, plugging_most),
        Units::Imperial => {
            (k("dash-load-lb"), (load_kg / POUND_KG).round(), plugging_most / FOOT_M)
        }
    };
    let values = vec![
        ("pallets", number(pallets)),
        ("mass", text(steady_number(mass, 0))),
        ("plugging", text(steady_number(most, 1))),
    ];
    say_with(key, values)
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
        (!truck.aboard, "▽", k("dash-off-platform")),
        (!truck.key_on, "○", k("dash-key-off")),
        (truck.load > truck.capacity, "▲", k("dash-too-heavy")),
    ]
    .into_iter()
    .filter(|(on, _, _)| *on)
    .map(|(_, mark, word)| (mark, word))
    .collect()
}

/// The truck's state rounded to what is shown, so that the page is touched only when it differs.
#[derive(Clone, Debug, PartialEq)]
struct Face {
    speed: f64,
    throttle: i8,
    steer_deg: f64,
    arm_deg: f64,
    zone: Option<ArmZone>,
    forks: f64,
    left: bool,
    stepping: bool,
    contacts: u8,
    look: Look,
    aboard: bool,
    pallets: u32,
    load_kg: f64,
    plugging_most: f64,
    limit: Option<f64>,
    states: Vec<(&'static str, &'static str)>,
}

impl Face {
    fn of(truck: &TruckStatus) -> Self {
        Self {
            speed: (truck.speed * 50.0).round() / 50.0,
            throttle: truck.throttle,
            steer_deg: truck.steer.to_degrees().round(),
            arm_deg: truck.arm.to_degrees().round(),
            zone: Some(truck.arm_zone),
            forks: (truck.forks * 1_000.0).round() / 1_000.0,
            left: truck.stance == Side::Left,
            stepping: truck.stepping,
            contacts: truck.contacts,
            look: truck.look,
            aboard: truck.aboard,
            pallets: truck.pallets,
            load_kg: truck.load.round(),
            plugging_most: (truck.plugging_most * 10.0).round() / 10.0,
            limit: truck.zone_limit,
            states: states(truck),
        }
    }

    /// Before anything is known: a truck that stands with its arm held.
    fn at_rest() -> Self {
        Self {
            speed: 0.0,
            throttle: 0,
            steer_deg: 0.0,
            arm_deg: 45.0,
            zone: None,
            forks: 0.0,
            left: true,
            stepping: false,
            contacts: 4,
            look: Look::Ahead,
            aboard: true,
            pallets: 0,
            load_kg: 0.0,
            plugging_most: 0.0,
            limit: None,
            states: Vec::new(),
        }
    }

    fn over(&self) -> bool {
        self.limit.is_some_and(|limit| self.speed.abs() > limit)
    }
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
    let face = Memo::new(move |_| {
        status.with(|s| s.as_ref().map_or_else(Face::at_rest, |s| Face::of(&s.truck)))
    });
    let speed_shown = move || units.get().show(face.with(|f| f.speed.abs()), Unit::MetrePerSecond);
    let limit_text = move || {
        let (limit, over) = face.with(|f| (f.limit, f.over()));
        limit.map(|l| {
            let limit = quantity(l, Unit::MetrePerSecond, units.get());
            let key = if over { k("dash-over-limit") } else { k("dash-limit") };
            say_with(key, vec![("limit", text(limit))])
        })
    };
    let stance = move || {
        let (left, stepping, aboard) = face.with(|f| (f.left, f.stepping, f.aboard));
        say(match (stepping, left) {
            _ if !aboard => k("dash-stance-off"),
            (true, _) => k("dash-stance-between"),
            (false, true) => k("dash-stance-left"),
            (false, false) => k("dash-stance-right"),
        })
    };
    let value = move |pick: fn(&Face) -> f64| Signal::derive(move || face.with(pick));
    view! {
        <section class="dash" aria-label=tr("dash-label")>
            <dl>
                <Cell name="dash-speed" class="speed">
                    <span class="big">{move || steady_number(speed_shown().value, 1)}</span>
                    <span class="unit">{move || say(speed_shown().unit)}</span>
                    <span class="under">{move || say(face.with(|f| direction(f.speed)))}</span>
                    <span class="limit" class:over=move || face.with(Face::over)>
                        {limit_text}
                    </span>
                </Cell>
                <Cell name="dash-throttle" class="throttle">
                    <span class="twist" aria-hidden="true">
                        <span
                            class="fill"
                            class:back=move || face.with(|f| f.throttle < 0)
                            style:width=move || {
                                format!("{}%", face.with(|f| f64::from(f.throttle.unsigned_abs())) / 2.0)
                            }
                        ></span>
                    </span>
                    <span class="under">
                        {move || format!("{}\u{a0}{}", face.with(|f| f.throttle), say(k("unit-percent")))}
                    </span>
                </Cell>
                <Cell name="dash-tiller" class="with-dial">
                    <TillerDial degrees=value(|f| f.steer_deg) />
                    <span class="under">{move || tiller_text(face.with(|f| f.steer_deg))}</span>
                </Cell>
                <Cell name="dash-arm" class="with-dial">
                    <ArmDial degrees=value(|f| f.arm_deg) zone=Signal::derive(move || face.with(|f| f.zone)) />
                    <span class="under">
                        {move || face.with(|f| f.zone).map(|z| say(arm_word(z)))}
                    </span>
                </Cell>
                <Cell name="dash-forks" class="with-dial">
                    <ForkDial height=value(|f| f.forks) />
                    <span class="under">{move || quantity(face.with(|f| f.forks), Unit::Metre, units.get())}</span>
                </Cell>
                <Cell name="dash-stance" class="with-dial">
                    <StanceDial left=Signal::derive(move || face.with(|f| f.left)) stepping=Signal::derive(move || face.with(|f| f.stepping)) />
                    <span class="under">{stance}</span>
                </Cell>
                <Cell name="dash-contacts" class="small">
                    {move || {
                        say_with(
                            k("dash-contacts-of-four"),
                            vec![("count", number(face.with(|f| f.contacts)))],
                        )
                    }}
                </Cell>
                <Cell name="dash-look" class="small">
                    {move || say(face.with(|f| look_word(f.look)))}
                </Cell>
                <Cell name="dash-load" class="small load">
                    {move || face.with(|f| load_text(f.pallets, f.load_kg, f.plugging_most, units.get()))}
                </Cell>
            </dl>
            <ul class="states" aria-label=tr("dash-states")>
                {move || {
                    face.with(|f| f.states.clone()).into_iter()
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

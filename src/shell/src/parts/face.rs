//! The truck's state as it is told: rounded to what is shown, and in words. The dashboard beside a replay
//! and the instrument of a drive both show it.

use coneyard_core::controls::{Look, Side};
use coneyard_core::desk::{Status, TruckStatus};
use coneyard_core::finding::Unit;
use coneyard_core::truck::arm::ArmZone;
use coneyard_core::words::Units;
use coneyard_core::words::measure::FOOT;
use leptos::prelude::*;

use crate::words::{k, number, quantity, say, say_with, steady_number, text};

/// Slower than this the truck counts as standing, m/s.
pub(crate) const STANDING_MPS: f64 = 0.05;
/// Less than this the tiller counts as in the middle, degrees.
const MIDDLE_DEG: f64 = 1.0;

/// Which end leads.
pub(super) fn direction(speed: f64) -> &'static str {
    if speed.abs() < STANDING_MPS {
        k("dash-standing")
    } else if speed > 0.0 {
        k("dash-power-unit-first")
    } else {
        k("dash-forks-first")
    }
}

/// The part of the arm's arc.
pub(super) fn arm_word(zone: ArmZone) -> &'static str {
    match zone {
        ArmZone::UpperBrake => k("dash-arm-upper"),
        ArmZone::Driving => k("dash-arm-driving"),
        ArmZone::LowerBrake => k("dash-arm-lower"),
    }
}

/// Where the rider looks.
pub(super) fn look_word(look: Look) -> &'static str {
    match look {
        Look::Ahead => k("dash-look-ahead"),
        Look::Left => k("dash-look-left"),
        Look::Right => k("dash-look-right"),
        Look::Behind => k("dash-look-behind"),
    }
}

/// How far the drive wheel is turned.
pub(super) fn tiller_text(degrees: f64) -> String {
    if degrees.abs() < MIDDLE_DEG {
        return say(k("dash-tiller-middle"));
    }
    let key = if degrees > 0.0 { k("dash-tiller-left") } else { k("dash-tiller-right") };
    say_with(key, vec![("degrees", number(degrees.abs().round()))])
}

/// What is on the forks. Site rules and plates give masses in kilograms and pounds.
pub(super) fn load_text(pallets: u32, load_kg: f64, plugging_most: f64, units: Units) -> String {
    const POUND_KG: f64 = 0.453_592_37;
    if pallets == 0 {
        return say(k("dash-load-none"));
    }
    let (key, mass, most) = match units {
        Units::Metric => (k("dash-load-kg"), load_kg, plugging_most),
        Units::Imperial => (k("dash-load-lb"), (load_kg / POUND_KG).round(), plugging_most / FOOT),
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
        // Beside the truck it is always on, and goes without saying.
        (truck.braking && truck.aboard, "■", k("dash-braking")),
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
pub(super) struct Face {
    /// m/s, positive power unit first.
    pub(super) speed: f64,
    /// Percent.
    pub(super) throttle: i8,
    /// Drive wheel, left positive.
    pub(super) steer_deg: f64,
    /// From upright.
    pub(super) arm_deg: f64,
    /// Part of its arc.
    pub(super) zone: Option<ArmZone>,
    /// m.
    pub(super) forks: f64,
    /// Stands on the left.
    pub(super) left: bool,
    /// Between the sides.
    pub(super) stepping: bool,
    /// Hands and feet in their places.
    pub(super) contacts: u8,
    /// Where the rider looks.
    pub(super) look: Look,
    /// On the platform.
    pub(super) aboard: bool,
    /// On the forks.
    pub(super) pallets: u32,
    /// Their mass.
    pub(super) load_kg: f64,
    /// m/s^2.
    pub(super) plugging_most: f64,
    /// Of the zone, m/s.
    pub(super) limit: Option<f64>,
    /// What it does besides rolling.
    pub(super) states: Vec<(&'static str, &'static str)>,
}

impl Face {
    /// Of the yard's word, as it changes; at rest until there is one.
    pub(super) fn of_status(status: Signal<Option<Status>>) -> Memo<Self> {
        Memo::new(move |_| {
            status.with(|s| s.as_ref().map_or_else(Self::at_rest, |s| Self::of(&s.truck)))
        })
    }

    /// Of this truck.
    pub(super) fn of(truck: &TruckStatus) -> Self {
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
    pub(super) fn at_rest() -> Self {
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

    /// Faster than is allowed here.
    pub(super) fn over(&self) -> bool {
        self.limit.is_some_and(|limit| self.speed.abs() > limit)
    }
}

/// The side that the rider stands on.
pub(super) fn stance_word(face: &Face) -> &'static str {
    match (face.stepping, face.left) {
        _ if !face.aboard => k("dash-stance-off"),
        (true, _) => k("dash-stance-between"),
        (false, true) => k("dash-stance-left"),
        (false, false) => k("dash-stance-right"),
    }
}

/// The limit that holds here.
pub(super) fn limit_text(face: &Face, units: Units) -> Option<String> {
    let limit = quantity(face.limit?, Unit::MetrePerSecond, units);
    let key = if face.over() { k("dash-over-limit") } else { k("dash-limit") };
    Some(say_with(key, vec![("limit", text(limit))]))
}

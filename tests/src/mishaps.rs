//! Drives in which something goes wrong, and the tick at which to look: for pictures of it.

use coneyard_core::controls::{ArmAsk, Controls, TillerAsk};
use coneyard_core::rider::{MODEL, by_name};
use coneyard_core::run::Run;
use coneyard_core::time::Tick;
use coneyard_sim::Session;

use crate::drives::setup;

/// A drive, and when to look at it.
pub struct Mishap {
    /// The whole drive.
    pub run: Run,
    /// The tick that tells most.
    pub at: Tick,
}

/// An unwrapped stack is carried into a corner at full speed: cases lie on the floor.
///
/// # Panics
/// When nothing falls.
pub fn spilled_load() -> Mishap {
    let mut session = Session::new(&setup("tight-corner-load", "single", 3)).expect("shipped");
    let (mut fast, mut spilled) = (false, None);
    while spilled.is_none_or(|at| session.moment().tick < at + 192) && session.ending().is_none() {
        fast |= session.moment().truck.speed > 2.6;
        let swing = if fast && spilled.is_none() { 100 } else { 0 };
        let arm = if spilled.is_some() { ArmAsk::LetGo } else { ArmAsk::Hold };
        let throttle = if spilled.is_some() { 0 } else { 100 };
        let tiller = TillerAsk::Swing(swing);
        session.step(Controls { throttle, high_speed: true, tiller, arm, ..Controls::default() });
        if session.findings().iter().any(|f| f.code == "load-spilled") {
            spilled = spilled.or(Some(session.moment().tick));
        }
    }
    Mishap { at: spilled.expect("cases fall") + 64, run: session.finish(1.0) }
}

/// The model rider comes to the end of the racks; somebody stands behind it and is not seen.
///
/// # Panics
/// When the model rider sees everybody.
pub fn blind_corner() -> Mishap {
    let mut session = Session::new(&setup("rack-end", "single", 3)).expect("shipped");
    let setting = session.setting().clone();
    let mut rider = by_name(MODEL, &setting.course, &setting.truck, &setting.rules, 3)
        .expect("the model rider");
    let mut at = None;
    while session.ending().is_none() {
        let controls = rider.ride(session.moment());
        let m = session.step(controls);
        if m.people.iter().all(|p| p.seen_since.is_none()) && m.truck.pose.at.x > 12.0 {
            at = at.or(Some(m.tick));
        }
    }
    Mishap { at: at.expect("somebody is hidden"), run: session.finish(1.0) }
}

/// Full throttle to the end of the racks, no horn, and the arm let go 1.5 s after somebody steps
/// out.
///
/// # Panics
/// When nobody comes near.
pub fn near_miss() -> Mishap {
    const LATE: Tick = 96;
    let mut session = Session::new(&setup("rack-end", "single", 3)).expect("shipped");
    let mut since = None;
    let mut stood = 0;
    while session.ending().is_none() && stood < 128 {
        let m = session.moment();
        if m.people.iter().any(|p| p.stepped_out.is_some() && p.seen_since.is_some()) {
            since = since.or(Some(m.tick));
        }
        let brakes = since.is_some_and(|t| m.tick > t + LATE);
        stood += u32::from(brakes && m.truck.speed.abs() < 0.01);
        let throttle = if brakes { 0 } else { (m.tick / 2).min(100) as i8 };
        let arm = if brakes { ArmAsk::LetGo } else { ArmAsk::Hold };
        session.step(Controls { throttle, arm, ..Controls::default() });
    }
    let near = session.findings().iter().find(|f| f.code == "person-near-miss");
    let at = near.expect("it comes near").from + 16;
    Mishap { at, run: session.finish(1.0) }
}

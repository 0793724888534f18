//! Warming up: a browser runs fresh wasm slowly for its first second. So a drive that nobody sees
//! is driven in small slices while nothing else happens, before a person drives.

use core::cell::RefCell;
use core::time::Duration;

use bevy::platform::time::Instant;
use coneyard_core::controls::{Controls, TillerAsk};
use coneyard_core::course::shipped;
use coneyard_core::rules::SHIPPED;
use coneyard_core::run::DriveSetup;
use coneyard_core::time::{TICK_RATE, Tick};
use coneyard_core::truck::spec::shipped::SINGLE;
use coneyard_sim::Session;

/// Length of the drive, ticks.
const LENGTH: Tick = 10 * TICK_RATE;

/// A slice takes about so long, and the page stays quick.
const SLICE: Duration = Duration::from_millis(8);

enum Warming {
    NotBegun,
    Under(Box<Session>),
    Done,
}

thread_local! {
    static WARMING: RefCell<Warming> = const { RefCell::new(Warming::NotBegun) };
}

/// Drives on for a moment; false when there is nothing left to warm.
pub(crate) fn slice() -> bool {
    WARMING.with_borrow_mut(|warming| {
        if matches!(warming, Warming::NotBegun) {
            *warming = begin();
        }
        let Warming::Under(session) = warming else {
            return false;
        };
        let start = Instant::now();
        while start.elapsed() < SLICE {
            let tick = session.moment().tick;
            if tick >= LENGTH || session.ending().is_some() {
                *warming = Warming::Done;
                return false;
            }
            session.step(script(tick));
        }
        true
    })
}

/// Sets up the first shipped course. A set-up that fails leaves the yard cold, no more.
fn begin() -> Warming {
    let Some((_, course)) = shipped::ALL.first() else {
        return Warming::Done;
    };
    let setup = DriveSetup {
        course: (*course).into(),
        truck: SINGLE.into(),
        rules: SHIPPED.into(),
        checks: String::new(),
        seed: 0,
        who: String::new(),
        started: String::new(),
    };
    match Session::new(&setup) {
        Ok(session) => Warming::Under(Box::new(session)),
        Err(_) => Warming::Done,
    }
}

/// Ahead and back, swinging the tiller, so that every part of a tick is used.
fn script(tick: Tick) -> Controls {
    let second = tick / TICK_RATE;
    Controls {
        throttle: if second % 4 < 2 { 70 } else { -70 },
        tiller: TillerAsk::Swing(if second.is_multiple_of(2) { 60 } else { -60 }),
        ..Controls::default()
    }
}

//! Whole drives without a person: for tests, for par times, and for company in a replay.

use coneyard_core::outside::BadInput;
use coneyard_core::rider::{self, Rider};
use coneyard_core::run::DriveSetup;
use coneyard_core::run::Run;
use coneyard_core::time::Tick;

use crate::Session;
use crate::wander::Wander;
use coneyard_core::yard::Setting;

/// A scripted rider, by name, drives until the drive ends, with a pace and a hand of their own
/// from the drive's seed.
///
/// # Errors
/// One sentence when the set-up cannot be used or no rider has that name.
pub fn ride(setup: &DriveSetup, name: &str) -> Result<Run, BadInput> {
    ride_as(setup, name, u64::from(setup.seed))
}

/// The same with the rider's pace and hand from another seed, for one person's drives of several
/// seeds.
///
/// # Errors
/// One sentence when the set-up cannot be used or no rider has that name.
pub fn ride_as(setup: &DriveSetup, name: &str, rider_seed: u64) -> Result<Run, BadInput> {
    let session = Session::new(setup)?;
    let Setting { course, truck, rules, .. } = session.setting();
    let rider = rider::by_name(name, course, truck, rules, rider_seed).ok_or_else(|| {
        let known = rider::known();
        BadInput::new("the rider", "", format!("nobody is called {name:.40}; there are {known}"))
    })?;
    Ok(drive(session, rider))
}

/// The same by any rider, who is made for the course, the truck and the rules of the drive.
///
/// # Errors
/// One sentence when the set-up cannot be used.
pub fn ride_by(
    setup: &DriveSetup,
    rider: impl FnOnce(&Setting) -> Box<dyn Rider>,
) -> Result<Run, BadInput> {
    let session = Session::new(setup)?;
    let rider = rider(session.setting());
    Ok(drive(session, rider))
}

fn drive(mut session: Session, mut rider: Box<dyn Rider>) -> Run {
    while session.ending().is_none() && !rider.stops(session.moment()) {
        let input = rider.ride(session.moment());
        session.step(input);
    }
    session.finish(1.0)
}

/// Random controls drawn from the seed, for so many ticks or until the drive ends.
///
/// # Errors
/// One sentence when the set-up cannot be used.
pub fn random_run(setup: &DriveSetup, ticks: Tick) -> Result<Run, BadInput> {
    let mut session = Session::new(setup)?;
    let mut rider = Wander::new(u64::from(setup.seed));
    for _ in 0..ticks {
        if session.ending().is_some() {
            break;
        }
        session.step(rider.next_input());
    }
    Ok(session.finish(1.0))
}

//! A ride that is looked at.

use coneyard_core::course::shipped;
use coneyard_core::outside::BadInput;
use coneyard_core::rules::SHIPPED;
use coneyard_core::run::{DriveSetup, Run};
use coneyard_core::time::{TICK_RATE, Tick};
use coneyard_core::truck::spec;
use coneyard_sim::{Session, drive_again};

use crate::answers::{Held, hold};
use crate::hands::Hands;
use crate::oracle::Oracle;
use crate::seen::Seen;

/// What is driven, and by whom.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ride {
    /// Name of a shipped course.
    pub course: &'static str,
    /// Name of a shipped truck.
    pub truck: String,
    /// Whose hands.
    pub hands: Hands,
    /// Seed of the course's draws and of the hands.
    pub seed: u32,
}

/// A ride is left at that after so long, ticks: 4 min.
const MOST: Tick = 240 * TICK_RATE;
/// Or when the truck has not moved for so long, ticks: 25 s.
const STUCK: Tick = 25 * TICK_RATE;

/// So many rides: every course with each of its trucks in turn, by all kinds of hands in turn.
pub fn rides(count: u32, seed: u32) -> Vec<Ride> {
    let offered: Vec<(&'static str, String)> = shipped::ALL
        .iter()
        .flat_map(|(name, _)| shipped::parse(name).trucks.into_iter().map(|truck| (*name, truck)))
        .collect();
    let ride = |i: u32| {
        let (course, truck) = offered[i as usize % offered.len()].clone();
        let round = i / offered.len() as u32;
        let hands = Hands::ALL[round as usize % Hands::ALL.len()];
        Ride { course, truck, hands, seed: seed.wrapping_mul(1_000_003).wrapping_add(i) }
    };
    (0..count).map(ride).collect()
}

/// Drives, looks, and holds what was found against what was seen.
///
/// # Errors
/// One sentence when course or truck are not known or cannot be driven.
pub fn drive(ride: &Ride) -> Result<(Run, Held), BadInput> {
    let unknown = |what: &str, name: &str| BadInput::new("the ride", what, format!("no {name}"));
    let course = shipped::text_of_any(ride.course).ok_or_else(|| unknown("course", ride.course))?;
    let truck = spec::shipped::text(&ride.truck).ok_or_else(|| unknown("truck", &ride.truck))?;
    let setup = DriveSetup {
        course: course.to_owned(),
        truck: truck.to_owned(),
        rules: SHIPPED.to_owned(),
        checks: shipped::checks_of(course),
        seed: ride.seed,
        who: ride.hands.name().to_owned(),
        started: String::new(),
    };
    let mut session = Session::new(&setup)?;
    let rider = ride.hands.rider(session.setting(), u64::from(ride.seed));
    let mut rider = rider.ok_or_else(|| unknown("rider", ride.hands.name()))?;
    let mut oracle = Oracle::new(&session.setting().course, &session.setting().truck);
    let mut still = 0;
    oracle.see(Seen::of(&session.frame(), session.moment()));
    while session.ending().is_none() && session.moment().tick < MOST && still < STUCK {
        let input = rider.ride(session.moment());
        let moves = session.step(input).truck.speed.abs() > 0.01;
        still = if moves { 0 } else { still + 1 };
        oracle.see(Seen::of(&session.frame(), session.moment()));
    }
    let run = session.finish(1.0);
    let held = hold(&oracle, &run.claimed);
    Ok((run, held))
}

/// Looks at a run that was recorded, and holds what is found in it now against what is seen.
///
/// # Errors
/// One sentence when the set-up inside cannot be used.
pub fn look_at(run: &Run) -> Result<Held, BadInput> {
    let session = Session::again(run)?;
    let mut oracle = Oracle::new(&session.setting().course, &session.setting().truck);
    let verdict = drive_again(run, |s| oracle.see(Seen::of(&s.frame(), s.moment())))?;
    Ok(hold(&oracle, &verdict.debrief))
}

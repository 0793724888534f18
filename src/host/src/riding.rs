//! A scripted rider drives a course without being shown.

use coneyard_core::course::shipped;
use coneyard_core::rules::SHIPPED;
use coneyard_core::run::DriveSetup;
use coneyard_core::run::Run;

use crate::texts;
use crate::trouble::Trouble;

/// A ride to be taken.
pub struct NewRide<'a> {
    /// Course file or name.
    pub course: &'a str,
    /// Name of the rider.
    pub rider: &'a str,
    /// Seed.
    pub seed: u32,
    /// Truck file or name; None: the course's first.
    pub truck: Option<&'a str>,
    /// Name in the run.
    pub who: &'a str,
}

/// Drives until the course is done or can no longer be.
///
/// # Errors
/// One sentence when course or truck cannot be used.
pub fn ride(new: &NewRide<'_>) -> Result<Run, Trouble> {
    let course = texts::course(new.course)?;
    let truck = match new.truck {
        Some(truck) => texts::truck(truck)?,
        None => texts::first_truck_of(&course)?,
    };
    let setup = DriveSetup {
        checks: shipped::checks_of(&course.text),
        course: course.text,
        truck: truck.text,
        rules: SHIPPED.to_owned(),
        seed: new.seed,
        who: new.who.to_owned(),
        started: String::new(),
    };
    // Nobody waited for this drive: it was never slower than it should have been.
    coneyard_sim::ride(&setup, new.rider).map_err(|mut bad| {
        // The session knows only that it is the course or the truck; the person gave them names.
        if bad.file.contains("course") {
            bad.file = course.name;
        } else if bad.file.contains("truck") {
            bad.file = truck.name;
        }
        bad.into()
    })
}

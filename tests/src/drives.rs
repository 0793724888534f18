//! What is driven in the tests: every shipped course with each of its trucks.

use coneyard_core::course::shipped;
use coneyard_core::rules::SHIPPED;
use coneyard_core::run::DriveSetup;
use coneyard_core::truck::spec;
use coneyard_sim::ride;

/// The set-up of a drive on a shipped course, by a person named after a tree.
pub fn setup(course: &str, truck: &str, seed: u32) -> DriveSetup {
    let course = shipped::text_of_any(course).expect("a shipped course");
    DriveSetup {
        course: course.to_owned(),
        truck: spec::shipped::text(truck).expect("a shipped truck").to_owned(),
        rules: SHIPPED.to_owned(),
        checks: shipped::checks_of(course),
        seed,
        who: "Alder".to_owned(),
        started: "2026-01-05T08:00:00Z".to_owned(),
    }
}

/// The run file of a scripted rider's drive.
pub fn ridden(course: &str, truck: &str, rider: &str, seed: u32) -> String {
    ride(&setup(course, truck, seed), rider).expect("a shipped course can be driven").to_text()
}

/// Course and truck of every drive that the site offers.
pub fn offered() -> Vec<(&'static str, String)> {
    shipped::ALL
        .iter()
        .flat_map(|(name, _)| shipped::parse(name).trucks.into_iter().map(|truck| (*name, truck)))
        .collect()
}

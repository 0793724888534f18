//! Scripted riders: they see what a Moment holds and answer with Controls, as a person does.
//!
//! The `model` rider plans a path through the task, follows it with the real controls and drives
//! every shipped course clean; its times are the par times, and it can keep a trainee company in a
//! replay. The others are the same rider with one bad habit each (`faults`), to test that a fault
//! is seen and that nothing else is, or who attack the score (`attackers`): careless, cunning, and so
//! careful that a rule might not have thought of it. A rider knows the course and the truck, and nothing of the
//! simulation.

pub mod attackers;
pub mod corpus;
pub mod faults;
mod habits;
mod handling;
mod hands;
pub mod human;
mod inspecting;
mod keeps;
mod late;
mod model;
mod plan;
mod route;
mod slip;
mod speed;
#[cfg(test)]
mod tests;
mod track;
mod wits;

use crate::acts::Input;
use crate::course::Course;
use crate::moment::Moment;
use crate::rules::SiteRules;
use crate::truck::spec::TruckSpec;

pub use late::late_and_hurried;

/// Somebody who drives.
pub trait Rider: Send {
    /// What the rider does in the next tick, having seen this one.
    fn ride(&mut self, moment: &Moment) -> Input;

    /// Leaves the drive at that, having seen this one.
    fn stops(&self, _moment: &Moment) -> bool {
        false
    }
}

/// Name of the rider that makes no mistake.
pub const MODEL: &str = "model";

/// A rider by name: [`MODEL`], [`human::HUMAN`], one of [`faults::all`] on either side of its limit, or one
/// of [`attackers::all`]. The seed gives each their own pace, reaction and hand.
pub fn by_name(
    name: &str,
    course: &Course,
    truck: &TruckSpec,
    rules: &SiteRules,
    seed: u64,
) -> Option<Box<dyn Rider>> {
    if name == human::HUMAN {
        return Some(human::Human::drawn(seed).rider(course, truck, rules, seed));
    }
    let mut habits = habits::Habits::of_a_model(seed);
    habits.keep_to(rules);
    let mut trick = None;
    if let Some(attacker) = attackers::by_name(name) {
        trick = attacker.spoil(&mut habits, rules, seed);
    } else if name != MODEL {
        faults::by_name(name)?.1.spoil(&mut habits, seed);
    }
    let slip = habits.slip;
    let rider = Box::new(model::Model::new(course, truck, rules, habits));
    Some(match (slip, trick) {
        (Some(slip), _) => Box::new(slip::Slipping { rider, slip, begun: None }),
        (None, Some(trick)) => Box::new(attackers::Tricky::new(rider, trick)),
        (None, None) => rider,
    })
}

/// All riders' names for a sentence that tells which there are.
pub fn known() -> String {
    let list = |names: Vec<&str>| names.join(", ");
    format!(
        "{MODEL}, {}, {}; those also with {} after it: {}",
        human::HUMAN,
        list(attackers::all().map(|a| a.name).collect()),
        faults::INSIDE,
        list(faults::all().map(|f| f.name).collect())
    )
}

/// Names of all riders.
pub fn names() -> impl Iterator<Item = String> {
    let sides = faults::all().flat_map(|f| [f.name.to_owned(), f.name.to_owned() + faults::INSIDE]);
    let attackers = attackers::all().map(|a| a.name.to_owned());
    [MODEL, human::HUMAN].map(str::to_owned).into_iter().chain(sides).chain(attackers)
}

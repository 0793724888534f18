//! Scripted riders: they see what a Moment holds and answer with Controls, as a person does.
//!
//! The `model` rider plans a path through the task, follows it with the real controls and drives
//! every shipped course clean; its times are the par times, and it can keep a trainee company in a
//! replay. The others are the same rider with one bad habit each (`faults`), to test that a fault
//! is seen and that nothing else is. A rider knows the course and the truck, and nothing of the
//! simulation.

pub mod faults;
mod habits;
mod handling;
mod hands;
mod model;
mod plan;
mod speed;
#[cfg(test)]
mod tests;
mod track;
mod wits;

use crate::controls::Controls;
use crate::course::Course;
use crate::moment::Moment;
use crate::score::SiteRules;
use crate::truck::spec::TruckSpec;

/// Somebody who drives.
pub trait Rider: Send {
    /// What the rider does in the next tick, having seen this one.
    fn ride(&mut self, moment: &Moment) -> Controls;
}

/// Name of the rider that makes no mistake.
pub const MODEL: &str = "model";

/// A rider by name: [`MODEL`] or one of [`faults::ALL`]. The seed gives each their own pace,
/// reaction and hand.
pub fn by_name(
    name: &str,
    course: &Course,
    truck: &TruckSpec,
    rules: &SiteRules,
    seed: u64,
) -> Option<Box<dyn Rider>> {
    let mut habits = habits::Habits::of_a_model(seed);
    if name != MODEL {
        (faults::by_name(name)?.habit)(&mut habits);
    }
    Some(Box::new(model::Model::new(course, truck, rules, habits)))
}

/// Names of all riders.
pub fn names() -> impl Iterator<Item = &'static str> {
    core::iter::once(MODEL).chain(faults::ALL.iter().map(|f| f.name))
}

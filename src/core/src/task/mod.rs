//! Where one stands in the steps of a course: which step, which gate, what has just happened. It judges
//! nothing: whether a stop was good is for the watchers.

mod aim;
pub mod facts;
mod handling;
pub mod hint;
mod progress;
#[cfg(test)]
mod tests;
mod walk_round;

pub use aim::{aim, aim_from_the_leading_end};
pub use progress::{ERRORS_THAT_FAIL, MARK_REACH, Progress};

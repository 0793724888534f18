//! Where one stands in the steps of a course: which step, which gate, what has just happened. It judges
//! nothing: whether a stop was good is for the watchers.

pub mod facts;
mod handling;
mod progress;
#[cfg(test)]
mod tests;

pub use progress::{ERRORS_THAT_FAIL, MARK_REACH, Progress};

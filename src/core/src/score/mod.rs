//! Scoring: the judge, what there was to show, the points, and how sure they are.
//!
//! A debrief is a pure function of the Moments of a drive, its course, the truck and the rules.

pub mod certainty;
mod exposure;
mod extent;
mod judge;
pub mod points;
#[cfg(test)]
mod tests;

pub use exposure::Exposure;
pub use judge::Judge;
pub use points::passes;

//! Scoring: the site rules, the judge, the points, and how sure they are.
//!
//! A debrief is a pure function of the Moments of a drive, its course, the truck and the rules.

pub mod causes;
pub mod certainty;
mod file;
mod judge;
mod names;
mod own;
pub mod points;
pub mod rules;
#[cfg(test)]
mod tests;

pub use judge::Judge;
pub use own::SiteZone;
pub use points::passes;
pub use rules::SiteRules;

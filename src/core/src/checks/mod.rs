//! Checks before something is used: an [`Inspection`] of a dock from the truck, and the walk-round of a
//! truck before it is driven.
//!
//! `list` is the site's check list, points and what may be the matter with each; `draw` decides what is the
//! matter with a truck; `walk` is one walk-round from tick to tick; `sheet` is what it comes to on paper.

pub mod draw;
mod file;
mod inspection;
pub mod list;
pub mod sheet;
#[cfg(test)]
mod tests;
pub mod walk;

pub use inspection::{Inspected, Inspection, POINTS_MOST};

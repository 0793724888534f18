//! The site rules: which duties are watched, by which limits, and what a fault costs.
//!
//! `needs` and `terms` say which numbers there must be and how far each may reach, `file` how they are
//! written, `read` reads them, `site` holds them, `yardstick` hands them to a watcher.

mod changed;
mod edit;
mod file;
mod needs;
mod own;
mod read;
mod reader;
mod sheet;
mod site;
mod terms;
#[cfg(test)]
pub(crate) mod tests;
mod write;
mod yardstick;

pub use changed::{CHANGED_NOTES, CHANGED_POINTS, CHANGED_ZONES};
pub use edit::Edit;
pub use needs::{BELOW, DUTIES, Duty, Need, duty};
pub use read::SHIPPED;
pub use sheet::{Number, RuleRow, Sheet};
pub use site::{Graver, Limit, PassMarks, Points, Rule, SiteRules, SiteZone};
pub use terms::TERMS;
pub use yardstick::{Called, Common, Yardstick, over, seconds, ticks};

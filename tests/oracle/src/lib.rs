//! The oracle: looks at a drive from outside, tick by tick, and notes what did harm, by geometry alone.
//! It is there to be held against what the watchers found, so it knows nothing of them: outlines, places
//! and the course file go in, and distances come from a library of their own (crate `geo`).
//!
//! [`seen`] is what it looks at, [`notes`] what it writes down, one file for each kind of harm; [`answers`]
//! says which findings answer which harm, and what must be seen for a critical finding; [`hands`] are
//! those who drive, and [`ride`] lets them.

pub mod answers;
mod closing;
mod floor;
pub mod hands;
mod load;
mod morning;
pub mod notes;
pub mod oracle;
mod overhead;
mod people;
pub mod ride;
mod room;
pub mod seen;
mod shapes;
mod struck;
#[cfg(test)]
mod tests;

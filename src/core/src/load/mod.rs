//! The load: pallets and cases on the forks (`pallet`), what holds them (`friction`), how they
//! slide (`slide`) and rock (`rock`), and their state from tick to tick (`stack`, with a pallet's
//! own part in `standing`, a column's in `column`, and what is reported in `event`).
//!
//! Body frame: origin on the load axle, +x to the power unit and the backrest, +y left. A "push"
//! is what a thing on an accelerated support feels: minus the support's acceleration, m/s^2.

pub mod column;
pub mod event;
pub mod friction;
mod grid;
pub mod motion;
pub mod pallet;
pub mod rock;
pub mod slide;
pub mod stack;
pub mod standing;
pub mod tilt;

#[cfg(test)]
mod tests;

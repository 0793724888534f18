//! The adapter between the yard (`coneyard_core::yard`) and Rapier: what the truck pushes moves in Bevy's
//! entity world, headless.
//!
//! A [`Session`] is one drive: feed it [`Controls`](coneyard_core::controls::Controls) tick by
//! tick, take [`Moment`](coneyard_core::moment::Moment)s from it, and at the end a
//! [`Run`](coneyard_core::run::Run). [`replay`] drives a recorded run again. There is no renderer,
//! no device and no clock here, and everything is bit-identical on x86-64 and wasm32.

pub mod corpus;
pub mod curves;
mod engine;
mod replaying;
mod rides;
pub mod scenes;
mod spawn;
mod wander;

pub use engine::Engine;
pub use replaying::{Replay, drive_again, judge, replay};
pub use rides::{random_run, ride, ride_as, ride_by};

/// One drive, in which Rapier moves what the truck pushes.
pub type Session = coneyard_core::drive::Drive<Engine>;

/// A run judged by other rules than its own.
pub type JudgingBy = coneyard_core::drive::JudgingBy<Engine>;

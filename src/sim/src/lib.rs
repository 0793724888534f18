//! Coneyard in motion: core's rules, Bevy's entity world and Rapier's contacts, headless.
//!
//! A [`Session`] is one drive: feed it [`Controls`](coneyard_core::controls::Controls) tick by
//! tick, take [`Moment`](coneyard_core::moment::Moment)s from it, and at the end a
//! [`Run`](coneyard_core::run::Run). [`replay`] drives a recorded run again. There is no renderer,
//! no device and no clock here, and everything is bit-identical on x86-64 and wasm32.

mod contacts;
pub mod corpus;
mod floor;
pub mod frame;
mod motion;
mod replaying;
mod rides;
mod session;
mod setting;
mod spawn;
mod surroundings;
mod wander;

pub use frame::{ConeFrame, Frame};
pub use replaying::{Replay, drive_again, judge, replay};
pub use rides::{random_run, ride, ride_as};
pub use session::Session;
pub use setting::Setting;

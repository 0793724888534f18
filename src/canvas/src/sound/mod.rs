//! What a drive sounds like. A room of its own that hears Frames and nothing else, so that a replay sounds
//! as the drive did. `ear` makes of two Frames what is heard in a tick, plain numbers; `speaker` hands them
//! to the browser as they come, `rendered` a whole run at once. Nothing is told by sound alone: each has its
//! twin on the screen, which is named beside it here.

#[cfg(target_arch = "wasm32")]
mod board;
pub(crate) mod ear;
#[cfg(target_arch = "wasm32")]
pub(crate) mod rendered;
#[cfg(target_arch = "wasm32")]
mod shapes;
#[cfg(target_arch = "wasm32")]
pub(crate) mod speaker;
#[cfg(target_arch = "wasm32")]
mod strokes;
#[cfg(test)]
mod tests;

use coneyard_core::checks::list::Noise;
use coneyard_core::time::Tick;

/// What is heard in one tick.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Heard {
    /// The tick.
    pub(crate) tick: Tick,
    /// What goes on for as long as it is so.
    pub(crate) voices: Voices,
    /// What begins in this tick and ends by itself.
    pub(crate) once: Vec<Once>,
}

/// What goes on. Gains are shares of the loudest that a voice may be, 0 to 1; 0 is silent.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Voices {
    /// The motor. Twin: the speed on the instrument, and the word for plugging.
    pub(crate) motor: Motor,
    /// Lining on drum, a band of noise. Twin: the word for braking.
    pub(crate) brake: Band,
    /// Wheels that slide or spin. Twin: the streaks on the floor.
    pub(crate) slip: f32,
    /// The own horn. Twin: the word for it.
    pub(crate) horn: f32,
    /// The pump that lifts the forks. Twin: the forks on the instrument.
    pub(crate) pump: f32,
    /// Oil that runs back while they sink. Twin: the same.
    pub(crate) valve: f32,
    /// Horns of other trucks. Twin: the waves drawn at them, or on the side they come from.
    pub(crate) others: Vec<FarHorn>,
}

/// The motor's voice: a sawtooth and a square.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Motor {
    /// Hz.
    pub(crate) pitch: f32,
    /// How far the square lies beside the sawtooth, cents.
    pub(crate) detune: f32,
    /// Above this nothing passes, Hz.
    pub(crate) cutoff: f32,
    /// How loud.
    pub(crate) gain: f32,
    /// How deep it wobbles, 0 to 1.
    pub(crate) wobble: f32,
}

/// A band of noise.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Band {
    /// Its middle, Hz.
    pub(crate) middle: f32,
    /// How loud.
    pub(crate) gain: f32,
}

/// Another truck's horn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct FarHorn {
    /// Index among the other trucks of the course.
    pub(crate) other: u32,
    /// Where it comes from as the head is turned: -1 is left, 1 is right.
    pub(crate) pan: f32,
    /// Above this nothing passes, Hz: what is hidden sounds dull.
    pub(crate) cutoff: f32,
    /// How loud.
    pub(crate) gain: f32,
}

/// What ends by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Once {
    /// The key has come on: two relays. Twin: the word that the key is off goes.
    StartUp,
    /// The brake takes hold. Twin: the word for braking.
    BrakeOn,
    /// A cone falls. Twin: it lies.
    Cone,
    /// A case falls, with so many thuds. Twin: it lies on the floor.
    Case(u32),
    /// The load wheels roll over a joint, this loud. Twin: the joint that is drawn.
    Joint(f32),
    /// The truck runs into something that is no cone, this hard. Twin: the finding on the screen.
    Knock(f32),
    /// A point of the walk-round is tried. Twin: the words that say what is heard.
    Tried(Noise),
}

/// Pitches of the horns, Hz: the own one, and those of other trucks.
pub(crate) const HORN: [f32; 2] = [410.0, 515.0];
/// See there.
pub(crate) const FAR_HORN: [f32; 2] = [330.0, 392.0];
/// So often a second the motor wobbles while it plugs, Hz.
pub(crate) const WOBBLE: f32 = 28.0;
/// Middle of the noise of sliding wheels, Hz.
pub(crate) const SLIP: f32 = 1_800.0;

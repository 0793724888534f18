//! The yard on its canvas, for a browser: what the pages may call.
//!
//! Text in and out is JSON of the types in `coneyard_core::desk`. Every call may throw an error
//! whose message is one sentence. `judge`, `ride` and `random_run` work without a canvas.

// Only a browser draws. Everything up to the picture is plain code that is tested anywhere, where
// nothing calls it but its tests.
#![cfg_attr(not(target_arch = "wasm32"), allow(dead_code))]

mod aim;
mod canvas;
mod clock;
mod coarse;
mod dashboard;
#[cfg(target_arch = "wasm32")]
mod draw;
#[cfg(target_arch = "wasm32")]
pub mod exports;
mod headless;
mod joints;
mod live;
mod mix;
mod palette;
mod picture;
mod playback;
mod slices;
mod sound;
#[cfg(target_arch = "wasm32")]
mod stage;
mod streak;
#[cfg(test)]
mod tests;
mod unseen;
mod view;
#[cfg(target_arch = "wasm32")]
mod warm;

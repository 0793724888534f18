//! The yard on its canvas, for a browser: what the pages may call.
//!
//! Text in and out is JSON of the types in `coneyard_core::desk`. Every call may throw an error
//! whose message is one sentence. `judge`, `ride` and `random_run` work without a canvas.

// What only a browser uses is left out elsewhere, so that the rest can be tested anywhere.
#![cfg_attr(not(target_arch = "wasm32"), allow(dead_code))]

mod clock;
#[cfg(target_arch = "wasm32")]
mod dashboard;
#[cfg(target_arch = "wasm32")]
mod draw;
#[cfg(target_arch = "wasm32")]
pub mod exports;
#[cfg(target_arch = "wasm32")]
mod headless;
#[cfg(target_arch = "wasm32")]
mod live;
mod palette;
#[cfg(target_arch = "wasm32")]
mod playback;
#[cfg(target_arch = "wasm32")]
mod stage;
#[cfg(target_arch = "wasm32")]
mod view;
#[cfg(target_arch = "wasm32")]
mod warm;
#[cfg(target_arch = "wasm32")]
mod yard;

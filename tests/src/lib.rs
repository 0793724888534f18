//! What the whole-product tests share.

pub mod browser;
pub mod drives;
pub mod golden;
pub mod hasty;
pub mod key_hands;
pub mod key_rider;
pub mod mishaps;
pub mod thumb_hands;
pub mod wave;
pub mod yards;

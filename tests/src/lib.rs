//! What the whole-product tests share.

pub mod browser;
pub mod yards;

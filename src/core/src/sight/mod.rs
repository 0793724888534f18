//! What the rider can see: the visibility polygon of the eye among opaque things (`polygon`), as much
//! of it as is asked for (`outlook`), where the head is turned, who counts as seen, and how far the way
//! ahead is seen to be clear (`looking`). It knows nothing about people or trucks: they come in as discs and outlines.

pub mod cover;
pub mod looking;
pub mod outlook;
pub mod polygon;
mod round;
mod sides;
mod sweep;
#[cfg(test)]
mod tests;

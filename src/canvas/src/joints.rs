//! Saw-cut joints of a slab floor: they are drawn, and wheels that roll over them tick.

/// From one joint to the next, m.
pub(crate) const EVERY: f32 = 3.0;

/// The first is this far from the yard's origin, m: off the round numbers that edges are drawn at.
pub(crate) const FROM: f32 = 1.25;

/// Number of the slab at this place along either axis.
pub(crate) fn slab(at: f64) -> i64 {
    ((at - f64::from(FROM)) / f64::from(EVERY)).floor() as i64
}

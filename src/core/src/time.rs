//! Time in the yard: whole ticks, which no clock can hurry.

/// Ticks since the start of the drive, 64 to a second.
pub type Tick = u32;

/// Ticks a second: exact in binary.
pub const TICK_RATE: u32 = 64;

/// One tick, s.
pub const DT: f64 = 1.0 / 64.0;

//! How far the sensors behind a Moment reach. No rule asks for more: see `rules::needs`.

/// A line across the way is told of from so far ahead, m.
pub const LINES_AHEAD: f64 = 12.0;

/// Another truck on the way is told of from so far ahead, m.
pub const TRUCKS_AHEAD: f64 = 30.0;

/// A gap beside the rider is followed up to so much, m.
pub const BESIDE_THE_RIDER: f64 = 1.5;

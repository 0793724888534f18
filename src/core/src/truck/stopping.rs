//! How far a stop takes: for the helps on the floor, for placing what steps out, and for judging
//! whether one can stop in the distance that one sees.

/// Distance of a stop from a speed, m/s, with a reaction time, s, and a steady deceleration,
/// m/s^2: v t + v^2 / 2a, m (stopping sight distance, AASHTO, A Policy on Geometric Design of
/// Highways and Streets). Infinite when there is no deceleration.
pub fn stopping_distance(speed: f64, reaction_s: f64, deceleration: f64) -> f64 {
    let v = speed.abs();
    v * reaction_s + v * v / (2.0 * deceleration)
}

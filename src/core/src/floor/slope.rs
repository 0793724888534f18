//! What a slope does to a truck that stands or drives on it: the part of its weight that pulls it
//! downhill along the floor, and the part that presses it on the floor.

use crate::math::{G, Vec2};

/// Weight on a floor, as accelerations of the truck's mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slope {
    /// Pull along the floor, body frame, m/s^2: g sin, downhill.
    pub pull: Vec2,
    /// What presses on the floor, m/s^2: g cos.
    pub press: f64,
}

impl Slope {
    /// A level floor.
    pub const LEVEL: Self = Self { pull: Vec2 { x: 0.0, y: 0.0 }, press: G };

    /// A floor that rises towards `uphill`, a unit vector in the body frame, by `grade`, rise over
    /// way on the level.
    pub fn rising(uphill: Vec2, grade: f64) -> Self {
        let way = (1.0 + grade * grade).sqrt();
        Self { pull: -uphill * (G * grade / way), press: G / way }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::vec2;

    /// 3 in 4 is the triangle with sides 3, 4 and 5.
    #[test]
    fn pull_and_press_are_the_sides_of_the_triangle() {
        let s = Slope::rising(vec2(0.0, 1.0), 0.75);
        assert!((s.pull - vec2(0.0, -0.6 * G)).length() < 1e-12);
        assert!((s.press - 0.8 * G).abs() < 1e-12);
        assert_eq!(Slope::rising(vec2(1.0, 0.0), 0.0).press, Slope::LEVEL.press);
    }
}

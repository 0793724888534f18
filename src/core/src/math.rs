//! Maths whose bits are the same on every platform.
//!
//! The platform's own sine may differ in the last bit between a server and a browser, and one
//! bit is enough to break a replay. Everything between Controls and Digest goes through `libm`;
//! `clippy.toml` forbids the methods of `f64` that do not. Sums, products, quotients and square
//! roots are exact by IEEE 754 already.

use serde::{Deserialize, Serialize};

pub use libm::{acos, asin, atan, atan2, cos, exp, hypot, log as ln, pow, sin, tan};

/// Standard gravity, m/s^2 (ISO 80000-3).
pub const G: f64 = 9.80665;

/// Degrees in one radian, for screens and files; inside, angles are radians.
pub const DEG: f64 = core::f64::consts::PI / 180.0;

/// A point or a vector in the plane, metres unless its name says otherwise.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(from = "[f64; 2]", into = "[f64; 2]")]
pub struct Vec2 {
    /// East in the yard frame, towards the power unit in the body frame.
    pub x: f64,
    /// North in the yard frame, left in the body frame (ISO 8855).
    pub y: f64,
}

impl From<[f64; 2]> for Vec2 {
    fn from([x, y]: [f64; 2]) -> Self {
        Self { x, y }
    }
}

impl From<Vec2> for [f64; 2] {
    fn from(v: Vec2) -> Self {
        [v.x, v.y]
    }
}

/// Short for a point or vector.
pub const fn vec2(x: f64, y: f64) -> Vec2 {
    Vec2 { x, y }
}

impl Vec2 {
    /// The unit vector at an angle counter-clockwise from +x, radians.
    pub fn from_angle(angle: f64) -> Self {
        vec2(cos(angle), sin(angle))
    }
    /// Scalar product.
    pub fn dot(self, o: Self) -> f64 {
        self.x * o.x + self.y * o.y
    }
    /// The z component of the vector product: positive when `o` lies to the left of `self`.
    pub fn cross(self, o: Self) -> f64 {
        self.x * o.y - self.y * o.x
    }
    /// Length.
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }
    /// Turned by a quarter turn to the left.
    pub fn left(self) -> Self {
        vec2(-self.y, self.x)
    }
    /// Turned counter-clockwise by an angle in radians.
    pub fn rotated(self, angle: f64) -> Self {
        let (s, c) = (sin(angle), cos(angle));
        vec2(c * self.x - s * self.y, s * self.x + c * self.y)
    }
    /// Same direction, length 1; the zero vector stays zero.
    pub fn normalized(self) -> Self {
        let l = self.length();
        if l > 0.0 { self * (1.0 / l) } else { self }
    }
    /// The angle counter-clockwise from +x, radians in (-pi, pi].
    pub fn angle(self) -> f64 {
        atan2(self.y, self.x)
    }
}

impl core::ops::Add for Vec2 {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        vec2(self.x + o.x, self.y + o.y)
    }
}
impl core::ops::Sub for Vec2 {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        vec2(self.x - o.x, self.y - o.y)
    }
}
impl core::ops::Mul<f64> for Vec2 {
    type Output = Self;
    fn mul(self, k: f64) -> Self {
        vec2(self.x * k, self.y * k)
    }
}
impl core::ops::Neg for Vec2 {
    type Output = Self;
    fn neg(self) -> Self {
        vec2(-self.x, -self.y)
    }
}

/// Where something is and which way it points.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Pose {
    /// Position in the yard frame, metres.
    pub at: Vec2,
    /// Heading of the body's +x axis, radians counter-clockwise from east.
    pub heading: f64,
}

impl Pose {
    /// A point of the body frame in the yard frame.
    pub fn to_yard(self, in_body: Vec2) -> Vec2 {
        self.at + in_body.rotated(self.heading)
    }
    /// The same for many points at once: sine and cosine are worked out only once.
    pub fn placer(self) -> impl Fn(Vec2) -> Vec2 {
        let (s, c) = (sin(self.heading), cos(self.heading));
        move |p| self.at + vec2(c * p.x - s * p.y, s * p.x + c * p.y)
    }
    /// The way back from [`Pose::placer`], for many points at once.
    pub fn finder(self) -> impl Fn(Vec2) -> Vec2 {
        let (s, c) = (sin(-self.heading), cos(-self.heading));
        move |p| {
            let d = p - self.at;
            vec2(c * d.x - s * d.y, s * d.x + c * d.y)
        }
    }
    /// A point of the yard frame in the body frame.
    pub fn to_body(self, in_yard: Vec2) -> Vec2 {
        (in_yard - self.at).rotated(-self.heading)
    }
}

/// An angle brought into (-pi, pi], radians.
pub fn wrap_angle(a: f64) -> f64 {
    let turn = 2.0 * core::f64::consts::PI;
    let r = a - turn * ((a + core::f64::consts::PI) / turn).floor();
    if r <= -core::f64::consts::PI { r + turn } else { r }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_point_survives_the_way_to_the_body_and_back() {
        let pose = Pose { at: vec2(3.0, -2.0), heading: 2.3 };
        assert_eq!(pose.placer()(vec2(1.0, 5.0)), pose.to_yard(vec2(1.0, 5.0)));
        let back = pose.to_yard(pose.to_body(vec2(1.0, 5.0)));
        assert!((back - vec2(1.0, 5.0)).length() < 1e-12);
    }

    #[test]
    fn angles_wrap_into_half_open_range() {
        let pi = core::f64::consts::PI;
        assert!((wrap_angle(3.0 * pi) - pi).abs() < 1e-12);
        assert!((wrap_angle(-pi) - pi).abs() < 1e-12);
        assert!((wrap_angle(0.5) - 0.5).abs() < 1e-12);
    }
}

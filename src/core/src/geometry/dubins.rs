//! Shortest ways between two poses for something that only goes ahead and turns no tighter than a
//! radius: arc, straight, arc (L. E. Dubins, American Journal of Mathematics 79, 1957; the three
//! arc words, which are shorter only for poses nearer than four radii, are left out).

use core::f64::consts::PI;

use crate::math::{Pose, Vec2, asin, wrap_angle};

/// An arc, a straight and an arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Curve {
    /// Curvature, 1/m, left positive, and length, m, of each part.
    pub parts: [(f64, f64); 3],
}

impl Curve {
    /// Whole length, m.
    pub fn length(&self) -> f64 {
        self.parts.iter().map(|p| p.1).sum()
    }

    /// Sum of the turning of both arcs, to either side, rad.
    pub fn turning(&self) -> f64 {
        self.parts.iter().map(|(k, l)| k.abs() * l).sum()
    }

    /// The pose after `s` metres of the way from `start`.
    pub fn pose_at(&self, start: Pose, s: f64) -> Pose {
        let mut left = s;
        let mut pose = start;
        for (k, length) in self.parts {
            let step = left.min(length).max(0.0);
            pose = along_arc(pose, k, step);
            left -= step;
        }
        pose
    }
}

/// The pose after `s` metres along a constant curvature.
fn along_arc(from: Pose, curvature: f64, s: f64) -> Pose {
    let turn = curvature * s;
    if turn.abs() < 1e-9 {
        return Pose { at: from.at + Vec2::from_angle(from.heading) * s, heading: from.heading };
    }
    let to_middle = Vec2::from_angle(from.heading).left() * (1.0 / curvature);
    let middle = from.at + to_middle;
    Pose { at: middle - to_middle.rotated(turn), heading: wrap_angle(from.heading + turn) }
}

/// The shortest way from one pose to another.
pub fn shortest(from: Pose, to: Pose, radius: f64) -> Curve {
    let mut best: Option<Curve> = None;
    for first in [1.0, -1.0] {
        for last in [1.0, -1.0] {
            let Some(way) = word(from, to, radius, first, last) else {
                continue;
            };
            if best.is_none_or(|b| way.length() < b.length()) {
                best = Some(way);
            }
        }
    }
    // Left-straight-left always exists.
    best.unwrap_or(Curve { parts: [(0.0, 0.0); 3] })
}

/// The way with the widest arcs that goes no odd way about it and that is allowed, which is how
/// people drive: no tighter than there is need for. A single bend turns no more than the tightest
/// way does; an even double bend may turn twice as much, for then it is one flowing curve.
pub fn widest(
    from: Pose,
    to: Pose,
    least: f64,
    most: f64,
    allowed: impl Fn(&Curve) -> bool,
) -> Curve {
    const STEPS: u32 = 80;
    let tight = shortest(from, to, least);
    let [(first, a), _, (last, b)] = tight.parts;
    let even_double = first * last < 0.0 && a.min(b) > 0.3 * (a + b);
    let turning = tight.turning() * if even_double { 2.0 } else { 1.0 } + 0.06;
    let fits = |w: &Curve| w.turning() <= turning && w.length() <= 1.25 * tight.length() + 0.5;
    (0..STEPS)
        .map(|i| most + (least - most) * f64::from(i) / f64::from(STEPS))
        .map(|radius| shortest(from, to, radius))
        .find(|w| fits(w) && allowed(w))
        .unwrap_or(tight)
}

/// Arc to the side `first`, straight, arc to the side `last`; 1 is left, -1 right.
fn word(from: Pose, to: Pose, radius: f64, first: f64, last: f64) -> Option<Curve> {
    let middle = |p: Pose, side: f64| p.at + Vec2::from_angle(p.heading).left() * (side * radius);
    let d = middle(to, last) - middle(from, first);
    let apart = d.length();
    let (straight, heading) = if first == last {
        let heading = if apart > 1e-9 { d.angle() } else { from.heading };
        (apart, heading)
    } else {
        if apart < 2.0 * radius {
            return None;
        }
        let straight = (apart * apart - 4.0 * radius * radius).sqrt();
        (straight, d.angle() + first * asin((2.0 * radius / apart).min(1.0)))
    };
    let arc = |from: f64, to: f64, side: f64| {
        let turn = wrap_angle((to - from) * side);
        // A hair less than nothing is nothing, not a whole turn.
        if turn < -1e-7 { turn + 2.0 * PI } else { turn.max(0.0) }
    };
    Some(Curve {
        parts: [
            (first / radius, radius * arc(from.heading, heading, first)),
            (0.0, straight),
            (last / radius, radius * arc(heading, to.heading, last)),
        ],
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::vec2;
    use proptest::prelude::*;

    fn pose(x: f64, y: f64, degrees: f64) -> Pose {
        Pose { at: vec2(x, y), heading: degrees.to_radians() }
    }

    proptest! {
        #[test]
        fn every_way_arrives(
            x in -20.0..20.0f64, y in -20.0..20.0f64,
            h0 in -180.0..180.0f64, h1 in -180.0..180.0f64, r in 1.0..6.0f64,
        ) {
            let (from, to) = (pose(0.0, 0.0, h0), pose(x, y, h1));
            let way = shortest(from, to, r);
            let end = way.pose_at(from, way.length());
            prop_assert!((end.at - to.at).length() < 1e-6, "{:?}", end);
            prop_assert!(wrap_angle(end.heading - to.heading).abs() < 1e-6);
            prop_assert!(way.length() >= (to.at - from.at).length() - 1e-9);
        }
    }

    #[test]
    fn a_quarter_turn_is_driven_as_one_wide_arc() {
        let way = widest(pose(0.0, 0.0, 0.0), pose(4.0, 4.0, 90.0), 2.0, 10.0, |_| true);
        assert!((way.turning() - PI / 2.0).abs() < 0.07);
        let widest_arc = way.parts.iter().map(|p| p.0.abs()).fold(0.0, f64::max);
        assert!((1.0 / widest_arc - 4.0).abs() < 0.2, "{way:?}");
    }

    /// Aside by 2 m over 9 m: tan(a / 2) = 2 / 9, R = 9 / (2 sin a).
    #[test]
    fn a_double_bend_is_driven_as_one_flowing_curve() {
        let way = widest(pose(0.0, 0.0, 0.0), pose(9.0, 2.0, 0.0), 2.0, 14.0, |_| true);
        let tightest = way.parts.iter().map(|p| p.0.abs()).fold(0.0, f64::max);
        let half = crate::math::atan(2.0 / 9.0);
        assert!(
            (1.0 / tightest - 9.0 / (2.0 * crate::math::sin(2.0 * half))).abs() < 0.2,
            "{way:?}"
        );
    }
}

//! The track of the load axle that brings the platform through what is planned for it.
//!
//! A path of arcs and straights is laid for a guide point: the platform when driving power unit
//! first, the point as far behind the load axle when driving forks first. The load axle rolls
//! after it like a trailer on a drawbar; it always points to the guide. So its track needs no
//! jump of the drive wheel, though the guide's path is made of arcs.

use crate::geometry::dubins::Curve;
use crate::math::{Pose, Vec2, atan, cos, sin, tan, wrap_angle};
use crate::truck::spec::TruckSpec;

/// Distance from one sample to the next along the guide's path, m.
pub(super) const STEP: f64 = 0.05;
/// Small steps in each, for the drawbar.
const FINE: usize = 5;

/// One place on a track.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sample {
    /// Middle of the load axle; the heading is the direction of motion, not that of the truck.
    pub(super) axle: Pose,
    /// Curvature of the axle's track, 1/m, left positive.
    pub(super) curvature: f64,
    /// Curve of the axle from the start, m.
    pub(super) s: f64,
    /// The guide.
    pub(super) guide: Vec2,
    /// Speed of the axle to be driven here, m/s; `speed` fills it in.
    pub(super) speed: f64,
}

/// The guide's path as closely spaced points.
pub(super) fn guide_points(from: Pose, ways: &[Curve]) -> Vec<Pose> {
    let mut points = vec![from];
    let mut start = from;
    let mut rest = 0.0;
    for way in ways {
        let length = way.length();
        let mut s = STEP - rest;
        while s <= length {
            points.push(way.pose_at(start, s));
            s += STEP;
        }
        rest = length - (s - STEP);
        start = way.pose_at(start, length);
    }
    if rest > 1e-6 {
        points.push(start);
    }
    points
}

/// The axle's track behind a guide that starts at `drawbar` ahead of it.
pub(super) fn follow(guide: &[Pose], drawbar: f64) -> Vec<Sample> {
    let Some(first) = guide.first() else { return Vec::new() };
    let mut heading = first.heading;
    let mut s = 0.0;
    let sample = |g: &Pose, heading: f64, s: f64| Sample {
        axle: Pose { at: g.at - Vec2::from_angle(heading) * drawbar, heading },
        curvature: tan(wrap_angle(g.heading - heading).clamp(-1.4, 1.4)) / drawbar,
        s,
        guide: g.at,
        speed: 0.0,
    };
    let mut samples = vec![sample(first, heading, s)];
    for pair in guide.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let step = (b.at - a.at).length() / FINE as f64;
        let turn = wrap_angle(b.heading - a.heading);
        for i in 0..FINE {
            let towards = a.heading + turn * (i as f64 + 0.5) / FINE as f64;
            let off = wrap_angle(towards - heading);
            heading += sin(off) / drawbar * step;
            s += cos(off) * step;
        }
        samples.push(sample(&b, heading, s));
    }
    samples
}

/// Angle of the drive wheel that holds a curvature of the axle's track, rad, left positive.
/// `direction` is 1 power unit first, -1 forks first.
pub(super) fn steer_for(curvature: f64, direction: f64, truck: &TruckSpec) -> f64 {
    direction * atan(truck.geometry.wheelbase_m * curvature)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::vec2;

    /// On a long circle of the guide with radius R the axle settles at sqrt(R^2 - d^2).
    #[test]
    fn the_axle_settles_inside_the_guides_circle() {
        let (radius, drawbar) = (3.6, 1.32);
        let way = Curve { parts: [(1.0 / radius, 30.0), (0.0, 0.0), (0.0, 0.0)] };
        let from = Pose { at: vec2(0.0, -radius), heading: 0.0 };
        let samples = follow(&guide_points(from, &[way]), drawbar);
        let last = samples[samples.len() - 1];
        let settled = (radius * radius - drawbar * drawbar).sqrt();
        assert!((last.axle.at.length() - settled).abs() < 5e-3, "{}", last.axle.at.length());
        assert!((1.0 / last.curvature - settled).abs() < 2e-2);
        // Where the guide is, the drawbar is as long as it should be.
        for s in &samples {
            assert!(((s.guide - s.axle.at).length() - drawbar).abs() < 1e-9);
        }
    }
}

//! Outlines, and how far apart they are, by the crate geo (georust), whose predicates are exact.

use coneyard_core::math::{Pose, Vec2, vec2};
use geo::{Coord, Distance as _, Euclidean, Intersects as _, Line, LineString, Point, Polygon};

/// An outline in the yard, m, with a box along the axes that holds it, for telling quickly that two are far
/// apart.
#[derive(Clone, Debug)]
pub(crate) struct Shape {
    corners: Vec<Vec2>,
    polygon: Polygon,
    low: Vec2,
    high: Vec2,
}

fn coord(p: Vec2) -> Coord {
    Coord { x: p.x, y: p.y }
}

impl Shape {
    pub(crate) fn new(corners: &[Vec2]) -> Self {
        let none = vec2(f64::INFINITY, f64::INFINITY);
        let (low, high) = corners.iter().fold((none, -none), |(low, high), p| {
            (vec2(low.x.min(p.x), low.y.min(p.y)), vec2(high.x.max(p.x), high.y.max(p.y)))
        });
        let ring: LineString = corners.iter().map(|p| coord(*p)).collect();
        Self { corners: corners.to_vec(), polygon: Polygon::new(ring, vec![]), low, high }
    }

    /// A rectangle with its length along the heading.
    pub(crate) fn rectangle(pose: Pose, size: Vec2) -> Self {
        let half = size * 0.5;
        let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
        Self::new(&corners.map(|(x, y)| pose.to_yard(vec2(x * half.x, y * half.y))))
    }

    /// The same outline, carried along with a body.
    pub(crate) fn carried(&self, from: Pose, to: Pose) -> Self {
        let corners: Vec<Vec2> =
            self.corners.iter().map(|p| to.to_yard(from.to_body(*p))).collect();
        Self::new(&corners)
    }

    /// The same outline so far beside.
    pub(crate) fn beside(&self, by: Vec2) -> Self {
        Self::new(&self.corners.iter().map(|p| *p + by).collect::<Vec<_>>())
    }

    /// Its corners, in order.
    pub(crate) fn corners(&self) -> &[Vec2] {
        &self.corners
    }

    /// Clear distance, m; 0 where they share a point.
    pub(crate) fn apart(&self, other: &Self) -> f64 {
        Euclidean.distance(&self.polygon, &other.polygon)
    }

    /// They are at least so far apart, m: quick, and never too far.
    pub(crate) fn apart_at_least(&self, other: &Self) -> f64 {
        let (a, b) = (self.low - other.high, other.low - self.high);
        a.x.max(b.x).max(a.y).max(b.y)
    }

    pub(crate) fn meets(&self, other: &Self) -> bool {
        self.apart_at_least(other) <= 0.0 && self.polygon.intersects(&other.polygon)
    }

    /// Clear distance to a point, m; 0 inside.
    pub(crate) fn to_point(&self, p: Vec2) -> f64 {
        Euclidean.distance(&Point(coord(p)), &self.polygon)
    }

    /// No point of it is nearer than this, m.
    pub(crate) fn to_point_at_least(&self, p: Vec2) -> f64 {
        (self.low.x - p.x).max(p.x - self.high.x).max(self.low.y - p.y).max(p.y - self.high.y)
    }

    pub(crate) fn holds(&self, p: Vec2) -> bool {
        self.polygon.intersects(&Point(coord(p)))
    }

    /// The point of it that is nearest to a point; the point itself when it lies inside.
    pub(crate) fn nearest_to(&self, p: Vec2) -> Vec2 {
        use geo::{Closest, ClosestPoint as _};
        match self.polygon.closest_point(&Point(coord(p))) {
            Closest::Intersection(q) | Closest::SinglePoint(q) => vec2(q.x(), q.y()),
            Closest::Indeterminate => p,
        }
    }
}

/// Whether a way from one point to another goes over a line.
pub(crate) fn goes_over(way: [Vec2; 2], line: [Vec2; 2]) -> bool {
    let of = |[a, b]: [Vec2; 2]| Line::new(coord(a), coord(b));
    of(way).intersects(&of(line))
}

/// From a point to a line, m.
pub(crate) fn distance_to(p: Vec2, line: [Vec2; 2]) -> f64 {
    Euclidean.distance(&Point(coord(p)), &Line::new(coord(line[0]), coord(line[1])))
}

/// How a body goes on that was at one pose and a tick later at another: where it is so many ticks after
/// the second, if nothing holds it up.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Motion {
    here: Pose,
    step: Vec2,
    turn: f64,
}

impl Motion {
    pub(crate) fn of(before: Pose, here: Pose) -> Self {
        let turn = coneyard_core::math::wrap_angle(here.heading - before.heading);
        Self { here, step: here.at - before.at, turn }
    }

    pub(crate) fn at(&self, ticks: f64) -> Pose {
        let Self { here, step, turn } = *self;
        // The way bends as it turns: half of the turn lies between the two steps' directions.
        let bent = step.rotated(0.5 * turn * (ticks + 1.0));
        Pose { at: here.at + bent * ticks, heading: here.heading + turn * ticks }
    }

    /// No point of a body of this radius round `about` goes farther in a tick, m.
    pub(crate) fn most(&self, reach: f64) -> f64 {
        self.step.length() + self.turn.abs() * reach
    }
}

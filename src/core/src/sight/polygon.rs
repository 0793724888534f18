//! The visibility polygon: every point that a straight line from the eye reaches before it meets
//! something opaque, the edge of the floor or the edge of the field of view. The sweep that finds it
//! is in `sweep`; here is what it takes in and what can be asked of it.

use crate::geometry::distance_to_polygon;
use crate::math::{Vec2, vec2};
use crate::sight::sides::{Corner, Gaze, is_beyond, key};
use crate::sight::sweep::Sweep;

pub use crate::sight::sides::Side;
pub use crate::sight::sweep::Buffers;

/// Something opaque between two points, yard frame, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// One end.
    pub from: Vec2,
    /// Other end.
    pub to: Vec2,
}

/// The middle of the field of view and how far it reaches on either side.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Field {
    /// Unit vector in which the rider looks, yard frame.
    pub look: Vec2,
    /// Unit vector at half the field's opening from +x: (cos, sin) of that angle, sin >= 0. A
    /// constant, so that no sine is computed in a tick.
    pub half: Vec2,
}

/// Half the opening of a rider's field of view is 95 degrees (typical of people, no source):
/// (cos 95, sin 95), written out so that it is the same constant everywhere.
pub const HALF_FIELD: Vec2 = vec2(-0.087_155_742_747_658_17, 0.996_194_698_091_745_5);

/// All that is seen in one tick.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct View {
    gaze: Gaze,
    /// How far the field opens.
    half: Vec2,
    /// The far boundary, counter-clockwise from the right edge of the field to its left edge, yard
    /// frame, m. With the eye as one more corner it is the visibility polygon.
    pub boundary: Vec<Vec2>,
    /// Place of each boundary point in the order of directions.
    keys: Vec<f64>,
}

/// Adds the edges of a rectangle, corners counter-clockwise, that face the eye. Those on its far
/// side are hidden by them. From inside all of them are added.
pub fn add_facing(outline: &[Vec2; 4], eye: Vec2, out: &mut Vec<Segment>) {
    let sides = facing(outline, eye).map(|(i, j)| Segment { from: outline[i], to: outline[j] });
    out.extend(sides);
}

/// The same, as the indices of the corners at both ends of each.
pub(super) fn facing(
    outline: &[Vec2; 4],
    eye: Vec2,
) -> impl Iterator<Item = (usize, usize)> + use<> {
    let [a, b, c, d] = *outline;
    let sides = [(a, b), (b, c), (c, d), (d, a)];
    let faces = sides.map(|(from, to)| (to - from).cross(eye - from) < 0.0);
    let outside = faces.contains(&true);
    (0..4).filter(move |i| faces[*i] || !outside).map(|i| (i, (i + 1) % 4))
}

/// Sides of the same as they are seen.
pub(super) fn sides_facing(outline: &[Vec2; 4], gaze: Gaze) -> impl Iterator<Item = Side> + use<> {
    let corners = outline.map(|p| Corner::new(gaze.to_look(p)));
    facing(outline, gaze.eye).filter_map(move |(i, j)| Side::new(corners[i], corners[j]))
}

/// The edge of the floor, given by its south-west and north-east corners, as it is seen.
pub(super) fn walls(gaze: Gaze, floor: (Vec2, Vec2)) -> impl Iterator<Item = Side> + use<> {
    let Gaze { eye, .. } = gaze;
    let (min, max) = (
        vec2(floor.0.x.min(eye.x - BEYOND), floor.0.y.min(eye.y - BEYOND)),
        vec2(floor.1.x.max(eye.x + BEYOND), floor.1.y.max(eye.y + BEYOND)),
    );
    let corners = [min, vec2(max.x, min.y), max, vec2(min.x, max.y)];
    let corners = corners.map(|p| Corner::new(gaze.to_look(p)));
    (0..4).filter_map(move |i| Side::new(corners[i], corners[(i + 1) % 4]))
}

/// Whether a line between two points, seen from the eye, is farther away for certain than the root of a
/// squared distance, m^2. So it is told of most, without asking it point by point.
pub(super) fn is_farther(a: Vec2, b: Vec2, squared: f64) -> bool {
    let along = b - a;
    // No point of it is nearer than its middle would be if both ends were as near as the nearer one.
    a.dot(a).min(b.dot(b)) - 0.25 * along.dot(along) > squared + CERTAIN_SQUARED
}

/// Whether nothing opaque lies between two points. Touching counts as lying between.
pub fn clear_line(a: Vec2, b: Vec2, opaque: &[Segment]) -> bool {
    let ab = b - a;
    !opaque.iter().any(|s| {
        let along = s.to - s.from;
        let (f, t) = (ab.cross(s.from - a), ab.cross(s.to - a));
        let (p, q) = (along.cross(a - s.from), along.cross(b - s.from));
        // On the same line neither lies on a side of the other: an edge seen end-on hides nothing.
        f * t <= 0.0 && p * q <= 0.0 && (f != t || p != q)
    })
}

/// What lies this far within the boundary, m^2 and in keys, does so whatever the rounding.
pub(super) const CERTAIN: f64 = 1e-9;

/// And what differs by this much in squared distances, m^2.
const CERTAIN_SQUARED: f64 = 1e-6;

/// A floor that does not hold the eye is taken to reach this far beyond it, m.
const BEYOND: f64 = 1e-3;

/// What is seen from `eye` within `field` among opaque segments on a floor, given by its
/// south-west and north-east corners.
pub fn view(eye: Vec2, field: &Field, floor: (Vec2, Vec2), opaque: &[Segment]) -> View {
    let gaze = Gaze { eye, look: field.look };
    let corner = |p: Vec2| Corner::new(gaze.to_look(p));
    let sides = opaque.iter().filter_map(|s| Side::new(corner(s.from), corner(s.to)));
    let mut view = View::default();
    view.look_from(eye, field, floor, sides, &mut Buffers::default());
    view
}

impl View {
    /// What is seen now among opaque sides as they are seen from here, in the room that the view before
    /// took up. `floor` is given by its south-west and north-east corners.
    pub fn look_from(
        &mut self,
        eye: Vec2,
        field: &Field,
        floor: (Vec2, Vec2),
        opaque: impl Iterator<Item = Side>,
        room: &mut Buffers,
    ) {
        let gaze = Gaze { eye, look: field.look };
        let mut sweep = Sweep::new(field.half, core::mem::take(room));
        walls(gaze, floor).chain(opaque).enumerate().for_each(|(id, side)| sweep.add(id, &side));
        *room = sweep.trace();
        (self.gaze, self.half) = (gaze, field.half);
        self.boundary.clear();
        self.boundary.extend(room.points.iter().map(|p| gaze.to_yard(*p)));
        core::mem::swap(&mut self.keys, &mut room.keys);
    }

    /// The whole visibility polygon, counter-clockwise, the eye first.
    pub fn polygon(&self) -> Vec<Vec2> {
        core::iter::once(self.gaze.eye).chain(self.boundary.iter().copied()).collect()
    }

    /// Whether a point is seen. The nearest surface itself counts as seen.
    pub fn holds(&self, p: Vec2) -> bool {
        let k = key(self.gaze.to_look(p));
        let after = self.keys.partition_point(|q| *q < k);
        if after == 0 {
            // Before the field, or on its very edge.
            return self.keys.first() == Some(&k) && self.within(p, 0);
        }
        after < self.keys.len() && self.within(p, after - 1)
    }

    /// Whether everything between these points is seen for certain: their convex hull. False when one
    /// of them is not, or when it cannot be told so quickly.
    pub fn holds_hull(&self, points: impl Iterator<Item = Vec2> + Clone) -> bool {
        let (mut least, mut most, mut farthest) = (f64::INFINITY, f64::NEG_INFINITY, 0.0_f64);
        for p in points.clone().map(|p| self.gaze.to_look(p)) {
            let k = key(p);
            (least, most, farthest) = (least.min(k), most.max(k), farthest.max(p.dot(p)));
        }
        let (least, most) = (least - CERTAIN, most + CERTAIN);
        let (Some(first), Some(last)) = (self.keys.first(), self.keys.last()) else { return false };
        // What reaches round the eye or across the ray backwards is not one range of directions.
        if most - least > 1.0 || least <= *first || most >= *last {
            return false;
        }
        let from = self.keys.partition_point(|k| *k < least) - 1;
        let to = self.keys.partition_point(|k| *k <= most);
        (from..to).all(|i| {
            let (a, b) = (self.boundary[i], self.boundary[i + 1]);
            // Where the boundary leaps from near to far no direction lies between.
            self.keys[i] == self.keys[i + 1]
                || is_farther(a - self.gaze.eye, b - self.gaze.eye, farthest)
                || points.clone().all(|p| (b - a).cross(p - a) > CERTAIN)
        })
    }

    /// Whether a point is no farther than the boundary from point `i` to the next.
    fn within(&self, p: Vec2, i: usize) -> bool {
        let (a, b) = (self.boundary[i], self.boundary[(i + 1).min(self.boundary.len() - 1)]);
        (b - a).cross(p - a) >= 0.0
    }

    /// Whether a clear line leads to any part of a disc: what is seen of it first is its outline.
    pub fn reaches_disc(&self, middle: Vec2, radius: f64) -> bool {
        let d = self.gaze.to_look(middle);
        let away = d.length();
        if away > radius && is_beyond(self.half, d, radius) {
            return false;
        }
        // Who stands in view is seen: that is quick to tell.
        if away <= radius || self.holds(middle) {
            return true;
        }
        // Directions of both tangents, without an angle: turned by asin(radius / away).
        let (s, c) = (radius / away, (1.0 - radius * radius / (away * away)).sqrt());
        let first = key(vec2(c * d.x + s * d.y, c * d.y - s * d.x));
        let last = key(vec2(c * d.x - s * d.y, c * d.y + s * d.x));
        let n = self.keys.len();
        let (lo, hi) = if first <= last {
            (
                self.keys.partition_point(|k| *k < first).saturating_sub(1),
                (self.keys.partition_point(|k| *k <= last) + 1).min(n),
            )
        } else {
            // The disc lies across the ray backwards.
            (0, n)
        };
        let hi = hi.max(lo + 1);
        // So is, that what bounds the view there is all nearer than the disc.
        let beyond = away - radius - 1e-6;
        let eye = self.gaze.eye;
        let nearer = |p: &Vec2| (*p - eye).dot(*p - eye) < beyond * beyond;
        if beyond > 0.0 && self.boundary[lo.min(n)..hi.min(n)].iter().all(nearer) {
            return false;
        }
        (lo..hi - 1).any(|i| {
            let triangle = [eye, self.boundary[i], self.boundary[i + 1]];
            distance_to_polygon(middle, &triangle) < radius
        })
    }
}

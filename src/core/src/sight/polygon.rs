//! The visibility polygon: every point that a straight line from the eye reaches before it meets
//! something opaque, the edge of the floor or the edge of the field of view.
//!
//! An angular sweep. The ends of all segments cut the field into wedges; within a wedge the set of
//! segments across it does not change, and the nearest one bounds the view. Two straight segments
//! cross at most once, so a segment that is nearest on both sides of a wedge is nearest in all of
//! it; otherwise the wedge is cut where the two cross. So segments may cross each other (a load
//! that reaches into a rack), and no ray is ever cast with an offset. Directions are compared by
//! products and quotients alone: no angle is computed, and the bits are the same everywhere.

use crate::course::geometry::edges;
use crate::math::{Vec2, vec2};

/// Something opaque between two points, yard frame, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// One end.
    pub from: Vec2,
    /// Other end.
    pub to: Vec2,
}

/// The middle of the field of view and how far it reaches on either side.
#[derive(Clone, Copy, Debug, PartialEq)]
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
    /// Where the eye is, yard frame, m.
    pub eye: Vec2,
    /// The far boundary, counter-clockwise from the right edge of the field to its left edge, yard
    /// frame, m. With the eye as one more corner it is the visibility polygon.
    pub boundary: Vec<Vec2>,
    /// Unit vector in which the rider looks.
    look: Vec2,
    /// Place of each boundary point in the order of directions.
    keys: Vec<f64>,
}

/// Adds the edges of a convex outline, corners counter-clockwise, that face the eye. Those on its
/// far side are hidden by them. From inside all of them are added.
pub fn add_facing(outline: &[Vec2], eye: Vec2, out: &mut Vec<Segment>) {
    let faces = |a: Vec2, b: Vec2| (b - a).cross(eye - a) < 0.0;
    let outside = edges(outline).any(|(a, b)| faces(a, b));
    out.extend(
        edges(outline)
            .filter(|(a, b)| !outside || faces(*a, *b))
            .map(|(from, to)| Segment { from, to }),
    );
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

/// Where a direction stands in the order round the eye: from -2 (backwards) through 0 (ahead) to 2
/// (backwards again), rising counter-clockwise. A pseudo-angle: the direction's place on a square
/// that stands on its corner. `d` is in the frame of the look direction.
fn key(d: Vec2) -> f64 {
    let sum = d.x.abs() + d.y.abs();
    if sum == 0.0 {
        return 0.0;
    }
    let k = d.y / sum;
    match (d.x < 0.0, d.y < 0.0) {
        (false, _) => k,
        (true, false) => 2.0 - k,
        (true, true) => -2.0 - k,
    }
}

/// A segment as seen from the eye, in the frame of the look direction, within a range of keys.
#[derive(Clone, Copy)]
struct Piece {
    a: Vec2,
    along: Vec2,
    /// Which segment it is a piece of.
    id: usize,
    from: f64,
    to: f64,
}

impl Piece {
    /// Its point in a direction that it covers: on the segment whatever the rounding, so that one
    /// seen almost end-on does not run away.
    fn point(&self, d: Vec2) -> Vec2 {
        // Shares of the way from the first end to the second on either side of the direction.
        let before = self.a.cross(d).max(0.0);
        let after = d.cross(self.a + self.along).max(0.0);
        let sum = before + after;
        if sum > 0.0 { self.a + self.along * (before / sum) } else { self.a }
    }

    /// How far away that is, in a measure that is the same for all pieces in one direction.
    fn depth(&self, d: Vec2) -> f64 {
        self.point(d).dot(d)
    }
}

/// An edge between two wedges.
#[derive(Clone, Copy)]
struct Edge {
    key: f64,
    direction: Vec2,
}

/// A floor that does not hold the eye is taken to reach this far beyond it, m.
const BEYOND: f64 = 1e-3;

/// What is seen from `eye` within `field` among opaque segments on a floor, given by its
/// south-west and north-east corners.
pub fn view(eye: Vec2, field: &Field, floor: (Vec2, Vec2), opaque: &[Segment]) -> View {
    let look = field.look;
    let to_eye = |p: Vec2| {
        let d = p - eye;
        vec2(look.dot(d), look.cross(d))
    };
    let half = key(field.half);
    let (right, left) = (
        Edge { key: -half, direction: vec2(field.half.x, -field.half.y) },
        Edge { key: half, direction: field.half },
    );

    let mut pieces: Vec<Piece> = Vec::with_capacity(opaque.len() + 6);
    let mut cuts: Vec<Edge> = Vec::with_capacity(2 * opaque.len() + 12);
    cuts.extend([right, left]);
    let (min, max) = (
        vec2(floor.0.x.min(eye.x - BEYOND), floor.0.y.min(eye.y - BEYOND)),
        vec2(floor.1.x.max(eye.x + BEYOND), floor.1.y.max(eye.y + BEYOND)),
    );
    let corners = [min, vec2(max.x, min.y), max, vec2(min.x, max.y)];
    let walls = edges(&corners).map(|(from, to)| Segment { from, to });
    for (id, s) in walls.chain(opaque.iter().copied()).enumerate() {
        add_pieces(id, to_eye(s.from), to_eye(s.to), half, &mut pieces, &mut cuts);
    }
    // Stable sorts: what comes first among equals must not hang on how a platform sorts.
    cuts.sort_by(|p, q| p.key.total_cmp(&q.key));
    pieces.sort_by(|p, q| p.from.total_cmp(&q.from));

    let mut traced = Trace::default();
    let mut across: Vec<Piece> = Vec::with_capacity(32);
    let mut next = 0;
    for wedge in cuts.windows(2) {
        let (start, end) = (wedge[0], wedge[1]);
        if start.key >= end.key {
            continue;
        }
        across.retain(|p| p.to > start.key);
        while let Some(p) = pieces.get(next).filter(|p| p.from <= start.key) {
            if p.to > start.key {
                across.push(*p);
            }
            next += 1;
        }
        traced.wedge(&across, start, end);
    }

    let in_yard = |p: &Vec2| eye + vec2(look.x * p.x - look.y * p.y, look.y * p.x + look.x * p.y);
    View { eye, look, boundary: traced.points.iter().map(in_yard).collect(), keys: traced.keys }
}

/// Cuts a segment to the field and to the ray backwards, and keeps what is left.
fn add_pieces(
    id: usize,
    p: Vec2,
    q: Vec2,
    half: f64,
    pieces: &mut Vec<Piece>,
    cuts: &mut Vec<Edge>,
) {
    let area = p.cross(q);
    // Counter-clockwise as seen from the eye. End-on it hides nothing.
    let (a, b) = if area > 0.0 { (p, q) } else { (q, p) };
    if area == 0.0 {
        return;
    }
    let (from, to) = (key(a), key(b));
    let mut keep = |from: f64, to: f64| {
        let (from_cut, to_cut) = (from.max(-half), to.min(half));
        if from_cut >= to_cut {
            return;
        }
        if from_cut == from && from > -2.0 {
            cuts.push(Edge { key: from, direction: a });
        }
        if to_cut == to && to < 2.0 {
            cuts.push(Edge { key: to, direction: b });
        }
        pieces.push(Piece { a, along: b - a, id, from: from_cut, to: to_cut });
    };
    if from <= to {
        keep(from, to);
    } else {
        // It reaches across the ray backwards.
        keep(from, 2.0);
        keep(-2.0, to);
    }
}

/// How often a wedge is cut at most. Each cut brings a nearer segment into the boundary, so a
/// wedge needs no more cuts than it has segments; this ends it whatever the rounding.
const CUTS: u32 = 64;

#[derive(Default)]
struct Trace {
    points: Vec<Vec2>,
    keys: Vec<f64>,
    /// Segment of the last stretch.
    last: Option<usize>,
}

impl Trace {
    /// Adds the stretch of one segment between two directions.
    fn stretch(&mut self, piece: &Piece, from: Edge, to: Edge) {
        if self.last == Some(piece.id) {
            // The same segment goes on: no corner between.
            self.points.pop();
            self.keys.pop();
        } else {
            self.push(piece.point(from.direction), from.key);
        }
        self.push(piece.point(to.direction), to.key);
        self.last = Some(piece.id);
    }

    fn push(&mut self, p: Vec2, key: f64) {
        self.points.push(p);
        self.keys.push(key);
    }

    /// Traces the boundary across one wedge. There is always something across it: the floor's edge.
    fn wedge(&mut self, across: &[Piece], start: Edge, end: Edge) {
        if let (Some(a), Some(b)) = (nearest(across, start, end), nearest(across, end, start)) {
            self.between(across, (start, a), (end, b), CUTS);
        }
    }

    fn between(
        &mut self,
        across: &[Piece],
        (start, a): (Edge, usize),
        (end, b): (Edge, usize),
        cuts: u32,
    ) {
        let (p, q) = (&across[a], &across[b]);
        if a == b {
            return self.stretch(p, start, end);
        }
        // Nearest on one side and not on the other: the two cross. Where rounding puts the crossing
        // on the wedge's edge or beyond, one of them has no stretch.
        let middle = crossing(p, q);
        if middle.key <= start.key {
            return self.stretch(q, start, end);
        }
        if middle.key >= end.key {
            return self.stretch(p, start, end);
        }
        let c = nearest(across, middle, end).unwrap_or(b);
        let (at, nearer) = (p.depth(middle.direction), across[c].depth(middle.direction));
        if cuts > 0 && c != a && c != b && nearer < at * (1.0 - SAME) {
            // Something else is nearer where these two cross: it bounds the view there.
            self.between(across, (start, a), (middle, c), cuts - 1);
            self.between(across, (middle, c), (end, b), cuts - 1);
        } else {
            self.stretch(p, start, middle);
            self.stretch(q, middle, end);
        }
    }
}

/// Depths that differ by no more than this share are the same place, seen with rounding.
const SAME: f64 = 1e-12;

/// The piece that is nearest in the direction of an edge of a wedge; of those that meet there, the
/// one that is nearer on the wedge's other edge.
fn nearest(across: &[Piece], at: Edge, other: Edge) -> Option<usize> {
    let mut best: Option<(usize, f64)> = None;
    for (i, p) in across.iter().enumerate() {
        let depth = p.depth(at.direction);
        let nearer = best.is_none_or(|(j, least)| {
            if (depth - least).abs() > SAME * least {
                depth < least
            } else {
                p.depth(other.direction) < across[j].depth(other.direction)
            }
        });
        if nearer {
            best = Some((i, depth));
        }
    }
    best.map(|(i, _)| i)
}

/// Where the lines of two pieces cross. Parallel ones that are both nearest lie on one line: any
/// point of it will do.
fn crossing(p: &Piece, q: &Piece) -> Edge {
    let denominator = p.along.cross(q.along);
    let share = if denominator == 0.0 { 0.0 } else { (q.a - p.a).cross(q.along) / denominator };
    let at = p.a + p.along * share;
    Edge { key: key(at), direction: at }
}

impl View {
    /// The whole visibility polygon, counter-clockwise, the eye first.
    pub fn polygon(&self) -> Vec<Vec2> {
        core::iter::once(self.eye).chain(self.boundary.iter().copied()).collect()
    }

    fn in_look_frame(&self, p: Vec2) -> Vec2 {
        let d = p - self.eye;
        vec2(self.look.dot(d), self.look.cross(d))
    }

    /// Whether a point is seen. The nearest surface itself counts as seen.
    pub fn holds(&self, p: Vec2) -> bool {
        let k = key(self.in_look_frame(p));
        let after = self.keys.partition_point(|q| *q < k);
        if after == 0 {
            // Before the field, or on its very edge.
            return self.keys.first() == Some(&k) && self.within(p, 0);
        }
        after < self.keys.len() && self.within(p, after - 1)
    }

    /// Whether a point is no farther than the boundary from point `i` to the next.
    fn within(&self, p: Vec2, i: usize) -> bool {
        let (a, b) = (self.boundary[i], self.boundary[(i + 1).min(self.boundary.len() - 1)]);
        (b - a).cross(p - a) >= 0.0
    }

    /// Whether a clear line leads to any part of a disc: what is seen of it first is its outline.
    pub fn reaches_disc(&self, middle: Vec2, radius: f64) -> bool {
        let d = self.in_look_frame(middle);
        let away = d.length();
        if away <= radius {
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
        (lo..hi.max(lo + 1) - 1).any(|i| {
            let triangle = [self.eye, self.boundary[i], self.boundary[i + 1]];
            crate::course::geometry::distance_to_polygon(middle, &triangle) < radius
        })
    }
}

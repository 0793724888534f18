//! The sweep that finds the visibility polygon.
//!
//! It goes over the ends of all segments in the order of their directions. One segment is in front;
//! as long as it goes on, ends that lie behind it change nothing. A stretch closes where the front
//! one ends or another end lies before it. Two straight segments cross at most once, so a segment that is nearest on both
//! sides of a stretch is nearest in all of it; otherwise the stretch is cut where the two cross. So
//! segments may cross each other (a load that reaches into a rack), and no ray is ever cast with an
//! offset. Directions are compared by products and quotients alone: no angle is computed, and the
//! bits are the same everywhere.

use crate::math::{Vec2, vec2};
use crate::sight::sides::{Corner, Side, key};

/// A side within the keys of the field.
#[derive(Clone, Copy, Debug)]
struct Piece {
    a: Vec2,
    b: Vec2,
    along: Vec2,
    /// Which segment it is a piece of.
    id: usize,
    from: f64,
    /// Vector product of both ends: twice the area of the triangle with the eye, positive.
    twice_area: f64,
}

impl Piece {
    /// Where a point lies as seen over this segment's line. The vector product is linear along the
    /// ray from the eye, `twice_area` at the eye and 0 on the line: no quotient is needed.
    fn compare(&self, p: Vec2) -> Depth {
        let side = self.along.cross(p - self.a);
        let rounding = SAME * self.twice_area;
        if side > rounding {
            Depth::Before
        } else if side < -rounding {
            Depth::Behind
        } else {
            Depth::On
        }
    }

    /// Its point in a direction that it covers: on the segment whatever the rounding, so that one
    /// seen almost end-on does not run away.
    fn point(&self, d: Vec2) -> Vec2 {
        // Shares of the way from the first end to the second on either side of the direction.
        let before = self.a.cross(d).max(0.0);
        let after = d.cross(self.a + self.along).max(0.0);
        let sum = before + after;
        if sum > 0.0 { self.a + self.along * (before / sum) } else { self.a }
    }
}

/// Where a point lies on its ray from the eye, seen over a segment.
#[derive(Clone, Copy, PartialEq)]
enum Depth {
    /// Nearer than the segment.
    Before,
    /// On it, as far as rounding lets one tell.
    On,
    /// Hidden by it.
    Behind,
}

/// A direction of the sweep.
#[derive(Clone, Copy)]
struct Edge {
    key: f64,
    direction: Vec2,
}

/// An end of a piece inside the field: two whole numbers, because most of a sweep is sorting them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct End {
    /// Its key, as a whole number in the same order.
    key: i64,
    /// Twice the index of the piece; one more where it starts.
    piece_and_start: u32,
}

impl End {
    fn new(key: f64, piece: usize, starts: bool) -> Self {
        // A zero has no sign here: both are the same direction.
        let bits = (key + 0.0).to_bits() as i64;
        let key = if bits < 0 { bits ^ i64::MAX } else { bits };
        Self { key, piece_and_start: (piece as u32) << 1 | u32::from(starts) }
    }

    fn key(self) -> f64 {
        let bits = if self.key < 0 { self.key ^ i64::MAX } else { self.key };
        f64::from_bits(bits as u64)
    }

    /// Which drawer it lies in: a greater key never lies in an earlier one.
    fn drawer(self) -> usize {
        (((self.key() + 2.0) * (DRAWERS as f64 / 4.0)) as u32 as usize).min(DRAWERS - 1)
    }

    fn piece(self) -> usize {
        (self.piece_and_start >> 1) as usize
    }

    fn starts(self) -> bool {
        self.piece_and_start & 1 == 1
    }

    fn edge(self, pieces: &[Piece]) -> Edge {
        let piece = &pieces[self.piece()];
        let direction = if self.starts() { piece.a } else { piece.b };
        Edge { key: self.key(), direction }
    }
}

/// Room for a sweep, kept from one to the next so that none has to be found anew each tick. Nothing
/// in it outlasts a sweep.
#[derive(Clone, Debug, Default)]
pub struct Buffers {
    pieces: Vec<Piece>,
    ends: Vec<End>,
    across: Vec<usize>,
    /// For putting ends in order.
    sorted: Vec<End>,
    drawers: Vec<u32>,
    /// The boundary's points, counter-clockwise, in the frame of the look direction, m.
    pub(super) points: Vec<Vec2>,
    /// Place of each in the order of directions.
    pub(super) keys: Vec<f64>,
}

/// All pieces in the field, and their ends.
pub(super) struct Sweep {
    right: Edge,
    left: Edge,
    room: Buffers,
}

impl Sweep {
    /// Within a field that opens by `half` on either side.
    pub(super) fn new(half: Vec2, room: Buffers) -> Self {
        let k = key(half);
        let right = Corner { at: vec2(half.x, -half.y), key: -k };
        Self::between(right, Corner { at: half, key: k }, room)
    }

    /// From one direction counter-clockwise to another.
    pub(super) fn between(right: Corner, left: Corner, mut room: Buffers) -> Self {
        room.pieces.clear();
        room.ends.clear();
        room.across.clear();
        room.points.clear();
        room.keys.clear();
        Self {
            right: Edge { key: right.key, direction: right.at },
            left: Edge { key: left.key, direction: left.at },
            room,
        }
    }

    /// Adds a side.
    pub(super) fn add(&mut self, id: usize, side: &Side) {
        side.rising(|from, to| self.take_in(id, from, to));
    }

    /// Takes in what lies in the field.
    fn take_in(&mut self, id: usize, from: Corner, to: Corner) {
        let (Corner { at: a, key: from }, Corner { at: b, key: to }) = (from, to);
        let from_cut = from.max(self.right.key);
        if from_cut >= to.min(self.left.key) {
            return;
        }
        let piece = self.room.pieces.len();
        let (along, twice_area) = (b - a, a.cross(b));
        self.room.pieces.push(Piece { a, b, along, id, from: from_cut, twice_area });
        if from > self.right.key {
            self.room.ends.push(End::new(from, piece, true));
        }
        if to < self.left.key {
            self.room.ends.push(End::new(to, piece, false));
        }
    }

    /// Goes round from the right edge of the field to the left: the boundary's points and keys.
    pub(super) fn trace(self) -> Buffers {
        let Self { right, left, mut room } = self;
        sort(&mut room);
        let Buffers { pieces, ends, mut across, points, keys, sorted, drawers } = room;
        across.extend((0..pieces.len()).filter(|p| pieces[*p].from <= right.key));
        let mut traced = Trace { pieces, across, points, keys, last: None };

        let mut start = right;
        let mut front = traced.nearest(right);
        let mut i = 0;
        // There is always something in front: the floor's edge goes all round.
        while let Some(f) = front {
            let here = ends.get(i).map_or(left, |e| e.edge(&traced.pieces));
            let together = ends[i..].iter().take_while(|e| e.key == ends[i].key).count();
            let group = &ends[i..i + together];
            let in_front = &traced.pieces[f];
            let matters = |e: &End| {
                let edge = e.edge(&traced.pieces);
                e.piece() == f || in_front.compare(edge.direction) != Depth::Behind
            };
            let closes = group.is_empty() || group.iter().any(matters);
            if closes && let Some(b) = traced.nearest(here) {
                traced.close((start, f), (here, b), CUTS);
            }
            if group.is_empty() {
                break;
            }
            for e in group {
                if e.starts() {
                    traced.across.push(e.piece());
                } else {
                    traced.across.retain(|p| *p != e.piece());
                }
            }
            i += together;
            if closes {
                start = here;
                front = traced.nearest(here);
            }
        }
        let Trace { pieces, across, points, keys, .. } = traced;
        Buffers { pieces, ends, across, points, keys, sorted, drawers }
    }
}

/// Drawers that ends are first laid in, each for a range of keys.
const DRAWERS: usize = 512;
/// Fewer ends than this are sorted as quickly without.
const FEW: usize = 64;

/// Puts the ends in order: first into drawers by their keys, so that little is left to be sorted. No two
/// are equal in this order, so the result does not hang on how they are sorted.
fn sort(room: &mut Buffers) {
    let Buffers { ends, sorted, drawers, .. } = room;
    if ends.len() < FEW {
        ends.sort_unstable();
        return;
    }
    // The first place of each drawer, and then the next free one.
    drawers.clear();
    drawers.resize(DRAWERS + 1, 0);
    for end in ends.iter() {
        drawers[end.drawer() + 1] += 1;
    }
    let mut first = 0;
    for places in drawers.iter_mut() {
        first += *places;
        *places = first;
    }
    sorted.clone_from(ends);
    for end in ends.iter() {
        let place = &mut drawers[end.drawer()];
        sorted[*place as usize] = *end;
        *place += 1;
    }
    for i in 1..sorted.len() {
        let mut to = i;
        while to > 0 && sorted[to] < sorted[to - 1] {
            sorted.swap(to, to - 1);
            to -= 1;
        }
    }
    core::mem::swap(ends, sorted);
}

/// How often a stretch is cut at most. Each cut brings a nearer segment into the boundary, so it
/// needs no more cuts than there are segments; this ends it whatever the rounding.
const CUTS: u32 = 64;

/// Depths that differ by no more than this share are the same place, seen with rounding.
const SAME: f64 = 1e-12;

/// The boundary as far as it is known.
struct Trace {
    pieces: Vec<Piece>,
    /// Indices of the pieces across the present direction.
    across: Vec<usize>,
    points: Vec<Vec2>,
    keys: Vec<f64>,
    /// Segment of the last stretch.
    last: Option<usize>,
}

impl Trace {
    /// The piece that is nearest in a direction; of those that meet there, any: `close` finds that
    /// they cross on the edge and gives the stretch to the right one.
    fn nearest(&self, at: Edge) -> Option<usize> {
        let mut best: Option<(usize, Vec2)> = None;
        for &i in &self.across {
            let p = &self.pieces[i];
            if p.from > at.key {
                continue;
            }
            let nearer = best.is_none_or(|(_, point)| p.compare(point) == Depth::Behind);
            if nearer {
                best = Some((i, p.point(at.direction)));
            }
        }
        best.map(|(i, _)| i)
    }

    /// Closes a stretch that begins with piece `a` in front and ends with piece `b`.
    fn close(&mut self, (start, a): (Edge, usize), (end, b): (Edge, usize), cuts: u32) {
        if a == b {
            return self.add(a, start, end);
        }
        // Nearest on one side and not on the other: the two cross. Where rounding puts the crossing
        // on an edge or beyond, one of them has no stretch.
        let middle = crossing(&self.pieces[a], &self.pieces[b]);
        if middle.key <= start.key {
            return self.add(b, start, end);
        }
        if middle.key >= end.key {
            return self.add(a, start, end);
        }
        match self.nearest(middle) {
            // Something else is nearer where these two cross: it bounds the view there.
            Some(c)
                if cuts > 0
                    && c != a
                    && c != b
                    && self.pieces[c].compare(middle.direction) == Depth::Behind =>
            {
                self.close((start, a), (middle, c), cuts - 1);
                self.close((middle, c), (end, b), cuts - 1);
            }
            _ => {
                self.add(a, start, middle);
                self.add(b, middle, end);
            }
        }
    }

    /// Adds the stretch of one piece between two directions.
    fn add(&mut self, piece: usize, from: Edge, to: Edge) {
        let piece = self.pieces[piece];
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
}

/// Where the lines of two pieces cross. Parallel ones that are both nearest lie on one line: any
/// point of it will do.
fn crossing(p: &Piece, q: &Piece) -> Edge {
    let denominator = p.along.cross(q.along);
    let share = if denominator == 0.0 { 0.0 } else { (q.a - p.a).cross(q.along) / denominator };
    let at = p.a + p.along * share;
    Edge { key: key(at), direction: at }
}

//! How the sides of opaque things lie as seen from an eye: in a frame that looks ahead along +x, their
//! corners in the order of directions.

use crate::math::{Vec2, vec2};

/// Where a direction stands in the order round the eye: from -2 (backwards) through 0 (ahead) to 2
/// (backwards again), rising counter-clockwise. A pseudo-angle: the direction's place on a square
/// that stands on its corner. `d` is in the frame of the look direction.
pub(super) fn key(d: Vec2) -> f64 {
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

/// Where the eye is and how it looks: a frame of its own, ahead along +x.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Gaze {
    /// Yard frame, m.
    pub(super) eye: Vec2,
    /// Unit vector, yard frame.
    pub(super) look: Vec2,
}

impl Gaze {
    /// A point of the yard in the frame of the look direction.
    pub(super) fn to_look(self, p: Vec2) -> Vec2 {
        let d = p - self.eye;
        vec2(self.look.dot(d), self.look.cross(d))
    }

    /// And back.
    pub(super) fn to_yard(self, p: Vec2) -> Vec2 {
        let look = self.look;
        self.eye + vec2(look.x * p.x - look.y * p.y, look.y * p.x + look.x * p.y)
    }
}

/// A point farther than this from the field's edge, m, is outside it whatever the rounding.
const CERTAIN: f64 = 1e-6;

/// Whether a disc lies for certain in what is left of the round beyond a field that opens by `half` on
/// either side, in the frame of the look direction. That is less than half of it where this can be told
/// at all: two such discs have nothing of the field between them.
pub(super) fn is_beyond(half: Vec2, middle: Vec2, radius: f64) -> bool {
    let far = radius + CERTAIN;
    half.x < 0.0 && half.cross(middle) > far && vec2(half.x, -half.y).cross(middle) < -far
}

/// A corner with its place in the order of directions, so that it is worked out once for both of its
/// sides and for all who ask.
#[derive(Clone, Copy, Debug)]
pub(super) struct Corner {
    pub(super) at: Vec2,
    pub(super) key: f64,
}

impl Corner {
    /// A point in the frame of the look direction.
    pub(super) fn new(at: Vec2) -> Self {
        Self { at, key: key(at) }
    }
}

/// A side of something opaque as seen from the eye: its ends counter-clockwise.
#[derive(Clone, Copy, Debug)]
pub struct Side {
    pub(super) from: Corner,
    pub(super) to: Corner,
}

impl Side {
    /// Between two corners; None for one that is seen end-on, which hides nothing.
    pub(super) fn new(p: Corner, q: Corner) -> Option<Self> {
        let area = p.at.cross(q.at);
        let (from, to) = if area > 0.0 { (p, q) } else { (q, p) };
        let side = Self { from, to };
        // Where the ends of any other do not rise, only rounding put them the other way round.
        (area != 0.0 && (from.key <= to.key || side.reaches_across())).then_some(side)
    }

    /// It has something in common with a range of keys.
    pub(super) fn reaches_into(&self, from: f64, to: f64) -> bool {
        let (begins, ends) = (self.from.key < to, self.to.key > from);
        if self.from.key <= self.to.key { begins && ends } else { begins || ends }
    }

    /// It takes up all of a range of keys.
    pub(super) fn reaches_over(&self, from: f64, to: f64) -> bool {
        self.from.key <= from && self.to.key >= to
    }

    /// It reaches across the ray backwards, where keys begin anew.
    fn reaches_across(&self) -> bool {
        self.from.key - self.to.key > 1.0
    }

    /// Takes it in pieces of which the keys rise from the first end to the last.
    pub(super) fn rising(&self, mut take: impl FnMut(Corner, Corner)) {
        let Self { from, to } = *self;
        if from.key <= to.key {
            take(from, to);
        } else {
            take(from, Corner { key: 2.0, ..to });
            take(Corner { key: -2.0, ..from }, to);
        }
    }
}

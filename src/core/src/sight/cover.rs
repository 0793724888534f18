//! What is hidden wholly behind something nearer, told before the sweep sorts anything.
//!
//! The round is cut into slices. Of each it is known how far away the nearest thing is at the most that
//! covers all of it; a block that is farther in every slice of the field that it lies in is hidden
//! there, whatever else there is. Blocks are taken from near to far. What is only nearly hidden is left
//! to the sweep.

use crate::math::{Vec2, vec2};
use crate::sight::polygon::{Field, Side, facing};
use crate::sight::sides::{Corner, Gaze, is_beyond, key};

/// Slices of the whole round, from key -2 to 2.
const SLICES: usize = 512;
/// Width of one, in keys.
const WIDTH: f64 = 4.0 / SLICES as f64;
/// Keys nearer to a slice's edge than this, in slices, may be on either side of it.
const ROUNDING: f64 = 1e-6;
/// What is not farther by this share of its squared distance may be in front.
const NEARLY: f64 = 1.0 + 1e-6;
/// A segment whose ends are farther apart than this, m, is measured piece by piece,
const LONG: f64 = 2.0;
/// of so many slices.
const TOGETHER: usize = 8;

/// Something opaque as seen from above, with a circle round it.
#[derive(Clone, Copy, Debug)]
pub struct Block {
    /// Corners, counter-clockwise, yard frame, m.
    pub outline: [Vec2; 4],
    middle: Vec2,
    radius: f64,
}

impl Block {
    /// A rectangle, corners counter-clockwise.
    pub fn new(outline: [Vec2; 4]) -> Self {
        let middle = (outline[0] + outline[2]) * 0.5;
        // More than half its diagonal, whatever the rounding.
        Self { outline, middle, radius: 0.5 * (outline[2] - outline[0]).length() + 1e-6 }
    }

    /// The middle of the circle round it, yard frame, m.
    pub(super) fn middle(&self) -> Vec2 {
        self.middle
    }

    /// Radius of that circle, m.
    pub(super) fn radius(&self) -> f64 {
        self.radius
    }

    /// How far its circle is from the eye, m; negative within it.
    fn away(&self, eye: Vec2) -> f64 {
        (self.middle - eye).length() - self.radius
    }
}

/// Blocks that never move, and the order from near to far.
#[derive(Clone, Debug, Default)]
pub struct Blocks {
    all: Vec<Block>,
    /// How far away each one is, m, and which it is.
    order: Vec<(f64, usize)>,
}

impl Blocks {
    /// These.
    pub fn new(all: impl Iterator<Item = Block>) -> Self {
        let all: Vec<Block> = all.collect();
        Self { order: (0..all.len()).map(|i| (0.0, i)).collect(), all }
    }

    /// In the order in which they were given.
    pub fn iter(&self) -> impl Iterator<Item = &Block> {
        self.all.iter()
    }

    /// From near to far. The order hardly changes from tick to tick, so each goes past a few others at
    /// the most; equally near ones go by their number, whatever the order was before.
    fn near_to_far(&mut self, eye: Vec2) -> impl Iterator<Item = (f64, &Block)> {
        for (away, i) in &mut self.order {
            *away = self.all[*i].away(eye);
        }
        for i in 1..self.order.len() {
            let mut to = i;
            while to > 0 && self.order[to] < self.order[to - 1] {
                self.order.swap(to, to - 1);
                to -= 1;
            }
        }
        self.order.iter().map(|(away, i)| (*away, &self.all[*i]))
    }
}

/// How far the view of one eye can reach at the most, by slices.
#[derive(Clone, Debug, Default)]
pub struct Cover {
    gaze: Gaze,
    /// How far the field opens.
    half: Vec2,
    /// The field reaches from minus this key to this one.
    reach: f64,
    /// Squared distance, m^2.
    farthest: Vec<f64>,
    /// A point on each edge between slices: the ray with that key.
    edges: Vec<Vec2>,
}

/// A point in the direction of a key.
fn ray(key: f64) -> Vec2 {
    if key > 1.0 {
        vec2(1.0 - key, 2.0 - key)
    } else if key < -1.0 {
        vec2(1.0 + key, -2.0 - key)
    } else {
        vec2(1.0 - key.abs(), key)
    }
}

fn slice(key: f64) -> f64 {
    (key + 2.0) / WIDTH
}

/// What is before the point; quicker by way of 32 bits.
fn whole(slice: f64) -> usize {
    slice as u32 as usize
}

impl Cover {
    /// What of these blocks is seen from here, but for what is hidden for certain: their sides that face
    /// the eye go to `out`. What moves is handed in as convex outlines.
    pub fn look(
        &mut self,
        (eye, field): (Vec2, &Field),
        fixed: &mut Blocks,
        moving: &[[Vec2; 4]],
        out: &mut Vec<Side>,
    ) {
        self.open(eye, field);
        out.clear();
        for (away, block) in fixed.near_to_far(eye) {
            self.take(block, away, out);
        }
        for outline in moving {
            let block = Block::new(*outline);
            self.take(&block, block.away(eye), out);
        }
    }

    /// A look from here: nothing covers anything yet.
    fn open(&mut self, eye: Vec2, field: &Field) {
        self.gaze = Gaze { eye, look: field.look };
        (self.half, self.reach) = (field.half, key(field.half));
        self.farthest.clear();
        self.farthest.resize(SLICES, f64::INFINITY);
        if self.edges.is_empty() {
            self.edges.extend((0..=SLICES).map(|i| ray(-2.0 + i as f64 * WIDTH)));
        }
    }

    /// Takes a block in, unless it is hidden for certain behind those before or outside the field: its
    /// sides that face the eye go to `out` and hide what comes after.
    fn take(&mut self, block: &Block, away: f64, out: &mut Vec<Side>) {
        // Most of what stands round is behind the rider.
        if is_beyond(self.half, self.gaze.to_look(block.middle), block.radius) {
            return;
        }
        let corners = block.outline.map(|p| Corner::new(self.gaze.to_look(p)));
        if self.hides(&corners, away) {
            return;
        }
        for (i, j) in facing(&block.outline, self.gaze.eye) {
            if let Some(side) = Side::new(corners[i], corners[j]) {
                side.rising(|from, to| self.add_between(from, to));
                out.push(side);
            }
        }
    }

    /// Whether what lies between these corners, and is nowhere nearer than so many metres, lies for
    /// certain behind others or outside the field.
    fn hides(&self, corners: &[Corner; 4], away: f64) -> bool {
        let (mut from, mut to) = (f64::INFINITY, f64::NEG_INFINITY);
        for corner in corners {
            (from, to) = (from.min(corner.key), to.max(corner.key));
        }
        // What is that wide is near, or lies across the ray backwards, where keys begin anew.
        if away <= 0.0 || to - from > 1.0 {
            return false;
        }
        let (from, to) = (from.max(-self.reach), to.min(self.reach));
        if from > to + ROUNDING {
            return true;
        }
        let first = whole((slice(from) - ROUNDING).max(0.0));
        let last = whole(slice(to) + ROUNDING).min(SLICES - 1);
        let near = away * away / NEARLY;
        self.farthest[first.min(last)..=last].iter().all(|far| *far < near)
    }

    /// A side covers what lies between its ends.
    fn add_between(&mut self, from: Corner, to: Corner) {
        let (Corner { at: a, key: from }, Corner { at: b, key: to }) = (from, to);
        // Keys are never below -2, so cutting off what is behind the point rounds down.
        let first = whole(slice(from) + ROUNDING) + 1;
        let last = whole((slice(to) - ROUNDING).max(0.0)).min(SLICES);
        if first >= last {
            return;
        }
        let along = b - a;
        if along.dot(along) <= LONG * LONG {
            // The farther end is as far as it reaches.
            let far = a.dot(a).max(b.dot(b));
            return self.comes_to(first..last, far);
        }
        let squared = |ray: Vec2| {
            let (before, after) = (a.cross(ray).max(0.0), ray.cross(b).max(0.0));
            let sum = before + after;
            let p = a + along * (before / sum);
            if sum > 0.0 { p.dot(p) } else { f64::INFINITY }
        };
        let mut right = squared(self.edges[first]);
        let mut i = first;
        while i < last {
            let end = (i + TOGETHER).min(last);
            let left = squared(self.edges[end]);
            // A straight segment is farthest at one of its ends.
            let far = right.max(left);
            self.comes_to(i..end, far);
            (right, i) = (left, end);
        }
    }

    /// Nothing is seen in these slices beyond a squared distance, m^2.
    fn comes_to(&mut self, slices: core::ops::Range<usize>, squared: f64) {
        for farthest in &mut self.farthest[slices] {
            *farthest = if squared < *farthest { squared } else { *farthest };
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::rectangle;
    use crate::math::Pose;
    use crate::sight::polygon::HALF_FIELD;

    #[test]
    fn a_ray_has_its_key() {
        for i in 0..=SLICES {
            let k = -2.0 + i as f64 * WIDTH;
            let found = key(ray(k));
            assert!((found - k).abs() < 1e-12 || k.abs() == 2.0, "{k}: {found}");
        }
    }

    fn block(x: f64, y: f64, size: Vec2) -> Block {
        Block::new(rectangle(Pose { at: vec2(x, y), heading: 0.0 }, size))
    }

    /// A wall across the look, its face 3 m away and from 2 m right to 2 m left.
    fn behind_a_wall() -> Cover {
        let mut cover = Cover::default();
        cover.open(EYE, &Field { look: vec2(1.0, 0.0), half: HALF_FIELD });
        assert_eq!(sides_taken(&mut cover, block(3.05, 0.0, vec2(0.1, 4.0))), 1, "its face");
        cover
    }

    const EYE: Vec2 = vec2(0.0, 0.0);

    fn sides_taken(cover: &mut Cover, block: Block) -> usize {
        let mut out = Vec::new();
        cover.take(&block, block.away(EYE), &mut out);
        out.len()
    }

    #[test]
    fn what_stands_behind_a_wall_is_hidden_and_what_looks_out_is_not() {
        let hides = |block| sides_taken(&mut behind_a_wall(), block) == 0;
        let small = vec2(0.2, 0.2);
        assert!(hides(block(5.0, 0.0, small)));
        assert!(!hides(block(2.5, 0.0, small)), "it stands before the wall");
        assert!(!hides(block(3.0, 0.0, small)), "it stands in the wall");
        assert!(!hides(block(5.0, 3.3, small)), "it looks out beside the wall");
        assert!(hides(block(5.0, 2.9, small)), "it stands just within the shadow");
    }

    #[test]
    fn what_stands_outside_the_field_is_left_out_and_what_reaches_into_it_is_not() {
        let hides = |block| sides_taken(&mut behind_a_wall(), block) == 0;
        let small = vec2(0.2, 0.2);
        assert!(hides(block(-3.0, 0.0, small)), "straight behind");
        assert!(hides(block(-1.0, -3.0, small)));
        assert!(!hides(block(-0.35, 3.0, small)), "the field reaches 5 degrees behind");
    }

    #[test]
    fn near_comes_before_far_wherever_the_eye_went() {
        let mut blocks = Blocks::new((0..9).map(|i| block(f64::from(i), 0.0, vec2(0.5, 0.5))));
        for eye in [-1.0, 8.9, 3.2, 3.0] {
            let order: Vec<f64> =
                blocks.near_to_far(vec2(eye, 0.0)).map(|(_, b)| (b.middle.x - eye).abs()).collect();
            assert!(order.is_sorted() && order.len() == 9, "{order:?}");
        }
    }
}

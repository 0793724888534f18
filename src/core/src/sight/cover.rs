//! What is hidden wholly behind something nearer, told before the sweep sorts anything.
//!
//! The round is cut into slices. Of each it is known how far away the nearest thing is at the most that
//! covers all of it; a block that is farther in every slice of the field that it lies in is hidden
//! there, whatever else there is. Blocks are taken from near to far, so that most of those that are
//! hidden are told by the circle round them. What is only nearly hidden is left to the sweep.

use crate::math::{Vec2, vec2};
use crate::sight::polygon::{Field, Segment, add_facing};
use crate::sight::sweep::key;

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
/// An arc sine of up to a half is less than this many times the sine, and a key rises by no more than
/// the angle in radians.
const ARC: f64 = 1.05;

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
}

/// Blocks that never move, and the order from near to far.
#[derive(Clone, Debug, Default)]
pub struct Blocks {
    all: Vec<Block>,
    /// How far each one's circle is from the eye, m, and which it is.
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
    pub fn near_to_far(&mut self, eye: Vec2) -> impl Iterator<Item = &Block> {
        for (away, i) in &mut self.order {
            let block = &self.all[*i];
            *away = (block.middle - eye).length() - block.radius;
        }
        for i in 1..self.order.len() {
            let mut to = i;
            while to > 0 && self.order[to] < self.order[to - 1] {
                self.order.swap(to, to - 1);
                to -= 1;
            }
        }
        self.order.iter().map(|(_, i)| &self.all[*i])
    }
}

/// How far the view of one eye can reach at the most, by slices.
#[derive(Clone, Debug, Default)]
pub struct Cover {
    eye: Vec2,
    look: Vec2,
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

impl Cover {
    /// A look from here: nothing covers anything yet.
    pub fn open(&mut self, eye: Vec2, field: &Field) {
        (self.eye, self.look, self.reach) = (eye, field.look, key(field.half));
        self.farthest.clear();
        self.farthest.resize(SLICES, f64::INFINITY);
        if self.edges.is_empty() {
            self.edges.extend((0..=SLICES).map(|i| ray(-2.0 + i as f64 * WIDTH)));
        }
    }

    /// Takes a block in, unless it is hidden for certain behind those before or outside the field: its
    /// edges that face the eye go to `out` and hide what comes after.
    pub fn take(&mut self, block: &Block, out: &mut Vec<Segment>) {
        if self.hides(block) {
            return;
        }
        let first = out.len();
        add_facing(&block.outline, self.eye, out);
        for s in &out[first..] {
            self.add(s);
        }
    }

    fn in_look_frame(&self, p: Vec2) -> Vec2 {
        let d = p - self.eye;
        vec2(self.look.dot(d), self.look.cross(d))
    }

    /// Whether the circle round a block lies for certain behind others or outside the field.
    fn hides(&self, block: &Block) -> bool {
        let middle = self.in_look_frame(block.middle);
        let away = middle.length();
        if away <= 2.0 * block.radius {
            return false;
        }
        let (k, half) = (key(middle), ARC * block.radius / away + 1e-9);
        if k.abs() + half > 2.0 {
            // It lies across the ray backwards.
            return k.abs() - half > self.reach && 4.0 - (k.abs() + half) > self.reach;
        }
        let (from, to) = ((k - half).max(-self.reach), (k + half).min(self.reach));
        if from > to {
            return true;
        }
        let first = (slice(from) - ROUNDING).max(0.0) as usize;
        let last = ((slice(to) + ROUNDING) as usize).min(SLICES - 1);
        let near = (away - block.radius) * (away - block.radius);
        self.farthest[first.min(last)..=last].iter().all(|far| near > far * NEARLY)
    }

    /// A segment covers what lies between its ends.
    fn add(&mut self, s: &Segment) {
        let (p, q) = (self.in_look_frame(s.from), self.in_look_frame(s.to));
        let area = p.cross(q);
        if area == 0.0 {
            return;
        }
        let (a, b) = if area > 0.0 { (p, q) } else { (q, p) };
        let (from, to) = (key(a), key(b));
        if from <= to {
            self.add_between((from, a), (to, b));
        } else if from - to > 1.0 {
            self.add_between((from, a), (2.0, b));
            self.add_between((-2.0, a), (to, b));
        }
        // Otherwise it is end-on and covers nothing either.
    }

    fn add_between(&mut self, (from, a): (f64, Vec2), (to, b): (f64, Vec2)) {
        // Keys are never below -2, so cutting off what is behind the point rounds down.
        let first = (slice(from) + ROUNDING) as usize + 1;
        let last = ((slice(to) - ROUNDING).max(0.0) as usize).min(SLICES);
        if first >= last {
            return;
        }
        let along = b - a;
        if along.dot(along) <= LONG * LONG {
            // The farther end is as far as it reaches.
            let far = a.dot(a).max(b.dot(b));
            for slice in &mut self.farthest[first..last] {
                *slice = slice.min(far);
            }
            return;
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
            for slice in &mut self.farthest[i..end] {
                *slice = slice.min(far);
            }
            (right, i) = (left, end);
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
        cover.open(vec2(0.0, 0.0), &Field { look: vec2(1.0, 0.0), half: HALF_FIELD });
        let mut out = Vec::new();
        cover.take(&block(3.05, 0.0, vec2(0.1, 4.0)), &mut out);
        assert_eq!(out.len(), 1, "one edge faces the eye");
        cover
    }

    #[test]
    fn what_stands_behind_a_wall_is_hidden_and_what_looks_out_is_not() {
        let cover = behind_a_wall();
        let small = vec2(0.2, 0.2);
        assert!(cover.hides(&block(5.0, 0.0, small)));
        assert!(!cover.hides(&block(2.5, 0.0, small)), "it stands before the wall");
        assert!(!cover.hides(&block(3.0, 0.0, small)), "it stands in the wall");
        assert!(!cover.hides(&block(5.0, 3.3, small)), "it looks out beside the wall");
        assert!(cover.hides(&block(5.0, 2.9, small)), "it stands just within the shadow");
    }

    #[test]
    fn what_stands_outside_the_field_is_left_out_and_what_reaches_into_it_is_not() {
        let cover = behind_a_wall();
        let small = vec2(0.2, 0.2);
        assert!(cover.hides(&block(-3.0, 0.0, small)), "straight behind");
        assert!(cover.hides(&block(-1.0, -3.0, small)));
        assert!(!cover.hides(&block(-0.35, 3.0, small)), "the field reaches 5 degrees behind");
    }

    #[test]
    fn near_comes_before_far_wherever_the_eye_went() {
        let mut blocks = Blocks::new((0..9).map(|i| block(f64::from(i), 0.0, vec2(0.5, 0.5))));
        for eye in [-1.0, 8.9, 3.2, 3.0] {
            let order: Vec<f64> =
                blocks.near_to_far(vec2(eye, 0.0)).map(|b| (b.middle.x - eye).abs()).collect();
            assert!(order.is_sorted() && order.len() == 9, "{order:?}");
        }
    }
}

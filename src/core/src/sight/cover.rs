//! What is hidden wholly behind something else, told before the sweep sorts anything.
//!
//! The field is cut into slices. Of each it is known how far away the nearest thing is at the most that
//! covers all of it; whatever is farther in every slice that it lies in is hidden there, whatever else
//! there is. What is only nearly so is left to the sweep: leaving out what is hidden for certain changes
//! no bit of what the sweep finds.

use crate::math::{Vec2, vec2};

/// Slices of the whole round, from key -2 to 2.
const SLICES: usize = 128;
/// Width of one, in keys.
const WIDTH: f64 = 4.0 / SLICES as f64;
/// Keys nearer to a slice's edge than this, in slices, may be on either side of it.
const ROUNDING: f64 = 1e-6;
/// What is not farther by this share of its squared distance may be in front.
const NEARLY: f64 = 1.0 + 1e-6;
/// A segment whose ends are farther apart than this, m, is measured slice by slice.
const LONG: f64 = 2.0;

/// How far the view can reach at the most, by slices; empty until it is cleared for the first time.
#[derive(Clone, Debug, Default)]
pub(super) struct Cover {
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
    /// Nothing covers anything.
    pub(super) fn clear(&mut self) {
        self.farthest.clear();
        self.farthest.resize(SLICES, f64::INFINITY);
        if self.edges.is_empty() {
            self.edges.extend((0..=SLICES).map(|i| ray(-2.0 + i as f64 * WIDTH)));
        }
    }

    /// A segment with its ends, counter-clockwise, covers what lies between these keys.
    pub(super) fn add(&mut self, (from, a): (f64, Vec2), (to, b): (f64, Vec2)) {
        let first = (slice(from) + ROUNDING).floor().max(-1.0) as isize + 1;
        let last = ((slice(to) - ROUNDING).floor() as isize).min(SLICES as isize);
        if first >= last {
            return;
        }
        let (first, last) = (first as usize, last as usize);
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
        for i in first..last {
            let left = squared(self.edges[i + 1]);
            // A straight segment is farthest at one of its ends.
            self.farthest[i] = self.farthest[i].min(right.max(left));
            right = left;
        }
    }

    /// Whether a segment is hidden for certain in all of what lies between these keys.
    pub(super) fn hides(&self, (from, a): (f64, Vec2), (to, b): (f64, Vec2)) -> bool {
        let near = squared_distance(a, b);
        let first = (slice(from) - ROUNDING).floor().max(0.0) as usize;
        let last = ((slice(to) + ROUNDING).floor().max(0.0) as usize).min(SLICES - 1);
        self.farthest[first.min(last)..=last].iter().all(|far| near > far * NEARLY)
    }
}

/// Squared distance of a segment from the eye, m^2.
fn squared_distance(a: Vec2, b: Vec2) -> f64 {
    let along = b - a;
    if a.dot(along) >= 0.0 {
        a.dot(a)
    } else if b.dot(along) <= 0.0 {
        b.dot(b)
    } else {
        let area = a.cross(b);
        area * area / along.dot(along)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sight::sweep::key;

    #[test]
    fn a_ray_has_its_key() {
        for i in 0..=SLICES {
            let k = -2.0 + i as f64 * WIDTH;
            let found = key(ray(k));
            assert!((found - k).abs() < 1e-12 || k.abs() == 2.0, "{k}: {found}");
        }
    }

    fn keyed(p: Vec2) -> (f64, Vec2) {
        (key(p), p)
    }

    #[test]
    fn what_stands_behind_a_wall_is_hidden_and_what_looks_out_is_not() {
        let mut cover = Cover::default();
        cover.clear();
        let (right, left) = (vec2(3.0, -2.0), vec2(3.0, 2.0));
        cover.add(keyed(right), keyed(left));
        let hides = |a: Vec2, b: Vec2| cover.hides(keyed(a), keyed(b));
        assert!(hides(vec2(5.0, -0.5), vec2(5.0, 0.5)));
        assert!(!hides(vec2(2.9, -0.5), vec2(2.9, 0.5)), "it stands before the wall");
        assert!(!hides(vec2(3.0, -0.5), vec2(3.0, 0.5)), "it lies on the wall");
        assert!(!hides(vec2(5.0, 2.0), vec2(5.0, 4.0)), "it looks out beside the wall");
    }
}

//! What the rider does not see, as a shape: the floor less the visibility polygon.
//!
//! The polygon is seen whole from the eye. So what is behind each stretch of its boundary lies
//! between that stretch and the floor's edge along the same directions: a few corners each, and no
//! search.

use bevy::math::Vec2;

/// A floor that does not hold the eye is taken to reach this far beyond it, m.
const BEYOND: f32 = 0.01;

/// Pieces with four corners that together cover the floor outside what is seen. `boundary` is the
/// far boundary of what is seen, counter-clockwise as seen from the eye, on the floor. Without a
/// boundary nothing is known, and nothing is covered.
pub(crate) fn unseen(eye: Vec2, boundary: &[Vec2], floor: (Vec2, Vec2)) -> Vec<[Vec2; 4]> {
    let (Some(first), Some(last)) = (boundary.first(), boundary.last()) else {
        return Vec::new();
    };
    let (lo, hi) = (floor.0.min(eye - BEYOND), floor.1.max(eye + BEYOND));
    let rim = Rim { eye, lo, hi };
    let mut pieces = Vec::with_capacity(boundary.len() + 8);
    for ends in boundary.windows(2) {
        rim.behind(ends[0] - eye, ends[1] - eye, &mut pieces);
    }
    rim.aside(last - eye, first - eye, &mut pieces);
    pieces
}

/// The floor's edge as seen from the eye.
struct Rim {
    eye: Vec2,
    lo: Vec2,
    hi: Vec2,
}

impl Rim {
    /// Where a direction meets the edge, from the eye.
    fn at(&self, way: Vec2) -> Vec2 {
        let to_edge = |way: f32, lo: f32, hi: f32| {
            if way > 0.0 {
                hi / way
            } else if way < 0.0 {
                lo / way
            } else {
                f32::INFINITY
            }
        };
        let (lo, hi) = (self.lo - self.eye, self.hi - self.eye);
        let far = to_edge(way.x, lo.x, hi.x).min(to_edge(way.y, lo.y, hi.y));
        if far.is_finite() { way * far } else { Vec2::ZERO }
    }

    /// Corners of the floor from one direction counter-clockwise to another, in order. `from` to
    /// `to` is less than a full turn.
    fn corners(&self, from: Vec2, to: Vec2) -> Vec<Vec2> {
        let turn = |way: Vec2| {
            let a = from.angle_to(way);
            if a < 0.0 { a + core::f32::consts::TAU } else { a }
        };
        let (lo, hi) = (self.lo - self.eye, self.hi - self.eye);
        let all = [lo, Vec2::new(hi.x, lo.y), hi, Vec2::new(lo.x, hi.y)];
        let end = turn(to);
        let mut between: Vec<(f32, Vec2)> =
            all.into_iter().map(|c| (turn(c), c)).filter(|(a, _)| *a > 0.0 && *a < end).collect();
        between.sort_by(|a, b| a.0.total_cmp(&b.0));
        between.into_iter().map(|(_, c)| c).collect()
    }

    /// Behind a stretch of the boundary from `a` to `b`, given from the eye.
    fn behind(&self, a: Vec2, b: Vec2, pieces: &mut Vec<[Vec2; 4]>) {
        // A stretch along a line of sight hides nothing; neither does one too short to be told.
        if a.perp_dot(b) <= 1e-9 {
            return;
        }
        let along = b - a;
        // Where the line of sight to a corner meets the stretch.
        let near = |corner: Vec2| {
            let across = corner.perp_dot(along);
            if across.abs() < 1e-9 { corner } else { corner * (a.perp_dot(along) / across) }
        };
        let mut from = (a, self.at(a));
        for corner in self.corners(a, b) {
            let next = (near(corner), corner);
            self.piece(from, next, pieces);
            from = next;
        }
        self.piece(from, (b, self.at(b)), pieces);
    }

    /// Outside the field: from its left edge the long way round to its right edge.
    fn aside(&self, left: Vec2, right: Vec2, pieces: &mut Vec<[Vec2; 4]>) {
        if left.perp_dot(right).abs() < 1e-9 && left.dot(right) > 0.0 {
            return;
        }
        let mut from = (Vec2::ZERO, self.at(left));
        for corner in self.corners(left, right) {
            let next = (Vec2::ZERO, corner);
            self.piece(from, next, pieces);
            from = next;
        }
        self.piece(from, (Vec2::ZERO, self.at(right)), pieces);
    }

    fn piece(&self, from: (Vec2, Vec2), to: (Vec2, Vec2), pieces: &mut Vec<[Vec2; 4]>) {
        pieces.push([from.0, from.1, to.1, to.0].map(|p| self.eye + p));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coneyard_core::math::vec2;
    use coneyard_core::sight::polygon::{Field, HALF_FIELD, Segment, view};
    use proptest::prelude::*;

    const FLOOR: (Vec2, Vec2) = (Vec2::new(0.0, 0.0), Vec2::new(30.0, 20.0));

    fn area(outline: &[Vec2]) -> f32 {
        let next = outline.iter().cycle().skip(1);
        0.5 * outline.iter().zip(next).map(|(a, b)| a.perp_dot(*b)).sum::<f32>()
    }

    /// What is seen and what is not, for an eye among walls.
    fn seen_and_unseen(eye: Vec2, look: f32, walls: &[(Vec2, Vec2)]) -> (f32, f32) {
        let wide = |p: Vec2| vec2(f64::from(p.x), f64::from(p.y));
        let field = Field { look: wide(Vec2::from_angle(look)), half: HALF_FIELD };
        let opaque: Vec<Segment> =
            walls.iter().map(|(a, b)| Segment { from: wide(*a), to: wide(*b) }).collect();
        let seen = view(wide(eye), &field, (wide(FLOOR.0), wide(FLOOR.1)), &opaque);
        let points: Vec<Vec2> =
            seen.polygon().iter().map(|p| Vec2::new(p.x as f32, p.y as f32)).collect();
        let pieces = unseen(eye, &points[1..], FLOOR);
        assert!(pieces.iter().all(|p| area(p) > -1e-3), "a piece lies the wrong way round");
        (area(&points), pieces.iter().map(|p| area(p)).sum())
    }

    #[test]
    fn without_a_view_nothing_is_covered() {
        assert!(unseen(Vec2::ONE, &[], FLOOR).is_empty());
    }

    #[test]
    fn on_an_open_floor_what_is_behind_is_unseen() {
        let (seen, unseen) = seen_and_unseen(Vec2::new(15.0, 10.0), 0.0, &[]);
        // 10 degrees more than half of it is seen.
        assert!(seen > 300.0 && seen < 340.0, "{seen}");
        assert!((seen + unseen - 600.0).abs() < 0.1, "{seen} + {unseen}");
    }

    proptest! {
        #[test]
        fn seen_and_unseen_make_up_the_floor(
            x in 1.0f32..29.0, y in 1.0f32..19.0, look in -3.0f32..3.0,
            ends in prop::collection::vec((1.0f32..29.0, 1.0f32..19.0, 1.0f32..29.0, 1.0f32..19.0), 0..6),
        ) {
            let walls: Vec<(Vec2, Vec2)> =
                ends.iter().map(|(a, b, c, d)| (Vec2::new(*a, *b), Vec2::new(*c, *d))).collect();
            let (seen, unseen) = seen_and_unseen(Vec2::new(x, y), look, &walls);
            prop_assert!((seen + unseen - 600.0).abs() < 1.0, "{seen} + {unseen}");
        }
    }
}

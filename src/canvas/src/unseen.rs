//! What the rider does not see, as a shape: the floor less the visibility polygon.
//!
//! The polygon is seen whole from the eye. So what is behind each stretch of its boundary lies
//! between that stretch and the floor's edge along the same directions: a few corners each, and no
//! search.

use bevy::math::Vec2;

/// A floor that does not hold the eye is taken to reach this far beyond it, m.
const BEYOND: f32 = 0.01;

/// Two points that the eye sees within this angle lie on one line of sight, rad.
const SAME: f32 = 1e-5;

/// Pieces with four corners that together cover the floor outside what is seen. `boundary` is the
/// far boundary of what is seen, counter-clockwise as seen from the eye, on the floor. Without a
/// boundary nothing is known, and nothing is covered.
///
/// Neighbouring pieces share their corners to the last bit: no light comes through between them.
pub(crate) fn unseen(eye: Vec2, boundary: &[Vec2], floor: (Vec2, Vec2)) -> Vec<[Vec2; 4]> {
    let rim = Rim { lo: floor.0.min(eye - BEYOND) - eye, hi: floor.1.max(eye + BEYOND) - eye };
    let spokes = spokes(eye, boundary, &rim);
    let (Some(first), Some(last)) = (spokes.first(), spokes.last()) else {
        return Vec::new();
    };
    let mut pieces = Vec::with_capacity(2 * spokes.len() + 16);
    for ends in spokes.windows(2) {
        rim.behind(&ends[0], &ends[1], &mut pieces);
    }
    rim.aside(last, first, &mut pieces);
    for corner in pieces.iter_mut().flatten() {
        *corner += eye;
    }
    pieces
}

/// A line of sight with the boundary's points on it. All from the eye.
#[derive(Clone, Copy)]
struct Spoke {
    /// Where the stretch before ends.
    first: Vec2,
    /// Where the stretch after begins.
    last: Vec2,
    /// Where it meets the floor's edge.
    rim: Vec2,
}

impl Spoke {
    /// The farther of its two points.
    fn far(&self) -> Vec2 {
        if self.first.length_squared() > self.last.length_squared() {
            self.first
        } else {
            self.last
        }
    }
}

/// The boundary's points, those on one line of sight together.
fn spokes(eye: Vec2, boundary: &[Vec2], rim: &Rim) -> Vec<Spoke> {
    let mut spokes: Vec<Spoke> = Vec::with_capacity(boundary.len());
    for p in boundary {
        let p = *p - eye;
        match spokes.last_mut() {
            Some(before) if before.last.perp_dot(p) <= SAME * before.last.length() * p.length() => {
                before.last = p;
            }
            _ => spokes.push(Spoke { first: p, last: p, rim: p }),
        }
    }
    for spoke in &mut spokes {
        spoke.rim = rim.at(spoke.far());
    }
    spokes
}

/// The floor's edge as seen from the eye: south-west and north-east corner from it.
struct Rim {
    lo: Vec2,
    hi: Vec2,
}

impl Rim {
    /// Where a direction meets the edge.
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
        let far = to_edge(way.x, self.lo.x, self.hi.x).min(to_edge(way.y, self.lo.y, self.hi.y));
        if far.is_finite() { way * far } else { Vec2::ZERO }
    }

    /// Corners of the floor from one direction counter-clockwise to another, in order, with the
    /// angle of each from the first. `from` to `to` is less than a full turn.
    fn corners(&self, from: Vec2, to: Vec2) -> Vec<(f32, Vec2)> {
        let (lo, hi) = (self.lo, self.hi);
        let all = [lo, Vec2::new(hi.x, lo.y), hi, Vec2::new(lo.x, hi.y)];
        let end = turn(from, to);
        let mut between: Vec<(f32, Vec2)> = all
            .into_iter()
            .map(|c| (turn(from, c), c))
            .filter(|(a, _)| *a > SAME && *a < end - SAME)
            .collect();
        between.sort_by(|a, b| a.0.total_cmp(&b.0));
        between
    }

    /// Behind the stretch of the boundary from one line of sight to the next.
    fn behind(&self, a: &Spoke, b: &Spoke, pieces: &mut Vec<[Vec2; 4]>) {
        let along = b.first - a.last;
        let mut from = (a.last, a.far(), a.rim);
        for (_, corner) in self.corners(a.last, b.first) {
            // Where the line of sight to the corner meets the stretch.
            let across = corner.perp_dot(along);
            let near = corner * (a.last.perp_dot(along) / across);
            let near = if near.is_finite() { near } else { corner };
            piece(from, (near, near, corner), pieces);
            from = (near, near, corner);
        }
        piece(from, (b.first, b.far(), b.rim), pieces);
    }

    /// Outside the field: from its left edge the long way round to its right edge.
    fn aside(&self, left: &Spoke, right: &Spoke, pieces: &mut Vec<[Vec2; 4]>) {
        let (from, to) = (left.far(), right.far());
        let whole = turn(from, to);
        if whole < SAME {
            return;
        }
        // A direction half-way, so that there are at least two pieces.
        let middle = self.at(Vec2::from_angle(0.5 * whole).rotate(from));
        let mut ways = self.corners(from, to);
        ways.push((0.5 * whole, middle));
        ways.sort_by(|a, b| a.0.total_cmp(&b.0));
        let rims: Vec<Vec2> = ways.into_iter().map(|(_, at)| at).collect();
        // The boundary's points on both edges are corners of these pieces too.
        if let (Some(next), Some(before)) = (rims.first(), rims.last()) {
            pieces.push([*next, Vec2::ZERO, from, left.rim]);
            pieces.push([*before, right.rim, to, Vec2::ZERO]);
        }
        for pair in rims.windows(2) {
            pieces.push([Vec2::ZERO, pair[0], pair[1], Vec2::ZERO]);
        }
    }
}

/// Angle counter-clockwise from one direction to another, 0 to a full turn.
fn turn(from: Vec2, to: Vec2) -> f32 {
    let a = from.angle_to(to);
    if a < 0.0 { a + core::f32::consts::TAU } else { a }
}

/// Between two lines of sight: from the stretch to the farther points on both, and from there to
/// the floor's edge. Each is given as near, far and edge.
fn piece(a: (Vec2, Vec2, Vec2), b: (Vec2, Vec2, Vec2), pieces: &mut Vec<[Vec2; 4]>) {
    if a.0 != a.1 || b.0 != b.1 {
        pieces.push([a.0, a.1, b.1, b.0]);
    }
    pieces.push([a.1, a.2, b.2, b.1]);
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

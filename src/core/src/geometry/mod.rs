//! Plane geometry for courses: points in polygons, crossings, overlaps, distances. Metres, yard
//! frame. Only sums, products and square roots, so the bits are the same everywhere.

pub mod abreast;
pub mod dubins;

use crate::math::{Pose, Vec2, vec2};

/// Twice the signed area halved: positive when the outline runs counter-clockwise, m^2.
pub fn signed_area(outline: &[Vec2]) -> f64 {
    0.5 * edges(outline).map(|(a, b)| a.cross(b)).sum::<f64>()
}

/// The edges of a closed outline, in order.
pub fn edges(outline: &[Vec2]) -> impl Iterator<Item = (Vec2, Vec2)> + '_ {
    let first = outline.first().copied();
    let next = outline.iter().skip(1).copied().chain(first);
    outline.iter().copied().zip(next)
}

/// Whether a point lies inside a polygon, by counting the edges that a ray to the east crosses.
/// Each edge holds its lower end but not its upper one, so that neighbours share no point twice.
pub fn in_polygon(p: Vec2, outline: &[Vec2]) -> bool {
    let mut inside = false;
    for (a, b) in edges(outline) {
        if (a.y > p.y) != (b.y > p.y) {
            let x = a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x);
            if p.x < x {
                inside = !inside;
            }
        }
    }
    inside
}

/// Where a point that moves from `a0` to `a1` crosses the segment `b0` to `b1`: the share of the
/// way, 0 to 1. Standing on the line counts as being on its left, so a movement cut into ticks
/// crosses exactly as often as the whole movement does.
pub fn crossing(a0: Vec2, a1: Vec2, b0: Vec2, b1: Vec2) -> Option<f64> {
    let along = b1 - b0;
    let (s0, s1) = (along.cross(a0 - b0), along.cross(a1 - b0));
    if (s0 < 0.0) == (s1 < 0.0) {
        return None;
    }
    let t = s0 / (s0 - s1);
    let at = (a0 + (a1 - a0) * t - b0).dot(along);
    (0.0..=along.dot(along)).contains(&at).then_some(t)
}

/// Whether two segments have a point in common (touching ends count only from one side).
pub fn segments_cross(a0: Vec2, a1: Vec2, b0: Vec2, b1: Vec2) -> bool {
    crossing(a0, a1, b0, b1).is_some()
}

/// Distance from a point to a segment, m.
pub fn distance_to_segment(p: Vec2, a: Vec2, b: Vec2) -> f64 {
    squared_distance_to_segment(p, a, b).sqrt()
}

fn squared_distance_to_segment(p: Vec2, a: Vec2, b: Vec2) -> f64 {
    let ab = b - a;
    let l2 = ab.dot(ab);
    let t = if l2 > 0.0 { ((p - a).dot(ab) / l2).clamp(0.0, 1.0) } else { 0.0 };
    let away = p - (a + ab * t);
    away.dot(away)
}

/// Distance from a point to a polygon, m; 0 inside it.
pub fn distance_to_polygon(p: Vec2, outline: &[Vec2]) -> f64 {
    if in_polygon(p, outline) {
        return 0.0;
    }
    distance_to_outline(p, outline)
}

/// Distance from a point to the nearest edge of a polygon, m, from inside or outside.
pub fn distance_to_outline(p: Vec2, outline: &[Vec2]) -> f64 {
    let squared = edges(outline).map(|(a, b)| squared_distance_to_segment(p, a, b));
    squared.fold(f64::INFINITY, f64::min).sqrt()
}

/// Whether two convex polygons share an area: no edge of either separates them.
pub fn convex_overlap(a: &[Vec2], b: &[Vec2]) -> bool {
    !(separated_by_an_edge_of(a, b) || separated_by_an_edge_of(b, a))
}

fn separated_by_an_edge_of(a: &[Vec2], b: &[Vec2]) -> bool {
    edges(a).any(|(p, q)| {
        let normal = (q - p).left();
        let (a_least, a_most) = span(a, normal);
        let (b_least, b_most) = span(b, normal);
        a_most <= b_least || b_most <= a_least
    })
}

fn span(points: &[Vec2], along: Vec2) -> (f64, f64) {
    points
        .iter()
        .map(|p| p.dot(along))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), d| (lo.min(d), hi.max(d)))
}

/// Whether a disc and a polygon share an area.
pub fn disc_overlaps(middle: Vec2, radius: f64, outline: &[Vec2]) -> bool {
    distance_to_polygon(middle, outline) < radius
}

/// Whether a segment and a convex polygon have a point in common.
pub fn segment_meets(a: Vec2, b: Vec2, outline: &[Vec2]) -> bool {
    in_polygon(a, outline)
        || in_polygon(b, outline)
        || edges(outline).any(|(p, q)| segments_cross(a, b, p, q))
}

/// The corners of a turned rectangle, counter-clockwise: `size.x` along its heading, `size.y`
/// across.
pub fn rectangle(pose: Pose, size: Vec2) -> [Vec2; 4] {
    let h = size * 0.5;
    [vec2(-h.x, -h.y), vec2(h.x, -h.y), vec2(h.x, h.y), vec2(-h.x, h.y)].map(pose.placer())
}

/// Index of the first edge of an outline that crosses another edge which is not its neighbour.
pub fn self_crossing(outline: &[Vec2]) -> Option<usize> {
    let n = outline.len();
    let edge = |i: usize| (outline[i], outline[(i + 1) % n]);
    (0..n).find(|&i| {
        let (a, b) = edge(i);
        (i + 2..n).filter(|&j| (j + 1) % n != i).any(|j| segments_cross(a, b, edge(j).0, edge(j).1))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const L: [Vec2; 6] = [
        vec2(0.0, 0.0),
        vec2(4.0, 0.0),
        vec2(4.0, 1.0),
        vec2(1.0, 1.0),
        vec2(1.0, 4.0),
        vec2(0.0, 4.0),
    ];

    #[test]
    fn a_hollow_corner_is_outside() {
        assert!(in_polygon(vec2(0.5, 3.0), &L));
        assert!(in_polygon(vec2(3.0, 0.5), &L));
        assert!(!in_polygon(vec2(2.0, 2.0), &L));
        assert!((distance_to_polygon(vec2(2.0, 2.0), &L) - 1.0).abs() < 1e-12);
        assert!((signed_area(&L) - 7.0).abs() < 1e-12);
    }

    #[test]
    fn a_bow_tie_crosses_itself_and_a_hollow_corner_does_not() {
        let bow = [vec2(0.0, 0.0), vec2(2.0, 2.0), vec2(2.0, 0.0), vec2(0.0, 2.0)];
        assert_eq!(self_crossing(&bow), Some(0));
        assert_eq!(self_crossing(&L), None);
    }

    #[test]
    fn rectangles_that_only_touch_do_not_overlap() {
        let at =
            |x: f64, heading: f64| rectangle(Pose { at: vec2(x, 0.0), heading }, vec2(2.0, 1.0));
        assert!(!convex_overlap(&at(0.0, 0.0), &at(2.0, 0.0)));
        assert!(convex_overlap(&at(0.0, 0.0), &at(1.99, 0.0)));
        // Turned by a right angle it reaches only half a metre.
        assert!(!convex_overlap(&at(0.0, 0.0), &at(1.6, core::f64::consts::FRAC_PI_2)));
    }

    proptest! {
        /// A movement cut in two crosses a line once in all, wherever it is cut.
        #[test]
        fn a_cut_movement_crosses_as_often_as_the_whole(
            x0 in -5.0..5.0f64, x1 in -5.0..5.0f64, cut in 0.0..1.0f64,
        ) {
            let (b0, b1) = (vec2(0.0, -1.0), vec2(0.0, 1.0));
            let (a, c) = (vec2(x0, 0.2), vec2(x1, 0.2));
            let m = vec2(x0 + cut * (x1 - x0), 0.2);
            let whole = usize::from(crossing(a, c, b0, b1).is_some());
            let parts = usize::from(crossing(a, m, b0, b1).is_some())
                + usize::from(crossing(m, c, b0, b1).is_some());
            prop_assert_eq!(whole, parts);
        }
    }
}

//! Stripes cut out of an outline: for zebra crossings and hatched plates.

use bevy::math::Vec2;

/// More stripes than this are not cut, however large an area is.
const MOST: usize = 400;

/// The part of an outline whose place along `way` (a unit vector) is at least `from`.
fn beyond(outline: &[Vec2], way: Vec2, from: f32) -> Vec<Vec2> {
    let mut kept = Vec::with_capacity(outline.len() + 2);
    for (a, b) in outline.iter().zip(outline.iter().cycle().skip(1)) {
        let (of_a, of_b) = (a.dot(way) - from, b.dot(way) - from);
        if of_a >= 0.0 {
            kept.push(*a);
        }
        if (of_a < 0.0) != (of_b < 0.0) {
            kept.push(a.lerp(*b, of_a / (of_a - of_b)));
        }
    }
    kept
}

/// Stripes of this width across `way`, one every `every` metres along it.
pub(crate) fn slices(outline: &[Vec2], way: Vec2, width: f32, every: f32) -> Vec<Vec<Vec2>> {
    let way = way.normalize_or(Vec2::X);
    let places = outline.iter().map(|p| p.dot(way));
    let (lo, hi) = places.fold((f32::MAX, f32::MIN), |(lo, hi), p| (lo.min(p), hi.max(p)));
    if lo >= hi {
        return Vec::new();
    }
    // Half a gap on either side, so that the stripes lie evenly in the area.
    let count = (((hi - lo) / every).round().max(1.0) as usize).min(MOST);
    let every = (hi - lo) / count as f32;
    (0..count)
        .map(|i| lo + every * (i as f32 + 0.5))
        .map(|middle| {
            let cut = beyond(outline, way, middle - 0.5 * width);
            beyond(&cut, -way, -(middle + 0.5 * width))
        })
        .filter(|stripe| stripe.len() >= 3)
        .collect()
}

/// Direction of the longest side.
pub(crate) fn longest_side(outline: &[Vec2]) -> Vec2 {
    let next = outline.iter().cycle().skip(1);
    let sides = outline.iter().zip(next).map(|(a, b)| *b - *a);
    sides.fold(Vec2::ZERO, |most, s| if s.length() > most.length() { s } else { most })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stripes_stay_in_the_area_and_cover_their_share() {
        let area = [Vec2::ZERO, Vec2::new(6.0, 0.0), Vec2::new(6.0, 2.0), Vec2::new(0.0, 2.0)];
        let stripes = slices(&area, longest_side(&area), 0.5, 1.0);
        assert_eq!(stripes.len(), 6);
        for stripe in &stripes {
            let (mut lo, mut hi) = (Vec2::MAX, Vec2::MIN);
            for p in stripe {
                (lo, hi) = (lo.min(*p), hi.max(*p));
            }
            assert!((hi - lo - Vec2::new(0.5, 2.0)).length() < 1e-4, "{stripe:?}");
            assert!(lo.min_element() > -1e-4 && hi.x < 6.0001 && hi.y < 2.0001, "{stripe:?}");
        }
    }

    #[test]
    fn a_slanted_cut_of_a_triangle_has_three_or_more_corners() {
        let area = [Vec2::ZERO, Vec2::new(3.0, 0.0), Vec2::new(0.0, 3.0)];
        let stripes = slices(&area, Vec2::ONE, 0.2, 0.4);
        assert!(!stripes.is_empty());
        assert!(stripes.iter().flatten().all(|p| p.x > -1e-4 && p.y > -1e-4 && p.x + p.y < 3.001));
    }

    #[test]
    fn nothing_is_cut_out_of_nothing() {
        assert!(slices(&[], Vec2::X, 0.5, 1.0).is_empty());
        assert!(slices(&[Vec2::ONE], Vec2::X, 0.5, 1.0).is_empty());
    }
}

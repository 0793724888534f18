//! Numbers of findings, and where they stand on the plan. A number stands on the place where the
//! finding was made, or as near as the others leave room, tied to it by a line.

use coneyard_core::finding::Finding;
use coneyard_core::math::{Vec2, vec2};

/// A finding with its number on the plan, from 1.
pub(crate) type Numbered = (usize, Finding);

/// The findings with their numbers, in the order in which they were made.
pub(crate) fn numbered(findings: &[Finding]) -> Vec<Numbered> {
    let mut in_order = findings.to_vec();
    in_order.sort_by_key(|f| f.from);
    in_order.into_iter().enumerate().map(|(n, f)| (n + 1, f)).collect()
}

/// Those of them that have a place in the yard: what is about a point of the truck has none.
pub(crate) fn on_the_plan(findings: &[Finding]) -> Vec<Numbered> {
    numbered(findings).into_iter().filter(|(_, f)| f.point.is_none()).collect()
}

/// Room that a number needs around its middle, 0.1 mm.
pub(super) const RADIUS: f64 = 32.0;
/// Least distance between the middles of two numbers.
const APART: f64 = 2.0 * RADIUS + 4.0;
/// Rings of places tried around a finding, and places on the first ring; each further ring has as
/// many more.
const RINGS: u32 = 24;
const ON_FIRST: u32 = 8;

/// A middle for each number, none over another, all inside the drawing as far as there is room.
pub(super) fn spread(places: &[Vec2], size: Vec2) -> Vec<Vec2> {
    let mut taken: Vec<Vec2> = Vec::with_capacity(places.len());
    for place in places {
        let inside = vec2(
            place.x.clamp(RADIUS, (size.x - RADIUS).max(RADIUS)),
            place.y.clamp(RADIUS, (size.y - RADIUS).max(RADIUS)),
        );
        let free = |p: &Vec2| {
            let fits = (RADIUS..=size.x - RADIUS).contains(&p.x)
                && (RADIUS..=size.y - RADIUS).contains(&p.y);
            fits && taken.iter().all(|t| (*t - *p).length() >= APART)
        };
        let around = (1..=RINGS).flat_map(|ring| {
            let count = ring * ON_FIRST;
            (0..count).map(move |n| {
                let turn = f64::from(n) / f64::from(count) * core::f64::consts::TAU;
                inside + Vec2::from_angle(turn) * (f64::from(ring) * APART * 0.75)
            })
        });
        let middle = core::iter::once(inside).chain(around).find(free).unwrap_or(inside);
        taken.push(middle);
    }
    taken
}

#[cfg(test)]
mod tests {
    use coneyard_core::finding::Severity;

    use super::*;
    use crate::test_support::found;

    const SIZE: Vec2 = vec2(1_800.0, 700.0);

    fn finding(from: u32) -> Finding {
        found(&format!("at-{from}"), Severity::Minor, from)
    }

    #[test]
    fn numbers_follow_time_and_none_is_left_out() {
        let shown = numbered(&[finding(9), finding(3), finding(5)]);
        let order: Vec<(usize, u32)> = shown.iter().map(|(n, f)| (*n, f.from)).collect();
        assert_eq!(order, [(1, 3), (2, 5), (3, 9)]);
        assert!(numbered(&[]).is_empty());
    }

    #[test]
    fn what_is_about_a_point_of_the_truck_keeps_its_number_and_is_not_drawn() {
        let about = Finding { point: Some(0), ..finding(4) };
        let shown = on_the_plan(&[finding(9), about, finding(3)]);
        let order: Vec<(usize, u32)> = shown.iter().map(|(n, f)| (*n, f.from)).collect();
        assert_eq!(order, [(1, 3), (3, 9)]);
    }

    #[test]
    fn a_number_alone_stands_where_the_finding_was_made() {
        assert_eq!(spread(&[vec2(300.0, 200.0)], SIZE), [vec2(300.0, 200.0)]);
        assert_eq!(spread(&[vec2(-50.0, 900.0)], SIZE), [vec2(RADIUS, SIZE.y - RADIUS)]);
    }

    #[test]
    fn no_number_lies_over_another() {
        // A crowd at one place, one in a corner, and a row closer than there is room for.
        let crowd = core::iter::repeat_n(vec2(400.0, 300.0), 30);
        let corner = core::iter::repeat_n(vec2(1_795.0, 2.0), 12);
        let row = (0..40).map(|n| vec2(f64::from(n) * 7.0 + 900.0, 350.0));
        let places: Vec<Vec2> = crowd.chain(corner).chain(row).collect();
        let shown = spread(&places, SIZE);
        assert_eq!(shown.len(), places.len());
        for (n, a) in shown.iter().enumerate() {
            assert!((RADIUS..=SIZE.x - RADIUS).contains(&a.x), "{a:?} leaves the drawing");
            assert!((RADIUS..=SIZE.y - RADIUS).contains(&a.y), "{a:?} leaves the drawing");
            for b in &shown[..n] {
                assert!((*a - *b).length() >= APART - 1e-9, "{a:?} lies over {b:?}");
            }
        }
    }
}

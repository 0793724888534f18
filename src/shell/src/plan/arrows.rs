//! The path driven as a line on the paper, with heads that show which way it went.

use std::fmt::Write;

use coneyard_core::math::Vec2;

/// Points nearer than this to the one before are left out, 0.1 mm: a truck at rest draws nothing.
const FINE: f64 = 1.0;
/// From one head to the next along the path, 0.1 mm.
const APART: f64 = 220.0;
/// The first head stands here.
const FIRST: f64 = 60.0;
/// Length of a head and half its width, 0.1 mm.
const LENGTH: f64 = 22.0;
const HALF: f64 = 9.0;

/// The points that make a difference on paper. The last is always among them.
pub(super) fn thinned(points: impl IntoIterator<Item = Vec2>) -> Vec<Vec2> {
    let mut kept: Vec<Vec2> = Vec::new();
    let mut last = None;
    for p in points {
        last = Some(p);
        if kept.last().is_none_or(|k| (p - *k).length() >= FINE) {
            kept.push(p);
        }
    }
    if let Some(last) = last.filter(|l| kept.last() != Some(l)) {
        kept.push(last);
    }
    kept
}

/// Path data of the line.
pub(super) fn line(points: &[Vec2]) -> String {
    let mut data = String::with_capacity(points.len() * 14);
    for (n, p) in points.iter().enumerate() {
        // Writing to a string cannot fail.
        let _ = write!(data, "{}{:.1} {:.1}", if n == 0 { 'M' } else { 'L' }, p.x, p.y);
    }
    data
}

/// Path data of the heads.
pub(super) fn heads(points: &[Vec2]) -> String {
    let mut data = String::new();
    let mut to_go = FIRST;
    for pair in points.windows(2) {
        let way = pair[1] - pair[0];
        let length = way.length();
        let along = way.normalized();
        let mut at = to_go;
        while at <= length {
            let tip = pair[0] + along * (at + 0.5 * LENGTH);
            let back = tip - along * LENGTH;
            let side = along.left() * HALF;
            let (l, r) = (back + side, back - side);
            let _ = write!(
                data,
                "M{:.1} {:.1}L{:.1} {:.1}L{:.1} {:.1}Z",
                tip.x, tip.y, l.x, l.y, r.x, r.y
            );
            at += APART;
        }
        to_go = at - length;
    }
    data
}

#[cfg(test)]
mod tests {
    use coneyard_core::math::vec2;

    use super::*;

    #[test]
    fn a_rest_draws_nothing_and_the_end_is_kept() {
        let rest = [vec2(0.0, 0.0), vec2(0.1, 0.0), vec2(5.0, 0.0), vec2(5.2, 0.0)];
        assert_eq!(thinned(rest), [vec2(0.0, 0.0), vec2(5.0, 0.0), vec2(5.2, 0.0)]);
        assert!(thinned([]).is_empty());
    }

    #[test]
    fn heads_stand_evenly_along_the_path_and_point_its_way() {
        let way = FIRST + 2.0 * APART;
        let count = |points: &[Vec2]| heads(points).matches('M').count();
        assert_eq!(count(&[vec2(0.0, 0.0), vec2(way + 1.0, 0.0)]), 3);
        // The same in short pieces.
        let pieces: Vec<Vec2> =
            (0..=50).map(|n| vec2(f64::from(n) / 50.0 * (way + 1.0), 0.0)).collect();
        assert_eq!(count(&pieces), 3);
        assert_eq!(count(&[]), 0);
        let one = heads(&[vec2(0.0, 0.0), vec2(FIRST + 20.0, 0.0)]);
        assert!(one.starts_with(&format!("M{:.1} 0.0L", FIRST + 0.5 * LENGTH)), "{one}");
    }
}

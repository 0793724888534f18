//! The way of a drive in few points, for small plans in lists.

use crate::math::vec2;

/// A line goes by its points within this, m: a third of a millimetre on a plan as large as paper.
const WITHIN: f64 = 0.03;

/// The same line with the points that it can do without left out (Ramer 1972, Douglas and Peucker 1973),
/// to a centimetre. Points are in the yard frame, m.
pub fn thinned(path: &[[f32; 2]]) -> Vec<[f32; 2]> {
    let at = |i: usize| vec2(f64::from(path[i][0]), f64::from(path[i][1]));
    let mut stays = vec![false; path.len()];
    let mut legs = Vec::new();
    if let Some(last) = path.len().checked_sub(1) {
        stays[0] = true;
        stays[last] = true;
        legs.push((0, last));
    }
    while let Some((from, to)) = legs.pop() {
        let (a, along) = (at(from), at(to) - at(from));
        let off = |i: usize| {
            let p = at(i) - a;
            // A truck that comes back to where it was has no leg to be off from.
            let share = (p.dot(along) / along.dot(along).max(1e-12)).clamp(0.0, 1.0);
            (p - along * share).length()
        };
        let farthest = (from + 1..to).max_by(|a, b| off(*a).total_cmp(&off(*b)));
        if let Some(i) = farthest.filter(|i| off(*i) > WITHIN) {
            stays[i] = true;
            legs.extend([(from, i), (i, to)]);
        }
    }
    let to_a_centimetre = |x: f32| (x * 100.0).round() / 100.0;
    let kept = path.iter().zip(stays).filter(|(_, stays)| *stays);
    kept.map(|(p, _)| p.map(to_a_centimetre)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::Vec2;

    #[test]
    fn a_straight_line_needs_its_ends_and_a_bend_its_corner() {
        let straight: Vec<[f32; 2]> = (0..=100).map(|n| [n as f32 * 0.1, 2.0]).collect();
        assert_eq!(thinned(&straight), [[0.0, 2.0], [10.0, 2.0]]);
        let bend = [[0.0, 0.0], [1.0, 0.0], [2.0, 0.0], [2.0, 1.0], [2.0, 2.001]];
        assert_eq!(thinned(&bend), [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0]]);
        assert_eq!(thinned(&[]), [[0.0; 2]; 0]);
        assert_eq!(thinned(&[[1.234, 5.0]]), [[1.23, 5.0]]);
    }

    #[test]
    fn no_point_lies_farther_off_than_is_allowed_and_a_round_comes_back() {
        let at = |n: i32| Vec2::from_angle(f64::from(n) * core::f64::consts::TAU / 360.0) * 5.0;
        let round: Vec<[f32; 2]> = (0..=360).map(at).map(|p| [p.x as f32, p.y as f32]).collect();
        let few = thinned(&round);
        assert!((20..80).contains(&few.len()), "{}", few.len());
        for p in &round {
            let p = vec2(f64::from(p[0]), f64::from(p[1]));
            let off = few.windows(2).map(|leg| {
                let [a, b] = [leg[0], leg[1]].map(|q| vec2(f64::from(q[0]), f64::from(q[1])));
                let share = (p - a).dot(b - a) / (b - a).dot(b - a);
                (p - a - (b - a) * share.clamp(0.0, 1.0)).length()
            });
            assert!(off.fold(f64::MAX, f64::min) <= WITHIN + 0.008, "{p:?}");
        }
    }
}

//! Where a second line stands when the first has come somewhere: two drives over the same ground, side by side by
//! place instead of by time. How far the second has come is the distance along the first one's line to the point that
//! is nearest to it, looked for ahead only and no farther than it can have come, so that the next lap over the same
//! floor, or the other arm of a crossing, is never taken for this one.

use crate::math::Vec2;

/// The line is looked along for at least so far ahead, m.
const AHEAD: f64 = 1.0;
/// And for so much more of it than the second has gone meanwhile: whoever cuts a corner goes the shorter way.
const LONGER: f64 = 1.5;
/// As near as this the second is on the first one's line, m. Farther off it may be going round something, and is
/// looked for as far ahead as its way allows since it left.
const ON_LINE: f64 = 1.5;

/// How far along the line of `first` each place of `second` is, m. It never goes back.
pub fn distances(first: &[Vec2], second: &[Vec2]) -> Vec<f64> {
    let along = lengths(first);
    let Some(&whole) = along.last() else {
        return vec![0.0; second.len()];
    };
    // The stretch in which it is, how far along it, and how far the second has gone since it was on the line.
    let (mut stretch, mut at, mut gone) = (0, 0.0, 0.0);
    let mut before = second.first().copied();
    let mut distance = |p: Vec2| {
        gone += before.map_or(0.0, |b| (p - b).length());
        before = Some(p);
        let until = (at + AHEAD + LONGER * gone).min(whole);
        let mut nearest = (f64::MAX, at, stretch);
        for n in stretch..first.len().saturating_sub(1) {
            if along[n] > until {
                break;
            }
            let (a, way, long) = (first[n], first[n + 1] - first[n], along[n + 1] - along[n]);
            if long <= 0.0 {
                continue;
            }
            let (low, high) = ((at - along[n]).max(0.0), (until - along[n]).min(long));
            let on = ((p - a).dot(way) / long).clamp(low.min(high), high);
            let off = (p - (a + way * (on / long))).length();
            // Of equals the first: nothing leads on without need.
            if off < nearest.0 {
                nearest = (off, along[n] + on, n);
            }
        }
        let (off, to, n) = nearest;
        (at, stretch) = (to.max(at), n);
        if off <= ON_LINE {
            gone = 0.0;
        }
        at
    };
    second.iter().map(|p| distance(*p)).collect()
}

/// For each place of `first` the place in `second`, with its fraction, at which it has come as far; None where it
/// never does.
pub fn places(first: &[Vec2], second: &[Vec2]) -> Vec<Option<f64>> {
    let come = distances(first, second);
    let mut n = 0;
    let place = |to: f64| {
        while *come.get(n)? < to {
            n += 1;
        }
        let Some(before) = n.checked_sub(1) else {
            return Some(0.0);
        };
        let step = come[n] - come[before];
        let share = if step > 0.0 { (to - come[before]) / step } else { 1.0 };
        Some(before as f64 + share.clamp(0.0, 1.0))
    };
    lengths(first).into_iter().map(place).collect()
}

/// Length of the line up to each of its points, m.
fn lengths(line: &[Vec2]) -> Vec<f64> {
    let mut all = Vec::with_capacity(line.len());
    let mut so_far = 0.0;
    for (n, p) in line.iter().enumerate() {
        so_far += n.checked_sub(1).map_or(0.0, |b| (*p - line[b]).length());
        all.push(so_far);
    }
    all
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::math::{DEG, vec2};

    /// Laps of a circle, with so many places each.
    fn laps(radius: f64, laps: f64, places: usize) -> Vec<Vec2> {
        let count = (laps * places as f64) as usize;
        let at = |n: usize| Vec2::from_angle(n as f64 / places as f64 * 360.0 * DEG) * radius;
        (0..=count).map(at).collect()
    }

    fn straight(places: impl IntoIterator<Item = f64>) -> Vec<Vec2> {
        places.into_iter().map(|x| vec2(x, 0.0)).collect()
    }

    #[test]
    fn a_line_is_abreast_of_itself() {
        let line = laps(5.0, 3.0, 150);
        for (n, place) in places(&line, &line).into_iter().enumerate() {
            assert!((place.unwrap() - n as f64).abs() < 1e-6, "{n}: {place:?}");
        }
    }

    #[test]
    fn half_as_fast_is_at_the_same_place_after_twice_the_time() {
        let (fast, slow) = (laps(5.0, 3.0, 100), laps(5.0, 3.0, 200));
        let all = places(&fast, &slow);
        for (n, place) in all.iter().enumerate() {
            assert!((place.unwrap() - 2.0 * n as f64).abs() < 1.0, "{n}: {place:?}");
        }
        for (n, place) in places(&slow, &fast).iter().enumerate() {
            let Some(place) = place else {
                assert!(n > 598, "{n}");
                continue;
            };
            assert!((place - 0.5 * n as f64).abs() < 1.0, "{n}: {place:?}");
        }
    }

    #[test]
    fn a_lap_is_never_taken_for_the_next_one_on_the_same_floor() {
        // The second does one lap less, and a little inside or outside of the first one's line.
        for radius in [4.0, 5.0, 6.0] {
            let (first, second) = (laps(5.0, 3.0, 150), laps(radius, 2.0, 150));
            let come = distances(&first, &second);
            let lap = core::f64::consts::TAU * 5.0;
            for (n, at) in come.iter().enumerate() {
                let expected = n as f64 / 150.0 * lap;
                assert!(
                    (at - expected).abs() < 0.5,
                    "radius {radius}, {n}: {at} m, not {expected} m"
                );
            }
            let all = places(&first, &second);
            assert!(all[290].is_some() && all[310].is_none(), "it never comes to the third lap");
        }
    }

    #[test]
    fn the_other_arm_of_a_crossing_is_not_taken() {
        // A figure-eight: both loops go through the middle.
        let eight = |places: usize| -> Vec<Vec2> {
            let at = |n: usize| {
                let turn = n as f64 / places as f64 * 360.0 * DEG;
                let (along, aside) = (Vec2::from_angle(turn).y, Vec2::from_angle(2.0 * turn).y);
                vec2(8.0 * along, 4.0 * aside)
            };
            (0..=places).map(at).collect()
        };
        let (first, second) = (eight(300), eight(210));
        for (n, place) in places(&first, &second).into_iter().enumerate() {
            let Some(place) = place else {
                assert!(n > 295, "{n}");
                continue;
            };
            assert!((place - 0.7 * n as f64).abs() < 1.5, "{n}: {place}");
        }
    }

    #[test]
    fn who_stands_gets_no_farther_and_is_passed_over_by_place() {
        let first = straight((0..=40).map(|n| 0.25 * f64::from(n)));
        // It waits at 5 m for a hundred places.
        let waits = (0..=20).chain([20; 100]).chain(21..=40).map(|n| 0.25 * f64::from(n));
        let second = straight(waits);
        let come = distances(&first, &second);
        assert!(come[20..=120].iter().all(|m| (m - 5.0).abs() < 1e-9));
        let all = places(&first, &second);
        assert_eq!(all[20], Some(20.0), "where it came there");
        assert_eq!(all[24], Some(124.0), "and where it went on");
    }

    #[test]
    fn who_goes_back_is_waited_for_and_who_went_round_is_met_again() {
        let first = straight((0..=120).map(|n| 0.25 * f64::from(n)));
        // Three metres back from ten, and on again.
        let back: Vec<i32> = (0..=40).chain((28..40).rev()).chain(29..=120).collect();
        let come = distances(&first, &straight(back.iter().map(|n| 0.25 * f64::from(*n))));
        assert!(come.windows(2).all(|w| w[0] <= w[1]));
        assert!((come[52] - 10.0).abs() < 1.0, "{}", come[52]);
        assert!((come.last().unwrap() - 30.0).abs() < 1e-9);
        // Round something: six metres aside between 5 and 20 m.
        let round: Vec<Vec2> = (0..=120)
            .map(|n| vec2(0.25 * f64::from(n), if (20..80).contains(&n) { 6.0 } else { 0.0 }))
            .collect();
        let come = distances(&first, &round);
        assert!((come[100] - 25.0).abs() < 1e-6, "{}", come[100]);
    }

    #[test]
    fn nothing_comes_of_nothing() {
        assert!(places(&[], &straight([1.0])).is_empty());
        assert_eq!(places(&straight([0.0, 1.0]), &[]), [None, None]);
        assert_eq!(places(&straight([3.0]), &straight([0.0, 9.0])), [Some(0.0)]);
        assert_eq!(places(&straight([3.0, 3.0]), &straight([0.0])), [Some(0.0), Some(0.0)]);
        assert_eq!(distances(&[], &straight([1.0])), [0.0]);
    }

    proptest! {
        #[test]
        fn it_never_goes_back_and_stays_on_the_line(
            steps in proptest::collection::vec((-2.0..2.0_f64, -2.0..2.0_f64), 0..60),
            others in proptest::collection::vec((-2.0..2.0_f64, -2.0..2.0_f64), 0..60),
        ) {
            let walk = |steps: &[(f64, f64)]| -> Vec<Vec2> {
                steps.iter().scan(vec2(0.0, 0.0), |at, (x, y)| {
                    *at = *at + vec2(*x, *y);
                    Some(*at)
                }).collect()
            };
            let (first, second) = (walk(&steps), walk(&others));
            let come = distances(&first, &second);
            let whole = lengths(&first).last().copied().unwrap_or(0.0);
            prop_assert_eq!(come.len(), second.len());
            prop_assert!(come.windows(2).all(|w| w[0] <= w[1]));
            prop_assert!(come.iter().all(|m| (0.0..=whole + 1e-9).contains(m)));
            let all = places(&first, &second);
            prop_assert_eq!(all.len(), first.len());
            let there: Vec<f64> = all.iter().flatten().copied().collect();
            prop_assert!(there.windows(2).all(|w| w[0] <= w[1]));
            // Once it is not reached any more it is not reached again.
            prop_assert!(all.iter().skip_while(|p| p.is_some()).all(Option::is_none));
        }
    }
}

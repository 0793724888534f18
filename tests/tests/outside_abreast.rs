//! How far along a line another one has come, against the crate `geo`, which measures along lines by a routine of its
//! own (`LineLocatePoint`, the point nearest to another over the whole of a line). Where a line never comes near to
//! itself both must say the same; where it does, `geo` goes astray and what is told here must not.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::geometry::abreast::distances;
use coneyard_core::math::{DEG, Vec2, cos, sin, vec2};
use geo::{Coord, LineLocatePoint, LineString, Point};

/// A line that winds to the east, so wide that a metre beside it has one nearest place.
fn winding(count: usize, beside: f64) -> Vec<Vec2> {
    let at = |n: usize| {
        let x = 40.0 * n as f64 / count as f64;
        let way = vec2(1.0, 0.5 * cos(x / 4.0));
        vec2(x, 2.0 * sin(x / 4.0)) + way.normalized().left() * beside
    };
    (0..=count).map(at).collect()
}

fn line(points: &[Vec2]) -> LineString<f64> {
    points.iter().map(|p| Coord { x: p.x, y: p.y }).collect()
}

/// Along the whole line, m, by `geo`.
fn located(points: &[Vec2], p: Vec2) -> f64 {
    let whole: f64 = points.windows(2).map(|w| (w[1] - w[0]).length()).sum();
    line(points).line_locate_point(&Point::new(p.x, p.y)).unwrap() * whole
}

#[test]
fn beside_a_line_that_never_comes_near_to_itself_both_say_the_same() {
    let first = winding(320, 0.0);
    for (count, beside) in [(320, 0.0), (320, 0.8), (320, -0.8), (150, 0.5), (700, -1.2)] {
        let second = winding(count, beside);
        let come = distances(&first, &second);
        for (n, p) in second.iter().enumerate() {
            let expected = located(&first, *p);
            let off = (come[n] - expected).abs();
            assert!(
                off < 1e-6,
                "{count} places {beside} m aside, {n}: {} m, not {expected} m",
                come[n]
            );
        }
    }
}

#[test]
fn on_the_second_lap_the_nearest_place_of_the_whole_line_is_the_wrong_one() {
    // Two laps, the second a little inside the first; the other drives outside of both.
    let laps = |radius: f64, less: f64| -> Vec<Vec2> {
        let at =
            |n: u32| Vec2::from_angle(f64::from(n) * 2.4 * DEG) * (radius - f64::from(n) * less);
        (0..=300).map(at).collect()
    };
    let (first, second) = (laps(5.0, 0.001), laps(5.3, 0.0));
    let come = distances(&first, &second);
    let mut along = 0.0;
    for (n, p) in second.iter().enumerate() {
        along += n.checked_sub(1).map_or(0.0, |b| (first[n] - first[b]).length());
        assert!((come[n] - along).abs() < 0.1, "{n}: {} m, not {along} m", come[n]);
        let by_geo = located(&first, *p) - along;
        if (5..145).contains(&n) {
            assert!(by_geo.abs() < 0.1, "on the first lap they agree: {n}, {by_geo} m");
        }
        if (155..295).contains(&n) {
            assert!(by_geo < -10.0, "or this test would tell nothing: {n}, {by_geo} m");
        }
    }
}

//! Sight against an independent geometry library; `by_hand` against cases worked by hand, `quicker` what
//! is told quickly against the whole view.

mod by_hand;
mod quicker;

use geo::{Area, BooleanOps, Coord, Intersects, Line, LineString, MultiPolygon, Polygon};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

use super::looking::{Disc, Leg};
use super::polygon::{Field, HALF_FIELD, Segment, View, add_facing, clear_line, view};
use crate::geometry::{distance_to_outline, edges, in_polygon, rectangle, signed_area};
use crate::math::{DEG, Pose, Vec2, cos, sin, vec2};

const FLOOR: (Vec2, Vec2) = (vec2(0.0, 0.0), vec2(30.0, 20.0));

fn between(dice: &mut ChaCha8Rng, least: f64, most: f64) -> f64 {
    least + (most - least) * f64::from(dice.next_u32()) / f64::from(u32::MAX)
}

fn somewhere(dice: &mut ChaCha8Rng) -> Vec2 {
    vec2(between(dice, 0.0, 30.0), between(dice, 0.0, 20.0))
}

/// Racks, walls, pallets and posts; half of them square to the floor; they may overlap.
fn structures(dice: &mut ChaCha8Rng) -> Vec<[Vec2; 4]> {
    let count = 1 + dice.next_u32() % 40;
    (0..count)
        .map(|_| {
            let square = dice.next_u32().is_multiple_of(2);
            let turn = if square { 90.0 } else { 1.0 };
            let heading = (between(dice, 0.0, 360.0) / turn).floor() * turn * DEG;
            let size = match dice.next_u32() % 3 {
                0 => vec2(between(dice, 2.0, 10.0), 1.1),
                1 => vec2(1.2, 0.8),
                _ => vec2(between(dice, 0.05, 6.0), 0.1),
            };
            rectangle(Pose { at: somewhere(dice), heading }, size)
        })
        .collect()
}

fn facing(outlines: &[[Vec2; 4]], eye: Vec2) -> Vec<Segment> {
    let mut out = Vec::new();
    for o in outlines {
        add_facing(o, eye, &mut out);
    }
    out
}

/// A yard with an eye in it that stands in no structure.
fn yard(seed: u64) -> (ChaCha8Rng, Vec<[Vec2; 4]>, Vec2, Vec2) {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let outlines = structures(&mut dice);
    let eye = loop {
        let p = somewhere(&mut dice);
        if !outlines.iter().any(|o| in_polygon(p, o)) {
            break p;
        }
    };
    let look = Vec2::from_angle(between(&mut dice, 0.0, 360.0) * DEG);
    (dice, outlines, eye, look)
}

fn coord(p: Vec2) -> Coord {
    Coord { x: p.x, y: p.y }
}

fn polygon_of(points: &[Vec2]) -> Polygon {
    Polygon::new(LineString::from(points.iter().map(|p| coord(*p)).collect::<Vec<_>>()), vec![])
}

/// Whether a direction lies in the field, by the angle itself and not by the order of directions.
fn within_95_degrees(look: Vec2, d: Vec2) -> bool {
    look.dot(d) >= cos(95.0 * DEG) * d.length()
}

/// Brute force: one ray from the eye to the point against every structure, by the crate geo
/// (georust), whose predicates are exact (Shewchuk's adaptive arithmetic).
fn seen_by_a_ray(eye: Vec2, look: Vec2, solid: &[Polygon], p: Vec2) -> bool {
    let ray = Line::new(coord(eye), coord(p));
    within_95_degrees(look, p - eye) && !solid.iter().any(|s| s.intersects(&ray))
}

/// The same area by the crate's boolean operations: floor and field, less every edge's shadow.
fn seen_area(eye: Vec2, look: Vec2, outlines: &[[Vec2; 4]]) -> f64 {
    let far = |d: Vec2| eye + d.normalized() * 100.0;
    let fan: Vec<Vec2> =
        [-95.0, -50.0, 0.0, 50.0, 95.0].iter().map(|a| far(look.rotated(a * DEG))).collect();
    let field = polygon_of(&[&[eye], fan.as_slice()].concat());
    let (lo, hi) = FLOOR;
    let floor = polygon_of(&[lo, vec2(hi.x, lo.y), hi, vec2(lo.x, hi.y)]);
    let shadows: Vec<Polygon> = outlines
        .iter()
        .flat_map(|o| (0..4).map(move |i| (o[i], o[(i + 1) % 4])))
        .map(|(a, b)| {
            let (da, db) = ((a - eye).normalized(), (b - eye).normalized());
            // Counter-clockwise, as the union wants them.
            let (a, da, b, db) = if da.cross(db) > 0.0 { (a, da, b, db) } else { (b, db, a, da) };
            polygon_of(&[a, far(da), far(da + db), far(db), b])
        })
        .collect();
    let lit = floor.intersection(&field);
    lit.difference(&geo::unary_union(&shadows)).difference(&solid(outlines)).unsigned_area()
}

fn solid(outlines: &[[Vec2; 4]]) -> MultiPolygon {
    let solid: Vec<Polygon> = outlines.iter().map(|o| polygon_of(o)).collect();
    geo::unary_union(&solid)
}

/// Points and area of one yard against the library; adds to the counts of points seen, hidden and
/// left out.
fn compare(
    name: u64,
    (mut dice, outlines, eye, look): (ChaCha8Rng, Vec<[Vec2; 4]>, Vec2, Vec2),
    counts: &mut [usize; 3],
) {
    let v = view(eye, &Field { look, half: HALF_FIELD }, FLOOR, &facing(&outlines, eye));
    let polygon = v.polygon();
    let solid: Vec<Polygon> = outlines.iter().map(|o| polygon_of(o)).collect();
    for _ in 0..50 {
        let p = somewhere(&mut dice);
        if distance_to_outline(p, &polygon) < 1e-3 {
            counts[2] += 1;
            continue;
        }
        let expected = seen_by_a_ray(eye, look, &solid, p);
        assert_eq!(in_polygon(p, &polygon), expected, "yard {name}, polygon, {p:?}");
        assert_eq!(v.holds(p), expected, "yard {name}, view, {p:?}");
        counts[usize::from(!expected)] += 1;
    }
    let (area, expected) = (signed_area(&polygon), seen_area(eye, look, &outlines));
    // 0.1 %, as the specification asks; 1e-4 m^2 where hardly anything is seen.
    assert!(
        (area - expected).abs() <= 1e-3 * expected + 1e-4,
        "yard {name}: {area} against {expected} m^2"
    );
    // The far sides of the structures change nothing, nor do faces seen end-on.
    let all: Vec<Segment> =
        outlines.iter().flat_map(|o| edges(o)).map(|(from, to)| Segment { from, to }).collect();
    let v = view(eye, &Field { look, half: HALF_FIELD }, FLOOR, &all);
    let with_all = signed_area(&v.polygon());
    assert!((with_all - area).abs() < 1e-6, "yard {name}: {with_all} against {area} m^2");
}

#[test]
fn a_thousand_random_yards_agree_with_an_independent_library() {
    let mut counts = [0; 3];
    for seed in 0..1000 {
        compare(seed, yard(seed), &mut counts);
    }
    // The comparison means something: both answers are common, and few points were left out.
    let [seen, hidden, on_the_edge] = counts;
    assert!(seen > 5_000 && hidden > 5_000, "{seen} seen, {hidden} hidden");
    assert!(on_the_edge < 500, "{on_the_edge}");
}

/// Racks in rows on whole metres and an eye on whole metres, looking in any direction: faces seen
/// end-on, corners in line with each other and racks that touch, all with the rounding of a turned
/// frame.
#[test]
fn yards_where_everything_is_in_line_agree_too() {
    let mut counts = [0; 3];
    for seed in 0..300 {
        let mut dice = ChaCha8Rng::seed_from_u64(10_000 + seed);
        let whole = |dice: &mut ChaCha8Rng, most: u32| f64::from(1 + dice.next_u32() % most);
        let outlines: Vec<[Vec2; 4]> = (0..20)
            .map(|_| {
                let at = vec2(whole(&mut dice, 28), whole(&mut dice, 18));
                let size = vec2(2.0 * whole(&mut dice, 2), 2.0);
                rectangle(Pose { at, heading: 0.0 }, size)
            })
            .collect();
        let eye = vec2(whole(&mut dice, 28), whole(&mut dice, 18));
        let touches = |o: &[Vec2; 4]| in_polygon(eye, o) || distance_to_outline(eye, o) < 1e-9;
        if outlines.iter().any(touches) {
            continue;
        }
        let look = Vec2::from_angle(between(&mut dice, 0.0, 360.0) * DEG);
        compare(seed, (dice, outlines, eye, look), &mut counts);
    }
    let [seen, hidden, _] = counts;
    assert!(seen > 1_000 && hidden > 1_000, "{seen} seen, {hidden} hidden");
}

#[test]
fn discs_come_into_sight_with_the_first_part_of_their_outline() {
    // Against the library again: a disc is in sight when one of 720 points of its outline is, and
    // out of sight when no point of a disc 5 mm larger is.
    let (mut seen, mut hidden) = (0, 0);
    for seed in 0..200 {
        let (mut dice, outlines, eye, look) = yard(seed);
        let v = view(eye, &Field { look, half: HALF_FIELD }, FLOOR, &facing(&outlines, eye));
        let solid: Vec<Polygon> = outlines.iter().map(|o| polygon_of(o)).collect();
        for _ in 0..10 {
            let (at, radius) = (somewhere(&mut dice), between(&mut dice, 0.15, 0.35));
            let clear_of_all = outlines
                .iter()
                .all(|o| !in_polygon(at, o) && distance_to_outline(at, o) > radius + 0.01);
            let on_floor = (radius..30.0 - radius).contains(&at.x)
                && (radius..20.0 - radius).contains(&at.y)
                && (at - eye).length() > radius + 0.01;
            if !clear_of_all || !on_floor {
                continue;
            }
            let any_of = |r: f64| {
                (0..720).any(|i| {
                    let p = at + Vec2::from_angle(f64::from(i) * 0.5 * DEG) * r;
                    seen_by_a_ray(eye, look, &solid, p)
                })
            };
            let got = v.reaches_disc(at, radius);
            if any_of(radius) {
                assert!(got, "yard {seed}: {at:?} is in sight");
                seen += 1;
            } else if !any_of(radius + 0.005) {
                assert!(!got, "yard {seed}: {at:?} is hidden");
                hidden += 1;
            }
        }
    }
    assert!(seen > 100 && hidden > 100, "{seen} seen, {hidden} hidden");
}

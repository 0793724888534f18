//! Cases worked by hand.

use super::*;
use crate::controls::{Look, Side};
use crate::math::DEG;
use crate::sight::looking::{GLANCE_TICKS, Head, Sighting, clear_distance};

#[test]
fn a_clear_line_is_one_that_meets_no_structure() {
    let mut clear = 0;
    for seed in 0..200 {
        let (mut dice, outlines, eye, _) = yard(seed);
        let solid: Vec<Polygon> = outlines.iter().map(|o| polygon_of(o)).collect();
        let p = somewhere(&mut dice);
        if outlines.iter().any(|o| in_polygon(p, o)) {
            continue;
        }
        let ray = Line::new(coord(eye), coord(p));
        let expected = !solid.iter().any(|s| s.intersects(&ray));
        assert_eq!(clear_line(eye, p, &facing(&outlines, eye)), expected, "yard {seed}");
        clear += usize::from(expected);
    }
    assert!((20..150).contains(&clear), "{clear}");
}

fn east() -> Field {
    Field { look: vec2(1.0, 0.0), half: HALF_FIELD }
}

#[test]
fn the_field_opens_95_degrees_to_either_side() {
    let v = view(vec2(15.0, 10.0), &east(), FLOOR, &[]);
    let at = |degrees: f64| vec2(15.0, 10.0) + vec2(cos(degrees * DEG), sin(degrees * DEG)) * 3.0;
    for side in [-1.0, 1.0] {
        assert!(v.holds(at(side * 94.99)) && !v.holds(at(side * 95.01)));
    }
    assert!(v.holds(at(0.0)) && !v.holds(at(180.0)));
    // Half the floor and two triangles 10 m high: 15 x 20 + 2 x 10 x 10 tan 5 / 2.
    let expected = 300.0 + 100.0 * (sin(5.0 * DEG) / cos(5.0 * DEG));
    assert!((signed_area(&v.polygon()) - expected).abs() < 1e-9);
}

#[test]
fn looking_all_round_sees_the_whole_floor() {
    let all = Field { look: vec2(0.6, 0.8), half: vec2(-1.0, 0.0) };
    let v = view(vec2(4.0, 7.0), &all, FLOOR, &[]);
    assert!((signed_area(&v.boundary) - 600.0).abs() < 1e-9);
    // A post behind the back hides what lies behind it.
    let mut post = Vec::new();
    add_facing(
        &rectangle(Pose { at: vec2(2.0, 7.0 - 8.0 / 3.0), heading: 0.3 }, vec2(0.5, 0.5)),
        vec2(4.0, 7.0),
        &mut post,
    );
    let v = view(vec2(4.0, 7.0), &all, FLOOR, &post);
    assert!(v.holds(vec2(3.0, 7.0 - 4.0 / 3.0)) && !v.holds(vec2(1.0, 3.0)));
}

#[test]
fn a_wall_hides_what_lies_behind_it() {
    // From 5 m before a wall 2 m wide the shadow is 4 m wide twice as far away.
    let wall = [Segment { from: vec2(10.0, 9.0), to: vec2(10.0, 11.0) }];
    let v = view(vec2(5.0, 10.0), &east(), FLOOR, &wall);
    assert!(v.holds(vec2(9.999, 10.0)) && !v.holds(vec2(10.001, 10.0)));
    for side in [-1.0, 1.0] {
        assert!(!v.holds(vec2(15.0, 10.0 + side * 1.999)));
        assert!(v.holds(vec2(15.0, 10.0 + side * 2.001)));
    }
    // The field (300 + 100 m^2 and two triangles less), less the trapezium: 2 m at 10, 10 m at 30.
    let open = signed_area(&view(vec2(5.0, 10.0), &east(), FLOOR, &[]).polygon());
    assert!((open - signed_area(&v.polygon()) - 120.0).abs() < 1e-9);
}

#[test]
fn structures_that_touch_leave_no_gap() {
    let eye = vec2(5.0, 10.0);
    let rack = |y: f64| rectangle(Pose { at: vec2(10.0, y), heading: 0.0 }, vec2(1.0, 2.0));
    let v = view(eye, &east(), FLOOR, &facing(&[rack(9.0), rack(11.0)], eye));
    for k in -100..=100 {
        assert!(!v.holds(vec2(20.0, 10.0 + 0.01 * f64::from(k))), "{k}");
    }
}

#[test]
fn opaque_things_that_cross_hide_what_either_hides() {
    let cross = [
        Segment { from: vec2(10.0, 8.0), to: vec2(14.0, 12.0) },
        Segment { from: vec2(10.0, 12.0), to: vec2(14.0, 8.0) },
    ];
    let v = view(vec2(5.0, 10.0), &east(), FLOOR, &cross);
    assert!(v.holds(vec2(11.999, 10.0)) && !v.holds(vec2(12.001, 10.0)));
    assert!(v.boundary.iter().any(|p| (*p - vec2(12.0, 10.0)).length() < 1e-12));
}

#[test]
fn an_eye_inside_something_opaque_sees_only_its_inside() {
    let hut = rectangle(Pose { at: vec2(8.0, 8.0), heading: 0.4 }, vec2(2.0, 3.0));
    let all = Field { look: vec2(1.0, 0.0), half: vec2(-1.0, 0.0) };
    let v = view(vec2(8.3, 7.8), &all, FLOOR, &facing(&[hut], vec2(8.3, 7.8)));
    assert!((signed_area(&v.boundary) - 6.0).abs() < 1e-9);
}

#[test]
fn an_eye_on_or_beyond_the_floors_edge_still_has_a_view() {
    for eye in [vec2(30.0, 10.0), vec2(31.0, 10.0), vec2(0.0, 0.0), vec2(-2.0, -3.0)] {
        let v = view(eye, &Field { look: vec2(0.6, 0.8), half: HALF_FIELD }, FLOOR, &[]);
        assert!(signed_area(&v.polygon()) > 10.0, "{eye:?}");
        assert!(v.polygon().iter().all(|p| p.x.is_finite() && p.y.is_finite()));
    }
}

#[test]
fn a_glance_takes_a_quarter_of_a_second() {
    let mut head = Head::default();
    let mut seen_at = 0;
    for tick in 1..=64 {
        head.tick(Look::Left, Side::Left);
        if seen_at == 0 && !head.turning() {
            seen_at = tick;
        }
    }
    // 16 ticks of 1/64 s.
    assert_eq!((seen_at, GLANCE_TICKS), (16, 16));
    assert!((head.angle - 90.0 * DEG).abs() < 1e-12);
    // Half-way through the next one the head is half-way there.
    for _ in 0..8 {
        head.tick(Look::Right, Side::Left);
    }
    assert!(head.angle.abs() < 1e-12 && head.turning());
}

#[test]
fn behind_is_over_the_free_shoulder_or_the_one_already_turned_to() {
    let look = |first: Look, stance: Side| {
        let mut head = Head::default();
        for _ in 0..20 {
            head.tick(first, stance);
        }
        for _ in 0..20 {
            head.tick(Look::Behind, stance);
        }
        head.angle
    };
    assert_eq!(look(Look::Ahead, Side::Left), core::f64::consts::PI);
    assert_eq!(look(Look::Ahead, Side::Right), -core::f64::consts::PI);
    assert_eq!(look(Look::Right, Side::Left), -core::f64::consts::PI);
}

#[test]
fn a_person_is_seen_from_the_first_clear_line_to_the_outline() {
    // A rack whose far corner is at (11, 10.5), the eye 6 m before and 0.5 m beside it: the line of
    // sight over the corner rises 1 in 12, so at x = 12 it is at y = 10 + 7/12. A person of radius
    // 0.25 m who comes down along x = 12 touches it with the middle 0.25 sqrt(1 + 1/144) above it.
    let rack = rectangle(Pose { at: vec2(10.5, 14.5), heading: 0.0 }, vec2(1.0, 8.0));
    let eye = vec2(5.0, 10.0);
    let v = view(eye, &east(), FLOOR, &facing(&[rack], eye));
    let touches = 10.0 + 7.0 / 12.0 + 0.25 * (1.0 + 1.0 / 144.0_f64).sqrt();
    let mut sighting = Sighting::default();
    let mut tick = 0;
    let mut y = 13.0;
    while sighting.first.is_none() && y > 9.0 {
        tick += 1;
        y -= 0.001;
        sighting.tick(v.reaches_disc(vec2(12.0, y), 0.25), tick);
    }
    assert!((y - touches).abs() < 0.0015, "{y} against {touches}");
    // Out of sight again: the spell ends, the first tick stays.
    sighting.tick(v.reaches_disc(vec2(12.0, 13.0), 0.25), tick + 1);
    assert_eq!((sighting.since, sighting.first), (None, Some(tick)));
}

fn seen_ahead(v: &View, people: &[Disc]) -> f64 {
    let way = [vec2(6.0, 10.0), vec2(12.0, 10.0), vec2(12.0, 18.0)];
    let legs: Vec<Leg> = way.windows(2).filter_map(|w| Leg::new(w[0], w[1], 0.5)).collect();
    clear_distance(v, &legs, 0.5, people)
}

#[test]
fn the_clear_distance_ends_where_the_way_goes_out_of_sight() {
    let eye = vec2(5.0, 10.0);
    let open = view(eye, &east(), FLOOR, &[]);
    assert_eq!(seen_ahead(&open, &[]), 14.0);
    // Round the corner of a rack at (10, 11): the line of sight rises 1 in 5, so on x = 11.5, the
    // near edge of the way, it is at y = 11.3: 6 m and 1.3 m.
    let rack = rectangle(Pose { at: vec2(9.0, 13.0), heading: 0.0 }, vec2(2.0, 4.0));
    let v = view(eye, &east(), FLOOR, &facing(&[rack], eye));
    assert!((seen_ahead(&v, &[]) - 7.3).abs() < 2e-3, "{}", seen_ahead(&v, &[]));
    // Someone on the way: 0.3 m in radius, 0.6 m beside a way 1 m wide, so 0.1 m over its edge:
    // sqrt(0.3^2 - 0.1^2) before the middle.
    let person = Disc { at: vec2(9.0, 9.4), radius: 0.3 };
    let expected = 3.0 - 0.08_f64.sqrt();
    assert!((seen_ahead(&v, &[person]) - expected).abs() < 1e-9);
    // Looking the other way nothing of it is seen.
    let west = Field { look: vec2(-1.0, 0.0), half: HALF_FIELD };
    assert_eq!(seen_ahead(&view(eye, &west, FLOOR, &[]), &[]), 0.0);
}

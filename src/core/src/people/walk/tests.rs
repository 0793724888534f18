//! People on their routes.

use super::*;
use crate::math::vec2;
use crate::people::pace::WALKING;

fn place(x: f64, y: f64) -> Waypoint {
    Waypoint { at: vec2(x, y), wait_s: 0.0, wait_chance: 0.0, crosses: false }
}

fn l_shaped(at_the_end: AtTheEnd) -> Route {
    let corner = Waypoint { wait_s: 2.5, wait_chance: 1.0, ..place(3.0, 0.0) };
    Route::new(vec![place(0.0, 0.0), corner, place(3.0, 4.0)], at_the_end).expect("good")
}

fn walker(route: &Route, seed: u64) -> Person {
    let mut p = Person::new(route, &WALKING, seed, 0);
    p.set_off(route);
    p
}

fn ticks(p: &mut Person, route: &Route, n: u32, horn: bool) {
    for _ in 0..n {
        p.tick(route, &HornManners::default(), horn);
    }
}

#[test]
fn a_route_takes_its_length_over_the_pace_and_its_waits() {
    for seed in 0..50 {
        let route = l_shaped(AtTheEnd::Stay);
        let mut p = walker(&route, seed);
        let mut n = 0;
        while p.doing(&route) != Doing::Arrived {
            ticks(&mut p, &route, 1, false);
            n += 1;
            assert!(p.velocity.length() <= p.pace + 1e-9);
        }
        // 7 m and 2.5 s; the tick in which it ends is begun in any case.
        let took = 7.0 / p.pace + 2.5;
        let counted = f64::from(n) * DT;
        assert!((counted - DT..=counted).contains(&took), "{took} s, {counted} s counted");
        assert_eq!(p.at, vec2(3.0, 4.0));
    }
}

#[test]
fn a_round_is_walked_again_and_again_without_losing_time() {
    let corner = |x, y| place(x, y);
    let square = vec![corner(0.0, 0.0), corner(2.0, 0.0), corner(2.0, 2.0), corner(0.0, 2.0)];
    let route = Route::new(square, AtTheEnd::StartOver).expect("good");
    let mut p = walker(&route, 3);
    ticks(&mut p, &route, 64 * 600, false);
    // After 600 s the way along the 8 m round is pace x 600, to rounding.
    let along = (p.pace * 600.0) % 8.0;
    let expected = match along {
        s if s < 2.0 => vec2(s, 0.0),
        s if s < 4.0 => vec2(2.0, s - 2.0),
        s if s < 6.0 => vec2(6.0 - s, 2.0),
        s => vec2(0.0, 8.0 - s),
    };
    assert!((p.at - expected).length() < 1e-6, "{:?} against {expected:?}", p.at);
}

#[test]
fn nobody_moves_before_setting_off() {
    let route = l_shaped(AtTheEnd::Stay);
    let mut p = Person::new(&route, &WALKING, 1, 0);
    ticks(&mut p, &route, 640, false);
    assert_eq!((p.at, p.doing(&route)), (vec2(0.0, 0.0), Doing::Standing));
}

#[test]
fn who_waits_before_a_crossing_is_drawn_with_the_courses_chance() {
    let kerb = Waypoint { wait_s: 3.0, wait_chance: 0.3, crosses: true, ..place(1.0, 0.0) };
    let route =
        Route::new(vec![place(0.0, 0.0), kerb, place(5.0, 0.0)], AtTheEnd::Stay).expect("good");
    let waited = (0..2000)
        .filter(|seed| {
            let mut p = walker(&route, *seed);
            (0..64 * 3).any(|_| {
                ticks(&mut p, &route, 1, false);
                p.doing(&route) == Doing::Waiting
            })
        })
        .count();
    // 600 of 2,000 expected, standard error sqrt(2000 x 0.3 x 0.7) = 20.5.
    assert!((waited as f64 - 600.0).abs() < 3.0 * 20.5, "{waited}");
}

#[test]
fn a_horn_is_heeded_within_12_m_in_the_open_and_6_m_round_a_corner() {
    let m = HornManners::default();
    let wall = [Segment { from: vec2(3.0, -5.0), to: vec2(3.0, 5.0) }];
    let hears = |x: f64, opaque: &[Segment]| m.hears(vec2(0.0, 0.0), vec2(x, 0.0), opaque);
    assert!(hears(12.0, &[]) && !hears(12.01, &[]));
    assert!(hears(6.0, &wall) && !hears(6.01, &wall));
    assert!(hears(-12.0, &wall), "the wall is on the other side");
}

/// Holds back or not, in one tick of horn.
fn holds_back(route: &Route, seed: u64, horn_ticks: u32) -> bool {
    let mut p = walker(route, seed);
    ticks(&mut p, route, 64, false);
    ticks(&mut p, route, horn_ticks, true);
    assert!(p.looks_up());
    p.doing(route) == Doing::HoldingBack
}

#[test]
fn people_mostly_hold_back_at_a_horn_and_never_always() {
    let route = Route::new(vec![place(0.0, 0.0), place(50.0, 0.0)], AtTheEnd::Stay).expect("good");
    let held = |horn_ticks| (0..2000).filter(|s| holds_back(&route, *s, horn_ticks)).count();
    // 0.85 of 2,000, standard error sqrt(2000 x 0.85 x 0.15) = 16.
    assert!((held(1) as f64 - 1700.0).abs() < 3.0 * 16.0, "{}", held(1));
    // A longer horn does not stop more people.
    assert_eq!(held(1), held(64));
    for chance in [1.0, 0.96, -0.1, f64::NAN] {
        assert!(HoldBack::new(chance).is_err(), "{chance}");
    }
    assert!(HoldBack::new(0.0).is_ok() && HoldBack::new(0.95).is_ok());
}

#[test]
fn who_holds_back_stands_for_its_time_and_then_walks_on() {
    let route = Route::new(vec![place(0.0, 0.0), place(50.0, 0.0)], AtTheEnd::Stay).expect("good");
    let seed = (0..).find(|s| holds_back(&route, *s, 1)).expect("most do");
    let mut p = walker(&route, seed);
    ticks(&mut p, &route, 64, false);
    let at = p.at;
    ticks(&mut p, &route, 1, true);
    ticks(&mut p, &route, 64 * 4 - 1, false);
    assert_eq!(p.at, at, "4 s");
    ticks(&mut p, &route, 64, false);
    assert!((p.at.x - at.x - p.pace).abs() < 1e-9);
}

#[test]
fn who_is_already_crossing_goes_on() {
    let kerb = Waypoint { crosses: true, ..place(0.0, 0.0) };
    let route = Route::new(vec![kerb, place(50.0, 0.0)], AtTheEnd::Stay).expect("good");
    assert!((0..200).all(|seed| !holds_back(&route, seed, 1)));
    // At the kerb the same people still hold back.
    let at_the_kerb = (0..200).filter(|seed| {
        let mut p = Person::new(&route, &WALKING, *seed, 0);
        ticks(&mut p, &route, 1, true);
        p.doing(&route) == Doing::HoldingBack
    });
    assert!(at_the_kerb.count() > 140);
}

#[test]
fn people_of_one_course_differ_and_a_seed_gives_the_same_people_again() {
    let route = l_shaped(AtTheEnd::Stay);
    let pace = |seed, number| Person::new(&route, &WALKING, seed, number).pace;
    assert_ne!(pace(1, 0), pace(1, 1));
    assert_ne!(pace(1, 0), pace(2, 0));
    assert_eq!(pace(1, 1).to_bits(), pace(1, 1).to_bits());
}

#[test]
fn a_route_that_cannot_be_walked_is_refused_with_the_place() {
    let refused =
        |places: Vec<Waypoint>| Route::new(places, AtTheEnd::StartOver).expect_err("refused");
    assert_eq!(refused(vec![]), "the route has no place; give at least one");
    let twice = vec![place(0.0, 0.0), place(2.0, 0.0), place(0.05, 0.0)];
    assert!(refused(twice).starts_with("place 2 of the route and the next one are less than 0.1"));
    let nowhere = vec![place(0.0, f64::NAN)];
    assert!(refused(nowhere).starts_with("place 0 of the route is nowhere"));
    let long = vec![Waypoint { wait_s: -1.0, ..place(0.0, 0.0) }];
    assert_eq!(refused(long), "the wait of -1 s at place 0 lies outside 0 to 600");
    let sure = vec![Waypoint { wait_chance: 1.5, ..place(0.0, 0.0) }];
    assert_eq!(refused(sure), "the chance of 1.5 at place 0 lies outside 0 to 1");
}

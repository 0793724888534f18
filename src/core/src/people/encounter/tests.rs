//! Encounters worked by hand, and the first touch found by trying.

use super::*;
use crate::geometry::rectangle;
use crate::math::{Pose, sin, vec2};
use proptest::prelude::*;

const PERSON: f64 = 0.25;

/// A truck 3 m long and 1 m wide, its nose at the origin, and a person ahead of it with the gap
/// between the two outlines.
fn ahead(gap: f64, person_away: f64) -> ([[Vec2; 4]; 1], Mover) {
    let truck = rectangle(Pose { at: vec2(-1.5, 0.0), heading: 0.0 }, vec2(3.0, 1.0));
    let velocity = vec2(person_away, 0.0);
    ([truck], Mover { at: vec2(gap + PERSON, 0.2), velocity, radius: PERSON })
}

/// gap (m), truck (m/s), person away (m/s), TTC (s): worked by hand as gap over closing speed.
/// Definition: FAME taxonomy, connectedautomateddriving.eu.
const BY_HAND: [(f64, f64, f64, Option<f64>); 4] = [
    (3.0, 1.5, 0.0, Some(2.0)),
    (3.0, 2.0, 0.8, Some(2.5)),
    (2.4, 1.6, -0.4, Some(1.2)),
    (1.0, 0.5, 0.7, None),
];

fn same(a: Option<f64>, b: Option<f64>, within: f64) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => (a - b).abs() <= within,
        (a, b) => a == b,
    }
}

#[test]
fn time_to_collision_is_what_the_hand_works_out() {
    for (gap, truck, away, expected) in BY_HAND {
        let (parts, person) = ahead(gap, away);
        let along = vec2(truck, 0.0);
        let by_outline = time_to_outline(&parts, along, &person);
        assert!(same(by_outline, expected, 1e-9), "{gap}: {by_outline:?}");
    }
}

#[test]
fn a_person_beside_the_way_is_never_met() {
    // The truck is 1 m wide: someone 0.76 m beside its middle leaves 1 cm, at 0.74 m is met.
    let (parts, _) = ahead(1.0, 0.0);
    let beside = |x: f64, y: f64| {
        let person = Mover { at: vec2(x, y), velocity: vec2(0.0, 0.0), radius: PERSON };
        time_to_outline(&parts, vec2(1.0, 0.0), &person)
    };
    assert_eq!(beside(4.0, 0.751), None);
    assert!(beside(4.0, 0.749).is_some_and(|t| t < 4.0));
    // Behind it they only move apart.
    assert_eq!(beside(-4.0, 0.0), None);
}

#[test]
fn a_crossing_person_meets_the_flank() {
    // The flank of a truck that drives along x at 1 m/s lies on y = 0.5. Someone comes down at
    // 1.5 m/s from y = 2 with the middle, so the outlines meet after (1.5 - 0.25) / 1.5 s, if
    // the truck is there by then.
    let (parts, _) = ahead(1.0, 0.0);
    let person = Mover { at: vec2(-1.0, 2.0), velocity: vec2(0.0, -1.5), radius: PERSON };
    let t = time_to_outline(&parts, vec2(1.0, 0.0), &person);
    assert!(same(t, Some(1.25 / 1.5), 1e-9), "{t:?}");
    // Too far back: the truck has gone by.
    let late = Mover { at: vec2(-3.5, 2.0), ..person };
    assert_eq!(time_to_outline(&parts, vec2(1.0, 0.0), &late), None);
}

#[test]
fn a_tail_that_swings_counts_with_its_own_speed() {
    // The truck turns on the spot about its nose at 1 rad/s: the tail's corner 3 m behind moves
    // at 3 m/s to the right, towards someone 0.5 m beside it.
    let (parts, _) = ahead(1.0, 0.0);
    let person = Mover { at: vec2(-3.0, -1.25), velocity: vec2(0.0, 0.0), radius: PERSON };
    let turning =
        Outline { parts: &parts, pivot: vec2(0.0, 0.0), velocity: vec2(0.0, 0.0), yaw_rate: 1.0 };
    let n = nearness(&turning, &person);
    assert!((n.gap - 0.5).abs() < 1e-12);
    assert!((n.passing_speed - (9.0_f64 + 0.25).sqrt()).abs() < 1e-9);
    // Who walks the same way is passed more slowly; the tail is as fast over the floor.
    let along = Mover { velocity: vec2(0.0, -1.0), ..person };
    let walks = nearness(&turning, &along);
    assert!(
        (walks.place_speed - n.passing_speed).abs() < 1e-9 && walks.passing_speed < n.passing_speed
    );
    assert!(n.time_to_collision.is_some_and(|t| t < 0.2), "{n:?}");
    let turning_away = Outline { yaw_rate: -1.0, ..turning };
    assert_eq!(nearness(&turning_away, &person).time_to_collision, None);
}

proptest! {
    /// At the time found the outlines touch, and at no time before: checked by trying.
    #[test]
    fn the_first_touch_is_the_first(
        x in -6.0..6.0f64, y in -6.0..6.0f64, vx in -3.0..3.0f64, vy in -3.0..3.0f64,
        truck in -3.0..3.0f64, phase in 0.0..6.0f64,
    ) {
        let (parts, _) = ahead(0.0, 0.0);
        let velocity = vec2(truck, 0.3 * sin(phase));
        let person = Mover { at: vec2(x, y), velocity: vec2(vx, vy), radius: PERSON };
        let gap_at = |t: f64| {
            let at = person.at + (person.velocity - velocity) * t;
            gap(&parts, &Mover { at, ..person })
        };
        let found = time_to_outline(&parts, velocity, &person);
        let until = found.unwrap_or(10.0);
        for i in 0..200 {
            let t = until * f64::from(i) / 200.0;
            prop_assert!(t >= until || gap_at(t) > 0.0, "already at {} before {:?}", t, found);
        }
        if let Some(t) = found {
            prop_assert!(gap_at(t) < 1e-9, "{} m at {}", gap_at(t), t);
        }
    }
}

//! Encounters worked by hand, and the first touch found by trying.

use super::*;
use crate::course::geometry::rectangle;
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
        let by_line = time_to_close(gap, truck, 0.0, away);
        assert!(same(by_line, expected, 1e-9), "{gap}: {by_line:?}");
        let by_steps = time_to_outline_braking(&parts, along, 0.0, &person);
        assert!(same(by_steps, expected, 1e-3), "{gap}: {by_steps:?}");
        let disc = Mover { at: vec2(-0.5, 0.2), velocity: along, radius: 0.5 };
        let by_discs = time_to_collision(&disc, &person);
        assert!(same(by_discs, expected, 1e-9), "{gap}: {by_discs:?}");
    }
}

/// The constant-acceleration variant: 4 m, 2.5 m/s, someone standing. Braking at 0.6 m/s^2 it is
/// 4 = 2.5 t - 0.3 t^2; braking at 1.0 the truck stops in 2.5^2 / 2 = 3.125 m.
#[test]
fn a_braking_truck_comes_later_or_not_at_all() {
    let (parts, person) = ahead(4.0, 0.0);
    for (braking, expected) in [(0.6, Some(2.159_734_237)), (1.0, None)] {
        assert!(same(time_to_close(4.0, 2.5, braking, 0.0), expected, 1e-9));
        let by_steps = time_to_outline_braking(&parts, vec2(2.5, 0.0), braking, &person);
        assert!(same(by_steps, expected, 1e-3), "{by_steps:?}");
    }
    // Someone who walks on at 0.5 m/s into the truck that stands: the truck stops after 2.5 s
    // and 3.125 m, the person has come 1.25 m, so they meet while it still brakes:
    // 4 = 3 t - t^2 / 2.
    let expected = Some(3.0 - 1.0_f64.sqrt());
    assert!(same(time_to_close(4.0, 2.5, 1.0, -0.5), expected, 1e-9));
    // With 6 m it stands first, and 6 - 3.125 - 1.25 = 1.625 m are walked in 3.25 s.
    assert!(same(time_to_close(6.0, 2.5, 1.0, -0.5), Some(2.5 + 3.25), 1e-9));
    let (parts, person) = ahead(6.0, -0.5);
    let by_steps = time_to_outline_braking(&parts, vec2(2.5, 0.0), 1.0, &person);
    assert!(same(by_steps, Some(5.75), 1e-3), "{by_steps:?}");
    // Getting faster from rest: 2 = t^2 / 2.
    assert!(same(time_to_close(2.0, 0.0, -1.0, 0.0), Some(2.0), 1e-9));
}

/// PET: the person clears the zone at 12.40 s, the truck enters at 15.15 s: 2.75 s. Definition:
/// P. St-Aubin, methodology text on authorea.com.
#[test]
fn post_encroachment_time_is_what_the_hand_works_out() {
    assert!((post_encroachment(12.40, 15.15) - 2.75).abs() < 1e-12);
    let mut floor = SharedFloor::default();
    let mut measured = Vec::new();
    for i in 0..2000 {
        let now = f64::from(i) * 0.01;
        let person = (10.0..12.395).contains(&now);
        let truck = (15.145..17.0).contains(&now);
        measured.extend(floor.tick(now, truck, person));
    }
    assert_eq!(measured.len(), 1);
    assert!((measured[0] - 2.75).abs() < 1e-9, "{measured:?}");
}

#[test]
fn both_on_the_same_floor_at_once_is_no_time_at_all() {
    let mut floor = SharedFloor::default();
    assert_eq!(floor.tick(0.0, true, false), None);
    assert_eq!(floor.tick(1.0, true, true), Some(0.0));
    assert_eq!(floor.tick(2.0, true, false), None);
    assert_eq!(floor.tick(3.0, false, false), None);
    // The other way round: the person comes after the truck.
    assert_eq!(floor.tick(4.5, false, true), Some(1.5));
    // Coming back at once is not another encounter with the same leaving.
    assert_eq!(floor.tick(5.0, false, false), None);
    assert_eq!(floor.tick(6.0, false, true), None);
}

#[test]
fn a_person_beside_the_way_is_passed_at_the_closest_distance() {
    // 1 m/s along x past someone 1.2 m beside: outlines of 0.5 and 0.25 m leave 0.45 m.
    let truck = Mover { at: vec2(0.0, 0.0), velocity: vec2(1.0, 0.0), radius: 0.5 };
    let person = Mover { at: vec2(4.0, 1.2), velocity: vec2(0.0, 0.0), radius: PERSON };
    let c = closest(&truck, &person);
    assert!((c.after_s - 4.0).abs() < 1e-12 && (c.gap - 0.45).abs() < 1e-12);
    assert_eq!(time_to_collision(&truck, &person), None);
    // Behind it they only move apart.
    let behind = Mover { at: vec2(-4.0, 0.0), ..person };
    assert_eq!(closest(&truck, &behind), Closest { after_s: 0.0, gap: 3.25 });
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

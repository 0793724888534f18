//! Worse driving never scores better: points against delay and against speed, on a few courses with a few
//! drives each. `coneyard-workshop curves` draws all of them.

use coneyard_sim::curves::{Came, Point, What, Worse, mean, rises};
use rayon::prelude::*;

const SEEDS: u32 = 4;
const RISE_MOST: f64 = 0.5;

fn curve(course: &'static str, truck: &str, values: &[f64], worse: fn(f64) -> Worse) -> Vec<Point> {
    let what = What::Course { name: course, truck: truck.to_owned() };
    let point = |value: &f64| {
        let drives: Vec<Came> = (1..=SEEDS)
            .into_par_iter()
            .map(|seed| what.drive(seed, worse(*value)).expect("a shipped course"))
            .collect();
        mean(*value, &drives)
    };
    values.iter().map(point).collect()
}

#[test]
fn points_never_rise_with_the_delay() {
    for course in ["emergency-stops", "pretest-circuit", "straight"] {
        let points = curve(course, "single", &[0.0, 0.5, 1.0, 2.0], Worse::late);
        assert_eq!(rises(&points, RISE_MOST), [], "{course}: {points:?}");
        assert_eq!((points[0].points, points[0].passes), (100.0, 1.0), "{course}");
    }
    let late = curve("emergency-stops", "single", &[0.0, 2.0], Worse::late);
    assert!(late[1].points < late[0].points - 5.0, "{late:?}");
}

#[test]
fn points_never_rise_with_the_speed_and_going_slowly_costs_nothing() {
    for course in ["cross-aisles", "tight-corner-load", "tall-load"] {
        let points = curve(course, "single", &[1.0, 1.2, 1.5, 1.8], Worse::hurried);
        assert_eq!(rises(&points, RISE_MOST), [], "{course}: {points:?}");
        assert!(points[3].points < points[0].points - 5.0, "{course}: {points:?}");
        let slowly = curve(course, "single", &[0.5, 0.8], Worse::hurried);
        assert!(slowly.iter().all(|p| p.points == 100.0), "{course}: {slowly:?}");
    }
}

/// Here the high-speed button was dabbed at the more often the less it was needed; and a drive into a rack
/// left fewer faults than one that went on.
#[test]
fn points_at_emergency_stops_never_rise_with_the_speed() {
    let courses = [
        ("emergency-stops", "single"),
        ("pretest-stops", "single"),
        ("pretest-stops-double", "double"),
    ];
    for (course, truck) in courses {
        let points = curve(course, truck, &[1.0, 1.2, 1.4, 1.6, 1.8], Worse::hurried);
        assert_eq!(rises(&points, RISE_MOST), [], "{course}: {points:?}");
    }
}

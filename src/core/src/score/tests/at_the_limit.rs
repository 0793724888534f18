//! At exactly the limit is within it, and no rounding decides otherwise (`rules::over`).
//!
//! These are the limits that a computed value is held against: a sum over the way, a product, a
//! quotient, an angle in other units. What is read as it is has its test beside its watcher.

use crate::finding::Severity;
use crate::math::{DEG, G};
use crate::moment::{CourseEvent, Moment};
use crate::watch::test_support::{Drive, watch};

/// The value that someone writes who means so many tenths, hundredths, ...
fn written(value: f64) -> f64 {
    format!("{value:.6}").parse().expect("a number")
}

#[test]
fn at_exactly_the_limit_of_speed_nothing_is_found_whatever_the_zone() {
    for tenths in 1..=60 {
        let limit = written(f64::from(tenths) / 10.0);
        let at = |share: f64| {
            let speed = written(limit * share);
            let d = Drive::new().with(64, |m| {
                (m.place.zone_limit, m.truck.speed) = (Some(limit), speed);
            });
            watch("over-speed", &d).first().map(|f| f.severity)
        };
        assert_eq!(at(1.1), None, "{limit}");
        assert_eq!(at(1.101), Some(Severity::Minor), "{limit}");
        assert_eq!(at(1.3), Some(Severity::Minor), "{limit}");
        assert_eq!(at(1.301), Some(Severity::Major), "{limit}");
    }
}

/// Code, limit, and what is wrong on the way.
type Row = (&'static str, f64, fn(&mut Moment));

/// Driven at such a speed for as many ticks as come to exactly the distance, by its code.
#[test]
fn at_exactly_the_limit_of_a_distance_nothing_is_found_at_any_speed() {
    let rows: [Row; 4] = [
        ("forks-first-travel", 1.5, |m| m.truck.speed = -m.truck.speed),
        ("forks-high-in-travel", 1.0, |m| m.truck.fork_height = 0.07),
        ("forks-dragged", 1.0, |m| m.truck.fork_height = 0.005),
        ("load-hides-view", 1.0, |m| m.sight.load_hides = true),
    ];
    for (code, distance, wrong) in rows {
        let mut speeds = 0;
        for ticks in 30..300 {
            let speed = distance * 64.0 / f64::from(ticks);
            if !(0.31..2.5).contains(&speed) {
                continue;
            }
            speeds += 1;
            let driven = |ticks| {
                Drive::new().with(ticks, |m| {
                    m.truck.speed = speed;
                    wrong(m);
                })
            };
            assert!(watch(code, &driven(ticks)).is_empty(), "{code} {speed}");
            assert_eq!(watch(code, &driven(ticks + 1)).len(), 1, "{code} {speed}");
        }
        assert!(speeds > 100, "{code}");
    }
}

#[test]
fn at_exactly_the_limit_of_side_acceleration_nothing_is_found_empty_or_loaded() {
    let found = |side: f64, bears: Option<f64>| {
        let d = Drive::new().with(30, |m| {
            (m.truck.accel_side, m.load.holds_sideways) = (side, bears);
        });
        watch("corner-speed", &d).len()
    };
    assert_eq!((found(0.2 * G, None), found(0.2001 * G, None)), (0, 1));
    for tenths in 1..=60 {
        let bears = f64::from(tenths) / 10.0;
        assert_eq!(found(written(0.6 * bears), Some(bears)), 0, "{bears}");
        assert_eq!(found(0.601 * bears, Some(bears)), 1, "{bears}");
    }
}

#[test]
fn at_exactly_the_limit_of_an_angle_nothing_is_found() {
    let looks = |deg: f64| {
        let d = Drive::new().with(80, |m| (m.truck.speed, m.rider.off_path) = (1.0, deg * DEG));
        watch("not-looking", &d).len()
    };
    assert_eq!((looks(60.0), looks(60.01)), (0, 1));
    let turned = |deg: f64| {
        let down = CourseEvent::SetDown { bay: 0, off: 0.1, turned: -deg * DEG };
        watch("set-down-off", &Drive::new().event(down)).len()
    };
    assert_eq!((turned(5.0), turned(5.01)), (0, 1));
}

#[test]
fn at_exactly_the_limit_of_what_is_seen_clear_the_truck_can_stop() {
    for tenths in 4..40 {
        let speed = f64::from(tenths) / 10.0;
        let found = |clear: f64| {
            let d = Drive::new().with(40, |m| {
                (m.truck.speed, m.sight.braking, m.sight.clear_ahead) = (speed, 0.2, clear);
            });
            watch("outruns-sight", &d).len()
        };
        assert_eq!((found(written(speed + 0.2)), found(speed + 0.199)), (0, 1), "{speed}");
    }
}

#[test]
fn at_exactly_the_limit_of_effort_and_jerk_nothing_is_found() {
    // 60 N m s: so many ticks at such a torque.
    for ticks in 20..90 {
        let found = |ticks: u32, torque: f64| {
            let d = Drive::new().with(ticks, |m| {
                (m.truck.arm_strength, m.truck.arm_torque) = (true, torque);
            });
            watch("arm-strength-turn", &d).len()
        };
        let torque = 60.0 * 64.0 / f64::from(ticks);
        assert_eq!((found(ticks, torque), found(ticks + 1, torque)), (0, 1), "{ticks}");
    }
    // 6 m/s^3 over a quarter of a second are 1.5 m/s^2.
    for tenths in 0..30 {
        let before = f64::from(tenths) / 10.0;
        let found = |after: f64| {
            let d = Drive::new().with(30, |m| m.truck.accel_wheel = before).with(20, |m| {
                (m.truck.accel_wheel, m.truck.plugging) = (after, true);
            });
            watch("plugging-jerk", &d.all(|m| m.load.pallets = 1)).len()
        };
        assert_eq!(found(written(before - 1.5)), 0, "{before}");
        assert_eq!(found(before - 1.51), 1, "{before}");
    }
}

#[test]
fn a_start_that_rises_by_exactly_the_limit_is_gentle() {
    // Half of the throttle within a quarter of a second, from any throttle that moves nothing.
    for from in 0..=5 {
        let start = |rise: i8| {
            let d = Drive::new()
                .with(30, |m| m.controls.throttle = from)
                .with(64, |m| (m.controls.throttle, m.truck.speed) = (from + rise, 1.0));
            watch("gentle-start", &d).len()
        };
        assert_eq!((start(50), start(51)), (1, 0), "{from}");
    }
}

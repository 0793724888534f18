//! The wheels against the kinematic single-track model of the PyPI package
//! commonroad-vehicle-models 3.0.2 (`vehicle_dynamics_ks`), integrated by scipy to 2e-12 m:
//! tests/reference/, made by make_ks.py there. Where friction holds, a truck whose wheels may not
//! slide sideways IS that model, so its path must be the same to within the stepping error: half a
//! millimetre in 20 s at 64 Hz, which no first-order scheme keeps. Two of those are written here, to
//! show that the test tells them apart.

use coneyard_core::floor::slope::Slope;
use coneyard_core::math::{G, Pose, cos, vec2};
use coneyard_core::time::DT;
use coneyard_core::truck::loads::{RigidBody, wheel_loads};
use coneyard_core::truck::spec::{TruckSpec, shipped};
use coneyard_core::truck::travel::DriveAsk;
use coneyard_core::truck::wheels::{Twist, WheelCommand, solve};

/// One row of a reference file: time, steer, speed of the fixed axle, x, y, heading.
struct Row {
    steer: f64,
    speed: f64,
    pose: Pose,
}

fn reference(name: &str) -> Vec<Row> {
    let path = format!("{}/reference/{name}.csv", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).expect("the reference file is in the repository");
    text.lines()
        .skip(1)
        .map(|line| {
            let v: Vec<f64> = line.split(',').map(|f| f.parse().expect("a number")).collect();
            Row { steer: v[1], speed: v[2], pose: Pose { at: vec2(v[3], v[4]), heading: v[5] } }
        })
        .collect()
}

fn truck(wheelbase: f64) -> TruckSpec {
    let mut spec = shipped::single();
    spec.geometry.wheelbase_m = wheelbase;
    spec
}

/// Farthest that the load axle may come off the reference, m.
const MOST: f64 = 0.0005;

/// Name and wheelbase, m, of every reference file.
const REFERENCES: [(&str, f64); 6] = [
    ("ks_const_L195", 1.95),
    ("ks_const_L315", 3.15),
    ("ks_fig8_L195", 1.95),
    ("ks_fig8_L315", 3.15),
    ("ks_sweep_L195", 1.95),
    ("ks_sweep_L315", 3.15),
];

/// Drives the reference's steer and speed; returns the largest distance of the load axle from it.
/// `share` of the tick's turn is what the engine's frame is ahead by while it moves the body: a half
/// in the simulation.
fn largest_error(name: &str, wheelbase: f64, share: f64) -> f64 {
    let spec = truck(wheelbase);
    let body = RigidBody::of(&spec, &[]);
    let loads = wheel_loads(&spec, &body, G, 0.0, 0.0).expect("stands");
    let rows = reference(name);
    assert_eq!(rows.len(), 1281, "20 s at 64 Hz");

    // Start in the motion that the first row describes.
    let first = &rows[0];
    let yaw_rate = first.speed * coneyard_core::math::tan(first.steer) / wheelbase;
    let com_velocity = vec2(first.speed, yaw_rate * body.com.x);
    let mut twist = Twist { velocity: com_velocity, yaw_rate };
    let mut pose = first.pose;
    let mut worst: f64 = 0.0;
    for pair in rows.windows(2) {
        let cmd = WheelCommand {
            steer_before: pair[0].steer,
            steer: pair[1].steer,
            drive: DriveAsk::motor(pair[1].speed / cos(pair[1].steer), f64::INFINITY),
            friction_drive: 100.0,
            friction_load: 100.0,
            loads,
            slope: Slope::LEVEL,
        };
        let solved = solve(&spec, &body, &twist, &cmd);
        twist = solved.end;
        pose = carried(pose, &solved.mean, 2.0 * share * solved.half_turn, body.com);
        worst = worst.max((pose.at - pair[1].pose.at).length());
    }
    worst
}

/// The pose after one tick of a mean velocity, as the physics engine integrates it: the centre of
/// mass along its velocity, the body about its centre of mass.
fn carried(pose: Pose, mean: &Twist, half_turn: f64, com: coneyard_core::math::Vec2) -> Pose {
    let com_in_yard = pose.to_yard(com) + mean.velocity.rotated(pose.heading + half_turn) * DT;
    let heading = pose.heading + mean.yaw_rate * DT;
    Pose { at: com_in_yard - com.rotated(heading), heading }
}

/// The same by explicit Euler: everything as it is at the beginning of a tick.
fn largest_error_of_euler(name: &str, wheelbase: f64) -> f64 {
    let rows = reference(name);
    let mut pose = rows[0].pose;
    let mut worst: f64 = 0.0;
    for pair in rows.windows(2) {
        let Row { steer, speed, .. } = pair[0];
        let turn = speed * coneyard_core::math::tan(steer) / wheelbase * DT;
        let moved = vec2(speed * DT, 0.0).rotated(pose.heading);
        pose = Pose { at: pose.at + moved, heading: pose.heading + turn };
        worst = worst.max((pose.at - pair[1].pose.at).length());
    }
    worst
}

#[test]
fn the_path_is_that_of_the_single_track_model() {
    for (name, wheelbase) in REFERENCES {
        let error = largest_error(name, wheelbase, 0.5);
        println!("{name}: largest error {:.3} mm", error * 1000.0);
        assert!(error < MOST, "{name}: {error} m");
    }
}

/// Explicit Euler, and the solver's own velocity with the frame of the tick's beginning or end.
#[test]
fn a_first_order_scheme_does_not_keep_to_it() {
    for (name, wheelbase) in REFERENCES {
        let euler = largest_error_of_euler(name, wheelbase);
        let [early, late] = [0.0, 1.0].map(|share| largest_error(name, wheelbase, share));
        println!(
            "{name}: Euler {:.1} mm, early {:.1} mm, late {:.1} mm",
            euler * 1e3,
            early * 1e3,
            late * 1e3
        );
        assert!(euler > 2.0 * MOST, "{name}: {euler} m");
        assert!(early > 2.0 * MOST && late > 2.0 * MOST, "{name}: {early} m, {late} m");
    }
}

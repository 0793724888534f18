//! Turning against the geometry of the single-track model: radius, off-tracking, the skid limit of
//! each axle, and the torque that a turn takes.

use coneyard_core::controls::{Controls, TillerAsk};
use coneyard_core::floor::slope::Slope;
use coneyard_core::math::{DEG, G, Vec2, cos, sin, tan, vec2};
use coneyard_core::truck::loads::{RigidBody, wheel_loads};
use coneyard_core::truck::spec::{TruckSpec, shipped};
use coneyard_core::truck::tiller::scrub_torque;
use coneyard_core::truck::travel::DriveAsk;
use coneyard_core::truck::wheels::{Solved, Twist, WheelCommand, solve};
use coneyard_sim::Session;
use coneyard_tests::yards::empty_floor;

/// Middle and radius of the circle through three points.
fn circle(a: Vec2, b: Vec2, c: Vec2) -> (Vec2, f64) {
    let (p, q) = (b - a, c - a);
    let d = 2.0 * p.cross(q);
    let m = vec2(q.y * p.dot(p) - p.y * q.dot(q), p.x * q.dot(q) - q.x * p.dot(p)) * (1.0 / d);
    (a + m, m.length())
}

/// Drives a circle in the whole simulation at a walking pace; returns the radii of load axle and
/// drive wheel, m.
fn radii(steer_deg: i16) -> (f64, f64) {
    let mut session = Session::new(&empty_floor("dry")).expect("the floor is valid");
    let wheelbase = session.setting().truck.geometry.wheelbase_m;
    let controls =
        Controls { throttle: 25, tiller: TillerAsk::To(2 * steer_deg), ..Controls::default() };
    let mut axle = Vec::new();
    let mut wheel = Vec::new();
    for tick in 0..64 * 30 {
        let pose = session.step(controls).truck.pose;
        if tick >= 64 * 10 {
            axle.push(pose.at);
            wheel.push(pose.to_yard(vec2(wheelbase, 0.0)));
        }
    }
    let third = axle.len() / 3;
    let of = |p: &[Vec2]| circle(p[0], p[third], p[2 * third]).1;
    (of(&axle), of(&wheel))
}

/// R = L / tan(d) for the fixed axle, L / sin(d) for the steered one; off-tracking is the
/// difference, L tan(d / 2) (SAE J695 defines it as the difference of the axles' radii).
#[test]
fn radius_and_off_tracking_are_those_of_the_single_track_model() {
    let wheelbase = shipped::single().geometry.wheelbase_m;
    for degrees in [5_i16, 10, 20, 30, 45, 60, 75, 80] {
        let (axle, wheel) = radii(degrees);
        let d = f64::from(degrees) * DEG;
        let (of_axle, of_wheel) = (wheelbase / tan(d), wheelbase / sin(d));
        println!("{degrees} deg: {axle:.5} m, {:+.1e}", axle / of_axle - 1.0);
        assert!((axle / of_axle - 1.0).abs() < 1e-4, "{degrees}: {axle} {of_axle}");
        assert!((wheel / of_wheel - 1.0).abs() < 1e-4, "{degrees}: {wheel} {of_wheel}");
        let off = wheelbase * tan(0.5 * d);
        assert!((wheel - axle - off).abs() < 0.001, "{degrees}: {} {off}", wheel - axle);
    }
}

/// One tick of a steady circle of the load axle at a yaw rate, from exactly that motion.
fn steady(spec: &TruckSpec, radius: f64, yaw_rate: f64, grip: (f64, f64)) -> Solved {
    let body = RigidBody::of(spec, &[]);
    let wheelbase = spec.geometry.wheelbase_m;
    let steer = coneyard_core::math::atan(wheelbase / radius);
    let start = Twist { velocity: vec2(yaw_rate * radius, yaw_rate * body.com.x), yaw_rate };
    let cmd = WheelCommand {
        steer_before: steer,
        steer,
        drive: DriveAsk::motor(yaw_rate * radius / cos(steer), f64::INFINITY),
        friction_drive: grip.0,
        friction_load: grip.1,
        loads: wheel_loads(spec, &body, G, 0.0, 0.0).expect("it stands"),
        slope: Slope::LEVEL,
    };
    // A wheel that slips keeps slipping a little more each tick: a second of it shows.
    let mut solved = solve(spec, &body, &start, &cmd);
    for _ in 0..64 {
        solved = solve(spec, &body, &solved.end, &cmd);
    }
    solved
}

/// The yaw rate at which `slips` begins, rad/s, by bisection.
fn limit(slips: impl Fn(f64) -> bool) -> f64 {
    let (mut holds, mut slides) = (0.01, 20.0);
    for _ in 0..50 {
        let middle = 0.5 * (holds + slides);
        if slips(middle) { slides = middle } else { holds = middle }
    }
    0.5 * (holds + slides)
}

/// In a steady turn each axle carries the same share of the weight as of the mass that it drags
/// round, so it lets go at v^2 / R = mu g with its own v and R (rigid body, level floor, no load
/// transfer; any vehicle dynamics text). The drive wheel runs on the wider circle and goes first;
/// to see the load axle go, the drive wheel is given grip in plenty.
#[test]
fn each_axle_skids_at_v_squared_over_r_equals_mu_g() {
    let mut spec = shipped::single();
    spec.rolling_resistance = 0.0;
    let wheelbase = spec.geometry.wheelbase_m;
    for (radius, mu) in [(3.0, 0.30), (3.0, 0.55), (6.0, 0.30), (10.0, 0.40)] {
        let outer = (radius * radius + wheelbase * wheelbase).sqrt();
        let drive = limit(|w| steady(&spec, radius, w, (mu, 100.0)).drive_slips);
        let drive_g = drive * drive * outer / (mu * G);
        assert!((drive_g - 1.0).abs() < 0.02, "drive wheel, R {radius}, mu {mu}: {drive_g}");
        let load = limit(|w| steady(&spec, radius, w, (100.0, mu)).load_slips);
        let load_g = load * load * radius / (mu * G);
        assert!((load_g - 1.0).abs() < 0.02, "load axle, R {radius}, mu {mu}: {load_g}");
        println!("R {radius} m, mu {mu}: drive {drive_g:.4}, load {load_g:.4} of mu g");
    }
}

/// A turn that is held at 0.97 of the limit keeps its line in the whole engine too: no slip.
#[test]
fn below_the_limit_nothing_slides() {
    let spec = shipped::single();
    let w = 0.97
        * (0.55 * G / (9.0_f64 + spec.geometry.wheelbase_m * spec.geometry.wheelbase_m).sqrt())
            .sqrt();
    let solved = steady(&spec, 3.0, w, (0.55, 0.55));
    assert!(!solved.drive_slips && !solved.load_slips);
    assert!((solved.end.yaw_rate - w).abs() < 0.01 * w);
}

/// Published form T = W mu sqrt(b^2 / 8 + e^2) (Eaton Char-Lynn Steering Catalog C-STOV-MC001-E1,
/// July 2006, p. 90) with e = 0, computed rows in N m; for a hard narrow wheel under uniform
/// pressure the exact Coulomb value is mu W b / 4, smaller by the square root of 2.
#[test]
fn scrub_torque_is_the_published_form_over_root_two() {
    for (load, mu, width, published, coulomb) in
        [(6000.0, 0.60, 0.075, 95.4594, 67.5), (8000.0, 0.50, 0.090, 127.2792, 90.0)]
    {
        let torque = scrub_torque(load, mu, width, 0.0, 0.15);
        println!("{load} N: {torque:.4} N m, published {published} N m");
        assert!((torque - coulomb).abs() < 1e-9, "{torque}");
        assert!((published / torque - 2.0_f64.sqrt()).abs() < 1e-4, "{torque}");
        // Half of it at the speed at which it fades, either way it rolls, and ever less beyond.
        for (speed, left) in [(0.15, 0.5), (-0.15, 0.5), (0.45, 0.25), (1.35, 0.1)] {
            let rolling = scrub_torque(load, mu, width, speed, 0.15);
            assert!((rolling - left * torque).abs() < 1e-9, "{speed} m/s: {rolling}");
        }
    }
}

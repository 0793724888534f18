//! Stops against published formulas: AASHTO's stopping sight distance, v^2 / 2a, and what the
//! floor allows the drive wheel.

use coneyard_core::controls::{ArmAsk, Controls};
use coneyard_core::math::G;
use coneyard_core::math::vec2;
use coneyard_core::run::DriveSetup;
use coneyard_core::truck::loads::{Carried, RigidBody, wheel_loads};
use coneyard_core::truck::spec::shipped;
use coneyard_core::truck::stopping::stopping_distance;
use coneyard_core::yard::loads::underside;
use coneyard_sim::Session;
use coneyard_tests::yards::{empty_floor, with_a_pallet_on_the_forks};

/// Metres in a foot, exact by definition.
const FOOT: f64 = 0.3048;
/// m/s in a mile an hour, exact by definition.
const MPH: f64 = 0.44704;

/// AASHTO, A Policy on Geometric Design of Highways and Streets, 2001/2004, Exhibit 3-1, level
/// road: speed in mph, calculated stopping sight distance in ft. Brake reaction 2.5 s, deceleration
/// 11.2 ft/s^2. The table's own coefficients (1.47, 1.075) are rounded, so that it lies up to 0.15 %
/// over the formula in exact units; its columns are rounded to 0.1 ft.
const AASHTO_US: [(f64, f64); 6] =
    [(15.0, 76.7), (20.0, 111.9), (25.0, 151.9), (30.0, 196.7), (35.0, 246.2), (40.0, 300.6)];

/// The same in metric units, km/h and m, 2.5 s and 3.4 m/s^2. From memory; the rows equal the
/// rounded formula 0.278 V t + 0.039 V^2 / a, which lies up to 0.58 % over the exact one.
const AASHTO_METRIC: [(f64, f64); 5] =
    [(20.0, 18.5), (30.0, 31.2), (40.0, 46.2), (50.0, 63.5), (60.0, 83.0)];

#[test]
fn stopping_distance_is_aashtos() {
    for (mph, feet) in AASHTO_US {
        let d = stopping_distance(mph * MPH, 2.5, 11.2 * FOOT) / FOOT;
        assert!((d / feet - 1.0).abs() < 0.0015 + 0.05 / feet, "{mph} mph: {d} ft, not {feet}");
    }
    for (kmh, metres) in AASHTO_METRIC {
        let d = stopping_distance(kmh / 3.6, 2.5, 3.4);
        assert!((d / metres - 1.0).abs() < 0.0058 + 0.05 / metres, "{kmh} km/h: {d} m");
    }
}

/// The exact formula by hand: 1.0 + 0.5; 6.25 + 2.083333; 3.5 + 0.288235.
#[test]
fn stopping_distance_at_walking_pace() {
    for (v, t, a, d) in [(1.0, 1.0, 1.0, 1.5), (2.5, 2.5, 1.5, 8.333333), (1.4, 2.5, 3.4, 3.788235)]
    {
        assert!((stopping_distance(v, t, a) - d).abs() < 1e-6);
    }
}

/// A stop of the whole simulation with the service brake: speed when the brake came on, distance
/// from there, mean deceleration.
struct Stop {
    speed: f64,
    distance: f64,
    slid: bool,
}

fn emergency_stop(surface: &str, from: f64) -> Stop {
    stop_on(&empty_floor(surface), from)
}

fn stop_on(floor: &DriveSetup, from: f64) -> Stop {
    let mut session = Session::new(floor).expect("the floor is valid");
    while session.moment().truck.speed < from {
        session.step(Controls { throttle: 100, ..Controls::default() });
    }
    let (mut speed, mut start) = (0.0, 0.0);
    let mut braking = false;
    let mut slid = false;
    for _ in 0..64 * 20 {
        // The state before the first tick with the brake on is where the stop begins.
        if !braking {
            speed = session.moment().truck.speed;
            start = session.moment().truck.pose.at.x;
        }
        let m = session.step(Controls { arm: ArmAsk::PushDown, ..Controls::default() });
        braking |= m.truck.braking;
        slid |= m.truck.drive_wheel_slips;
        if m.truck.speed.abs() < 1e-9 {
            break;
        }
    }
    let m = session.moment();
    assert!(m.truck.speed.abs() < 1e-9, "it came to rest");
    Stop { speed, distance: m.truck.pose.at.x - start, slid }
}

/// Where the floor grips, the stop is v^2 / 2a with the brake's 3.0 m/s^2: within 5 mm. (The last
/// tick stops in less than a tick, which costs up to v dt / 2 there.)
#[test]
fn the_truck_stops_in_v_squared_over_two_a() {
    for from in [0.8, 1.6, 2.6] {
        let stop = emergency_stop("dry", from);
        let formula = stop.speed * stop.speed / (2.0 * 3.0);
        println!("{:.3} m/s: {:.4} m, formula {formula:.4} m", stop.speed, stop.distance);
        assert!(!stop.slid);
        assert!((stop.distance - formula).abs() < 0.005, "{} {formula}", stop.distance);
    }
}

/// Where it does not, the drive wheel alone brakes: with L wheelbase, x and h the place and height
/// of the centre of mass and f the rolling resistance, the moment balance N L = W x + m a h and
/// m a = mu N + f W give a = g (mu x / L + f) / (1 - mu h / L).
#[test]
fn on_a_wet_floor_friction_at_the_drive_wheel_is_all_there_is() {
    let spec = shipped::single();
    let body = RigidBody::of(&spec, &[]);
    let (mu, l) = (0.30, spec.geometry.wheelbase_m);
    let a = G * (mu * body.com.x / l + spec.rolling_resistance) / (1.0 - mu * body.height / l);
    assert!(a < 3.0, "otherwise the brake itself would be the limit");
    let stop = emergency_stop("wet", 2.5);
    let formula = stop.speed * stop.speed / (2.0 * a);
    println!("wet: {:.3} m/s, {:.4} m, formula {formula:.4} m", stop.speed, stop.distance);
    assert!(stop.slid);
    assert!((stop.distance / formula - 1.0).abs() < 0.01, "{} {formula}", stop.distance);
}

/// The same with a wrapped load of 25 + 27 x 12 = 349 kg on the forks, its middle half a pallet
/// behind the backrest. The load weighs on the load wheels, which roll: the stop gets longer.
#[test]
fn a_load_on_a_wet_floor_makes_the_stop_as_much_longer_as_the_moments_say() {
    let spec = shipped::single();
    // By hand from the floor: pallet 0.14 m high, three layers of 0.3 m, each column's weight in
    // its middle, on forks that are lowered.
    let (pallet, cases) = (25.0, 27.0 * 12.0);
    let mass = pallet + cases;
    let on_forks = underside(spec.forks.at_start_m);
    let height = on_forks + (pallet * 0.07 + cases * (0.14 + 0.45)) / mass;
    let at = vec2(spec.geometry.backrest_x_m - 0.6, 0.0);
    let (x, h) = {
        let empty = RigidBody::of(&spec, &[]);
        let all = empty.mass + mass;
        let x = (empty.mass * empty.com.x + mass * at.x) / all;
        (x, (empty.mass * empty.height + mass * height) / all)
    };
    let (mu, l) = (0.30, spec.geometry.wheelbase_m);
    let a = G * (mu * x / l + spec.rolling_resistance) / (1.0 - mu * h / l);
    let stop = stop_on(&with_a_pallet_on_the_forks("wet"), 2.2);
    let empty = emergency_stop("wet", 2.2);
    let formula = stop.speed * stop.speed / (2.0 * a);
    println!("laden, wet: {:.3} m/s, {:.4} m, formula {formula:.4} m", stop.speed, stop.distance);
    assert!(stop.slid && stop.distance > 1.1 * empty.distance);
    assert!((stop.distance / formula - 1.0).abs() < 0.01, "{} {formula}", stop.distance);
}

/// Wheel loads of the empty single truck with its rider, by hand.
///
/// Truck 1150 kg at 0.72 x 2.05 = 1.476 m; rider 85 kg at 1.32 m. Moment about the load axle:
/// 1150 x 1.476 + 85 x 1.32 = 1697.4 + 112.2 = 1809.6 kg m. Over 2.05 m: 882.7317 kg on the drive
/// wheel, 1235 - 882.7317 = 352.2683 kg on the load wheels. Times 9.80665.
#[test]
fn wheel_loads_are_the_hand_computed_moment_balance() {
    let spec = shipped::single();
    let n = wheel_loads(&spec, &RigidBody::of(&spec, &[]), G, 0.0, 0.0).expect("it stands");
    assert!((n.drive - 882.731707 * 9.80665).abs() < 0.01, "{}", n.drive);
    assert!((n.left - 0.5 * 352.268293 * 9.80665).abs() < 0.01, "{}", n.left);
    assert!((n.right - n.left).abs() < 1e-9);
}

/// With a pallet of 1000 kg, its middle 0.36 m ahead of the load axle: 1809.6 + 360 = 2169.6 kg m
/// over 2.05 m is 1058.3415 kg on the drive wheel of 2235 kg in all. Braking at 1.5 m/s^2, with the
/// common centre of mass at (1150 x 0.45 + 85 x 1.15 + 1000 x 0.8) / 2235 = 0.633221 m, moves
/// 2235 x 1.5 x 0.633221 / 2.05 = 1035.5 N on to the drive wheel.
#[test]
fn wheel_loads_with_a_pallet_while_braking() {
    let spec = shipped::single();
    let pallet = Carried { mass: 1000.0, at: vec2(0.36, 0.0), height: 0.8, yaw_inertia: 200.0 };
    let body = RigidBody::of(&spec, &[pallet]);
    let still = wheel_loads(&spec, &body, G, 0.0, 0.0).expect("it stands");
    assert!((still.drive - 1058.341463 * 9.80665).abs() < 0.01, "{}", still.drive);
    let braking = wheel_loads(&spec, &body, G, -1.5, 0.0).expect("it stands");
    let moved = 2235.0 * 1.5 * 0.6332215 / 2.05;
    assert!((braking.drive - still.drive - moved).abs() < 0.1, "{}", braking.drive - still.drive);
}

//! What defects do against the force balances and paths that a text of mechanics gives; the truck's own
//! numbers are read from its file.

use coneyard_core::controls::{ArmAsk, Controls, TillerAsk};
use coneyard_core::floor::slope::Slope;
use coneyard_core::math::{DEG, G, tan};
use coneyard_core::time::DT;
use coneyard_core::truck::condition::{Condition, LoadWheel, Machine};
use coneyard_core::truck::loads::{RigidBody, wheel_loads};
use coneyard_core::truck::spec::shipped;
use coneyard_core::truck::travel::DriveAsk;
use coneyard_core::truck::wheels::{Twist, WheelCommand, solve};
use coneyard_core::yard::Setting;
use coneyard_sim::Session;
use coneyard_tests::yards::Floor;

fn on_dry(condition: Condition) -> Session {
    let setup = Floor::new("dry").setup();
    let mut setting = Setting::open(&setup).expect("the floor is valid");
    setting.condition = condition;
    Session::of(&setup, setting)
}

fn drives(throttle: i8) -> Controls {
    Controls { throttle, ..Controls::default() }
}

/// Rolling freely, m a = f m g + d N: rolling resistance, and what drags at the left load wheel under its
/// load (any text of mechanics).
#[test]
fn a_wheel_that_drags_slows_a_free_truck_by_the_force_balance() {
    let spec = shipped::single();
    let body = RigidBody::of(&spec, &[]);
    let loads = wheel_loads(&spec, &body, G, 0.0, 0.0).expect("stands");
    for drag in [0.03, 0.06, 0.2] {
        let wheel = LoadWheel { grip: 1.0, drag };
        let sound = LoadWheel { grip: 1.0, drag: 0.0 };
        let condition = Condition { load_wheels: [wheel, sound], ..Condition::SOUND };
        let machine = Machine { plate: &spec, condition: &condition };
        let start = Twist { velocity: coneyard_core::math::vec2(2.0, 0.0), yaw_rate: 0.0 };
        let cmd = WheelCommand {
            steer_before: 0.0,
            steer: 0.0,
            // No force of the motor's.
            drive: DriveAsk::motor(2.0, 0.0),
            friction_drive: 100.0,
            friction_load: 100.0,
            loads,
            slope: Slope::LEVEL,
        };
        let end = solve(machine, &body, &start, &cmd).end;
        let is = (2.0 - end.velocity.x) / DT;
        let should = spec.rolling_resistance * G + drag * loads.left / body.mass;
        assert!((is - should).abs() < 1e-9, "{drag}: {is} {should}");
    }
}

/// v^2 / 2 a with a share of the deceleration, once it has built up: weak plugging takes longer by as much.
#[test]
fn weak_plugging_and_weak_brakes_slow_by_their_share() {
    let rate = |condition: Condition, controls: Controls| {
        let mut s = on_dry(condition);
        while s.moment().truck.speed < 2.2 {
            s.step(drives(100));
        }
        // The lag of the controller, and the arm's way, are over after two seconds.
        (0..128).for_each(|_| {
            s.step(controls);
        });
        let from = s.moment().truck.speed;
        (0..8).for_each(|_| {
            s.step(controls);
        });
        (from - s.moment().truck.speed) / (8.0 * DT)
    };
    let travel = shipped::single().travel;
    for share in [0.2, 0.35] {
        let weak = Condition { plugging: share, ..Condition::SOUND };
        let (is, should) = (rate(weak, drives(-100)), share * travel.plugging_most_mps2);
        assert!((is - should).abs() < 0.02 * should, "plugging {share}: {is} {should}");
        let weak = Condition { lower_brake: share, ..Condition::SOUND };
        let down = Controls { arm: ArmAsk::PushDown, ..drives(0) };
        let (is, should) = (rate(weak, down), share * travel.service_brake_mps2);
        assert!((is - should).abs() < 0.02 * should, "brake {share}: {is} {should}");
    }
}

#[test]
fn forks_sink_by_their_rate() {
    let mut s = on_dry(Condition { forks_sink_mps: 0.004, ..Condition::SOUND });
    let from = s.moment().truck.fork_height;
    (0..64 * 5).for_each(|_| {
        s.step(drives(0));
    });
    assert!((from - s.moment().truck.fork_height - 0.004 * 5.0).abs() < 1e-9);
}

/// The single-track model with a dead band: at a tiller angle of t and a play of p to either side the wheel
/// stands at t - p when it was turned there, and the load axle goes round in a circle of L / tan(t - p).
#[test]
fn play_in_the_steering_widens_the_circle_by_the_dead_band() {
    let spec = shipped::single();
    let (tiller, play) = (20.0, 6.0);
    let mut s = on_dry(Condition { steering_play: play * DEG, ..Condition::SOUND });
    let turn = Controls { tiller: TillerAsk::To(2 * tiller as i16), ..drives(25) };
    (0..64 * 10).for_each(|_| {
        s.step(turn);
    });
    let truck = &s.moment().truck;
    let radius = truck.speed / truck.yaw_rate;
    let should = spec.geometry.wheelbase_m / tan((tiller - play) * DEG);
    assert!((radius - should).abs() < 0.005 * should, "{radius} {should}");
    // Turned back by less than twice the play the wheel does not move.
    let back = |half_degrees| Controls { tiller: TillerAsk::To(half_degrees), ..drives(0) };
    let steer = truck.steer;
    (0..64).for_each(|_| {
        s.step(back(2 * 9));
    });
    assert_eq!(s.moment().truck.steer, steer);
    (0..64).for_each(|_| {
        s.step(back(2 * 7));
    });
    assert!((s.moment().truck.steer / DEG - 13.0).abs() < 1e-9);
}

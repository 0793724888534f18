//! Without throttle nothing adds energy: on a level floor the truck's energy of motion never grows,
//! whatever the hands do with tiller, arm and stance (tests only).

use proptest::prelude::*;

use crate::controls::{ArmAsk, Controls, Side, TillerAsk};
use crate::floor::slope::Slope;
use crate::math::{DEG, G, Vec2, tan, vec2};
use crate::time::DT;
use crate::truck::loads::{Carried, RigidBody, wheel_loads};
use crate::truck::rig::Rig;
use crate::truck::spec::{TruckSpec, shipped};
use crate::truck::tiller::Tiller;
use crate::truck::wheels::{Twist, WheelCommand, solve};

/// A truck on a level floor, with its hands and its wheels, without an engine.
struct Rolling {
    spec: TruckSpec,
    body: RigidBody,
    rig: Rig,
    twist: Twist,
    felt: Vec2,
    friction: f64,
}

impl Rolling {
    /// Rolls without sliding, its drive wheel at an angle, its load axle at a speed.
    fn new(spec: TruckSpec, load: f64, friction: f64, steer: f64, axle_speed: f64) -> Self {
        let pallet =
            Carried { mass: load, at: vec2(0.4, 0.0), height: 0.8, yaw_inertia: 0.2 * load };
        let body =
            RigidBody::of(&spec, if load > 0.0 { core::slice::from_ref(&pallet) } else { &[] });
        let yaw_rate = axle_speed * tan(steer) / spec.geometry.wheelbase_m;
        let twist = Twist { velocity: vec2(axle_speed, yaw_rate * body.com.x), yaw_rate };
        let mut rig = Rig::new(&spec, Side::Left);
        rig.tiller = Tiller { angle: steer, ..Tiller::default() };
        Self { spec, body, rig, twist, felt: Vec2::default(), friction }
    }

    fn tick(&mut self, hands: &Controls) {
        let (spec, steer_before) = (&self.spec, self.rig.tiller.angle);
        let wheel = vec2(spec.geometry.wheelbase_m, 0.0);
        let speed = self.twist.at(wheel, self.body.com).dot(Vec2::from_angle(steer_before));
        let drive = self.rig.step(hands, speed, 0.0, spec);
        let Some(loads) = wheel_loads(spec, &self.body, G, self.felt.x, self.felt.y) else {
            return;
        };
        let solved = solve(
            spec,
            &self.body,
            &self.twist,
            &WheelCommand {
                steer_before,
                steer: self.rig.tiller.angle,
                drive,
                friction_drive: self.friction,
                friction_load: self.friction,
                loads,
                slope: Slope::LEVEL,
            },
        );
        (self.twist, self.felt) = (solved.end, solved.acceleration);
    }

    /// J.
    fn energy(&self) -> f64 {
        let (v, w) = (self.twist.velocity, self.twist.yaw_rate);
        0.5 * (self.body.mass * v.dot(v) + self.body.yaw_inertia * w * w)
    }

    fn axle_speed(&self) -> f64 {
        self.twist.at(Vec2::default(), self.body.com).x
    }
}

/// A tiller that is straightened must not speed the truck up: the double truck with 1.2 t, its
/// tiller brought from 84 to 3 degrees, went from 0.21 to 1.64 m/s with twice the energy.
#[test]
fn straightening_the_tiller_in_neutral_adds_nothing() {
    let mut truck = Rolling::new(shipped::double(), 1200.0, 0.55, 84.0 * DEG, 0.21);
    let before = truck.energy();
    let hands = Controls { tiller: TillerAsk::To(6), ..Controls::default() };
    for _ in 0..64 {
        truck.tick(&hands);
    }
    println!(
        "tiller 84 to 3 degrees in neutral: {:.0} to {:.0} J, load axle {:.2} m/s",
        before,
        truck.energy(),
        truck.axle_speed()
    );
    assert!((truck.rig.tiller.angle / DEG - 3.0).abs() < 0.1);
    assert!(truck.energy() < before);
}

fn hands() -> impl Strategy<Value = (Controls, usize)> {
    let arm = prop_oneof![
        6 => Just(ArmAsk::Hold),
        1 => Just(ArmAsk::LetGo),
        1 => Just(ArmAsk::PushDown),
    ];
    let tiller = prop_oneof![
        (-170_i16..=170).prop_map(TillerAsk::To),
        (-100_i8..=100).prop_map(TillerAsk::Swing),
    ];
    let left = any::<bool>().prop_map(|l| if l { Side::Left } else { Side::Right });
    (arm, tiller, left, 1_usize..60).prop_map(|(arm, tiller, stance, ticks)| {
        (Controls { arm, tiller, stance, ..Controls::default() }, ticks)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn without_throttle_on_a_level_floor_energy_never_grows(
        double in any::<bool>(),
        load in prop_oneof![Just(0.0), 100.0..2700.0_f64],
        friction in prop_oneof![Just(0.55), Just(0.30), Just(0.40)],
        steer in -84.0..84.0_f64,
        speed in -2.0..3.3_f64,
        asks in proptest::collection::vec(hands(), 1..12),
    ) {
        let spec = if double { shipped::double() } else { shipped::single() };
        // The wheel on the wider circle is held to what a truck can do.
        let speed = speed * crate::math::cos(steer * DEG);
        let mut truck = Rolling::new(spec, load, friction, steer * DEG, speed);
        let mut before = truck.energy();
        for (hands, ticks) in asks {
            for _ in 0..ticks {
                truck.tick(&hands);
                let now = truck.energy();
                prop_assert!(now <= before + 1e-9, "{before} J to {now} J in {DT} s");
                before = now;
            }
        }
    }
}

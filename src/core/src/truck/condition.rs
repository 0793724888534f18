//! The machine as it is, apart from its plate. The plate ([`TruckSpec`]) says what the maker built: course
//! check, step-outs, scripted riders, judge and helps go by it. What moves goes by the [`Machine`]: the
//! plate, and what has become of it.

use crate::controls::Controls;
use crate::truck::arm::ArmZone;
use crate::truck::spec::TruckSpec;

/// One of the two wheels under the forks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoadWheel {
    /// Share of the friction that a sound one has.
    pub grip: f64,
    /// Rolling resistance over its load, beyond that of a sound one: a flat spot, something wrapped round.
    pub drag: f64,
}

/// What has become of a truck. Shares are of what the plate says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Condition {
    /// Deceleration by the brake in the upper zone, share.
    pub upper_brake: f64,
    /// And in the lower zone, share.
    pub lower_brake: f64,
    /// Deceleration by plugging, share.
    pub plugging: f64,
    /// Speed with which the arm springs up, share.
    pub arm_spring: f64,
    /// Load wheels, left and right.
    pub load_wheels: [LoadWheel; 2],
    /// Top speeds, share.
    pub top_speed: f64,
    /// Speed of the forks going up, share.
    pub lift_speed: f64,
    /// How fast the forks sink by themselves, m/s.
    pub forks_sink_mps: f64,
    /// The tip of the right fork stands so much lower than that of the left one, m.
    pub forks_uneven_m: f64,
    /// How far the tiller moves to either side before the drive wheel does, rad.
    pub steering_play: f64,
    /// Share of the throttle that stays when it is let go, power unit first.
    pub throttle_rest: f64,
    /// The horn works.
    pub horn_works: bool,
    /// High speed stays on when the throttle is eased.
    pub high_speed_stays: bool,
    /// The battery is held in its place.
    pub battery_held: bool,
    /// The backrest holds what comes against it.
    pub backrest_holds: bool,
}

impl Condition {
    /// As its maker built it.
    pub const SOUND: Self = Self {
        upper_brake: 1.0,
        lower_brake: 1.0,
        plugging: 1.0,
        arm_spring: 1.0,
        load_wheels: [LoadWheel { grip: 1.0, drag: 0.0 }; 2],
        top_speed: 1.0,
        lift_speed: 1.0,
        forks_sink_mps: 0.0,
        forks_uneven_m: 0.0,
        steering_play: 0.0,
        throttle_rest: 0.0,
        horn_works: true,
        high_speed_stays: false,
        battery_held: true,
        backrest_holds: true,
    };
}

/// A truck that moves.
#[derive(Clone, Copy, Debug)]
pub struct Machine<'a> {
    /// What its maker built.
    pub plate: &'a TruckSpec,
    /// What has become of it.
    pub condition: &'a Condition,
}

/// A plate alone stands for a sound truck.
impl<'a> From<&'a TruckSpec> for Machine<'a> {
    fn from(plate: &'a TruckSpec) -> Self {
        Self { plate, condition: &Condition::SOUND }
    }
}

impl Machine<'_> {
    /// What the brake of a zone of the arm's arc takes off the speed, m/s^2.
    pub fn service_brake(&self, zone: ArmZone) -> f64 {
        let share = match zone {
            ArmZone::UpperBrake => self.condition.upper_brake,
            ArmZone::LowerBrake => self.condition.lower_brake,
            ArmZone::Driving => 0.0,
        };
        self.plate.travel.service_brake_mps2 * share
    }

    /// What the throttle asks for, -1 to 1: one that does not spring back asks for something by itself.
    pub fn throttle(&self, twisted: f64) -> f64 {
        let rest = self.condition.throttle_rest;
        if twisted.abs() < rest { rest } else { twisted }
    }

    /// The horn sounds: its button is held, there is current, and it works.
    pub fn horn_sounds(&self, hands: &Controls) -> bool {
        hands.horn && hands.key_on && self.condition.horn_works
    }
}

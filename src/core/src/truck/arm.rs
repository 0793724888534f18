//! The tiller arm swings in an arc with a brake zone at each end.
//!
//! Upright is 0, level is a right angle. A spring brings it up when it is let go. In either brake
//! zone the service brake is on and traction is cut, whatever the throttle says. A zone is left
//! with a hysteresis, so that the brake does not chatter at its edge.

use serde::{Deserialize, Serialize};

use crate::controls::ArmAsk;
use crate::state;
use crate::state::State;
use crate::state::chain::Chain;
use crate::time::DT;
use crate::truck::spec::ArmSpec;

/// The parts of the arm's arc.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ArmZone {
    /// Near upright: brake on.
    UpperBrake,
    /// Between: the truck can be driven.
    #[default]
    Driving,
    /// Near level: brake on.
    LowerBrake,
}

/// The arm's state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arm {
    /// Angle from upright, rad.
    pub angle: f64,
    /// Zone by angle and hysteresis.
    pub zone: ArmZone,
}

impl Arm {
    /// At rest: upright.
    pub fn upright() -> Self {
        Self { angle: 0.0, zone: ArmZone::UpperBrake }
    }

    /// Held where a rider drives.
    pub fn held(spec: &ArmSpec) -> Self {
        Self { angle: spec.hold, zone: ArmZone::Driving }
    }

    /// One tick of spring or hands; the spring has this share of its speed.
    pub fn step(&mut self, ask: ArmAsk, spec: &ArmSpec, spring: f64) {
        let (goal, down_rate) = match ask {
            ArmAsk::LetGo => (0.0, 0.0),
            ArmAsk::Hold => (spec.hold, spec.push_rate),
            ArmAsk::PushDown => (spec.lowest, spec.push_rate),
        };
        let (up, down) = (spec.spring_rate * spring * DT, down_rate * DT);
        self.angle += (goal - self.angle).clamp(-up, down);
        self.zone = match self.zone {
            ArmZone::UpperBrake if self.angle < spec.upper_end + spec.hysteresis => {
                ArmZone::UpperBrake
            }
            ArmZone::LowerBrake if self.angle > spec.lower_start - spec.hysteresis => {
                ArmZone::LowerBrake
            }
            _ if self.angle < spec.upper_end => ArmZone::UpperBrake,
            _ if self.angle > spec.lower_start => ArmZone::LowerBrake,
            _ => ArmZone::Driving,
        };
    }
}

impl State for ArmZone {
    fn digest(&self, chain: &mut Chain) {
        (*self as u32).digest(chain);
    }
}

state!(Arm { angle, zone });

#[cfg(test)]
mod tests {
    use super::*;
    use crate::truck::spec::shipped;

    fn seconds_until(zone: ArmZone, ask: ArmAsk) -> f64 {
        let spec = shipped::single().arm;
        let mut arm = Arm::held(&spec);
        let mut ticks = 0;
        while arm.zone != zone {
            arm.step(ask, &spec, 1.0);
            ticks += 1;
            assert!(ticks < 200, "the arm never got there");
        }
        f64::from(ticks) * DT
    }

    /// The two emergency stops differ in the time they need (typical of the trade, no source).
    #[test]
    fn sinking_at_the_knees_is_quicker_than_letting_go() {
        let low = seconds_until(ArmZone::LowerBrake, ArmAsk::PushDown);
        let up = seconds_until(ArmZone::UpperBrake, ArmAsk::LetGo);
        assert!((0.12..=0.18).contains(&low), "lower zone after {low} s");
        assert!((0.30..=0.40).contains(&up), "upper zone after {up} s");
    }

    #[test]
    fn a_zone_is_left_only_past_its_hysteresis() {
        let spec = shipped::single().arm;
        let mut arm =
            Arm { angle: spec.upper_end + 0.5 * spec.hysteresis, zone: ArmZone::UpperBrake };
        arm.step(ArmAsk::LetGo, &spec, 0.0);
        assert_eq!(arm.zone, ArmZone::UpperBrake);
        let mut arm = Arm { angle: spec.upper_end + 0.5 * spec.hysteresis, zone: ArmZone::Driving };
        arm.step(ArmAsk::LetGo, &spec, 0.0);
        assert_eq!(arm.zone, ArmZone::Driving);
    }
}

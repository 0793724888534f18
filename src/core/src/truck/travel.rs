//! TravelControl control: what the controller asks of the motor for a twist of the throttle.
//!
//! It works on the speed of the drive wheel along its heading. Throttle with the motion sets a
//! speed, which is approached with a limited acceleration through a first-order lag. In neutral the
//! motor brakes gently with a bounded force and never drives: on the level the truck coasts to
//! rest, downhill it gains speed once that force is used up. Throttle against the motion plugs: the motor brakes in proportion to the twist, and
//! past zero speed the truck drives off the other way, which is what a beginner forgets. The arm
//! in a brake zone cuts traction and applies the service brake, whatever the throttle says.

use crate::math::{G, exp};
use crate::state;
use crate::time::DT;
use crate::truck::arm::ArmZone;
use crate::truck::condition::Machine;
use crate::truck::spec::TruckSpec;

/// Below this speed the motion has no direction that a throttle could be against, m/s.
const STANDING: f64 = 0.02;

/// The controller's state.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TravelControl {
    /// Acceleration of the drive wheel that is in effect after the lag, m/s^2.
    pub acceleration: f64,
    /// High speed is in effect.
    pub high_speed_on: bool,
    /// The high-speed button has been pressed, and high speed has not dropped out since.
    pub high_speed_ready: bool,
    /// The high-speed button was down in the tick before.
    pub button_was_down: bool,
    /// The motor brakes against the motion.
    pub plugging: bool,
    /// The service brake is on.
    pub braking: bool,
}

/// What the motor and the brake try to do in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DriveAsk {
    /// Speed of the drive wheel along its heading at the end of the tick, m/s.
    pub speed: f64,
    /// Least force at the wheel's rim along its heading for that, N: the strongest one backwards.
    pub least: f64,
    /// The strongest one forwards, N; infinite for the brake, which only the floor limits.
    pub most: f64,
}

impl DriveAsk {
    /// A motor that drives and brakes with up to this force, N.
    pub fn motor(speed: f64, force: f64) -> Self {
        Self { speed, least: -force, most: force }
    }

    /// What only brakes, with up to this force, N, a wheel that is to turn at `speed` at the end of
    /// the tick: it takes speed off or holds the wheel still, and never adds any, whatever else
    /// makes the wheel turn.
    pub fn brake(speed: f64, force: f64) -> Self {
        let against = |forwards: bool| if forwards { 0.0 } else { force };
        Self { speed, least: -against(speed < 0.0), most: against(speed > 0.0) }
    }
}

impl TravelControl {
    /// One tick. `throttle` from -1 to 1, `wheel_speed` of the drive wheel along its heading,
    /// m/s, `laden` from 0 empty to 1 at capacity; of a machine, or of a sound one of this plate.
    pub fn step<'a>(
        &mut self,
        throttle: f64,
        high_speed_button: bool,
        arm: ArmZone,
        wheel_speed: f64,
        laden: f64,
        machine: impl Into<Machine<'a>>,
    ) -> DriveAsk {
        let machine = machine.into();
        let spec = machine.plate;
        let t = &spec.travel;
        self.braking = arm != ArmZone::Driving;
        let full = throttle >= 1.0 && !self.braking;
        self.press_high_speed(high_speed_button, full, machine.condition.high_speed_stays);
        if self.braking {
            (self.acceleration, self.plugging) = (0.0, false);
            let speed = toward_zero(wheel_speed, machine.service_brake(arm) * DT);
            return DriveAsk::brake(speed, f64::INFINITY);
        }
        let twist = ((throttle.abs() - t.throttle_dead_band) / (1.0 - t.throttle_dead_band))
            .clamp(0.0, 1.0);
        let direction = if throttle < 0.0 { -1.0 } else { 1.0 };
        self.plugging = twist > 0.0 && wheel_speed * direction < -STANDING;

        let neutral = twist <= 0.0;
        let asked = if neutral {
            // Coasting takes speed off and never adds any.
            -wheel_speed.signum() * t.coasting_mps2 * f64::from(wheel_speed.abs() > 0.0)
        } else if self.plugging {
            let more = (t.plugging_most_mps2 - t.plugging_least_mps2) * twist;
            direction * (t.plugging_least_mps2 + more) * machine.condition.plugging
        } else {
            let top = self.top_speed(direction, laden, spec) * machine.condition.top_speed;
            let most = t.acceleration_mps2 * (0.25 + 0.75 * twist);
            let along = (top * twist - wheel_speed * direction) / t.speed_response_s;
            direction * along.clamp(-t.coasting_mps2, most)
        };
        let blend = 1.0 - exp(-DT / t.lag_s);
        self.acceleration += (asked - self.acceleration) * blend;

        let mut speed = wheel_speed + self.acceleration * DT;
        if neutral && speed * wheel_speed <= 0.0 {
            // Coasting ends at rest; what the lag still holds must not drive the truck backwards.
            speed = 0.0;
            self.acceleration = 0.0;
        }
        if neutral {
            DriveAsk::brake(speed, t.coasting_force_most_n)
        } else {
            DriveAsk::motor(speed, t.tractive_force_most_n)
        }
    }

    /// The high-speed button: works at full throttle, drops out on any easing, and then wants to be
    /// pressed anew. One that `stays` goes on until the brake takes hold.
    fn press_high_speed(&mut self, down: bool, full: bool, stays: bool) {
        let pressed = down && !self.button_was_down;
        self.button_was_down = down;
        if stays && self.high_speed_on && !self.braking {
            return;
        }
        let drops_out = self.high_speed_on && !full;
        self.high_speed_ready = down && (pressed || self.high_speed_ready) && !drops_out;
        self.high_speed_on = self.high_speed_ready && full;
    }

    fn top_speed(&self, direction: f64, laden: f64, spec: &TruckSpec) -> f64 {
        let t = &spec.travel;
        if direction < 0.0 {
            return t.top_speed_forks_first_mps;
        }
        let (empty, at_capacity) = if self.high_speed_on {
            (t.high_speed_mps, t.high_speed_laden_mps)
        } else {
            (t.top_speed_empty_mps, t.top_speed_laden_mps)
        };
        empty + (at_capacity - empty) * laden
    }
}

/// The most that plugging takes off a truck's speed with this mass in all, kg, on the level, m/s^2:
/// what the controller asks for, or what the motor's force and rolling resistance give together.
pub fn plugging_most(spec: &TruckSpec, mass: f64) -> f64 {
    let by_force = spec.travel.tractive_force_most_n / mass + spec.rolling_resistance * G;
    spec.travel.plugging_most_mps2.min(by_force)
}

/// Brings a value towards zero by at most `by`, never past it.
fn toward_zero(value: f64, by: f64) -> f64 {
    value.signum() * (value.abs() - by).max(0.0)
}

state!(TravelControl {
    acceleration,
    high_speed_on,
    high_speed_ready,
    button_was_down,
    plugging,
    braking,
});

#[cfg(test)]
mod tests {
    use super::*;
    use crate::truck::condition::Condition;
    use crate::truck::spec::shipped;

    /// Drives a truck that does exactly what is asked; returns speed after each tick.
    fn speeds(start: f64, ticks: usize, throttle: impl Fn(usize, f64) -> f64) -> Vec<f64> {
        let spec = shipped::single();
        let mut travel = TravelControl::default();
        let mut v = start;
        (0..ticks)
            .map(|i| {
                v = travel.step(throttle(i, v), false, ArmZone::Driving, v, 0.0, &spec).speed;
                v
            })
            .collect()
    }

    #[test]
    fn full_throttle_reaches_top_speed_and_no_more() {
        let v = speeds(0.0, 64 * 12, |_, _| 1.0);
        let top = v.iter().copied().fold(0.0, f64::max);
        assert!((v[v.len() - 1] - 2.7).abs() < 0.01, "{}", v[v.len() - 1]);
        assert!(top < 2.7 * 1.02, "{top}");
        let steepest = v.windows(2).map(|w| (w[1] - w[0]) / DT).fold(0.0, f64::max);
        assert!(steepest <= 0.9 + 1e-9 && steepest > 0.85, "{steepest}");
    }

    #[test]
    fn plugging_held_past_zero_drives_off_the_other_way() {
        let v = speeds(2.0, 64 * 4, |_, _| -1.0);
        assert!(v[v.len() - 1] < -0.5);
    }

    #[test]
    fn plugging_released_in_time_comes_to_rest() {
        let v = speeds(2.0, 64 * 6, |_, v| if v > 0.15 { -0.6 } else { 0.0 });
        assert_eq!(v[v.len() - 1], 0.0);
        assert!(v.iter().all(|v| *v >= 0.0));
    }

    #[test]
    fn a_harder_twist_plugs_harder() {
        let gentle = speeds(2.0, 64, |_, _| -0.3);
        let hard = speeds(2.0, 64, |_, _| -1.0);
        assert!(hard[60] < gentle[60]);
    }

    /// Each step of (throttle, button) with whether high speed is in effect after it.
    fn high_speed(steps: &[(f64, bool, bool)]) {
        let spec = shipped::single();
        let mut travel = TravelControl::default();
        for (i, (throttle, button, on)) in steps.iter().enumerate() {
            travel.step(*throttle, *button, ArmZone::Driving, 2.7, 0.0, &spec);
            assert_eq!(travel.high_speed_on, *on, "step {i} of {steps:?}");
        }
    }

    #[test]
    fn high_speed_drops_out_on_any_easing_and_wants_a_new_press() {
        high_speed(&[(1.0, true, true), (0.99, true, false), (1.0, true, false)]);
        high_speed(&[(1.0, true, true), (0.5, false, false), (1.0, true, true)]);
        // The button may be down before the throttle is full, and letting it go ends it.
        high_speed(&[(0.6, true, false), (1.0, true, true), (1.0, false, false)]);
        high_speed(&[(0.99, true, false), (0.98, true, false), (1.0, true, true)]);
    }

    #[test]
    fn the_brake_ends_high_speed_for_good() {
        let spec = shipped::single();
        let mut travel = TravelControl::default();
        for (arm, on) in
            [(ArmZone::Driving, true), (ArmZone::UpperBrake, false), (ArmZone::Driving, false)]
        {
            travel.step(1.0, true, arm, 2.7, 0.0, &spec);
            assert_eq!(travel.high_speed_on, on, "{arm:?}");
        }
    }

    #[test]
    fn a_load_takes_from_high_speed_too() {
        let spec = shipped::single();
        let t = &spec.travel;
        let mut travel = TravelControl { high_speed_on: true, ..TravelControl::default() };
        assert_eq!(travel.top_speed(1.0, 0.0, &spec), t.high_speed_mps);
        assert_eq!(travel.top_speed(1.0, 1.0, &spec), t.high_speed_laden_mps);
        travel.high_speed_on = false;
        assert_eq!(travel.top_speed(1.0, 1.0, &spec), t.top_speed_laden_mps);
    }

    #[test]
    fn neutral_may_brake_and_never_drive() {
        let spec = shipped::single();
        for (speed, sign) in [(1.5, 1.0), (-1.5, -1.0)] {
            let mut travel = TravelControl { acceleration: sign * 0.9, ..TravelControl::default() };
            for _ in 0..64 {
                let ask = travel.step(0.0, false, ArmZone::Driving, speed, 0.0, &spec);
                assert!(ask.least * sign <= 0.0 && ask.most * sign <= 0.0, "{ask:?}");
                assert_eq!((ask.most - ask.least).abs(), spec.travel.coasting_force_most_n);
            }
        }
        let at_rest = TravelControl::default().step(0.0, false, ArmZone::Driving, 0.0, 0.0, &spec);
        assert_eq!(at_rest, DriveAsk::brake(0.0, spec.travel.coasting_force_most_n));
        assert_eq!((at_rest.least, at_rest.most), (-900.0, 900.0), "it holds both ways");
    }

    #[test]
    fn a_brake_zone_cuts_traction() {
        let spec = shipped::single();
        let mut travel = TravelControl::default();
        let ask = travel.step(1.0, false, ArmZone::UpperBrake, 1.0, 0.0, &spec);
        assert!((ask.speed - (1.0 - 3.0 * DT)).abs() < 1e-12 && travel.braking);
    }

    #[test]
    fn each_zone_brakes_with_its_own_brake_and_plugging_with_its_share() {
        let spec = shipped::single();
        let condition =
            Condition { upper_brake: 0.5, lower_brake: 0.0, plugging: 0.5, ..Condition::SOUND };
        let worn = Machine { plate: &spec, condition: &condition };
        let most = spec.travel.service_brake_mps2 * DT;
        for (zone, share) in [(ArmZone::UpperBrake, 0.5), (ArmZone::LowerBrake, 0.0)] {
            let ask = TravelControl::default().step(0.0, false, zone, 1.0, 0.0, worn);
            assert!((1.0 - ask.speed - share * most).abs() < 1e-15, "{zone:?}");
        }
        let plugs = |machine: Machine<'_>| {
            let mut travel = TravelControl::default();
            (0..64).for_each(|_| {
                travel.step(-1.0, false, ArmZone::Driving, 1.0, 0.0, machine);
            });
            travel.acceleration
        };
        assert!((plugs(worn) / plugs((&spec).into()) - 0.5).abs() < 1e-12);
    }
}

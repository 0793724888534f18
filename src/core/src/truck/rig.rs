//! The rig: everything between the rider's hands and the wheels, one tick at a time.

use crate::controls::{ArmAsk, Controls, Side};
use crate::state::State;
use crate::state::chain::Chain;
use crate::time::DT;
use crate::truck::arm::Arm;
use crate::truck::condition::Machine;
use crate::truck::spec::TruckSpec;
use crate::truck::tiller::Tiller;
use crate::truck::travel::{DriveAsk, TravelControl};

/// State of arm, tiller, controller, forks and stance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rig {
    /// The tiller arm.
    pub arm: Arm,
    /// The tiller's swing.
    pub tiller: Tiller,
    /// Angle of the drive wheel, rad, left positive: with play in the steering it lags behind the tiller.
    pub wheel: f64,
    /// The controller.
    pub travel: TravelControl,
    /// Fork height over lowered, m.
    pub fork_height: f64,
    /// Side the rider stands on or is stepping to.
    pub stance: Side,
    /// Time left of stepping across, s; 0 when both feet stand.
    pub step_left: f64,
}

impl Rig {
    /// At the start of a drive: the rider stands, the arm is held, the forks at their start height.
    pub fn new(spec: &TruckSpec, stance: Side) -> Self {
        Self {
            arm: Arm::held(&spec.arm),
            tiller: Tiller::default(),
            wheel: 0.0,
            travel: TravelControl::default(),
            fork_height: spec.forks.at_start_m,
            stance,
            step_left: 0.0,
        }
    }

    /// The rider is between the two sides.
    pub fn stepping(&self) -> bool {
        self.step_left > 0.0
    }

    /// One tick of the rider's hands and feet on a machine, or on a sound one of this plate.
    /// `wheel_speed` is that of the drive wheel along its heading, m/s; `laden` from 0 empty to 1 at
    /// capacity.
    pub fn step<'a>(
        &mut self,
        controls: &Controls,
        wheel_speed: f64,
        laden: f64,
        machine: impl Into<Machine<'a>>,
    ) -> DriveAsk {
        let machine = machine.into();
        let spec = machine.plate;
        self.step_across(controls, spec);
        let arm = if controls.aboard { controls.arm } else { ArmAsk::LetGo };
        self.arm.step(arm, &spec.arm, machine.condition.arm_spring);
        self.tiller.step(controls.tiller, self.stance, self.stepping(), spec);
        let (angle, play) = (self.tiller.angle, machine.condition.steering_play);
        self.wheel = if play > 0.0 { self.wheel.clamp(angle - play, angle + play) } else { angle };
        self.move_forks(controls, laden, machine);
        let powered = controls.aboard && controls.key_on;
        let twisted = f64::from(controls.throttle) / 100.0;
        let throttle = if powered { machine.throttle(twisted) } else { 0.0 };
        self.travel.step(throttle, controls.high_speed, self.arm.zone, wheel_speed, laden, machine)
    }

    fn step_across(&mut self, controls: &Controls, spec: &TruckSpec) {
        self.step_left = (self.step_left - DT).max(0.0);
        // A step that has begun is finished before the next one.
        if controls.aboard && !self.stepping() && controls.stance != self.stance {
            self.stance = controls.stance;
            self.step_left = spec.tiller.step_across_s;
        }
    }

    fn move_forks(&mut self, controls: &Controls, laden: f64, machine: Machine<'_>) {
        let f = &machine.plate.forks;
        let up = f.raise_empty_mps + (f.raise_laden_mps - f.raise_empty_mps) * laden;
        let up = up * machine.condition.lift_speed;
        let rate = match (controls.key_on, controls.forks_up, controls.forks_down) {
            (true, true, false) => up,
            (true, false, true) => -f.lower_mps,
            _ => 0.0,
        };
        self.fork_height = (self.fork_height + (rate - machine.condition.forks_sink_mps) * DT)
            .clamp(0.0, f.lift_m);
    }
}

impl State for Rig {
    fn digest(&self, chain: &mut Chain) {
        let Self { arm, tiller, wheel, travel, fork_height, stance, step_left } = self;
        arm.digest(chain);
        tiller.digest(chain);
        // Where there is no play it is the tiller's.
        if *wheel != tiller.angle {
            wheel.digest(chain);
        }
        travel.digest(chain);
        fork_height.digest(chain);
        stance.digest(chain);
        step_left.digest(chain);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::truck::condition::Condition;
    use crate::truck::spec::shipped;

    #[test]
    fn stepping_across_takes_its_time_and_is_finished() {
        let spec = shipped::single();
        let mut rig = Rig::new(&spec, Side::Left);
        let across = Controls { stance: Side::Right, ..Controls::default() };
        rig.step(&across, 0.0, 0.0, &spec);
        assert!(rig.stepping() && rig.stance == Side::Right);
        // Changing one's mind half-way does not stop the step.
        let mut ticks = 1;
        while rig.stepping() {
            rig.step(&Controls { stance: Side::Right, ..Controls::default() }, 0.0, 0.0, &spec);
            ticks += 1;
        }
        assert!((f64::from(ticks) * DT - 0.6).abs() < 0.04, "{ticks}");
    }

    #[test]
    fn stepping_off_lets_the_arm_go() {
        let spec = shipped::single();
        let mut rig = Rig::new(&spec, Side::Left);
        let off = Controls { aboard: false, throttle: 100, ..Controls::default() };
        for _ in 0..64 {
            rig.step(&off, 0.0, 0.0, &spec);
        }
        assert!(rig.travel.braking);
    }

    #[test]
    fn forks_stop_at_both_ends() {
        let spec = shipped::single();
        let mut rig = Rig::new(&spec, Side::Left);
        for _ in 0..64 * 10 {
            rig.step(&Controls { forks_up: true, ..Controls::default() }, 0.0, 0.0, &spec);
        }
        assert_eq!(rig.fork_height, 0.20);
        for _ in 0..64 * 10 {
            rig.step(&Controls { forks_down: true, ..Controls::default() }, 0.0, 0.0, &spec);
        }
        assert_eq!(rig.fork_height, 0.0);
    }

    #[test]
    fn forks_that_leak_sink_as_fast_as_they_are_said_to_and_stop_at_the_floor() {
        let spec = shipped::single();
        let condition = Condition { forks_sink_mps: 0.004, ..Condition::SOUND };
        let mut rig = Rig { fork_height: 0.1, ..Rig::new(&spec, Side::Left) };
        for _ in 0..64 * 5 {
            let leaks = Machine { plate: &spec, condition: &condition };
            rig.step(&Controls::default(), 0.0, 0.0, leaks);
        }
        assert!((rig.fork_height - 0.08).abs() < 1e-12, "{}", rig.fork_height);
        for _ in 0..64 * 30 {
            let leaks = Machine { plate: &spec, condition: &condition };
            rig.step(&Controls::default(), 0.0, 0.0, leaks);
        }
        assert_eq!(rig.fork_height, 0.0);
    }

    #[test]
    fn an_arm_without_its_spring_stays_where_it_is_let_go() {
        let spec = shipped::single();
        for (spring, brakes) in [(1.0, true), (0.0, false)] {
            let condition = Condition { arm_spring: spring, ..Condition::SOUND };
            let mut rig = Rig::new(&spec, Side::Left);
            for _ in 0..64 {
                let let_go = Controls { arm: ArmAsk::LetGo, ..Controls::default() };
                rig.step(&let_go, 0.0, 0.0, Machine { plate: &spec, condition: &condition });
            }
            assert_eq!(rig.travel.braking, brakes, "{spring}");
        }
    }
}

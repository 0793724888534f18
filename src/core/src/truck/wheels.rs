//! What the floor allows: wheels as velocity constraints with a friction limit.
//!
//! Hard polyurethane wheels at walking to running pace hardly creep; they hold their line until
//! friction gives way. So each wheel is a constraint on velocity, not a spring. Three rows are
//! solved together by projected Gauss-Seidel: the load wheels may not slide sideways, the drive
//! wheel may not slide sideways, and the drive wheel follows the motor or the brake along its
//! heading. What the drive wheel spends lengthwise is missing sideways: the friction circle.
//!
//! Stepping: impulses act in the frame half-way through the tick's turn, and the constraints hold
//! in the frame at its end. That is second order in the tick; taking both at the same instant
//! would cost or feed energy in every turn. Sideways the two load wheels share one row, since an
//! impulse at either has the same arm about the centre of mass; lengthwise each has a row of its own, for
//! what drags at one of them.

use crate::floor::slope::Slope;
use crate::math::{Vec2, vec2};
use crate::state;
use crate::time::DT;
use crate::truck::condition::Machine;
use crate::truck::loads::{RigidBody, WheelLoads};
use crate::truck::spec::TruckSpec;
use crate::truck::travel::DriveAsk;

/// Rounds of Gauss-Seidel. The rows are nearly orthogonal, so that this many bring the residual
/// below 1e-9 m/s on every shipped truck (a test holds it there).
const ROUNDS: usize = 12;

/// A residual above this is a sliding wheel, m/s.
const SLIDING: f64 = 0.02;

/// Velocity of the centre of mass in the body frame, and yaw rate.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Twist {
    /// m/s, in the frame of the body's heading at that instant.
    pub velocity: Vec2,
    /// rad/s.
    pub yaw_rate: f64,
}

impl Twist {
    /// Velocity of a point of the body, body frame, m/s.
    pub fn at(&self, point: Vec2, com: Vec2) -> Vec2 {
        self.velocity + (point - com).left() * self.yaw_rate
    }
}

/// What acts on the wheels in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WheelCommand {
    /// Drive wheel angle at the start of the tick, rad.
    pub steer_before: f64,
    /// And at its end.
    pub steer: f64,
    /// Motor or brake.
    pub drive: DriveAsk,
    /// Friction factor under the drive wheel.
    pub friction_drive: f64,
    /// Friction factor under the load wheels.
    pub friction_load: f64,
    /// What the wheels carry, N.
    pub loads: WheelLoads,
    /// What the slope under the truck does to its weight.
    pub slope: Slope,
}

/// What came of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solved {
    /// Velocity at the end of the tick, in the frame of the heading at the end.
    pub end: Twist,
    /// Mean velocity over the tick in the frame half-way: what carries the body to its next place.
    pub mean: Twist,
    /// Angle from the heading at the start to the half-way frame, rad.
    pub half_turn: f64,
    /// What the wheels give the centre of mass, half-way frame, m/s^2: on the level its
    /// acceleration, on a slope also what holds it there. It is what a load on the forks feels.
    pub acceleration: Vec2,
    /// The drive wheel slides.
    pub drive_slips: bool,
    /// The load wheels slide sideways.
    pub load_slips: bool,
}

/// One row: an impulse along `push` at `arm` changes the velocity along `hold` at `held_arm`.
#[derive(Clone, Copy)]
struct Row {
    push: Vec2,
    arm: Vec2,
    hold: Vec2,
    held_arm: Vec2,
    impulse: f64,
    inverse_mass: f64,
}

impl Row {
    fn new(push: Vec2, arm: Vec2, hold: Vec2, held_arm: Vec2, body: &RigidBody) -> Self {
        let inverse_mass =
            push.dot(hold) / body.mass + arm.cross(push) * held_arm.cross(hold) / body.yaw_inertia;
        Self { push, arm, hold, held_arm, impulse: 0.0, inverse_mass }
    }

    fn speed(&self, u: &Twist) -> f64 {
        self.hold.dot(u.velocity) + self.held_arm.cross(self.hold) * u.yaw_rate
    }

    /// Moves the held speed towards `wanted`, with the sum of impulses from `least` to `most`.
    fn pull(&mut self, u: &mut Twist, wanted: f64, (least, most): (f64, f64), body: &RigidBody) {
        let before = self.impulse;
        self.impulse = (before + (wanted - self.speed(u)) / self.inverse_mass).clamp(least, most);
        let change = self.impulse - before;
        u.velocity = u.velocity + self.push * (change / body.mass);
        u.yaw_rate += self.arm.cross(self.push) * change / body.yaw_inertia;
    }
}

/// Solves one tick of `DT` from the velocity at its start, in the frame of the heading there; for a
/// machine, or a sound one of this plate.
pub fn solve<'a>(
    machine: impl Into<Machine<'a>>,
    body: &RigidBody,
    start: &Twist,
    cmd: &WheelCommand,
) -> Solved {
    let machine = machine.into();
    // The turn over this tick hangs on the yaw rate at its end: predict it, solve, and solve once
    // more with the better value.
    let predicted = start.yaw_rate * DT;
    let first = solve_turn(machine, body, start, cmd, predicted);
    let turn = 0.5 * (start.yaw_rate + first.end.yaw_rate) * DT;
    // On a straight the first one was right already.
    if turn.to_bits() == predicted.to_bits() {
        first
    } else {
        solve_turn(machine, body, start, cmd, turn)
    }
}

fn solve_turn(
    machine: Machine<'_>,
    body: &RigidBody,
    start: &Twist,
    cmd: &WheelCommand,
    turn: f64,
) -> Solved {
    let spec = machine.plate;
    let half = 0.5 * turn;
    let drive_arm = vec2(spec.geometry.wheelbase_m, 0.0) - body.com;
    let load_arm = -body.com;
    let steer_half = 0.5 * (cmd.steer_before + cmd.steer);
    let (heading, heading_end) = (Vec2::from_angle(steer_half), Vec2::from_angle(cmd.steer + half));
    let mut along = Row::new(heading, drive_arm, heading_end, drive_arm.rotated(half), body);
    let mut drive =
        Row::new(heading.left(), drive_arm, heading_end.left(), drive_arm.rotated(half), body);
    let mut load = Row::new(
        vec2(0.0, 1.0),
        load_arm,
        vec2(0.0, 1.0).rotated(half),
        load_arm.rotated(half),
        body,
    );

    let before = Twist { velocity: start.velocity.rotated(-half), yaw_rate: start.yaw_rate };
    // Weight acts within the tick as the wheels do: the mean velocity of a truck that they hold on a
    // slope is zero, and it does not creep.
    let by_weight = cmd.slope.pull.rotated(-half) * DT;
    let mut u = Twist { velocity: before.velocity + by_weight, ..before };
    roll(spec, cmd.slope.press, &mut u);
    let of_each = [cmd.loads.left, cmd.loads.right];
    drag(machine, body, of_each, &mut u);

    let drive_grip = cmd.friction_drive * cmd.loads.drive * DT;
    let [left, right] = machine.condition.load_wheels.map(|wheel| wheel.grip);
    let load_grip = cmd.friction_load * (cmd.loads.left * left + cmd.loads.right * right) * DT;
    let within = |force: f64| (force * DT).clamp(-drive_grip, drive_grip);
    let along_range = (within(cmd.drive.least), within(cmd.drive.most));
    for _ in 0..ROUNDS {
        along.pull(&mut u, cmd.drive.speed, along_range, body);
        let side_most = (drive_grip * drive_grip - along.impulse * along.impulse).max(0.0).sqrt();
        drive.pull(&mut u, 0.0, (-side_most, side_most), body);
        load.pull(&mut u, 0.0, (-load_grip, load_grip), body);
    }

    let drive_slips = drive.speed(&u).abs() > SLIDING
        || (along.impulse.abs() >= drive_grip
            && (along.speed(&u) - cmd.drive.speed).abs() > SLIDING * DT);
    Solved {
        end: Twist { velocity: u.velocity.rotated(-half), yaw_rate: u.yaw_rate },
        mean: Twist {
            velocity: (before.velocity + u.velocity) * 0.5,
            yaw_rate: 0.5 * (before.yaw_rate + u.yaw_rate),
        },
        half_turn: half,
        acceleration: (u.velocity - before.velocity - by_weight) * (1.0 / DT),
        drive_slips,
        load_slips: load.speed(&u).abs() > SLIDING,
    }
}

/// Rolling resistance, a share of what presses on the floor (so the mass cancels): takes speed off
/// along the body's x axis and never turns it round.
fn roll(spec: &TruckSpec, press: f64, u: &mut Twist) {
    let most = spec.rolling_resistance * press * DT;
    u.velocity.x -= u.velocity.x.clamp(-most, most);
}

/// What drags at one load wheel takes speed off there, and pulls the truck to that side.
fn drag(machine: Machine<'_>, body: &RigidBody, loads: [f64; 2], u: &mut Twist) {
    let half = 0.5 * machine.plate.geometry.load_wheel_track_m;
    let wheels = machine.condition.load_wheels.into_iter().zip(loads).zip([half, -half]);
    for ((wheel, load), y) in wheels.filter(|((wheel, _), _)| wheel.drag > 0.0) {
        let (ahead, arm) = (vec2(1.0, 0.0), vec2(0.0, y) - body.com);
        // A wheel that is just off the floor may carry less than nothing by rounding.
        let most = wheel.drag * load.max(0.0) * DT;
        Row::new(ahead, arm, ahead, arm, body).pull(u, 0.0, (-most, most), body);
    }
}

state!(Twist { velocity, yaw_rate });

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::G;
    use crate::truck::condition::{Condition, LoadWheel};
    use crate::truck::loads::wheel_loads;
    use crate::truck::spec::shipped;

    /// Rolls straight on for a second from 2 m/s; twist at the end, and the load of one load wheel, N.
    fn rolls(condition: &Condition) -> (Twist, f64, RigidBody) {
        let spec = shipped::single();
        let body = RigidBody::of(&spec, &[]);
        let loads = wheel_loads(&spec, &body, G, 0.0, 0.0).expect("stands");
        let cmd = WheelCommand {
            steer_before: 0.0,
            steer: 0.0,
            drive: DriveAsk::motor(0.0, 0.0),
            friction_drive: 0.55,
            friction_load: 0.55,
            loads,
            slope: Slope::LEVEL,
        };
        let mut twist = Twist { velocity: vec2(2.0, 0.0), yaw_rate: 0.0 };
        for _ in 0..64 {
            twist = solve(Machine { plate: &spec, condition }, &body, &twist, &cmd).end;
        }
        (twist, loads.left, body)
    }

    #[test]
    fn a_load_wheel_that_drags_slows_the_truck_by_its_force() {
        let dragging = |left, right| Condition {
            load_wheels: [left, right].map(|drag| LoadWheel { grip: 1.0, drag }),
            ..Condition::SOUND
        };
        let (sound, load, body) = rolls(&Condition::SOUND);
        let (left, ..) = rolls(&dragging(0.05, 0.0));
        let (right, ..) = rolls(&dragging(0.0, 0.05));
        let slower = sound.velocity.x - left.velocity.x;
        // The other wheels keep the truck straight: what is left is the force over the mass.
        assert!((slower - 0.05 * load / body.mass).abs() < 1e-9, "{slower}");
        assert!((left.velocity.x - right.velocity.x).abs() < 1e-12);
        let (both, ..) = rolls(&dragging(0.05, 0.05));
        assert!((sound.velocity.x - both.velocity.x - 2.0 * slower).abs() < 1e-9);
    }

    #[test]
    fn on_ice_a_load_wheel_that_drags_pulls_the_truck_to_its_side() {
        let wheel = LoadWheel { grip: 0.0, drag: 0.05 };
        let none = LoadWheel { grip: 0.0, drag: 0.0 };
        let (sound, ..) = rolls(&Condition { load_wheels: [none, none], ..Condition::SOUND });
        let (left, ..) = rolls(&Condition { load_wheels: [wheel, none], ..Condition::SOUND });
        let (right, ..) = rolls(&Condition { load_wheels: [none, wheel], ..Condition::SOUND });
        assert_eq!(sound.yaw_rate, 0.0);
        assert!(left.yaw_rate > 1e-6 && (left.yaw_rate + right.yaw_rate).abs() < 1e-12);
    }
}

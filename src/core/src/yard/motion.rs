//! One tick of motion: hands, wheels, contacts, and what came of it.
//!
//! The wheels give the velocity at the end of the tick and the mean over it. The body is carried along
//! the mean (so that a stop from speed v ends after v^2 / 2a to the millimetre), and what contacts changed
//! is added to the velocity at the end.

use crate::controls::Controls;
use crate::course::Course;
use crate::course::place::{slope_at, surface_at};
use crate::math::{Pose, Vec2, vec2};
use crate::state;
use crate::time::DT;
use crate::truck::condition::Machine;
use crate::truck::loads::{RigidBody, WheelLoads, wheel_loads};
use crate::truck::rig::Rig;
use crate::truck::travel::DriveAsk;
use crate::truck::wheels::{Solved, Twist, WheelCommand, solve};
use crate::yard::contacts::{Carried, Given};
use crate::yard::setting::Setting;

/// The truck's motion.
#[derive(Clone, Copy, Debug)]
pub(super) struct Motion {
    /// Middle of the load axle and heading.
    pub(super) pose: Pose,
    /// Velocity at the end of the tick, frame of the heading there.
    pub(super) twist: Twist,
    /// Mean velocity over the tick that the body is carried along.
    pub(super) given: Given,
    /// What the wheels give the centre of mass, body frame, m/s^2.
    pub(super) acceleration: Vec2,
    /// What the wheels carry.
    pub(super) loads: WheelLoads,
    /// The last word of the wheels.
    pub(super) solved: Option<Solved>,
    /// Where the drive wheel stood at the start of the tick, rad.
    pub(super) steer_before: f64,
    /// Speed of the drive wheel along its heading at the start of the tick, m/s.
    pub(super) wheel_before: f64,
    /// What motor and brake try.
    pub(super) ask: DriveAsk,
    /// The truck has tipped over.
    pub(super) tipped: bool,
    /// Truck, rider and load as one body.
    pub(super) body: RigidBody,
    /// What is on the forks, from 0 empty to 1 at capacity.
    pub(super) laden: f64,
    /// Change of velocity by contacts in this tick, body frame, m/s.
    pub(super) push: Vec2,
    /// Yaw acceleration, mean of this tick, rad/s^2.
    pub(super) yaw_acceleration: f64,
}

// The rest is worked out anew in each tick, before it is used.
state!(Motion { pose, twist, acceleration, tipped, body, laden } left out {
    given,
    loads,
    solved,
    steer_before,
    wheel_before,
    ask,
    push,
    yaw_acceleration,
});

impl Motion {
    /// Takes up or sets down weight: the motion of the truck goes on, about another middle.
    pub(super) fn reshape(&mut self, body: RigidBody) {
        self.twist.velocity = self.twist.at(body.com, self.body.com);
        self.body = body;
    }

    /// At rest at the start of a course.
    pub(super) fn at_rest(setting: &Setting) -> Self {
        let body = setting.body;
        let spawn = setting.course.spawn;
        let slope = slope_at(&setting.course, spawn.to_yard(body.com), spawn.heading);
        // What holds it there at rest is what the slope pulls.
        let loads = wheel_loads(&setting.truck, &body, slope.press, -slope.pull.x, -slope.pull.y);
        Self {
            pose: spawn,
            twist: Twist::default(),
            given: Given::default(),
            acceleration: -slope.pull,
            // A truck that does not stand at rest has tipped before anything was driven.
            loads: loads.unwrap_or(WheelLoads { drive: 0.0, left: 0.0, right: 0.0, caster: 0.0 }),
            solved: None,
            steer_before: 0.0,
            wheel_before: 0.0,
            ask: DriveAsk::motor(0.0, 0.0),
            tipped: loads.is_none(),
            body,
            laden: 0.0,
            push: Vec2::default(),
            yaw_acceleration: 0.0,
        }
    }

    /// What the rider's hands ask of the drive wheel.
    pub(super) fn ask(&mut self, rig: &mut Rig, hands: &Controls, machine: Machine<'_>) {
        let truck = machine.plate;
        let wheel = vec2(truck.geometry.wheelbase_m, 0.0);
        let steer = rig.wheel;
        let wheel_speed = self.twist.at(wheel, self.body.com).dot(Vec2::from_angle(steer));
        (self.steer_before, self.wheel_before) = (steer, wheel_speed);
        self.ask = rig.step(hands, wheel_speed, self.laden, machine);
        let dragged = self.dragged(machine);
        if dragged > 0.0 {
            // The controller reckons with a sound truck: what drags it does not know of, and only finds that
            // it is slower than it asked for.
            let by = (dragged * DT).min(self.ask.speed.abs());
            self.ask.speed -= self.ask.speed.signum() * by;
        }
    }

    /// What load wheels that drag take off the speed beyond sound ones, m/s^2.
    fn dragged(&self, machine: Machine<'_>) -> f64 {
        let [left, right] = machine.condition.load_wheels.map(|w| w.drag);
        (left * self.loads.left + right * self.loads.right) / self.body.mass
    }

    /// What the floor lets the wheels do of it.
    pub(super) fn solve(&mut self, rig: &Rig, course: &Course, machine: Machine<'_>) {
        let truck = machine.plate;
        let body = self.body;
        let slope = slope_at(course, self.pose.to_yard(body.com), self.pose.heading);
        match wheel_loads(truck, &body, slope.press, self.acceleration.x, self.acceleration.y) {
            Some(loads) => self.loads = loads,
            None => self.tipped = true,
        }
        let wheel_in_yard = self.pose.to_yard(vec2(truck.geometry.wheelbase_m, 0.0));
        let cmd = WheelCommand {
            steer_before: self.steer_before,
            steer: rig.wheel,
            drive: self.ask,
            friction_drive: truck.friction_on(surface_at(course, wheel_in_yard)),
            friction_load: truck.friction_on(surface_at(course, self.pose.at)),
            loads: self.loads,
            slope,
        };
        let solved = solve(machine, &body, &self.twist, &cmd);
        self.yaw_acceleration = (solved.end.yaw_rate - self.twist.yaw_rate) / DT;
        self.twist = solved.end;
        self.acceleration = solved.acceleration;
        self.solved = Some(solved);
        let mean = solved.mean.velocity.rotated(self.pose.heading + solved.half_turn);
        self.given = Given {
            velocity: [mean.x as f32, mean.y as f32],
            yaw_rate: solved.mean.yaw_rate as f32,
        };
    }

    /// What came of it.
    pub(super) fn read_back(&mut self, carried: &Carried) {
        self.pose = carried.pose;
        self.push = carried.push.rotated(-self.pose.heading);
        self.twist.velocity = self.twist.velocity + self.push;
        self.twist.yaw_rate += carried.spin;
    }
}

//! One tick of motion: hands, wheels, contacts, and what came of it.
//!
//! The wheels give the velocity at the end of the tick and the mean over it. Rapier carries the
//! body along the mean (so that a stop from speed v ends after v^2 / 2a to the millimetre) and adds
//! contacts; what it changed is added to the velocity at the end.

use bevy::ecs::schedule::{Schedule, SingleThreadedExecutor};
use bevy::prelude::{IntoScheduleConfigs, Query, Res, ResMut, Resource, Time, With, World};
use bevy_rapier2d::plugin::context::{
    RapierContextColliders, RapierContextJoints, RapierContextSimulation, RapierRigidBodySet,
    SimulationToRenderTime,
};
use bevy_rapier2d::prelude::{RapierRigidBodyHandle, SimulationMode, TimestepMode};
use bevy_rapier2d::rapier::math::Vector;
use coneyard_core::controls::Controls;
use coneyard_core::course::place::{slope_at, surface_at};
use coneyard_core::finding::DT;
use coneyard_core::math::{G, Pose, Vec2, atan2, vec2};
use coneyard_core::truck::loads::{Body, WheelLoads, wheel_loads};
use coneyard_core::truck::rig::Rig;
use coneyard_core::truck::travel::DriveAsk;
use coneyard_core::truck::wheels::{Solved, Twist, WheelCommand, solve};

use crate::contacts::{Touches, find_contacts};
use crate::setting::Setting;
use crate::spawn::TruckBody;

/// Course, truck and rules.
#[derive(Resource)]
pub(crate) struct Scene(pub Setting);

/// What the rider does in this tick.
#[derive(Resource)]
pub(crate) struct Hands(pub Controls);

/// Arm, tiller, controller, forks, stance.
#[derive(Resource)]
pub(crate) struct RigState(pub Rig);

/// The truck's motion.
#[derive(Resource, Clone, Copy, Debug)]
pub(crate) struct Motion {
    /// Middle of the load axle and heading.
    pub pose: Pose,
    /// Velocity at the end of the tick, frame of the heading there.
    pub twist: Twist,
    /// Mean velocity over the tick that was handed to Rapier, yard frame.
    pub given: (Vector, f32),
    /// Acceleration of the centre of mass by the wheels, body frame, m/s^2.
    pub acceleration: Vec2,
    /// What the wheels carry.
    pub loads: WheelLoads,
    /// The last word of the wheels.
    pub solved: Option<Solved>,
    /// Where the drive wheel stood at the start of the tick, rad.
    pub steer_before: f64,
    /// What motor and brake try.
    pub ask: DriveAsk,
    /// The truck has tipped over.
    pub tipped: bool,
    /// Truck, rider and load as one body.
    pub body: Body,
    /// What is on the forks, from 0 empty to 1 at capacity.
    pub laden: f64,
    /// Change of velocity by contacts in this tick, body frame, m/s.
    pub push: Vec2,
    /// Yaw acceleration, mean of this tick, rad/s^2.
    pub yaw_acceleration: f64,
}

impl Motion {
    /// Takes up or sets down weight: the motion of the truck goes on, about another middle.
    pub(crate) fn reshape(&mut self, body: Body) {
        self.twist.velocity = self.twist.at(body.com, self.body.com);
        self.body = body;
    }
}

/// Puts the state of motion at rest into a world, and returns the schedule of one tick.
pub(crate) fn prepare(world: &mut World, setting: Setting, rig: Rig) -> Schedule {
    let body = setting.body;
    let loads = wheel_loads(&setting.truck, &body, 0.0, 0.0);
    world.insert_resource(Motion {
        pose: setting.course.spawn,
        twist: Twist::default(),
        given: (Vector::ZERO, 0.0),
        acceleration: Vec2::default(),
        // A truck that does not stand at rest has tipped before anything was driven.
        loads: loads.unwrap_or(WheelLoads { drive: 0.0, left: 0.0, right: 0.0, caster: 0.0 }),
        solved: None,
        steer_before: 0.0,
        ask: DriveAsk { speed: 0.0, force_most: 0.0 },
        tipped: loads.is_none(),
        body,
        laden: 0.0,
        push: Vec2::default(),
        yaw_acceleration: 0.0,
    });
    world.insert_resource(Scene(setting));
    world.insert_resource(Hands(Controls::default()));
    world.insert_resource(RigState(rig));
    world.insert_resource(Touches::default());

    let mut tick = Schedule::default();
    // One thread: for so little work per system, handing it out costs more than doing it.
    tick.set_executor(SingleThreadedExecutor::new());
    tick.add_systems((ask_rig, solve_wheels, step_physics, read_back, find_contacts).chain());
    tick
}

fn ask_rig(
    scene: Res<Scene>,
    hands: Res<Hands>,
    mut rig: ResMut<RigState>,
    mut motion: ResMut<Motion>,
) {
    let truck = &scene.0.truck;
    let wheel = vec2(truck.geometry.wheelbase_m, 0.0);
    let steer = rig.0.tiller.angle;
    let wheel_speed = motion.twist.at(wheel, motion.body.com).dot(Vec2::from_angle(steer));
    motion.steer_before = steer;
    motion.ask = rig.0.step(&hands.0, wheel_speed, motion.laden, truck);
}

fn solve_wheels(
    scene: Res<Scene>,
    rig: Res<RigState>,
    mut motion: ResMut<Motion>,
    mut sets: Query<&mut RapierRigidBodySet>,
    truck: Query<&RapierRigidBodyHandle, With<TruckBody>>,
) {
    let Setting { course, truck: spec, .. } = &scene.0;
    let body = &motion.body.to_owned();
    match wheel_loads(spec, body, motion.acceleration.x, motion.acceleration.y) {
        Some(loads) => motion.loads = loads,
        None => motion.tipped = true,
    }
    let wheel_in_yard = motion.pose.to_yard(vec2(spec.geometry.wheelbase_m, 0.0));
    let cmd = WheelCommand {
        steer_before: motion.steer_before,
        steer: rig.0.tiller.angle,
        drive: motion.ask,
        friction_drive: spec.friction_on(surface_at(course, wheel_in_yard)),
        friction_load: spec.friction_on(surface_at(course, motion.pose.at)),
        loads: motion.loads,
    };
    let mut start = motion.twist;
    // On a slope weight pulls downhill; what the wheels then do against it is what a load feels.
    if let Some((uphill, grade)) = slope_at(course, motion.pose.to_yard(body.com)) {
        let pull = G * grade / (1.0 + grade * grade).sqrt();
        start.velocity = start.velocity - uphill.rotated(-motion.pose.heading) * (pull * DT);
    }
    let solved = solve(spec, body, &start, &cmd);
    motion.yaw_acceleration = (solved.end.yaw_rate - motion.twist.yaw_rate) / DT;
    motion.twist = solved.end;
    motion.acceleration = solved.acceleration;
    motion.solved = Some(solved);

    let mean = solved.mean.velocity.rotated(motion.pose.heading + solved.half_turn);
    motion.given = (Vector::new(mean.x as f32, mean.y as f32), solved.mean.yaw_rate as f32);
    if let (Ok(handle), Ok(mut set)) = (truck.single(), sets.single_mut())
        && let Some(truck) = set.bodies.get_mut(handle.0)
    {
        truck.set_linvel(motion.given.0, true);
        truck.set_angvel(motion.given.1, true);
    }
}

/// Parts of the physics context that one step needs.
type Context<'a> = (
    &'a mut RapierContextSimulation,
    &'a mut RapierContextColliders,
    &'a mut RapierContextJoints,
    &'a mut RapierRigidBodySet,
    &'a mut SimulationToRenderTime,
);

fn step_physics(mut contexts: Query<Context<'_>>) {
    let Ok((mut physics, mut colliders, mut joints, mut bodies, mut render_time)) =
        contexts.single_mut()
    else {
        return;
    };
    physics.step_simulation(
        &mut colliders,
        &mut joints,
        &mut bodies,
        Vector::ZERO,
        SimulationMode::default(),
        TimestepMode::Fixed { dt: DT as f32, substeps: 1 },
        None,
        &(),
        &Time::default(),
        &mut render_time,
        None,
    );
}

fn read_back(
    mut motion: ResMut<Motion>,
    sets: Query<&RapierRigidBodySet>,
    truck: Query<&RapierRigidBodyHandle, With<TruckBody>>,
) {
    let (Ok(handle), Ok(set)) = (truck.single(), sets.single()) else { return };
    let Some(truck) = set.bodies.get(handle.0) else { return };
    let (at, turn) = (truck.position().translation, truck.position().rotation);
    motion.pose = Pose {
        at: vec2(f64::from(at.x), f64::from(at.y)),
        heading: atan2(f64::from(turn.im), f64::from(turn.re)),
    };
    // What contacts changed; exactly zero where there were none.
    let (push, spin) = (truck.linvel() - motion.given.0, truck.angvel() - motion.given.1);
    let push = vec2(f64::from(push.x), f64::from(push.y)).rotated(-motion.pose.heading);
    motion.push = push;
    motion.twist.velocity = motion.twist.velocity + push;
    motion.twist.yaw_rate += f64::from(spin);
}

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
use bevy_rapier2d::rapier::geometry::ColliderHandle;
use bevy_rapier2d::rapier::math::Vector;
use bevy_rapier2d::rapier::pipeline::{ContactModificationContext, PhysicsHooks};
use coneyard_core::controls::Controls;
use coneyard_core::course::place::{slope_at, surface_at};
use coneyard_core::finding::DT;
use coneyard_core::math::{Pose, Vec2, atan2, vec2};
use coneyard_core::state;
use coneyard_core::truck::loads::{Body, WheelLoads, wheel_loads};
use coneyard_core::truck::rig::Rig;
use coneyard_core::truck::travel::DriveAsk;
use coneyard_core::truck::wheels::{Solved, Twist, WheelCommand, solve};

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
    /// What the wheels give the centre of mass, body frame, m/s^2.
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

// The rest is worked out anew in each tick, before it is used.
state!(Motion { pose, twist, acceleration, tipped, body, laden } left out {
    given,
    loads,
    solved,
    steer_before,
    ask,
    push,
    yaw_acceleration,
});

impl Motion {
    /// Takes up or sets down weight: the motion of the truck goes on, about another middle.
    pub(crate) fn reshape(&mut self, body: Body) {
        self.twist.velocity = self.twist.at(body.com, self.body.com);
        self.body = body;
    }
}

/// The two halves of a tick.
pub(crate) struct Ticking {
    /// What the wheels ask for.
    pub ask: Schedule,
    /// What comes of it.
    pub go: Schedule,
}

/// What the truck meets in this tick: all that the engine may push with it.
#[derive(Resource, Default)]
pub(crate) struct Met(pub Vec<ColliderHandle>);

/// The engine begins to push at a distance, by where things would be if they went straight on; a
/// corner that passes a cone at a millimetre would push it away.
impl PhysicsHooks for Met {
    fn modify_solver_contacts(&self, context: &mut ContactModificationContext<'_>) {
        let is_met = [context.collider1, context.collider2].iter().any(|c| self.0.contains(c));
        if !is_met && let Some(pair) = context.rigid_mut() {
            pair.solver_contacts.clear();
        }
    }
}

/// Puts the state of motion at rest into a world, and returns what makes one tick.
pub(crate) fn prepare(world: &mut World, setting: Setting, rig: Rig) -> Ticking {
    let body = setting.body;
    let spawn = setting.course.spawn;
    let slope = slope_at(&setting.course, spawn.to_yard(body.com), spawn.heading);
    // What holds it there at rest is what the slope pulls.
    let loads = wheel_loads(&setting.truck, &body, slope.press, -slope.pull.x, -slope.pull.y);
    world.insert_resource(Motion {
        pose: spawn,
        twist: Twist::default(),
        given: (Vector::ZERO, 0.0),
        acceleration: -slope.pull,
        // A truck that does not stand at rest has tipped before anything was driven.
        loads: loads.unwrap_or(WheelLoads { drive: 0.0, left: 0.0, right: 0.0, caster: 0.0 }),
        solved: None,
        steer_before: 0.0,
        ask: DriveAsk::motor(0.0, 0.0),
        tipped: loads.is_none(),
        body,
        laden: 0.0,
        push: Vec2::default(),
        yaw_acceleration: 0.0,
    });
    world.insert_resource(Scene(setting));
    world.insert_resource(Hands(Controls::default()));
    world.insert_resource(RigState(rig));

    world.insert_resource(Met::default());

    let schedule = || {
        let mut schedule = Schedule::default();
        // One thread: for so little work per system, handing it out costs more than doing it.
        schedule.set_executor(SingleThreadedExecutor::new());
        schedule
    };
    let (mut ask, mut go) = (schedule(), schedule());
    ask.add_systems((ask_rig, solve_wheels).chain());
    go.add_systems((step_physics, read_back).chain());
    Ticking { ask, go }
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
    let slope = slope_at(course, motion.pose.to_yard(body.com), motion.pose.heading);
    match wheel_loads(spec, body, slope.press, motion.acceleration.x, motion.acceleration.y) {
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
        slope,
    };
    let solved = solve(spec, body, &motion.twist, &cmd);
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

fn step_physics(mut contexts: Query<Context<'_>>, met: Res<Met>) {
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
        &*met,
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

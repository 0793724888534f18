//! Puts truck, cones and structures into the world.
//!
//! The order in which bodies enter Rapier's sets must be the same on every platform. Bevy visits
//! archetypes in an order that hangs on type ids, which differ between platforms; so the plugin's
//! own systems run after every single spawn and never see more than one new body. Poses are
//! written straight into Rapier's set afterwards: on the way through `GlobalTransform` they would
//! pass glam's SIMD quaternions, which round otherwise on each platform.

use bevy::ecs::schedule::{Schedule, SingleThreadedExecutor};
use bevy::prelude::*;
use bevy_rapier2d::plugin::context::{
    DefaultRapierContext, RapierContextSimulation, RapierRigidBodySet,
};
use bevy_rapier2d::plugin::systems::{init_colliders, init_rigid_bodies};
use bevy_rapier2d::prelude::{
    ActiveHooks, AdditionalMassProperties, Collider, ColliderMassProperties, CollisionGroups,
    Damping, Friction, Group, MassProperties, RapierConfiguration, RapierRigidBodyHandle,
    Restitution, RigidBody, Sleeping, Velocity,
};
use bevy_rapier2d::rapier::math::{Pose as RapierPose, Rotation, Vector};
use coneyard_core::course::{CONE_RADIUS, Structure};
use coneyard_core::math::{Pose, Vec2 as Point, cos, sin, vec2};

use crate::setting::Setting;

/// Mass of a cone, kg (typical of the trade, no source).
const CONE_MASS: f64 = 2.0;

/// How fast a pushed cone loses its speed, 1/s: typical, no source. It matters to the picture only.
const CONE_DAMPING: f32 = 5.0;

/// The truck's body.
#[derive(Component)]
pub(crate) struct TruckBody;

/// A cone, by its index in the course.
#[derive(Component)]
pub(crate) struct Cone {
    /// Index in the course's cones.
    pub index: u32,
}

/// The collider of a load on the forks.
#[derive(Component)]
pub(crate) struct CarriedLoad;

/// Kinds of colliders, for what pallets let in.
pub(crate) const TRUCK: Group = Group::GROUP_1;
/// The forks.
pub(crate) const FORKS: Group = Group::GROUP_2;

/// A solid thing, by its index in the course.
#[derive(Component)]
pub(crate) struct Solid {
    /// Index in the course's structures.
    pub index: u32,
}

/// Builds the world: the physics context, then truck, cones and structures in the course's order.
pub(crate) fn build(setting: &Setting) -> (World, Schedule) {
    let mut world = World::new();
    world.spawn((
        RapierContextSimulation::default(),
        RapierConfiguration { gravity: Vec2::ZERO, ..RapierConfiguration::new(1.0) },
        DefaultRapierContext,
    ));
    let mut init = Schedule::default();
    init.set_executor(SingleThreadedExecutor::new());
    init.add_systems((init_rigid_bodies, init_colliders).chain());

    spawn_truck(&mut world, &mut init, setting);
    for (index, at) in setting.course.cones.iter().enumerate() {
        spawn_cone(&mut world, &mut init, index as u32, *at);
    }
    for (index, structure) in setting.course.structures.iter().enumerate() {
        if structure.kind.is_solid() {
            spawn_structure(&mut world, &mut init, index as u32, structure);
        }
    }
    (world, init)
}

fn spawn_truck(world: &mut World, init: &mut Schedule, setting: &Setting) {
    let body = &setting.body;
    let truck = world
        .spawn((
            TruckBody,
            RigidBody::Dynamic,
            GlobalTransform::IDENTITY,
            Velocity::zero(),
            AdditionalMassProperties::MassProperties(MassProperties {
                local_center_of_mass: Vec2::new(body.com.x as f32, body.com.y as f32),
                mass: body.mass as f32,
                principal_inertia: body.yaw_inertia as f32,
            }),
            Sleeping::disabled(),
        ))
        .id();
    init.run(world);
    for (i, part) in setting.truck.outline().into_iter().enumerate() {
        // The forks are a kind of their own: pallets let them in.
        let kind = if i == 0 { TRUCK } else { FORKS };
        let (low, high) = (part[0], part[2]);
        let (half, middle) = ((high - low) * 0.5, (high + low) * 0.5);
        let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
            .map(|(x, y)| middle + vec2(x * half.x, y * half.y))
            .map(|p| Vec2::new(p.x as f32, p.y as f32));
        let Some(shape) = Collider::convex_hull(&corners) else { continue };
        world.spawn((
            shape,
            ColliderMassProperties::Mass(0.0),
            Friction::coefficient(0.3),
            Restitution::coefficient(0.0),
            CollisionGroups::new(kind, Group::ALL),
            ActiveHooks::MODIFY_SOLVER_CONTACTS,
            Transform::IDENTITY,
            GlobalTransform::IDENTITY,
            ChildOf(truck),
        ));
        init.run(world);
    }
    for _ in 0..setting.truck.forks.pallets {
        // A place for a load on the forks, given its size when there is one.
        let load = world
            .spawn((
                CarriedLoad,
                Collider::cuboid(0.5, 0.5),
                ColliderMassProperties::Mass(0.0),
                Friction::coefficient(0.3),
                Restitution::coefficient(0.0),
                CollisionGroups::new(TRUCK, Group::ALL),
                ActiveHooks::MODIFY_SOLVER_CONTACTS,
                Transform::IDENTITY,
                GlobalTransform::IDENTITY,
                ChildOf(truck),
            ))
            .id();
        init.run(world);
        crate::floor::disable_collider(world, load);
    }
    place(world, truck, setting.course.spawn);
}

fn spawn_cone(world: &mut World, init: &mut Schedule, index: u32, at: Point) {
    let cone = world
        .spawn((
            Cone { index },
            RigidBody::Dynamic,
            GlobalTransform::IDENTITY,
            Velocity::zero(),
            Damping { linear_damping: CONE_DAMPING, angular_damping: CONE_DAMPING },
            Collider::ball(CONE_RADIUS as f32),
            ColliderMassProperties::Mass(CONE_MASS as f32),
            Friction::coefficient(0.3),
            Restitution::coefficient(0.0),
        ))
        .id();
    init.run(world);
    place(world, cone, Pose { at, heading: 0.0 });
}

fn spawn_structure(world: &mut World, init: &mut Schedule, index: u32, structure: &Structure) {
    let solid = world
        .spawn((
            Solid { index },
            RigidBody::Fixed,
            GlobalTransform::IDENTITY,
            Collider::cuboid(0.5 * structure.size.x as f32, 0.5 * structure.size.y as f32),
            Friction::coefficient(0.3),
            Restitution::coefficient(0.0),
        ))
        .id();
    init.run(world);
    place(world, solid, structure.pose);
}

/// Writes a pose into Rapier's body set.
pub(crate) fn place(world: &mut World, entity: Entity, pose: Pose) {
    let Some(handle) = world.get::<RapierRigidBodyHandle>(entity).map(|h| h.0) else { return };
    let mut sets = world.query::<&mut RapierRigidBodySet>();
    let Ok(mut set) = sets.single_mut(world) else { return };
    if let Some(body) = set.bodies.get_mut(handle) {
        let rotation =
            Rotation::from_cos_sin_unchecked(cos(pose.heading) as f32, sin(pose.heading) as f32);
        let at = Vector::new(pose.at.x as f32, pose.at.y as f32);
        body.set_position(RapierPose::from_parts(at, rotation), true);
    }
}

//! Puts truck, cones, structures and all that can be pushed into the world.
//!
//! The order in which bodies enter Rapier's sets must be the same on every platform. Bevy visits
//! archetypes in an order that hangs on type ids, which differ between platforms; so the plugin's
//! own systems run after every single spawn and never see more than one new body. Poses are
//! written straight into Rapier's set afterwards: on the way through `GlobalTransform` they would
//! pass glam's SIMD quaternions, which round otherwise on each platform.

use bevy::ecs::schedule::{Schedule, SingleThreadedExecutor};
use bevy::prelude::*;
use bevy_rapier2d::plugin::context::{
    DefaultRapierContext, RapierContextColliders, RapierContextSimulation, RapierRigidBodySet,
};
use bevy_rapier2d::plugin::systems::{init_colliders, init_rigid_bodies};
use bevy_rapier2d::prelude::{
    ActiveHooks, AdditionalMassProperties, Collider, ColliderMassProperties, CollisionGroups,
    Damping, Friction, Group, MassProperties, RapierColliderHandle, RapierConfiguration,
    RapierRigidBodyHandle, Restitution, RigidBody, Sleeping, Velocity,
};
use bevy_rapier2d::rapier::dynamics::{RigidBody as RapierBody, RigidBodyHandle};
use bevy_rapier2d::rapier::geometry::ColliderHandle;
use bevy_rapier2d::rapier::math::{Pose as RapierPose, Rotation, Vector};
use coneyard_core::course::{CONE_RADIUS, Structure};
use coneyard_core::math::{Pose, Vec2 as Point, cos, sin, vec2};
use coneyard_core::yard::Setting;

/// Mass of a cone, kg (typical of the trade, no source).
const CONE_MASS: f64 = 2.0;

/// How fast a pushed cone loses its speed, 1/s: typical, no source. It matters to the picture only.
const CONE_DAMPING: f32 = 5.0;

/// Kinds of colliders, for what pallets let in.
const TRUCK: Group = Group::GROUP_1;
/// The forks.
pub(crate) const FORKS: Group = Group::GROUP_2;

/// The truck's body, and places for loads on its forks.
pub(crate) struct Spawned {
    pub(crate) truck: RigidBodyHandle,
    pub(crate) loads: Vec<ColliderHandle>,
}

/// Fills a world.
pub(crate) struct Spawner {
    pub(crate) world: World,
    /// The plugin's own systems that take in what was spawned.
    pub(crate) init: Schedule,
    /// Holds the physics.
    pub(crate) context: Entity,
}

impl Spawner {
    pub(crate) fn new() -> Self {
        let mut world = World::new();
        let physics = world.spawn((
            RapierContextSimulation::default(),
            RapierConfiguration { gravity: Vec2::ZERO, ..RapierConfiguration::new(1.0) },
            DefaultRapierContext,
        ));
        let context = physics.id();
        let mut init = Schedule::default();
        // One thread: for so little work per system, handing it out costs more than doing it.
        init.set_executor(SingleThreadedExecutor::new());
        init.add_systems((init_rigid_bodies, init_colliders).chain());
        Self { world, init, context }
    }

    fn spawn(&mut self, bundle: impl Bundle) -> Entity {
        let entity = self.world.spawn(bundle).id();
        self.init.run(&mut self.world);
        entity
    }

    fn at(&mut self, pose: Pose, bundle: impl Bundle) -> (RigidBodyHandle, ColliderHandle) {
        spawn_at(&mut self.world, &mut self.init, pose, bundle)
    }

    pub(crate) fn body(&mut self, handle: RigidBodyHandle, change: impl FnOnce(&mut RapierBody)) {
        if let Some(mut set) = self.world.get_mut::<RapierRigidBodySet>(self.context)
            && let Some(body) = set.bodies.get_mut(handle)
        {
            change(body);
        }
    }

    pub(crate) fn truck(&mut self, setting: &Setting) -> Spawned {
        let body = &setting.body;
        let truck = self.spawn((
            RigidBody::Dynamic,
            GlobalTransform::IDENTITY,
            Velocity::zero(),
            AdditionalMassProperties::MassProperties(MassProperties {
                local_center_of_mass: Vec2::new(body.com.x as f32, body.com.y as f32),
                mass: body.mass as f32,
                principal_inertia: body.yaw_inertia as f32,
            }),
            Sleeping::disabled(),
        ));
        for (i, part) in setting.truck.outline().into_iter().enumerate() {
            // The forks are a kind of their own: pallets let them in.
            let kind = if i == 0 { TRUCK } else { FORKS };
            let (low, high) = (part[0], part[2]);
            let (half, middle) = ((high - low) * 0.5, (high + low) * 0.5);
            let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
                .map(|(x, y)| middle + vec2(x * half.x, y * half.y))
                .map(|p| Vec2::new(p.x as f32, p.y as f32));
            let Some(shape) = Collider::convex_hull(&corners) else { continue };
            self.part(truck, shape, kind);
        }
        // A place for a load on the forks, given its size when there is one.
        let mut loads = Vec::new();
        for _ in 0..setting.truck.forks.pallets {
            let load = self.part(truck, Collider::cuboid(0.5, 0.5), TRUCK);
            let load = collider_of(&self.world, load);
            self.disable(load);
            loads.push(load);
        }
        put(&mut self.world, truck, setting.course.spawn);
        Spawned { truck: body_of(&self.world, truck), loads }
    }

    fn part(&mut self, truck: Entity, shape: Collider, kind: Group) -> Entity {
        self.spawn((
            shape,
            ColliderMassProperties::Mass(0.0),
            Friction::coefficient(0.3),
            Restitution::coefficient(0.0),
            CollisionGroups::new(kind, Group::ALL),
            ActiveHooks::MODIFY_SOLVER_CONTACTS,
            Transform::IDENTITY,
            GlobalTransform::IDENTITY,
            ChildOf(truck),
        ))
    }

    fn disable(&mut self, handle: ColliderHandle) {
        if let Some(mut set) = self.world.get_mut::<RapierContextColliders>(self.context)
            && let Some(collider) = set.colliders.get_mut(handle)
        {
            collider.set_enabled(false);
        }
    }

    pub(crate) fn cone(&mut self, at: Point) -> (RigidBodyHandle, ColliderHandle) {
        let cone = (
            RigidBody::Dynamic,
            GlobalTransform::IDENTITY,
            Velocity::zero(),
            Damping { linear_damping: CONE_DAMPING, angular_damping: CONE_DAMPING },
            Collider::ball(CONE_RADIUS as f32),
            ColliderMassProperties::Mass(CONE_MASS as f32),
            Friction::coefficient(0.3),
            Restitution::coefficient(0.0),
        );
        self.at(Pose { at, heading: 0.0 }, cone)
    }

    /// None for what trucks go through.
    pub(crate) fn structure(&mut self, structure: &Structure) -> Option<ColliderHandle> {
        let solid = || {
            (
                RigidBody::Fixed,
                GlobalTransform::IDENTITY,
                Collider::cuboid(0.5 * structure.size.x as f32, 0.5 * structure.size.y as f32),
                Friction::coefficient(0.3),
                Restitution::coefficient(0.0),
            )
        };
        structure.kind.is_solid().then(|| self.at(structure.pose, solid()).1)
    }

    /// A pallet.
    pub(crate) fn pushed(
        &mut self,
        pose: Pose,
        size: Point,
        mass: f64,
    ) -> (RigidBodyHandle, ColliderHandle) {
        pushed(&mut self.world, &mut self.init, pose, size, mass)
    }

    pub(crate) fn other(&mut self, pose: Pose, size: Point) -> (RigidBodyHandle, ColliderHandle) {
        let other = (
            RigidBody::KinematicPositionBased,
            GlobalTransform::IDENTITY,
            Collider::cuboid(0.5 * size.x as f32, 0.5 * size.y as f32),
            Friction::coefficient(0.3),
            Restitution::coefficient(0.0),
        );
        self.at(pose, other)
    }
}

/// Puts something on the floor that the truck pushes, of this length and width, m, and mass, kg.
pub(crate) fn pushed(
    world: &mut World,
    init: &mut Schedule,
    pose: Pose,
    size: Point,
    mass: f64,
) -> (RigidBodyHandle, ColliderHandle) {
    let pushed = (
        RigidBody::Dynamic,
        GlobalTransform::IDENTITY,
        Velocity::zero(),
        Collider::cuboid(0.5 * size.x as f32, 0.5 * size.y as f32),
        ColliderMassProperties::Mass(mass as f32),
        Friction::coefficient(0.3),
        Restitution::coefficient(0.0),
    );
    spawn_at(world, init, pose, pushed)
}

fn spawn_at(
    world: &mut World,
    init: &mut Schedule,
    pose: Pose,
    bundle: impl Bundle,
) -> (RigidBodyHandle, ColliderHandle) {
    let entity = world.spawn(bundle).id();
    init.run(world);
    put(world, entity, pose);
    (body_of(world, entity), collider_of(world, entity))
}

/// Every body that is spawned has its handle once the plugin's systems have run; without one, nothing
/// would be moved by it.
fn body_of(world: &World, entity: Entity) -> RigidBodyHandle {
    world.get::<RapierRigidBodyHandle>(entity).map_or(RigidBodyHandle::invalid(), |h| h.0)
}

fn collider_of(world: &World, entity: Entity) -> ColliderHandle {
    world.get::<RapierColliderHandle>(entity).map_or(ColliderHandle::invalid(), |h| h.0)
}

/// Writes a pose into Rapier's body set.
fn put(world: &mut World, entity: Entity, pose: Pose) {
    let handle = body_of(world, entity);
    let mut sets = world.query::<&mut RapierRigidBodySet>();
    let Ok(mut set) = sets.single_mut(world) else { return };
    if let Some(body) = set.bodies.get_mut(handle) {
        body.set_position(rapier_pose(pose), true);
    }
}

/// A pose in Rapier's own form.
pub(crate) fn rapier_pose(pose: Pose) -> RapierPose {
    let rotation =
        Rotation::from_cos_sin_unchecked(cos(pose.heading) as f32, sin(pose.heading) as f32);
    RapierPose::from_parts(Vector::new(pose.at.x as f32, pose.at.y as f32), rotation)
}

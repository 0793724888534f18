//! Bodies on the floor that come and go: pallets, fallen cases, other trucks, and the load's place
//! on the truck. All of it goes straight into Rapier's sets, in the order of the course.

use bevy::ecs::schedule::Schedule;
use bevy::prelude::*;
use bevy_rapier2d::plugin::context::{RapierContextColliders, RapierRigidBodySet};
use bevy_rapier2d::prelude::{
    Collider, ColliderMassProperties, Friction, RapierColliderHandle, RapierRigidBodyHandle,
    Restitution, RigidBody, Velocity,
};
use bevy_rapier2d::rapier::dynamics::{MassProperties, RigidBody as RapierBody, RigidBodyHandle};
use bevy_rapier2d::rapier::geometry::{
    Collider as RapierCollider, ColliderHandle, Group, InteractionGroups, InteractionTestMode,
    SharedShape,
};
use bevy_rapier2d::rapier::math::{Pose as RapierPose, Rotation, Vector};
use coneyard_core::around::loads::{Fallen, Loads, Where};
use coneyard_core::course::Course;
use coneyard_core::finding::DT;
use coneyard_core::math::{G, Pose, Vec2 as Point, atan2, cos, sin, vec2};
use coneyard_core::run::digest::Chain;
use coneyard_core::run::state::State;
use coneyard_core::truck::loads::Body;

use crate::spawn::{CarriedLoad, FORKS, TruckBody, place};

/// Friction of wood and board on a concrete floor, for what is pushed or slides there: the CTU
/// Code's 0.75 of smooth concrete on sawn wood, 0.55 (from memory).
const FLOOR_FRICTION: f64 = 0.41;

/// Handles of what moves on the floor. A body or collider is only taken up for writing when
/// something about it changes: Rapier looks at everything again that was.
pub(crate) struct Floor {
    context: Entity,
    pallets: Vec<RigidBodyHandle>,
    others: Vec<RigidBodyHandle>,
    cases: Vec<(RigidBodyHandle, Point)>,
    loads: Vec<ColliderHandle>,
    truck: Option<RigidBodyHandle>,
}

impl Floor {
    /// Spawns pallets, then other trucks, in the order of the course.
    pub(crate) fn new(
        world: &mut World,
        init: &mut Schedule,
        course: &Course,
        loads: &Loads,
        others: &[(Pose, Point)],
    ) -> Self {
        let mut contexts = world.query_filtered::<Entity, With<RapierRigidBodySet>>();
        let context = contexts.single(world).unwrap_or(Entity::PLACEHOLDER);
        let mut trucks = world.query_filtered::<&RapierRigidBodyHandle, With<TruckBody>>();
        let truck = trucks.single(world).ok().map(|h| h.0);
        let mut carried = world.query_filtered::<&RapierColliderHandle, With<CarriedLoad>>();
        let mut places: Vec<ColliderHandle> = carried.iter(world).map(|h| h.0).collect();
        places.sort_by_key(|h| h.into_raw_parts());
        let (pallets, cases) = (Vec::new(), Vec::new());
        let mut floor = Self { context, pallets, others: Vec::new(), cases, loads: places, truck };
        for (i, pallet) in loads.pallets.iter().enumerate() {
            let size = loads.size(i as u32, &course.warehouse);
            let mass = loads.standing(i as u32).and_then(|s| s.carried(0.0));
            let pose = match pallet.at {
                Where::Floor(pose) | Where::Fallen(pose) => pose,
                Where::Forks => course.spawn,
            };
            let mass = mass.map_or(1.0, |c| c.mass);
            let Some(handle) = spawn_box(world, init, pose, size, mass) else { continue };
            floor.pallets.push(handle);
            if pallet.at == Where::Forks {
                floor.body(world, handle, |body| body.set_enabled(false));
            }
        }
        for (pose, size) in others {
            floor.others.extend(spawn_other(world, init, *pose, *size));
        }
        floor
    }

    fn body(
        &self,
        world: &mut World,
        handle: RigidBodyHandle,
        change: impl FnOnce(&mut RapierBody),
    ) {
        if let Some(mut set) = world.get_mut::<RapierRigidBodySet>(self.context)
            && let Some(body) = set.bodies.get_mut(handle)
        {
            change(body);
        }
    }

    fn read<T>(
        &self,
        world: &World,
        handle: RigidBodyHandle,
        what: impl FnOnce(&RapierBody) -> T,
    ) -> Option<T> {
        world.get::<RapierRigidBodySet>(self.context)?.bodies.get(handle).map(what)
    }

    fn collider(
        &self,
        world: &mut World,
        handle: ColliderHandle,
        is_so: impl FnOnce(&RapierCollider) -> bool,
        change: impl FnOnce(&mut RapierCollider),
    ) {
        let Some(mut set) = world.get_mut::<RapierContextColliders>(self.context) else { return };
        if set.colliders.get(handle).is_none_or(is_so) {
            return;
        }
        if let Some(collider) = set.colliders.get_mut(handle) {
            change(collider);
        }
    }

    /// Hands the truck's weight and what is carried to the engine.
    pub(crate) fn weigh(&self, world: &mut World, body: &Body) {
        let com = Vector::new(body.com.x as f32, body.com.y as f32);
        let props = MassProperties::new(com, body.mass as f32, body.yaw_inertia as f32);
        if let Some(truck) = self.truck {
            self.body(world, truck, |b| b.set_additional_mass_properties(props, true));
        }
    }

    /// Brings the engine's bodies in line with where pallets are now.
    pub(crate) fn arrange(&self, world: &mut World, course: &Course, loads: &Loads) {
        for (pallet, handle) in loads.pallets.iter().zip(&self.pallets) {
            let stands = pallet.at != Where::Forks;
            let read = self.read(world, *handle, |b| {
                (b.is_enabled() == stands, b.colliders().first().copied())
            });
            let Some((as_it_is, collider)) = read else { continue };
            if !as_it_is {
                self.body(world, *handle, |body| {
                    body.set_enabled(stands);
                    if let Where::Floor(pose) | Where::Fallen(pose) = pallet.at {
                        body.set_position(rapier_pose(pose), true);
                        body.set_linvel(Vector::ZERO, true);
                        body.set_angvel(0.0, true);
                    }
                });
            }
            let filter = if pallet.admitted { Group::ALL - FORKS_RAW } else { Group::ALL };
            let groups = InteractionGroups::new(Group::ALL, filter, InteractionTestMode::And);
            if let Some(collider) = collider {
                let is_so = |c: &RapierCollider| c.collision_groups() == groups;
                self.collider(world, collider, is_so, |c| c.set_collision_groups(groups));
            }
        }
        for (i, handle) in self.loads.iter().enumerate() {
            let home = loads.stack.pallets.get(i).map(|s| s.home);
            let size = loads.carried.get(i).map(|p| loads.size(*p, &course.warehouse));
            let there = home.is_some() && size.is_some();
            self.collider(
                world,
                *handle,
                |c| c.is_enabled() == there,
                |collider| {
                    let (Some(at), Some(size)) = (home, size) else {
                        collider.set_enabled(false);
                        return;
                    };
                    // A little smaller than the pallet: it touches the backrest and its neighbour.
                    let half = size * 0.5 - vec2(0.01, 0.01);
                    collider.set_shape(SharedShape::cuboid(half.x as f32, half.y as f32));
                    let here = Vector::new(at.x as f32, at.y as f32);
                    collider
                        .set_position_wrt_parent(RapierPose::from_parts(here, Rotation::IDENTITY));
                    collider.set_enabled(true);
                },
            );
        }
    }

    /// Puts what fell onto the floor.
    pub(crate) fn drop(&mut self, world: &mut World, init: &mut Schedule, fallen: &Fallen) {
        let v = Vector::new(fallen.velocity.x as f32, fallen.velocity.y as f32);
        if let Some(pallet) = fallen.pallet {
            if let Some(handle) = self.pallets.get(pallet as usize).copied() {
                self.body(world, handle, |body| {
                    body.set_enabled(true);
                    body.set_position(rapier_pose(fallen.pose), true);
                    body.set_linvel(v, true);
                });
            }
            return;
        }
        let Fallen { pose, size, mass, .. } = *fallen;
        if let Some(handle) = spawn_box(world, init, pose, size, mass) {
            self.body(world, handle, |body| body.set_linvel(v, true));
            self.cases.push((handle, size));
        }
    }

    /// Moves the other trucks on.
    pub(crate) fn move_others(&self, world: &mut World, poses: impl Iterator<Item = Pose>) {
        for (handle, pose) in self.others.iter().zip(poses) {
            self.body(world, *handle, |b| b.set_next_kinematic_position(rapier_pose(pose)));
        }
    }

    /// Friction of the floor on what slides there, for one tick.
    pub(crate) fn rub(&self, world: &mut World) {
        let takes = (FLOOR_FRICTION * G * DT) as f32;
        // A plate that turns on a floor is braked at about two thirds of half its length.
        let turns = takes / 0.35;
        for handle in self.pallets.iter().chain(self.cases.iter().map(|(h, _)| h)) {
            let moves = self.read(world, *handle, |b| {
                b.is_enabled()
                    && !b.is_sleeping()
                    && (b.linvel() != Vector::ZERO || b.angvel() != 0.0)
            });
            if moves != Some(true) {
                continue;
            }
            self.body(world, *handle, |body| {
                let (v, w) = (body.linvel(), body.angvel());
                let speed = (v.x * v.x + v.y * v.y).sqrt();
                let keeps = if speed > takes { 1.0 - takes / speed } else { 0.0 };
                body.set_linvel(v * keeps, false);
                let keeps = if w.abs() > turns { 1.0 - turns / w.abs() } else { 0.0 };
                body.set_angvel(w * keeps, false);
            });
        }
    }

    /// The bits of every body that moves on the floor: these cones, pallets, fallen cases. What the
    /// engine itself remembers of contacts follows from what was driven so far.
    pub(crate) fn digest(
        &self,
        world: &World,
        cones: impl Iterator<Item = RigidBodyHandle>,
        chain: &mut Chain,
    ) {
        let Self { context: _, pallets, others: _, cases, loads: _, truck: _ } = self;
        let cases = cases.iter().map(|(body, _)| *body);
        for handle in cones.chain(pallets.iter().copied()).chain(cases) {
            let of = |b: &RapierBody| {
                let (at, turn, v) = (b.translation(), b.rotation(), b.linvel());
                (b.is_enabled(), [at.x, at.y, turn.re, turn.im, v.x, v.y, b.angvel()])
            };
            let Some((is_there, numbers)) = self.read(world, handle, of) else { continue };
            is_there.digest(chain);
            numbers.iter().for_each(|n| chain.f32(*n));
        }
    }

    /// Where bodies are, for looking at many of them.
    pub(crate) fn places(&self, world: &World) -> impl Fn(RigidBodyHandle) -> Option<Point> {
        let set = world.get::<RapierRigidBodySet>(self.context);
        move |handle| {
            let at = set?.bodies.get(handle)?.translation();
            Some(vec2(f64::from(at.x), f64::from(at.y)))
        }
    }

    /// What the engine pushes of a pallet.
    pub(crate) fn pallet_collider(&self, world: &World, index: usize) -> Option<ColliderHandle> {
        self.collider_of(world, *self.pallets.get(index)?)
    }

    /// What the engine pushes of another truck, by its place among those that are there.
    pub(crate) fn other_collider(&self, world: &World, index: usize) -> Option<ColliderHandle> {
        self.collider_of(world, *self.others.get(index)?)
    }

    /// What the engine pushes of a fallen case.
    pub(crate) fn case_collider(&self, world: &World, index: usize) -> Option<ColliderHandle> {
        self.collider_of(world, self.cases.get(index)?.0)
    }

    fn collider_of(&self, world: &World, body: RigidBodyHandle) -> Option<ColliderHandle> {
        self.read(world, body, |b| b.colliders().first().copied())?
    }

    /// Where a pallet's body is, and how fast.
    pub(crate) fn pallet(&self, world: &World, index: usize) -> Option<(Pose, f64)> {
        self.read(world, *self.pallets.get(index)?, pose_and_speed)
    }

    /// Where the fallen cases are, with their sizes.
    pub(crate) fn cases(&self, world: &World) -> Vec<(Pose, Point)> {
        let pose = |h| Some(self.read(world, h, pose_and_speed)?.0);
        self.cases.iter().filter_map(|(h, size)| Some((pose(*h)?, *size))).collect()
    }
}

/// Rapier's own word for the forks' kind.
const FORKS_RAW: Group = Group::from_bits_truncate(FORKS.bits());

fn pose_and_speed(body: &RapierBody) -> (Pose, f64) {
    let (at, turn) = (body.position().translation, body.position().rotation);
    let v = body.linvel();
    let pose = Pose {
        at: vec2(f64::from(at.x), f64::from(at.y)),
        heading: atan2(f64::from(turn.im), f64::from(turn.re)),
    };
    (pose, vec2(f64::from(v.x), f64::from(v.y)).length())
}

fn rapier_pose(pose: Pose) -> RapierPose {
    let rotation =
        Rotation::from_cos_sin_unchecked(cos(pose.heading) as f32, sin(pose.heading) as f32);
    RapierPose::from_parts(Vector::new(pose.at.x as f32, pose.at.y as f32), rotation)
}

/// Takes a collider out of the engine's way.
pub(crate) fn disable_collider(world: &mut World, entity: Entity) {
    let Some(handle) = world.get::<RapierColliderHandle>(entity).map(|h| h.0) else { return };
    let mut sets = world.query::<&mut RapierContextColliders>();
    if let Ok(mut set) = sets.single_mut(world)
        && let Some(collider) = set.colliders.get_mut(handle)
    {
        collider.set_enabled(false);
    }
}

fn spawn_box(
    world: &mut World,
    init: &mut Schedule,
    pose: Pose,
    size: Point,
    mass: f64,
) -> Option<RigidBodyHandle> {
    let entity = world
        .spawn((
            RigidBody::Dynamic,
            GlobalTransform::IDENTITY,
            Velocity::zero(),
            Collider::cuboid(0.5 * size.x as f32, 0.5 * size.y as f32),
            ColliderMassProperties::Mass(mass as f32),
            Friction::coefficient(0.3),
            Restitution::coefficient(0.0),
        ))
        .id();
    init.run(world);
    place(world, entity, pose);
    world.get::<RapierRigidBodyHandle>(entity).map(|h| h.0)
}

fn spawn_other(
    world: &mut World,
    init: &mut Schedule,
    pose: Pose,
    size: Point,
) -> Option<RigidBodyHandle> {
    let entity = world
        .spawn((
            RigidBody::KinematicPositionBased,
            GlobalTransform::IDENTITY,
            Collider::cuboid(0.5 * size.x as f32, 0.5 * size.y as f32),
            Friction::coefficient(0.3),
            Restitution::coefficient(0.0),
        ))
        .id();
    init.run(world);
    place(world, entity, pose);
    world.get::<RapierRigidBodyHandle>(entity).map(|h| h.0)
}

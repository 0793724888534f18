//! Rapier behind the yard's port: bodies in Bevy's entity world, moved by Rapier's step.
//!
//! Rapier begins to push some millimetres before things meet, by where they would be if they went
//! straight on; so its solver is given the contacts with what is met, and no others ([`Pushed`]).

use bevy::ecs::query::QueryState;
use bevy::ecs::schedule::Schedule;
use bevy::prelude::*;
use bevy_rapier2d::plugin::context::{
    RapierContextColliders, RapierContextJoints, RapierContextSimulation, RapierRigidBodySet,
    SimulationToRenderTime,
};
use bevy_rapier2d::prelude::{SimulationMode, TimestepMode};
use bevy_rapier2d::rapier::dynamics::{
    MassProperties, RigidBody as RapierBody, RigidBodyHandle, RigidBodySet,
};
use bevy_rapier2d::rapier::geometry::{
    Collider as RapierCollider, ColliderHandle, Group, InteractionGroups, InteractionTestMode,
    SharedShape,
};
use bevy_rapier2d::rapier::math::{Pose as RapierPose, Rotation, Vector};
use bevy_rapier2d::rapier::pipeline::{ContactModificationContext, PhysicsHooks};
use coneyard_core::course::Course;
use coneyard_core::math::{G, Pose, Vec2 as Point, atan2, vec2};
use coneyard_core::state::State;
use coneyard_core::state::chain::Chain;
use coneyard_core::time::DT;
use coneyard_core::truck::loads::RigidBody;
use coneyard_core::yard::Setting;
use coneyard_core::yard::contacts::{Carried, Contacts, Given, Met};
use coneyard_core::yard::loads::{Fallen, Loads, Where};
use coneyard_core::yard::trucks::Others;

use crate::spawn::{FORKS, Spawned, Spawner, rapier_pose};

/// Friction of wood and board on a concrete floor, for what is pushed or slides there: the CTU
/// Code's 0.75 of smooth concrete on sawn wood, 0.55 (from memory).
const FLOOR_FRICTION: f64 = 0.41;

/// A collider that is pushed, with its body.
type Handles = (RigidBodyHandle, ColliderHandle);

/// Parts of the physics context that one step needs.
type Context = (
    &'static mut RapierContextSimulation,
    &'static mut RapierContextColliders,
    &'static mut RapierContextJoints,
    &'static mut RapierRigidBodySet,
    &'static mut SimulationToRenderTime,
);

/// Handles of what stands and moves on the floor. A body or collider is only taken up for writing when
/// something about it changes: Rapier looks at everything again that was.
pub struct Engine {
    world: World,
    init: Schedule,
    context: Entity,
    step: QueryState<Context>,
    truck: RigidBodyHandle,
    /// Places for loads on the forks, from the backrest.
    loads: Vec<ColliderHandle>,
    cones: Vec<Thing>,
    /// By their index in the course; None for what does not stand in the way.
    structures: Vec<Option<ColliderHandle>>,
    pallets: Vec<Thing>,
    others: Vec<Handles>,
    cases: Vec<(Thing, Point)>,
    pushed: Pushed,
}

/// A body that is pushed over the floor, and where it was when it last moved.
struct Thing {
    body: RigidBodyHandle,
    collider: ColliderHandle,
    /// Its body slept then: it moves no more until something wakes it.
    asleep: bool,
    turn: Rotation,
    pose: Pose,
    /// m/s.
    speed: f64,
}

impl Thing {
    fn new((body, collider): Handles) -> Self {
        let (turn, pose) = (Rotation::IDENTITY, Pose::default());
        Self { body, collider, asleep: false, turn, pose, speed: 0.0 }
    }

    /// Reads where it is. Most things stand still, and an angle costs more than all the rest.
    fn note(&mut self, bodies: &RigidBodySet) {
        let Some(body) = bodies.get(self.body) else { return };
        let asleep = body.is_sleeping();
        if asleep && self.asleep {
            return;
        }
        self.asleep = asleep;
        let (at, turn, v) = (body.translation(), *body.rotation(), body.linvel());
        if turn != self.turn {
            self.turn = turn;
            self.pose.heading = atan2(f64::from(turn.im), f64::from(turn.re));
        }
        self.pose.at = vec2(f64::from(at.x), f64::from(at.y));
        self.speed = vec2(f64::from(v.x), f64::from(v.y)).length();
    }
}

/// Everything that may be pushed.
fn things<'a>(
    cones: &'a mut [Thing],
    pallets: &'a mut [Thing],
    cases: &'a mut [(Thing, Point)],
) -> impl Iterator<Item = &'a mut Thing> {
    cones.iter_mut().chain(pallets).chain(cases.iter_mut().map(|(case, _)| case))
}

/// What the truck meets in this tick: all that the engine may push with it.
#[derive(Default)]
struct Pushed(Vec<ColliderHandle>);

impl PhysicsHooks for Pushed {
    fn modify_solver_contacts(&self, context: &mut ContactModificationContext<'_>) {
        let is_met = [context.collider1, context.collider2].iter().any(|c| self.0.contains(c));
        if !is_met && let Some(pair) = context.rigid_mut() {
            pair.solver_contacts.clear();
        }
    }
}

impl Contacts for Engine {
    fn new(setting: &Setting, loads: &Loads, others: &Others) -> Self {
        let mut spawner = Spawner::new();
        let Spawned { truck, loads: places } = spawner.truck(setting);
        let course = &setting.course;
        let cones = course.cones.iter().map(|at| Thing::new(spawner.cone(*at))).collect();
        let structures = course.structures.iter().map(|s| spawner.structure(s)).collect();
        let pallets = loads.pallets.iter().enumerate().map(|(i, pallet)| {
            let size = loads.size(i as u32, &course.warehouse);
            let mass = loads.standing(i as u32).and_then(|s| s.carried(0.0));
            let pose = match pallet.at {
                Where::Floor(pose) | Where::Fallen(pose) => pose,
                Where::Forks => course.spawn,
            };
            let handles = spawner.pushed(pose, size, mass.map_or(1.0, |c| c.mass));
            if pallet.at == Where::Forks {
                spawner.body(handles.0, |body| body.set_enabled(false));
            }
            Thing::new(handles)
        });
        let pallets = pallets.collect();
        let all = &course.warehouse.others;
        let others =
            others.trucks.iter().map(|o| spawner.other(o.pose, all[o.index].size)).collect();
        let Spawner { mut world, init, context } = spawner;
        let mut engine = Self {
            step: world.query(),
            world,
            init,
            context,
            truck,
            loads: places,
            cones,
            structures,
            pallets,
            others,
            cases: Vec::new(),
            pushed: Pushed::default(),
        };
        engine.note();
        engine
    }

    fn weigh(&mut self, body: &RigidBody) {
        let com = Vector::new(body.com.x as f32, body.com.y as f32);
        let props = MassProperties::new(com, body.mass as f32, body.yaw_inertia as f32);
        self.body(self.truck, |b| b.set_additional_mass_properties(props, true));
    }

    fn arrange(&mut self, course: &Course, loads: &Loads) {
        for (i, pallet) in loads.pallets.iter().enumerate() {
            let Thing { body: handle, collider, .. } = self.pallets[i];
            let stands = pallet.at != Where::Forks;
            if self.read(handle, |b| b.is_enabled() != stands) == Some(true) {
                self.body(handle, |body| {
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
            let is_so = |c: &RapierCollider| c.collision_groups() == groups;
            self.collider(collider, is_so, |c| c.set_collision_groups(groups));
        }
        for i in 0..self.loads.len() {
            let home = loads.stack.pallets.get(i).map(|s| s.home);
            let size = loads.carried.get(i).map(|p| loads.size(*p, &course.warehouse));
            let there = home.is_some() && size.is_some();
            self.collider(
                self.loads[i],
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
        self.note();
    }

    fn drop(&mut self, fallen: &Fallen) {
        let v = Vector::new(fallen.velocity.x as f32, fallen.velocity.y as f32);
        if let Some(pallet) = fallen.pallet {
            if let Some(handle) = self.pallets.get(pallet as usize).map(|p| p.body) {
                self.body(handle, |body| {
                    body.set_enabled(true);
                    body.set_position(rapier_pose(fallen.pose), true);
                    body.set_linvel(v, true);
                });
            }
            self.note();
            return;
        }
        let Fallen { pose, size, mass, .. } = *fallen;
        let handles = crate::spawn::pushed(&mut self.world, &mut self.init, pose, size, mass);
        self.body(handles.0, |body| body.set_linvel(v, true));
        self.cases.push((Thing::new(handles), size));
        self.note();
    }

    fn move_others(&mut self, others: &Others) {
        for (i, other) in others.trucks.iter().enumerate() {
            let pose = rapier_pose(other.pose);
            self.body(self.others[i].0, |b| b.set_next_kinematic_position(pose));
        }
    }

    fn rub(&mut self) {
        let takes = (FLOOR_FRICTION * G * DT) as f32;
        // A plate that turns on a floor is braked at about two thirds of half its length.
        let turns = takes / 0.35;
        let Some(mut set) = self.world.get_mut::<RapierRigidBodySet>(self.context) else { return };
        for thing in self.pallets.iter().chain(self.cases.iter().map(|(thing, _)| thing)) {
            let moves = |b: &RapierBody| {
                b.is_enabled()
                    && !b.is_sleeping()
                    && (b.linvel() != Vector::ZERO || b.angvel() != 0.0)
            };
            if !set.bodies.get(thing.body).is_some_and(moves) {
                continue;
            }
            let Some(body) = set.bodies.get_mut(thing.body) else { continue };
            let (v, w) = (body.linvel(), body.angvel());
            let speed = (v.x * v.x + v.y * v.y).sqrt();
            let keeps = if speed > takes { 1.0 - takes / speed } else { 0.0 };
            body.set_linvel(v * keeps, false);
            let keeps = if w.abs() > turns { 1.0 - turns / w.abs() } else { 0.0 };
            body.set_angvel(w * keeps, false);
        }
    }

    fn carry(&mut self, given: Given, met: &[Met]) -> Carried {
        self.pushed.0.clear();
        for met in met {
            self.pushed.0.extend(match *met {
                Met::Cone(i) => Some(self.cones[i].collider),
                Met::Structure(i) => self.structures[i],
                Met::Other(i) => Some(self.others[i].1),
                Met::Pallet(i) => Some(self.pallets[i].collider),
                Met::Case(i) => Some(self.cases[i].0.collider),
            });
        }
        let [x, y] = given.velocity;
        let velocity = Vector::new(x, y);
        let Ok((mut physics, mut colliders, mut joints, mut set, mut render_time)) =
            self.step.single_mut(&mut self.world)
        else {
            return Carried::default();
        };
        if let Some(truck) = set.bodies.get_mut(self.truck) {
            truck.set_linvel(velocity, true);
            truck.set_angvel(given.yaw_rate, true);
        }
        physics.step_simulation(
            &mut colliders,
            &mut joints,
            &mut set,
            Vector::ZERO,
            SimulationMode::default(),
            TimestepMode::Fixed { dt: DT as f32, substeps: 1 },
            None,
            &self.pushed,
            &Time::default(),
            &mut render_time,
            None,
        );
        let Some(truck) = set.bodies.get(self.truck) else { return Carried::default() };
        things(&mut self.cones, &mut self.pallets, &mut self.cases)
            .for_each(|thing| thing.note(&set.bodies));
        let (push, spin) = (truck.linvel() - velocity, truck.angvel() - given.yaw_rate);
        Carried {
            pose: pose_of(truck),
            push: vec2(f64::from(push.x), f64::from(push.y)),
            spin: f64::from(spin),
        }
    }

    fn cone(&self, index: usize) -> Option<Point> {
        self.cones.get(index).map(|cone| cone.pose.at)
    }

    fn pallet(&self, index: usize) -> Option<(Pose, f64)> {
        self.pallets.get(index).map(|pallet| (pallet.pose, pallet.speed))
    }

    fn cases(&self) -> impl Iterator<Item = (Pose, Point)> {
        self.cases.iter().map(|(case, size)| (case.pose, *size))
    }

    fn digest(&self, chain: &mut Chain) {
        let Self {
            cones,
            pallets,
            cases,
            // Never changed, or where other trucks are, which is the yard's; or of one tick.
            world: _,
            init: _,
            context: _,
            step: _,
            truck: _,
            loads: _,
            structures: _,
            others: _,
            pushed: _,
        } = self;
        let cases = cases.iter().map(|(case, _)| case);
        for thing in cones.iter().chain(pallets).chain(cases) {
            let of = |b: &RapierBody| {
                let (at, turn, v) = (b.translation(), b.rotation(), b.linvel());
                (b.is_enabled(), [at.x, at.y, turn.re, turn.im, v.x, v.y, b.angvel()])
            };
            let Some((is_there, numbers)) = self.read(thing.body, of) else { continue };
            is_there.digest(chain);
            numbers.iter().for_each(|n| chain.f32(*n));
        }
    }
}

impl Engine {
    /// Reads where everything is that may be pushed.
    fn note(&mut self) {
        let Some(set) = self.world.get::<RapierRigidBodySet>(self.context) else { return };
        things(&mut self.cones, &mut self.pallets, &mut self.cases)
            .for_each(|thing| thing.note(&set.bodies));
    }

    fn body(&mut self, handle: RigidBodyHandle, change: impl FnOnce(&mut RapierBody)) {
        if let Some(mut set) = self.world.get_mut::<RapierRigidBodySet>(self.context)
            && let Some(body) = set.bodies.get_mut(handle)
        {
            change(body);
        }
    }

    fn read<T>(&self, handle: RigidBodyHandle, what: impl FnOnce(&RapierBody) -> T) -> Option<T> {
        self.world.get::<RapierRigidBodySet>(self.context)?.bodies.get(handle).map(what)
    }

    fn collider(
        &mut self,
        handle: ColliderHandle,
        is_so: impl FnOnce(&RapierCollider) -> bool,
        change: impl FnOnce(&mut RapierCollider),
    ) {
        let Some(mut set) = self.world.get_mut::<RapierContextColliders>(self.context) else {
            return;
        };
        if set.colliders.get(handle).is_none_or(is_so) {
            return;
        }
        if let Some(collider) = set.colliders.get_mut(handle) {
            change(collider);
        }
    }
}

/// Rapier's own word for the forks' kind.
const FORKS_RAW: Group = Group::from_bits_truncate(FORKS.bits());

fn pose_of(body: &RapierBody) -> Pose {
    let (at, turn) = (body.position().translation, body.position().rotation);
    Pose {
        at: vec2(f64::from(at.x), f64::from(at.y)),
        heading: atan2(f64::from(turn.im), f64::from(turn.re)),
    }
}

//! What the truck touches, and what falls over.

use bevy::prelude::{Entity, Query, Res, ResMut, Resource, With};
use bevy_rapier2d::plugin::context::{
    RapierContextColliders, RapierContextSimulation, RapierRigidBodySet,
};
use bevy_rapier2d::prelude::RapierRigidBodyHandle;
use bevy_rapier2d::rapier::math::Vector;
use coneyard_core::math::atan2;
use coneyard_core::moment::{Contact, Touched};

use crate::floor::{FallenCase, FloorPallet, OtherBody};
use crate::motion::Motion;
use crate::spawn::{Cone, Solid, TruckBody};

/// A cone that is met faster than this falls, m/s; slower, it is pushed along (typical, no source).
const TOPPLES: f64 = 0.25;

/// Contacts of this tick, in a fixed order.
#[derive(Resource, Default)]
pub(crate) struct Touches {
    /// What is touched.
    pub contacts: Vec<Contact>,
    /// A fallen case is run over or pushed along.
    pub ran_over: bool,
}

/// What is touched slower than this is not run over, m/s.
const RUNS_OVER: f64 = 0.1;

/// Reads Rapier's contact pairs of the truck, and lets cones fall.
pub(crate) fn find_contacts(
    mut touches: ResMut<Touches>,
    motion: Res<Motion>,
    contexts: Query<(&RapierContextSimulation, &RapierContextColliders, &RapierRigidBodySet)>,
    truck: Query<&RapierRigidBodyHandle, With<TruckBody>>,
    mut cones: Query<&mut Cone>,
    solids: Query<&Solid>,
    (others, pallets, cases): (Query<&OtherBody>, Query<&FloorPallet>, Query<&FallenCase>),
) {
    touches.contacts.clear();
    touches.ran_over = false;
    let (Ok(handle), Ok((physics, colliders, bodies))) = (truck.single(), contexts.single()) else {
        return;
    };
    let Some(body) = bodies.bodies.get(handle.0) else { return };
    for part in body.colliders() {
        for pair in physics.narrow_phase.contact_pairs_with(*part) {
            if !pair.has_any_active_contact() {
                continue;
            }
            let truck_is_first = pair.collider1 == *part;
            let other = if truck_is_first { pair.collider2 } else { pair.collider1 };
            let Some(entity) = colliders.collider_entity(other) else { continue };
            let (closing_speed, towards) =
                deepest(pair, *part, colliders, body.center_of_mass(), &motion);
            if cases.contains(entity) {
                touches.ran_over |= closing_speed > RUNS_OVER;
                continue;
            }
            let with = if let Ok(other) = others.get(entity) {
                Touched::Other(other.index)
            } else if let Ok(pallet) = pallets.get(entity) {
                Touched::Pallet(pallet.index)
            } else if let Some(with) = touched(entity, &cones, &solids) {
                with
            } else {
                continue;
            };
            if let Ok(mut cone) = cones.get_mut(entity)
                && cone.fallen_towards.is_none()
                && closing_speed > TOPPLES
            {
                cone.fallen_towards = Some(atan2(f64::from(towards.y), f64::from(towards.x)));
            }
            note(&mut touches.contacts, Contact { with, closing_speed });
        }
    }
    touches.contacts.sort_by_key(|c| c.with);
}

fn touched(entity: Entity, cones: &Query<&mut Cone>, solids: &Query<&Solid>) -> Option<Touched> {
    if let Ok(cone) = cones.get(entity) {
        return Some(Touched::Cone(cone.index));
    }
    solids.get(entity).ok().map(|s| Touched::Structure(s.index))
}

/// The fastest approach over all contact points: its speed, m/s, and the direction into the other.
fn deepest(
    pair: &bevy_rapier2d::rapier::geometry::ContactPair,
    part: bevy_rapier2d::rapier::geometry::ColliderHandle,
    colliders: &RapierContextColliders,
    com: Vector,
    motion: &Motion,
) -> (f64, Vector) {
    let truck_is_first = pair.collider1 == part;
    let Some(shape) = colliders.colliders.get(part) else { return (0.0, Vector::ZERO) };
    let mut fastest = (0.0, Vector::ZERO);
    for manifold in pair.manifolds() {
        let towards = if truck_is_first { manifold.data.normal } else { -manifold.data.normal };
        for point in &manifold.points {
            let local = if truck_is_first { point.local_p1 } else { point.local_p2 };
            let arm = shape.position().transform_point(local) - com;
            let (linear, angular) = motion.given;
            let velocity = linear + Vector::new(-arm.y, arm.x) * angular;
            let speed = f64::from(velocity.dot(towards));
            if fastest.1 == Vector::ZERO || speed > fastest.0 {
                fastest = (speed.max(0.0), towards);
            }
        }
    }
    fastest
}

/// Keeps one contact for each thing touched, the fastest.
fn note(contacts: &mut Vec<Contact>, new: Contact) {
    match contacts.iter_mut().find(|c| c.with == new.with) {
        Some(old) => old.closing_speed = old.closing_speed.max(new.closing_speed),
        None => contacts.push(new),
    }
}

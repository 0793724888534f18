//! What the truck touches, and what falls over: decided by geometry (`core::around::touch`) over the
//! way that the truck is about to go in a tick. Only what is met so may be pushed by the engine.

use std::cell::OnceCell;

use bevy::prelude::World;
use bevy_rapier2d::prelude::{RapierColliderHandle, RapierRigidBodyHandle};
use bevy_rapier2d::rapier::dynamics::RigidBodyHandle;
use bevy_rapier2d::rapier::geometry::ColliderHandle;
use coneyard_core::around::loads::{Loads, Where};
use coneyard_core::around::touch::{Coming, Extent, Thing, Touch, touch};
use coneyard_core::around::trucks::Others;
use coneyard_core::course::geometry::rectangle;
use coneyard_core::course::{CONE_RADIUS, Course};
use coneyard_core::finding::DT;
use coneyard_core::math::{Pose, Vec2, vec2};
use coneyard_core::moment::{Contact, Touched};
use coneyard_core::state;
use coneyard_core::truck::wheels::Twist;

use crate::floor::Floor;
use crate::frame::ConeFrame;
use crate::motion::Motion;
use crate::spawn::{Cone, Solid};

/// A cone that is met faster than this falls, m/s; slower, it is pushed along (typical, no source).
const TOPPLES: f64 = 0.25;

/// What is touched slower than this is not run over, m/s.
const RUNS_OVER: f64 = 0.1;

/// A cone of the course.
struct ConeNow {
    body: RigidBodyHandle,
    collider: ColliderHandle,
    /// Direction in which it fell, rad; None while it stands.
    fallen_towards: Option<f64>,
}

// The body itself stands in the digest by `Floor`.
state!(ConeNow { fallen_towards } left out { body, collider });

/// A solid structure of the course.
struct Fixed {
    index: u32,
    outline: [Vec2; 4],
    extent: Extent,
    collider: ColliderHandle,
}

/// Contacts of one tick, the cones as they stand, and what never moves.
pub(crate) struct Contacts {
    /// What is touched, in a fixed order.
    pub now: Vec<Contact>,
    /// A fallen case is run over or pushed along.
    pub ran_over: bool,
    /// In the order of the course.
    cones: Vec<ConeNow>,
    /// Solid structures by their index in the course.
    solid: Vec<Fixed>,
}

// What is touched is looked for anew in each tick.
state!(Contacts { cones } left out { now, ran_over, solid });

/// Into so many parts a tick is cut: at 3.5 m/s one is 14 mm, and a corner that passes a cone is
/// then found to reach into it by 0.1 mm or more wherever it does.
const PARTS: usize = 4;

/// The way that the truck and its load are about to go in a tick, if nothing is in it. The engine
/// keeps things apart, so that after its step nothing touches any more.
pub(crate) struct Toucher<'a> {
    /// Truck and load before the tick, the truck's body and its two forks first.
    before: &'a [[Vec2; 4]],
    /// And at the end of each part of it, worked out when something is near.
    way: OnceCell<[Vec<[Vec2; 4]>; PARTS]>,
    extent: Extent,
    /// At the start of the tick.
    coming: Coming,
}

impl<'a> Toucher<'a> {
    /// For truck and load as they stood before the tick.
    pub(crate) fn new(before: &'a [[Vec2; 4]], motion: &Motion) -> Self {
        let (linear, spin) = motion.given;
        let velocity = vec2(f64::from(linear.x), f64::from(linear.y));
        let twist = Twist { velocity, yaw_rate: f64::from(spin) };
        let com = motion.pose.to_yard(motion.body.com);
        let reach = before.iter().flatten().map(|p| (*p - com).length()).fold(0.0, f64::max);
        let most = (velocity.length() + twist.yaw_rate.abs() * reach) * DT;
        let extent = Extent::of(before.iter().flatten()).wider(most);
        Self { before, way: OnceCell::new(), extent, coming: Coming { com, twist } }
    }

    fn way(&self) -> &[Vec<[Vec2; 4]>; PARTS] {
        self.way.get_or_init(|| {
            let Coming { com, twist } = self.coming;
            core::array::from_fn(|part| {
                let t = time(part);
                let turned = Pose { at: com + twist.velocity * t, heading: twist.yaw_rate * t };
                let place = turned.placer();
                self.before.iter().map(|corners| corners.map(|p| place(p - com))).collect()
            })
        })
    }

    /// The fastest touch of any part of the truck on its way; `let_in` when the forks may go into
    /// the thing. `thing` is where it is at the end of each part of the tick.
    fn touch<'t>(&self, let_in: bool, thing: impl Fn(usize) -> Thing<'t>) -> Option<Touch> {
        let mut fastest: Option<Touch> = None;
        for (part, outlines) in self.way().iter().enumerate() {
            let thing = thing(part);
            for (i, outline) in outlines.iter().enumerate() {
                let is_fork = (1..3).contains(&i);
                if let_in && is_fork {
                    continue;
                }
                let coming = self.coming.after(time(part));
                let found = touch(outline, thing, &coming);
                if found.is_some_and(|t| fastest.is_none_or(|f| t.closing > f.closing)) {
                    fastest = found;
                }
            }
        }
        fastest
    }
}

/// Time from the start of the tick to the end of a part of it, s.
fn time(part: usize) -> f64 {
    DT * (part + 1) as f64 / PARTS as f64
}

impl Contacts {
    /// For a course whose cones and structures are in the world.
    pub(crate) fn new(world: &mut World, course: &Course) -> Self {
        let mut spawned = world.query::<(&Cone, &RapierRigidBodyHandle, &RapierColliderHandle)>();
        let mut cones: Vec<(u32, ConeNow)> = spawned
            .iter(world)
            .map(|(cone, body, collider)| {
                let (body, collider) = (body.0, collider.0);
                (cone.index, ConeNow { body, collider, fallen_towards: None })
            })
            .collect();
        cones.sort_by_key(|(index, _)| *index);
        let mut spawned = world.query::<(&Solid, &RapierColliderHandle)>();
        let mut solid: Vec<Fixed> = spawned
            .iter(world)
            .map(|(solid, collider)| {
                let structure = &course.structures[solid.index as usize];
                let outline = rectangle(structure.pose, structure.size);
                let extent = Extent::of(outline.iter());
                Fixed { index: solid.index, outline, extent, collider: collider.0 }
            })
            .collect();
        solid.sort_by_key(|fixed| fixed.index);
        let cones = cones.into_iter().map(|(_, cone)| cone).collect();
        Self { now: Vec::new(), ran_over: false, cones, solid }
    }

    /// Looks what the truck is about to meet in this tick, before the engine's step. What it meets
    /// goes into `met`, for the engine to push; nothing else is pushed by it.
    pub(crate) fn find(
        &mut self,
        world: &World,
        toucher: &Toucher<'_>,
        course: &Course,
        (floor, loads, others): (&Floor, &Loads, &Others),
        met: &mut Vec<ColliderHandle>,
    ) {
        self.now.clear();
        self.ran_over = false;
        met.clear();
        let place = floor.places(world);
        for (i, cone) in self.cones.iter_mut().enumerate() {
            let Some(at) = place(cone.body) else { continue };
            if !toucher.extent.meets(&Extent::of_disc(at, CONE_RADIUS)) {
                continue;
            }
            let Some(t) = toucher.touch(false, |_| Thing::Disc(at, CONE_RADIUS)) else { continue };
            if cone.fallen_towards.is_none() && t.closing > TOPPLES {
                cone.fallen_towards = Some(t.into.angle());
            }
            self.now.push(contact(Touched::Cone(i as u32), &t));
            met.push(cone.collider);
        }
        for fixed in self.solid.iter().filter(|f| toucher.extent.meets(&f.extent)) {
            if let Some(t) = toucher.touch(false, |_| Thing::Block(&fixed.outline)) {
                self.now.push(contact(Touched::Structure(fixed.index), &t));
                met.push(fixed.collider);
            }
        }
        for (i, other) in others.trucks.iter().enumerate() {
            let all = &course.warehouse.others;
            let now = Extent::of(other.outline(all).iter());
            if !toucher.extent.meets(&now.wider(other.speed * DT)) {
                continue;
            }
            let way: [[Vec2; 4]; PARTS] =
                core::array::from_fn(|part| other.back_by(DT - time(part)).outline(all));
            if let Some(t) = toucher.touch(false, |part| Thing::Block(&way[part])) {
                self.now.push(contact(Touched::Other(other.index as u32), &t));
                met.extend(floor.other_collider(world, i));
            }
        }
        for (i, pallet) in loads.pallets.iter().enumerate() {
            let (Where::Floor(pose) | Where::Fallen(pose)) = pallet.at else { continue };
            let size = loads.size(i as u32, &course.warehouse);
            if !toucher.extent.meets(&Extent::of_disc(pose.at, 0.5 * size.length())) {
                continue;
            }
            let outline = rectangle(pose, size);
            if let Some(t) = toucher.touch(pallet.admitted, |_| Thing::Block(&outline)) {
                self.now.push(contact(Touched::Pallet(i as u32), &t));
                met.extend(floor.pallet_collider(world, i));
            }
        }
        for (i, (pose, size)) in floor.cases(world).into_iter().enumerate() {
            let case = rectangle(pose, size);
            if toucher.extent.meets(&Extent::of(case.iter()))
                && let Some(t) = toucher.touch(false, |_| Thing::Block(&case))
            {
                self.ran_over |= t.closing > RUNS_OVER;
                met.extend(floor.case_collider(world, i));
            }
        }
        self.now.sort_by_key(|c| c.with);
    }

    /// The bodies of the cones.
    pub(crate) fn bodies(&self) -> impl Iterator<Item = RigidBodyHandle> {
        self.cones.iter().map(|cone| cone.body)
    }

    /// The cones as they stand or lie, in the order of the course.
    pub(crate) fn cones(&self, world: &World, floor: &Floor) -> impl Iterator<Item = ConeFrame> {
        let place = floor.places(world);
        self.cones.iter().filter_map(move |cone| {
            let at = place(cone.body)?;
            Some(ConeFrame { at, fallen_towards: cone.fallen_towards })
        })
    }
}

fn contact(with: Touched, touch: &Touch) -> Contact {
    Contact { with, closing_speed: touch.closing }
}

//! What the truck touches, and what falls over: decided by geometry ([`super::touch`]) over the way that
//! the truck is about to go in a tick. Only what is met so may be pushed.

use crate::course::{CONE_RADIUS, Course};
use crate::geometry::{distance_to_polygon, rectangle};
use crate::math::{Pose, Vec2, vec2};
use crate::moment::{Contact, Touched};
use crate::state;
use crate::time::DT;
use crate::truck::wheels::Twist;
use crate::yard::contacts::{Contacts, Met};
use crate::yard::frame::ConeFrame;
use crate::yard::loads::{Loads, Where};
use crate::yard::motion::Motion;
use crate::yard::touch::{Coming, Extent, Thing, Touch, touch};
use crate::yard::trucks::Others;

/// A cone that is met faster than this falls, m/s; slower, it is pushed along (typical, no source).
const TOPPLES: f64 = 0.25;

/// What is touched slower than this is not run over, m/s.
const RUNS_OVER: f64 = 0.1;

/// What lies so far within the truck's outline lies under it, m.
const LIES_UNDER: f64 = 0.02;

/// A corner that slides along a structure is no farther from it, m, as far as it came from a moment ago.
const FLUSH: f64 = 0.01;
/// A corner that is met was so far before it a moment ago, m: more than a part of a tick at full speed.
const COMES_FROM: f64 = 0.02;

/// A cone of the course.
#[derive(Clone, Debug)]
struct ConeNow {
    /// Direction in which it fell, rad; None while it stands.
    fallen_towards: Option<f64>,
}

// Where it lies stands in the digest by `Contacts`.
state!(ConeNow { fallen_towards });

/// A solid structure of the course.
#[derive(Clone, Debug)]
struct Fixed {
    index: u32,
    outline: [Vec2; 4],
    extent: Extent,
}

/// What is touched in one tick, the cones as they stand, and what never moves.
#[derive(Clone, Debug)]
pub(super) struct Touching {
    /// What is touched, in a fixed order.
    pub(super) now: Vec<Contact>,
    /// A fallen case is run over or pushed along.
    pub(super) ran_over: bool,
    /// In the order of the course.
    cones: Vec<ConeNow>,
    /// Solid structures by their index in the course.
    solid: Vec<Fixed>,
    /// What is met, for whoever pushes it.
    met: Vec<Met>,
    /// Room for where the truck is about to be.
    way: Way,
}

// What is touched is looked for anew in each tick.
state!(Touching { cones } left out { now, ran_over, solid, met, way });

/// Parts of a truck's own outline: its body and two forks. What comes after is the load.
const TRUCK_PARTS: usize = 3;

/// Into so many parts a tick is cut: at 3.5 m/s one is 14 mm, and a corner that passes a cone is
/// then found to reach into it by 0.1 mm or more wherever it does.
const PARTS: usize = 4;

/// What is touched slower than this, m/s, is slid along.
const SLIDES: f64 = 0.1;

/// The engine holds up what comes nearer than about this, m, to something that it may push already.
const HELD_UP: f64 = 0.003;

/// Truck and load at the end of each part of a tick, and a little later.
type Way = [Vec<[Vec2; 4]>; PARTS + 1];

/// The way that the truck and its load are about to go in a tick, if nothing is in it. The engine
/// keeps things apart, so that after its step nothing touches any more.
struct Toucher<'a> {
    /// Truck and load before the tick, the truck's body and its two forks first.
    before: &'a [[Vec2; 4]],
    /// And at the end of each part of it, worked out when something is near.
    way: &'a mut Way,
    is_worked_out: bool,
    extent: Extent,
    /// At the start of the tick.
    coming: Coming,
}

impl<'a> Toucher<'a> {
    /// For truck and load as they stood before the tick.
    fn new(before: &'a [[Vec2; 4]], motion: &Motion, way: &'a mut Way) -> Self {
        let [x, y] = motion.given.velocity.map(f64::from);
        let velocity = vec2(x, y);
        let twist = Twist { velocity, yaw_rate: f64::from(motion.given.yaw_rate) };
        let com = motion.pose.to_yard(motion.body.com);
        let reach = before.iter().flatten().map(|p| (*p - com).length()).fold(0.0, f64::max);
        let most = (velocity.length() + twist.yaw_rate.abs() * reach) * DT;
        let extent = Extent::of(before.iter().flatten()).wider(most);
        let coming = Coming { com, twist };
        Self { before, way, is_worked_out: false, extent, coming }
    }

    fn speed(&self) -> f64 {
        self.coming.twist.velocity.length()
    }

    fn work_out(&mut self) {
        let (Coming { com, twist }, speed) = (self.coming, self.speed());
        for (part, outlines) in self.way.iter_mut().enumerate() {
            let t = time(part, speed);
            let turned = Pose { at: com + twist.velocity * t, heading: twist.yaw_rate * t };
            let place = turned.placer();
            outlines.clear();
            outlines.extend(self.before.iter().map(|corners| corners.map(|p| place(p - com))));
        }
        self.is_worked_out = true;
    }

    /// The fastest touch of any part of the truck on its way, and whether nothing but the load touches;
    /// `let_in` when the forks may go into the thing. `thing` is where it is at the end of each part of
    /// the tick.
    fn touch<'t>(
        &mut self,
        let_in: bool,
        thing: impl Fn(usize) -> Thing<'t>,
    ) -> Option<(Touch, bool)> {
        if !self.is_worked_out {
            self.work_out();
        }
        let mut fastest: Option<Touch> = None;
        let mut by_load = true;
        for (part, outlines) in self.way.iter().enumerate() {
            let thing = thing(part);
            // What slides along a thing may be held up by the next corner of it before it comes there.
            let slides = fastest.is_some_and(|t| t.closing <= SLIDES);
            if part == PARTS && (!slides || matches!(thing, Thing::Disc(..))) {
                break;
            }
            for (i, outline) in outlines.iter().enumerate() {
                let is_fork = (1..TRUCK_PARTS).contains(&i);
                if let_in && is_fork {
                    continue;
                }
                let coming = self.coming.after(time(part, self.speed()));
                let was = part.checked_sub(1).map_or(self.before, |p| self.way[p].as_slice());
                let found = touch(&was[i], outline, thing, &coming);
                by_load &= found.is_none() || i >= TRUCK_PARTS;
                if found.is_some_and(|t| fastest.is_none_or(|f| t.closing > f.closing)) {
                    fastest = found;
                }
            }
        }
        fastest.map(|touch| (touch, by_load))
    }
}

/// Time from the start of the tick to the end of a part of it, s; behind the last part to where a truck of
/// this speed, m/s, is held up.
fn time(part: usize, speed: f64) -> f64 {
    if part == PARTS {
        return DT + (HELD_UP / speed.max(1e-9)).min(DT);
    }
    DT * (part + 1) as f64 / PARTS as f64
}

impl Touching {
    /// For a course at the start.
    pub(super) fn new(course: &Course) -> Self {
        let solid = course.structures.iter().enumerate().filter(|(_, s)| s.kind.is_solid());
        let solid = solid.map(|(index, structure)| {
            let outline = rectangle(structure.pose, structure.size);
            Fixed { index: index as u32, outline, extent: Extent::of(outline.iter()) }
        });
        Self {
            now: Vec::new(),
            ran_over: false,
            cones: vec![ConeNow { fallen_towards: None }; course.cones.len()],
            solid: solid.collect(),
            met: Vec::new(),
            way: Way::default(),
        }
    }

    /// What the truck, whose parts stand like this before the tick, is about to meet in it: that may be
    /// pushed, and nothing else.
    pub(super) fn find(
        &mut self,
        (parts, motion): (&[[Vec2; 4]], &Motion),
        course: &Course,
        (loads, others): (&Loads, &Others),
        floor: &impl Contacts,
    ) -> &[Met] {
        let Self { now, ran_over, cones, solid, met, way } = self;
        let mut toucher = Toucher::new(parts, motion, way);
        now.clear();
        *ran_over = false;
        met.clear();
        for (i, cone) in cones.iter_mut().enumerate() {
            let Some(at) = floor.cone(i) else { continue };
            if !toucher.extent.meets(&Extent::of_disc(at, CONE_RADIUS)) {
                continue;
            }
            let Some(found) = toucher.touch(false, |_| Thing::Disc(at, CONE_RADIUS)) else {
                continue;
            };
            let t = &found.0;
            if cone.fallen_towards.is_none() && t.closing > TOPPLES {
                cone.fallen_towards = Some(t.into.angle());
            }
            now.push(contact(Touched::Cone(i as u32), &found));
            met.push(Met::Cone(i));
        }
        for (i, fixed) in solid.iter().enumerate() {
            if toucher.extent.meets(&fixed.extent)
                && let Some(mut t) = toucher.touch(false, |_| Thing::Block(&fixed.outline))
            {
                // Where two stand flush, a corner that slides along the one grazes the next.
                let others = solid.iter().enumerate().filter(|(j, _)| *j != i);
                let before = t.0.at - t.0.into * COMES_FROM;
                let flush =
                    |(_, o): (usize, &Fixed)| distance_to_polygon(before, &o.outline) < FLUSH;
                if t.0.grazing < t.0.closing && others.into_iter().any(flush) {
                    t.0.closing = t.0.grazing;
                }
                now.push(contact(Touched::Structure(fixed.index), &t));
                met.push(Met::Structure(fixed.index as usize));
            }
        }
        for (i, other) in others.trucks.iter().enumerate() {
            let all = &course.warehouse.others;
            let stands = Extent::of(other.outline(all).iter());
            if !toucher.extent.meets(&stands.wider(other.speed * DT)) {
                continue;
            }
            let speed = toucher.speed();
            let way: [[Vec2; 4]; PARTS + 1] =
                core::array::from_fn(|part| other.back_by(DT - time(part, speed)).outline(all));
            if let Some(t) = toucher.touch(false, |part| Thing::Block(&way[part])) {
                now.push(contact(Touched::Other(other.index as u32), &t));
                met.push(Met::Other(i));
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
                now.push(contact(Touched::Pallet(i as u32), &t));
                met.push(Met::Pallet(i));
            }
        }
        for (i, (pose, size)) in floor.cases().enumerate() {
            let case = rectangle(pose, size);
            if toucher.extent.meets(&Extent::of(case.iter()))
                && let Some(t) = toucher.touch(false, |_| Thing::Block(&case))
            {
                // What fell under the truck is not met any more: the truck drives over it.
                let under = t.0.depth > LIES_UNDER && toucher.speed() > RUNS_OVER;
                *ran_over |= under || t.0.closing > RUNS_OVER;
                met.push(Met::Case(i));
            }
        }
        now.sort_by_key(|c| c.with);
        met
    }

    /// The cones as they stand or lie, in the order of the course.
    pub(super) fn cones(&self, floor: &impl Contacts) -> impl Iterator<Item = ConeFrame> {
        self.cones.iter().enumerate().filter_map(move |(i, cone)| {
            Some(ConeFrame { at: floor.cone(i)?, fallen_towards: cone.fallen_towards })
        })
    }
}

fn contact(with: Touched, (touch, by_load): &(Touch, bool)) -> Contact {
    Contact { with, closing_speed: touch.closing, by_load: *by_load }
}

//! Everything around the truck, moved once a tick before and after the engine's step, and what a
//! Moment and a picture say about it.

use std::sync::Arc;

use bevy::ecs::schedule::Schedule;
use bevy::prelude::World;
use coneyard_core::around::TruckNow;
use coneyard_core::around::body::Body as Room;
use coneyard_core::around::eye::{Eye, Onward, off_path};
use coneyard_core::around::foot::{Foot, PERSON_RADIUS, Placing};
use coneyard_core::around::loads::{Loads, Where};
use coneyard_core::around::trucks::Others;
use coneyard_core::around::ways::Ways;
use coneyard_core::controls::Controls;
use coneyard_core::course::Travel;
use coneyard_core::course::geometry::rectangle;
use coneyard_core::course::place::{footing, grade_at};
use coneyard_core::finding::{DT, Tick};
use coneyard_core::load::motion::Motion as LoadMotion;
use coneyard_core::math::{Pose, Vec2, vec2};
use coneyard_core::moment::{
    DockMoment, LoadMoment, Moment, RiderMoment, SightMoment, TruckMoment,
};
use coneyard_core::people::walk::Doing;
use coneyard_core::run::digest::Chain;
use coneyard_core::run::state::State;
use coneyard_core::sight::looking::Disc;
use coneyard_core::truck::loads::Body;
use coneyard_core::truck::stopping::{braking_reached, stopping_distance};

use crate::Setting;
use crate::contacts::{Contacts, Toucher};
use crate::floor::Floor;
use crate::frame::{CaseFrame, ConeFrame, Frame, OtherFrame, PalletFrame, PersonFrame};
use crate::motion::{Met, Motion, RigState, Scene};

/// A truck slower than this keeps the direction of travel it had, m/s.
const STANDS: f64 = 0.02;

/// Where the brake cannot stop the truck, this is said of the distance, m: longer than any yard, and
/// a number that a run file can hold.
const NEVER_STOPS: f64 = 200.0;

/// The yard around the truck.
pub(crate) struct Surroundings {
    pub loads: Loads,
    foot: Foot,
    others: Others,
    eye: Eye,
    ways: Ways,
    room: Room,
    contacts: Contacts,
    floor: Floor,
    init: Schedule,
    /// Travels power unit first, or did so last.
    ahead: bool,
    /// Truck and load, yard frame, after this tick.
    parts: Vec<[Vec2; 4]>,
    docks: Vec<DockMoment>,
    pushed: bool,
    /// Weight that the engine was last told.
    weighed: Option<Body>,
    /// What the service brake would reach now, m/s^2.
    deceleration: f64,
}

impl Surroundings {
    /// At the start of a drive.
    pub(crate) fn new(world: &mut World, init: Schedule, setting: &Setting, seed: u64) -> Self {
        let mut init = init;
        let course = &setting.course;
        let loads = Loads::new(&course.warehouse, &setting.truck);
        let others = Others::new(course, seed);
        let kinematic: Vec<(Pose, Vec2)> =
            others.trucks.iter().map(|o| (o.pose, course.warehouse.others[o.index].size)).collect();
        let floor = Floor::new(world, &mut init, course, &loads, &kinematic);
        let eye = Eye::new(course, &setting.rules);
        let placing = Placing {
            course,
            truck: &setting.truck,
            body: &Body::of(&setting.truck, &loads.weights(setting.truck.forks.at_start_m)),
            speed_limit: setting.rules.speed_limit.value,
        };
        let foot = Foot::new(&placing, &eye.all_edges(), seed);
        let surroundings = Self {
            loads,
            foot,
            others,
            eye,
            ways: Ways::new(course, &setting.rules, seed),
            room: Room::new(course),
            contacts: Contacts::new(world, course),
            floor,
            init,
            ahead: true,
            parts: Vec::new(),
            docks: Vec::new(),
            pushed: false,
            weighed: None,
            deceleration: 0.0,
        };
        surroundings.floor.arrange(world, course, &surroundings.loads);
        surroundings
    }

    /// Before the engine's step: weight, other trucks and people.
    pub(crate) fn before(&mut self, world: &mut World, last: &Moment) {
        let fork_height = world.resource::<RigState>().0.fork_height;
        self.weigh(world, fork_height);
        let scene = world.resource::<Scene>();
        let (course, spec) = (&scene.0.course, &scene.0.truck);
        let motion = world.resource::<Motion>();
        let truck = now(&self.parts, &last.truck, motion, self.ahead, last);
        let people: Vec<Vec2> = self.foot.people.iter().map(|p| p.person.at).collect();
        self.others.step(course, &truck, &people);
        let placing = Placing {
            course,
            truck: spec,
            body: &motion.body,
            speed_limit: scene.0.rules.speed_limit.value,
        };
        let outlines = self.others.outlines(course);
        // Only a horn asks for it: walls muffle it.
        let opaque = if truck.horn { self.eye.opaque(truck.platform, &outlines) } else { &[] };
        self.foot.step(&placing, &truck, opaque);
        let poses: Vec<Pose> = self.others.trucks.iter().map(|o| o.pose).collect();
        self.floor.move_others(world, poses.into_iter());
        self.floor.rub(world);
    }

    fn weigh(&mut self, world: &mut World, fork_height: f64) {
        let scene = world.resource::<Scene>();
        let weights = self.loads.weights(fork_height);
        let body = Body::of(&scene.0.truck, &weights);
        let laden = weights.iter().map(|w| w.mass).sum::<f64>() / scene.0.truck.mass.capacity_kg;
        if self.weighed == Some(body) {
            return;
        }
        let first_and_empty = self.weighed.is_none() && weights.is_empty();
        self.weighed = Some(body);
        if first_and_empty {
            return;
        }
        self.floor.weigh(world, &body);
        let mut motion = world.resource_mut::<Motion>();
        motion.laden = laden.min(1.0);
        motion.reshape(body);
    }

    /// Before the engine's step, once it is known where the truck is about to go: what it meets.
    pub(crate) fn touch(&mut self, world: &mut World) {
        let mut met = core::mem::take(&mut world.resource_mut::<Met>().0);
        let scene = &world.resource::<Scene>().0;
        let motion = world.resource::<Motion>();
        let toucher = Toucher::new(&self.parts, motion);
        let among = (&self.floor, &self.loads, &self.others);
        self.contacts.find(world, &toucher, &scene.course, among, &mut met);
        world.resource_mut::<Met>().0 = met;
    }

    /// The cones as they stand or lie.
    pub(crate) fn cones(&self, world: &World) -> impl Iterator<Item = ConeFrame> {
        self.contacts.cones(world, &self.floor)
    }

    /// After the engine's step: forks and load.
    pub(crate) fn handle(&mut self, world: &mut World, controls: &Controls) {
        if self.loads.pallets.is_empty() {
            return;
        }
        for i in 0..self.loads.pallets.len() {
            if self.loads.pallets[i].at != Where::Forks
                && let Some((pose, speed)) = self.floor.pallet(world, i)
            {
                self.loads.moved(i as u32, pose, speed);
            }
        }
        let motion = *world.resource::<Motion>();
        let mut rig = world.resource::<RigState>().0;
        let asks_up = controls.forks_up && !controls.forks_down;
        let before = self.loads.places();
        {
            let course = &world.resource::<Scene>().0.course;
            let most = self.loads.forks(motion.pose, rig.fork_height, asks_up, &course.warehouse);
            rig.fork_height = rig.fork_height.min(most);
            let axle = motion.twist.at(Vec2::default(), motion.body.com);
            let felt = LoadMotion {
                acceleration: motion.acceleration + motion.push * (1.0 / DT),
                about: motion.body.com,
                yaw_rate: motion.twist.yaw_rate,
                yaw_acceleration: motion.yaw_acceleration,
                fork_height: rig.fork_height,
            };
            let velocity = axle.rotated(motion.pose.heading);
            self.loads.step(&felt, motion.pose, velocity, rig.fork_height);
        }
        world.resource_mut::<RigState>().0 = rig;
        for fallen in self.loads.fallen.clone() {
            self.floor.drop(world, &mut self.init, &fallen);
        }
        if before != self.loads.places() {
            let course = world.resource::<Scene>().0.course.clone();
            self.floor.arrange(world, &course, &self.loads);
        }
    }

    /// What is true of everything around the truck after this tick.
    /// `travel` is what the present step asks for: at rest with the throttle in neutral that is the
    /// way that lies ahead.
    pub(crate) fn observe(
        &mut self,
        world: &World,
        tick: Tick,
        travel: Travel,
        moment: &mut Moment,
    ) {
        let scene = &world.resource::<Scene>().0;
        let Setting { course, truck: spec, .. } = scene;
        let motion = world.resource::<Motion>();
        self.ahead = match (moment.truck.speed, moment.controls.throttle) {
            (v, _) if v.abs() > STANDS => v > 0.0,
            (_, 0) => travel == Travel::PowerUnitFirst,
            (_, throttle) => throttle > 0,
        };
        self.parts = parts(scene, moment.truck.pose, &self.loads);
        moment.contacts.clone_from(&self.contacts.now);
        let outlines = self.others.outlines(course);
        moment.tick = tick;
        let truck = now(&self.parts, &moment.truck, motion, self.ahead, moment);
        self.eye.head.tick(moment.controls.look, moment.truck.stance);
        let mut moving = outlines.clone();
        let fork_height = moment.truck.fork_height;
        let hides = self.loads.top(fork_height) > spec.rider.eye_height_m;
        if hides {
            moving.extend(self.parts.iter().skip(spec.outline().len()));
        }
        moving.extend(self.high_pallets(scene));
        self.eye.look(course, &truck, &moving);
        self.foot.look(&self.eye.view, tick);
        self.others.look(course, &self.eye.view, tick);

        let pose = moment.truck.pose;
        let stands = [vec2(spec.geometry.wheelbase_m, 0.0), motion.body.com];
        let [wheel, com] = stands.map(|p| pose.to_yard(p));
        let on = footing(course, spec, (wheel, com), pose.heading, self.ahead);
        self.deceleration = braking_reached(spec, &motion.body, &on);
        let speed = moment.truck.speed.abs();
        let braking = stopping_distance(speed, 0.0, self.deceleration).min(NEVER_STOPS);
        let seen: Vec<Disc> = self
            .foot
            .people
            .iter()
            .filter(|p| p.sighting.since.is_some())
            .map(|p| Disc { at: p.person.at, radius: PERSON_RADIUS })
            .collect();
        let onward = onward(scene, &moment.truck, self.ahead, braking);
        moment.sight = SightMoment {
            clear_ahead: self.eye.clear_ahead(course, &truck, &onward, &seen),
            braking,
            load_hides: hides && !self.ahead,
        };
        moment.rider = RiderMoment {
            aboard: moment.controls.aboard,
            head: self.eye.head.angle,
            off_path: if speed > STANDS { off_path(&self.eye.head, &truck) } else { 0.0 },
            headroom: self.room.headroom(spec, moment.truck.pose),
            body_gap: self.room.gap(spec, moment.truck.pose, moment.truck.steer, &outlines),
        };
        moment.load = LoadMoment {
            pallets: self.loads.carried.len() as u32,
            mass: self.loads.mass(),
            capacity: spec.mass.capacity_kg,
            holds_sideways: self.loads.stack.holds_sideways(fork_height),
            slid: self.loads.stack.farthest_slide(),
            cases_off: self.loads.cases_off,
            events: self.loads.events.clone(),
            refused: self.loads.refused,
            pushed: self.loads.pushed(),
            ran_over: self.contacts.ran_over,
            grade: grade_at(course, com, pose.heading),
        };
        moment.people = self.foot.moments(&truck);
        moment.others = self.others.moments(course, &truck);
        moment.ways = self.ways.lines(course, &truck);
        moment.crossings = self.ways.crossings(course, &truck, &self.foot);
        let head = (&self.eye.view, self.eye.head.angle);
        moment.docks = self.ways.docks(course, &truck, head, moment.controls.report);
        self.docks.clone_from(&moment.docks);
        self.pushed = moment.load.pushed.is_some();
    }

    /// Pallets on the floor that stand higher than the eye.
    fn high_pallets(&self, scene: &Setting) -> Vec<[Vec2; 4]> {
        let w = &scene.course.warehouse;
        let high = |i: u32| {
            self.loads.standing(i).is_some_and(|s| s.load.height() > scene.truck.rider.eye_height_m)
        };
        let floor = self.loads.on_floor().into_iter().filter(|(i, _)| high(*i));
        floor.map(|(i, pose)| rectangle(pose, self.loads.size(i, w))).collect()
    }

    /// Fills what a picture shows of it.
    pub(crate) fn fill(&self, world: &World, frame: &mut Frame) {
        let course = &world.resource::<Scene>().0.course;
        let small = |p: &Vec2| [p.x as f32, p.y as f32];
        frame.head = self.eye.head.angle;
        frame.deceleration = self.deceleration;
        frame.view = self.eye.view.boundary.iter().map(small).collect();
        let person = |p: &coneyard_core::around::foot::Someone| {
            let walker = &course.warehouse.people[p.index];
            let towards = p.person.bound_for(&walker.route).map(|n| n - p.person.at);
            let faces = if p.person.velocity.length() > 0.0 {
                p.person.velocity
            } else {
                towards.unwrap_or(vec2(0.0, 1.0))
            };
            PersonFrame {
                person: p.index as u32,
                at: p.person.at,
                heading: faces.angle(),
                speed: p.person.velocity.length(),
                seen: p.sighting.since.is_some(),
                looks_up: p.person.looks_up(),
                holds_back: p.doing(walker) == Doing::HoldingBack,
            }
        };
        frame.people = self.foot.people.iter().map(person).collect();
        let other = |o: &coneyard_core::around::trucks::Other| OtherFrame {
            other: o.index as u32,
            pose: o.pose,
            seen: o.seen_since.is_some(),
        };
        frame.others = self.others.trucks.iter().map(other).collect();
        let pallet = |i: usize| self.pallet_frame(i, frame.truck);
        frame.pallets = (0..self.loads.pallets.len()).map(pallet).collect();
        let case = |(pose, size)| CaseFrame { pose, size };
        frame.cases = self.floor.cases(world).into_iter().map(case).collect();
        frame.docks = self.docks.iter().copied().collect();
    }

    fn pallet_frame(&self, i: usize, truck: Pose) -> PalletFrame {
        let standing = self.loads.standing(i as u32);
        let carried = self.loads.pallets[i].at == Where::Forks;
        let pose = match (self.loads.pallets[i].at, standing) {
            (Where::Floor(pose) | Where::Fallen(pose), _) => pose,
            (Where::Forks, Some(s)) => Pose { at: truck.to_yard(s.at()), ..truck },
            (Where::Forks, None) => truck,
        };
        let columns: Arc<[(u8, Vec2)]> = match standing {
            Some(s) => s
                .columns
                .iter()
                .map(|c| {
                    let top = c.cases.last().map_or(Vec2::default(), |k| k.shift);
                    (c.cases.len() as u8, top)
                })
                .collect(),
            None => Arc::from([]),
        };
        PalletFrame {
            pallet: i as u32,
            pose,
            carried,
            columns,
            lean: standing.map_or(Vec2::default(), |s| s.lean()),
        }
    }

    /// The bits of all of it that the next tick depends on.
    pub(crate) fn digest(&self, world: &World, chain: &mut Chain) {
        let Self {
            loads,
            foot,
            others,
            eye,
            ways,
            room,
            contacts,
            floor,
            ahead,
            pushed,
            weighed,
            // They spawn, or follow from the rest.
            init: _,
            parts: _,
            docks: _,
            deceleration: _,
        } = self;
        loads.digest(chain);
        foot.digest(chain);
        others.digest(chain);
        eye.digest(chain);
        ways.digest(chain);
        room.digest(chain);
        contacts.digest(chain);
        floor.digest(world, contacts.bodies(), chain);
        [*ahead, *pushed].digest(chain);
        weighed.digest(chain);
    }
}

/// Truck and load as convex outlines, yard frame.
fn parts(scene: &Setting, truck: Pose, loads: &Loads) -> Vec<[Vec2; 4]> {
    let place = truck.placer();
    let own = scene.truck.outline().map(|part| part.map(&place));
    let load = loads.stack.pallets.iter().filter(|p| !p.is_off).map(|p| {
        let slab = &p.load.pallet;
        let pose = Pose { at: truck.to_yard(p.at()), ..truck };
        rectangle(pose, vec2(slab.length_m, slab.width_m))
    });
    own.into_iter().chain(load).collect()
}

fn now<'a>(
    parts: &'a [[Vec2; 4]],
    truck: &TruckMoment,
    motion: &Motion,
    ahead: bool,
    moment: &Moment,
) -> TruckNow<'a> {
    let axle = motion.twist.at(Vec2::default(), motion.body.com);
    let heading = Vec2::from_angle(truck.pose.heading);
    TruckNow {
        tick: moment.tick,
        pose: truck.pose,
        velocity: axle.rotated(truck.pose.heading),
        speed: truck.speed,
        yaw_rate: truck.yaw_rate,
        platform: truck.platform_in_yard,
        ends: [truck.nose_in_yard, truck.tips_in_yard],
        leading: if ahead { truck.nose_in_yard } else { truck.tips_in_yard },
        along: if ahead { heading } else { -heading },
        parts,
        horn: moment.controls.horn && moment.controls.key_on,
    }
}

/// How the leading end goes on with the present steer angle.
fn onward(scene: &Setting, truck: &TruckMoment, ahead: bool, braking: f64) -> Onward {
    let g = &scene.truck.geometry;
    let steer = truck.steer.clamp(-1.4, 1.4);
    let axle = coneyard_core::math::tan(steer) / g.wheelbase_m;
    let end = if ahead { g.nose_x_m } else { g.fork_tips_x_m };
    // The leading end moves across as well as along when the truck turns about a point abreast of
    // the axle.
    let body = vec2(1.0, axle * end);
    let (along, curvature) = (body.normalized(), axle / body.length());
    let along = along.rotated(truck.pose.heading);
    Onward {
        along: if ahead { along } else { -along },
        curvature: if ahead { curvature } else { -curvature },
        speed: truck.speed,
        braking,
        half_width: 0.5 * g.chassis_width_m,
    }
}

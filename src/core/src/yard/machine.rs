//! The yard as one machine: controls in, one tick on, a Moment out. It knows no engine; what the truck
//! pushes moves behind the port [`Contacts`].

use crate::checks::walk::Walk;
use crate::controls::Controls;
use crate::load::motion::Felt;
use crate::math::{G, Vec2, vec2};
use crate::moment::{DockMoment, Moment};
use crate::rules::ticks;
use crate::sight::looking::Disc;
use crate::state::State;
use crate::state::chain::Chain;
use crate::time::{DT, Tick};
use crate::truck::loads::{Carried, RigidBody};
use crate::truck::rig::Rig;
use crate::yard::contacts::Contacts;
use crate::yard::eye::Eye;
use crate::yard::foot::{Foot, Placing};
use crate::yard::loads::{Loads, Where};
use crate::yard::motion::Motion;
use crate::yard::now::truck_now;
use crate::yard::room::Room;
use crate::yard::setting::Setting;
use crate::yard::touching::Touching;
use crate::yard::trucks::Others;
use crate::yard::ways::Ways;

/// Everything that a tick moves or looks at.
pub struct Yard<C> {
    /// Course, truck and rules.
    pub setting: Setting,
    /// Moves bodies on the floor.
    pub(super) floor: C,
    pub(super) rig: Rig,
    pub(super) motion: Motion,
    /// Pallets, on the forks and on the floor.
    pub loads: Loads,
    pub(super) foot: Foot,
    pub(super) others: Others,
    pub(super) eye: Eye,
    pub(super) ways: Ways,
    pub(super) room: Room,
    pub(super) touching: Touching,
    /// Travels power unit first, or did so last.
    pub(super) ahead: bool,
    /// Truck and load, yard frame, after this tick.
    pub(super) parts: Vec<[Vec2; 4]>,
    pub(super) docks: Vec<DockMoment>,
    /// Which pallets stand higher than the rider's eye, with all that was ever on them.
    pub(super) high: Vec<bool>,
    pub(super) pushed: bool,
    pub(super) spare: Spare,
    /// Where pallets were before the forks moved, in the same tick.
    places: Vec<(bool, bool, bool)>,
    /// Weight that the floor was last told.
    weighed: Option<RigidBody>,
    /// What the service brake would reach now, m/s^2.
    pub(super) deceleration: f64,
    /// The walk-round, where the drive begins with one.
    pub(super) walk: Option<Walk>,
    /// A point counts as looked at or tried after so long, ticks.
    pub(super) look_closer: Tick,
    /// A battery that nothing held has slid in a turn.
    pub(super) battery_slid: bool,
}

/// A battery that nothing holds slides from this side acceleration on, m/s^2: steel on wet or painted steel
/// holds about 0.2 g (typical, from memory, no source), and it has been shaken.
const BATTERY_SLIDES: f64 = 0.15 * G;
/// A backrest whose weld is broken gives way so far, m (typical, no source).
const BACKREST_GIVES: f64 = 0.3;

/// Room for what is worked out anew in each tick, kept from one to the next.
#[derive(Default)]
pub(super) struct Spare {
    /// Of other trucks.
    pub(super) outlines: Vec<[Vec2; 4]>,
    /// Of all that is opaque and moves.
    pub(super) moving: Vec<[Vec2; 4]>,
    /// People in sight.
    pub(super) seen: Vec<Disc>,
    /// Where people are.
    pub(super) at: Vec<Vec2>,
    /// What is on the forks.
    weights: Vec<Carried>,
}

impl<C: Contacts> Yard<C> {
    /// At the start of a drive; the seed draws all that is random.
    pub fn new(setting: Setting, seed: u64) -> Self {
        let Setting { course, truck, rules, reckoned, .. } = &setting;
        let mut loads = Loads::new(&course.warehouse, truck);
        if !setting.condition.backrest_holds {
            loads.stack.forks.gives = BACKREST_GIVES;
        }
        let others = Others::new(course, seed);
        let mut floor = C::new(&setting, &loads, &others);
        let eye = Eye::new(course, rules);
        let placing = Placing {
            course,
            truck,
            body: &RigidBody::of(truck, &loads.weights(truck.forks.at_start_m).collect::<Vec<_>>()),
            reckoned,
        };
        let foot = Foot::new(&placing, &eye.all_edges(), seed);
        floor.arrange(course, &loads);
        let mut rig = Rig::new(truck, course.spawn_stance);
        if setting.inspected.is_some() {
            // It was left as a truck is to be left.
            rig.fork_height = 0.0;
        }
        let w = &course.warehouse;
        let high = |load: usize| w.loads[load].height() > truck.rider.eye_height_m;
        Self {
            high: w.pallets.iter().map(|p| high(p.load)).collect(),
            rig,
            walk: setting.inspected.clone().map(Walk::new),
            look_closer: ticks(rules.term("look-closer")),
            battery_slid: false,
            motion: Motion::at_rest(&setting),
            ways: Ways::new(course, rules, seed),
            room: Room::new(course),
            touching: Touching::new(course),
            floor,
            loads,
            foot,
            others,
            eye,
            ahead: true,
            parts: Vec::new(),
            docks: Vec::new(),
            pushed: false,
            spare: Spare::default(),
            places: Vec::new(),
            weighed: None,
            deceleration: 0.0,
            setting,
        }
    }

    /// One tick of 1/64 s. `last` is what was true after the one before.
    pub fn step(&mut self, controls: &Controls, last: &Moment) {
        self.weigh();
        self.move_others(last);
        let (course, machine) = (&self.setting.course, self.setting.machine());
        self.motion.ask(&mut self.rig, controls, machine);
        self.motion.solve(&self.rig, course, machine);
        let truck_parts = (&self.parts[..], &self.motion);
        let things = (&self.loads, &self.others);
        let met = self.touching.find(truck_parts, course, things, &self.floor);
        let carried = self.floor.carry(self.motion.given, met);
        self.motion.read_back(&carried);
        let side = self.motion.acceleration.y.abs();
        self.battery_slid |= !self.setting.condition.battery_held && side > BATTERY_SLIDES;
        self.handle(controls);
    }

    /// Tells the floor what the truck weighs, when that has changed.
    fn weigh(&mut self) {
        let truck = &self.setting.truck;
        let weights = &mut self.spare.weights;
        weights.clear();
        weights.extend(self.loads.weights(self.rig.fork_height));
        let body = RigidBody::of(truck, weights);
        let laden = weights.iter().map(|w| w.mass).sum::<f64>() / truck.mass.capacity_kg;
        if self.weighed == Some(body) {
            return;
        }
        let first_and_empty = self.weighed.is_none() && weights.is_empty();
        self.weighed = Some(body);
        if first_and_empty {
            return;
        }
        self.floor.weigh(&body);
        self.motion.laden = laden.min(1.0);
        self.motion.reshape(body);
    }

    /// Other trucks and people go on.
    fn move_others(&mut self, last: &Moment) {
        let Setting { course, truck: spec, reckoned, .. } = &self.setting;
        let truck = truck_now(&self.parts, &last.truck, &self.motion, self.ahead, last);
        let Spare { outlines, at, .. } = &mut self.spare;
        at.clear();
        at.extend(self.foot.people.iter().map(|p| p.person.at));
        self.others.step(course, &truck, at);
        let placing = Placing { course, truck: spec, body: &self.motion.body, reckoned };
        outlines.clear();
        outlines.extend(self.others.outlines(course));
        // Only a horn asks for it: walls muffle it.
        let opaque = if truck.horn { self.eye.opaque(truck.platform, outlines) } else { &[] };
        self.foot.step(&placing, &truck, opaque);
        self.floor.move_others(&self.others);
        self.floor.rub();
    }

    /// How hard a load is pulled to the right on forks of which the right one stands lower, m/s^2.
    pub(super) fn leans(&self) -> f64 {
        self.setting.condition.forks_uneven_m / self.loads.stack.forks.spread * G
    }

    /// Forks and load, once the truck has moved.
    fn handle(&mut self, controls: &Controls) {
        if self.loads.pallets.is_empty() {
            return;
        }
        for i in 0..self.loads.pallets.len() {
            if self.loads.pallets[i].at != Where::Forks
                && let Some((pose, speed)) = self.floor.pallet(i)
            {
                self.loads.moved(i as u32, pose, speed);
            }
        }
        let leans = vec2(0.0, self.leans());
        let asks_up = controls.forks_up && !controls.forks_down;
        self.places.clear();
        self.places.extend(self.loads.places());
        let (motion, rig) = (&self.motion, &mut self.rig);
        let warehouse = &self.setting.course.warehouse;
        let most = self.loads.forks(motion.pose, rig.fork_height, asks_up, warehouse);
        rig.fork_height = rig.fork_height.min(most);
        let axle = motion.twist.at(Vec2::default(), motion.body.com);
        let felt = Felt {
            acceleration: motion.acceleration + motion.push * (1.0 / DT) + leans,
            about: motion.body.com,
            yaw_rate: motion.twist.yaw_rate,
            yaw_acceleration: motion.yaw_acceleration,
            fork_height: rig.fork_height,
        };
        let velocity = axle.rotated(motion.pose.heading);
        self.loads.step(&felt, motion.pose, velocity, rig.fork_height);
        for fallen in &self.loads.fallen {
            self.floor.drop(fallen);
        }
        if !self.loads.places().eq(self.places.iter().copied()) {
            self.floor.arrange(&self.setting.course, &self.loads);
        }
    }

    /// The truck itself, of what the next tick depends on.
    pub fn digest_truck(&self, chain: &mut Chain) {
        self.motion.digest(chain);
        self.rig.digest(chain);
    }

    /// And everything around it.
    pub fn digest_around(&self, chain: &mut Chain) {
        let Self {
            loads,
            foot,
            others,
            eye,
            ways,
            room,
            touching,
            floor,
            ahead,
            pushed,
            weighed,
            walk,
            battery_slid,
            // The truck's own, or never changed, or they follow from the rest.
            setting: _,
            rig: _,
            motion: _,
            parts: _,
            docks: _,
            look_closer: _,
            high: _,
            spare: _,
            places: _,
            deceleration: _,
        } = self;
        loads.digest(chain);
        foot.digest(chain);
        others.digest(chain);
        eye.digest(chain);
        ways.digest(chain);
        room.digest(chain);
        touching.digest(chain);
        floor.digest(chain);
        [*ahead, *pushed].digest(chain);
        weighed.digest(chain);
        if walk.is_some() {
            walk.digest(chain);
            battery_slid.digest(chain);
        }
    }
}

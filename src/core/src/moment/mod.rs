//! A Moment: what is true in one tick. It is the only thing a watcher may look at.
//!
//! Plain data with public fields. The simulation fills it; nothing downstream reaches back.

pub mod reach;

pub use crate::course::place::Place;

use crate::acts::Act;
use crate::checks::Inspected;
use crate::checks::walk::Walk;
use crate::controls::{Controls, Side};
use crate::course::{BrakeZone, Travel};
use crate::floor::Surface;
use crate::load::event::LoadEvent;
use crate::math::{Pose, Vec2};
use crate::time::Tick;
use crate::truck::arm::ArmZone;

/// Everything that is true this tick.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// Number of the tick, 0 for the state at the start before anything was driven.
    pub tick: Tick,
    /// What the rider held in this tick.
    pub controls: Controls,
    /// What the rider did once in it, in order.
    pub acts: Vec<Act>,
    /// The truck.
    pub truck: TruckMoment,
    /// Truck and load as convex parts seen from above, yard frame, m.
    pub outline: Vec<[Vec2; 4]>,
    /// Where it is on the floor.
    pub place: Place,
    /// What the truck touches in this tick, in a fixed order.
    pub contacts: Vec<Contact>,
    /// The task as it stands after this tick.
    pub task: TaskMoment,
    /// What happened to the task in this tick, in order.
    pub events: Vec<CourseEvent>,
    /// The rider.
    pub rider: RiderMoment,
    /// What the rider can see.
    pub sight: SightMoment,
    /// What is on the forks and what fell off.
    pub load: LoadMoment,
    /// People on foot, in the order of the course; those only that are there.
    pub people: Vec<PersonMoment>,
    /// Other trucks, in the order of the course; those only that are there.
    pub others: Vec<OtherMoment>,
    /// Stop lines, yield lines and blind spots that lie before the leading end or are just crossed.
    pub ways: Vec<WayMoment>,
    /// Every crossing of people's way and the trucks', in the order of the course.
    pub crossings: Vec<CrossingMoment>,
    /// Every dock, in the order of the course.
    pub docks: Vec<DockMoment>,
    /// The walk-round, where the drive began with one.
    pub walk: Option<Walk>,
}

/// The rider in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RiderMoment {
    /// On the platform.
    pub aboard: bool,
    /// Where the head is turned, rad from the truck's +x axis, left positive, -pi to pi.
    pub head: f64,
    /// Angle between where the head is turned and where the truck goes, rad, 0 to pi; 0 at rest.
    pub off_path: f64,
    /// Room over the rider under the lowest beam over the platform, m; negative when the beam is
    /// lower than the rider. None where there is no beam.
    pub headroom: Option<f64>,
    /// Something solid near the platform, the rider's limbs or the tiller.
    pub body_gap: Option<BodyGap>,
    /// Off the platform: where the rider has stepped down, and stays.
    pub off: Option<OffMoment>,
}

/// A rider beside the truck or away from it, in one tick. Nobody walks here: who steps down stays there,
/// and what lies between the two comes of the truck rolling on or being pushed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OffMoment {
    /// Where the rider stepped down, yard frame, m.
    pub at: Vec2,
    /// Clear distance from there to truck and load, m; 0 beside it.
    pub away: f64,
    /// Some of the truck can be seen from there.
    pub in_view: bool,
}

/// The nearest solid thing beside the rider.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BodyGap {
    /// Clear distance, m.
    pub gap: f64,
    /// Speed with which the gap closes, m/s; negative when it opens.
    pub closing: f64,
}

/// What the rider can see in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SightMoment {
    /// How far ahead of the leading end the way is seen to be clear, m. As long as was looked
    /// along when all of it is clear.
    pub clear_ahead: f64,
    /// Distance in which the truck stops from its present speed with the brake, without any time
    /// to react, m.
    pub braking: f64,
    /// The load on the forks hides the way ahead.
    pub load_hides: bool,
}

/// What is carried, and what became of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LoadMoment {
    /// Pallets on the forks.
    pub pallets: u32,
    /// Their mass, kg.
    pub mass: f64,
    /// What the truck's plate allows, kg.
    pub capacity: f64,
    /// Side acceleration from which something slides or rocks now, m/s^2; None with empty forks.
    pub holds_sideways: Option<f64>,
    /// The farthest that anything has slid on what is under it, m.
    pub slid: f64,
    /// Cases that have fallen since the start.
    pub cases_off: u32,
    /// What happened to the load in this tick.
    pub events: Vec<LoadEvent>,
    /// The forks would be raised, but what stands on them is over the capacity.
    pub refused: Option<f64>,
    /// A pallet on the floor is being pushed by the forks or the truck: its index in the course,
    /// and how far since it last lay still, m.
    pub pushed: Option<(u32, f64)>,
    /// A wheel runs over a fallen case.
    pub ran_over: bool,
    /// Grade in the direction of +x under the truck, rise over way; 0 on the level.
    pub grade: f64,
}

/// Someone on foot in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PersonMoment {
    /// Index among the people of the course.
    pub person: u32,
    /// Middle, yard frame, m.
    pub at: Vec2,
    /// Velocity, m/s.
    pub velocity: Vec2,
    /// First tick of the present time in the rider's sight; None while hidden.
    pub seen_since: Option<Tick>,
    /// First tick in sight of the whole drive.
    pub first_seen: Option<Tick>,
    /// Clear distance to truck and load, m; 0 when they touch.
    pub gap: f64,
    /// Time to collision, s; None when they do not close in.
    pub time_to_collision: Option<f64>,
    /// Speed of the truck's nearest point relative to the person, m/s.
    pub passing_speed: f64,
    /// Speed of the truck's nearest point over the floor, m/s.
    pub place_speed: f64,
    /// Has stepped out in front of the truck since this tick.
    pub stepped_out: Option<Tick>,
    /// How far the truck has moved since it touches this person, m; 0 while they are apart.
    pub pushed: f64,
}

/// Another truck in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OtherMoment {
    /// Index among the other trucks of the course.
    pub other: u32,
    /// Middle and heading.
    pub pose: Pose,
    /// Speed along its heading, m/s.
    pub speed: f64,
    /// Clear distance to truck and load, m.
    pub gap: f64,
    /// First tick of the present time in the rider's sight; None while hidden.
    pub seen_since: Option<Tick>,
    /// It has just set off or turned in, since this tick: a surprise.
    pub set_off: Option<Tick>,
    /// Distance from the leading end to it along the truck's way, m, where it is on that way and
    /// ahead.
    pub ahead: Option<f64>,
    /// It comes towards the truck (true) or goes the same way (false), where it is ahead.
    pub oncoming: bool,
}

/// A line across the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WayKind {
    /// Stop before it.
    Stop,
    /// Slow down and look both ways.
    Yield,
    /// Something hidden may come from the side.
    Blind,
}

/// One line that matters to the way ahead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WayMoment {
    /// What it asks for.
    pub kind: WayKind,
    /// Index in the course's lines, or in its blind spots.
    pub index: u32,
    /// Distance from the leading end to the line, m; negative just behind it.
    pub ahead: f64,
    /// The leading end went over it in this tick, the way that counts.
    pub crossed: bool,
    /// Speed of the middle of the leading end, m/s: in a turn it may be twice that of the truck.
    pub speed: f64,
    /// Whether the rider looks to where someone would come from, on the left and on the right.
    pub looked: [bool; 2],
}

/// A crossing of people's way and the trucks'.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CrossingMoment {
    /// Index in the course.
    pub crossing: u32,
    /// Some part of the truck or load is on it.
    pub truck_on: bool,
    /// Someone is on it, or within 1 m of stepping on.
    pub wanted: bool,
    /// Last tick in which someone on it was in the truck's own way.
    pub in_the_way: Option<Tick>,
    /// Whether the rider looks to where someone would come from, on the left and on the right.
    pub looked: [bool; 2],
}

/// A dock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DockMoment {
    /// Index in the course.
    pub dock: u32,
    /// Some wheel is on the plate or behind it.
    pub truck_on: bool,
    /// What was looked at of it, and what was said.
    pub inspected: Inspected,
}

/// The truck in one tick; by default it is at rest at the origin, its arm upright.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TruckMoment {
    /// Middle of the load axle, and heading (+x points to the power unit).
    pub pose: Pose,
    /// Middle of the rider's platform in the yard, m.
    pub platform_in_yard: Vec2,
    /// The end that leads when going power unit first, m, yard frame: middle of the nose.
    pub nose_in_yard: Vec2,
    /// Middle between the fork tips, m, yard frame.
    pub tips_in_yard: Vec2,
    /// Speed of the load axle's middle along +x, m/s; negative goes forks first.
    pub speed: f64,
    /// Yaw rate, rad/s, counter-clockwise.
    pub yaw_rate: f64,
    /// Acceleration along +x of the centre of mass, m/s^2, mean of this tick.
    pub accel_long: f64,
    /// Acceleration along +y of the centre of mass, m/s^2, mean of this tick (centripetal counted).
    pub accel_side: f64,
    /// Acceleration of the drive wheel along its heading, m/s^2, mean of this tick: what motor and brakes do
    /// to the truck, without what it does by being turned.
    pub accel_wheel: f64,
    /// Drive wheel angle, rad, left positive.
    pub steer: f64,
    /// Its rate, rad/s.
    pub steer_rate: f64,
    /// Tiller arm: 0 upright to pi/2 level, rad.
    pub arm: f64,
    /// Which part of its arc it is in.
    pub arm_zone: ArmZone,
    /// The service brake is on.
    pub braking: bool,
    /// The motor brakes against the motion because the throttle asks for the other direction.
    pub plugging: bool,
    /// High speed is in effect.
    pub high_speed_on: bool,
    /// Fork height over lowered, m.
    pub fork_height: f64,
    /// Side the rider stands on, or is stepping to.
    pub stance: Side,
    /// The rider is between the two sides.
    pub stepping: bool,
    /// The tiller is being swung by arm strength alone, from the wrong side for this turn.
    pub arm_strength: bool,
    /// Torque at the tiller while it is being swung by arm strength, N m; 0 otherwise.
    pub arm_torque: f64,
    /// The drive wheel slides or spins.
    pub drive_wheel_slips: bool,
    /// A load wheel slides sideways.
    pub load_wheels_slip: bool,
    /// Loads on drive wheel, left and right load wheel, N.
    pub wheel_loads: [f64; 3],
    /// The horn sounds.
    pub horn_sounds: bool,
    /// The truck has tipped over; the run ends.
    pub tipped: bool,
    /// A battery that nothing held has slid; the run ends.
    pub battery_slid: bool,
}

/// Two things touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// What the truck touches.
    pub with: Touched,
    /// Speed with which the truck's outline moves into it at that place, m/s, before the contact
    /// pushed back; 0 when it only rests there.
    pub closing_speed: f64,
    /// Only the load on the forks touches it.
    pub by_load: bool,
}

/// What a truck can touch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Touched {
    /// A cone, by its index in the course.
    Cone(u32),
    /// A rack, wall or parked load, by its index in the course.
    Structure(u32),
    /// Another truck, by its index in the course.
    Other(u32),
    /// A pallet on the floor that the forks do not enter, by its index in the course.
    Pallet(u32),
}

/// The task as it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TaskMoment {
    /// Index of the present step; equal to the number of steps when all is done.
    pub step: u32,
    /// Which end may lead in this step.
    pub travel: Travel,
    /// Index of the gate that is due, in the course's gates.
    pub next_gate: Option<u32>,
    /// Rounds done in this step.
    pub laps_done: u32,
    /// The present step's emergency signal is on since this tick.
    pub signal_since: Option<Tick>,
    /// The brake the signal asks for.
    pub signal_brake: Option<BrakeZone>,
    /// Where the next place to pick from is, yard frame, m.
    pub pick_at: Option<Vec2>,
    /// The present step is a stop at a mark: distance from the leading end to the mark along the
    /// way, m, positive before it.
    pub mark_ahead: Option<f64>,
    /// Everything is done.
    pub done: bool,
    /// The task can no longer be done (a gate missed or driven the wrong way).
    pub failed: bool,
}

/// What happened to the task.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CourseEvent {
    /// The gate that was due was driven through as asked.
    GatePassed {
        /// Index into the course's gates.
        gate: u32,
    },
    /// A gate of this step was driven through against its direction.
    GateWrongWay {
        /// Index into the course's gates.
        gate: u32,
    },
    /// A later gate of this step was driven through before the one that was due.
    GateMissed {
        /// Index of the gate that was due.
        gate: u32,
    },
    /// A round is complete.
    LapDone {
        /// Rounds done so far in this step, this one counted.
        laps: u32,
    },
    /// The emergency signal came on.
    SignalOn,
    /// The truck came to rest after the emergency signal.
    EmergencyStopped {
        /// Metres of the load axle from signal to rest.
        distance: f64,
        /// Seconds from the signal until the arm was in a brake zone; None when it never was.
        reaction_s: Option<f64>,
        /// The zone in which it was braked.
        used: Option<BrakeZone>,
    },
    /// The truck came to rest in a step that asks for a stop at a mark.
    StoppedAtMark {
        /// How far the leading end is from the mark, m; positive when short of it.
        short_by: f64,
        /// Within the step's tolerance.
        within: bool,
        /// The step's tolerance, m.
        tolerance: f64,
    },
    /// The truck has stood in the box as asked.
    Parked,
    /// The pallet is on the forks.
    PickedUp {
        /// Its index in the course.
        pallet: u32,
    },
    /// A pallet was set down where a step asks for one.
    SetDown {
        /// Index of the bay.
        bay: u32,
        /// Distance of its middle from the bay's, m.
        off: f64,
        /// Angle to the bay's, rad.
        turned: f64,
    },
    /// Stepped off and on again at a place to pick from.
    Picked {
        /// Its index in the course.
        stop: u32,
    },
    /// All checks of a dock were made, or a false one was reported.
    DockChecked {
        /// Its index in the course.
        dock: u32,
        /// Something false was reported.
        refused: bool,
    },
    /// The truck was taken or tagged out.
    WalkRoundDone,
    /// A step is complete.
    StepDone {
        /// Its index.
        step: u32,
    },
    /// All steps are complete.
    TaskDone,
}

impl Moment {
    /// Nothing happens: a truck at rest at the origin. What a session starts from before it looks
    /// at the world for the first time.
    pub fn at_rest() -> Self {
        Self {
            tick: 0,
            controls: Controls::default(),
            acts: Vec::new(),
            truck: TruckMoment::default(),
            outline: Vec::new(),
            place: Place {
                outside_lane: false,
                zone_limit: None,
                surface: Surface::Dry,
                from_hidden: None,
            },
            contacts: Vec::new(),
            task: TaskMoment {
                step: 0,
                travel: Travel::PowerUnitFirst,
                next_gate: None,
                laps_done: 0,
                signal_since: None,
                signal_brake: None,
                pick_at: None,
                mark_ahead: None,
                done: false,
                failed: false,
            },
            events: Vec::new(),
            rider: RiderMoment {
                aboard: true,
                head: 0.0,
                off_path: 0.0,
                headroom: None,
                body_gap: None,
                off: None,
            },
            sight: SightMoment { clear_ahead: 0.0, braking: 0.0, load_hides: false },
            load: LoadMoment::default(),
            people: Vec::new(),
            others: Vec::new(),
            ways: Vec::new(),
            crossings: Vec::new(),
            docks: Vec::new(),
            walk: None,
        }
    }
}

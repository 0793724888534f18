//! A Moment: what is true in one tick. It is the only thing a watcher may look at.
//!
//! Plain data with public fields. The simulation fills it; nothing downstream reaches back.

use crate::controls::{Controls, Side};
use crate::course::{BrakeZone, Surface, Travel};
use crate::finding::Tick;
use crate::math::{Pose, Vec2};
use crate::truck::arm::ArmZone;

/// Everything that is true this tick.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// Number of the tick, 0 for the state at the start before anything was driven.
    pub tick: Tick,
    /// What the rider did in this tick.
    pub controls: Controls,
    /// The truck.
    pub truck: TruckMoment,
    /// Where it is on the floor.
    pub place: Place,
    /// What the truck touches in this tick, in a fixed order.
    pub contacts: Vec<Contact>,
    /// The task as it stands after this tick.
    pub task: TaskMoment,
    /// What happened to the task in this tick, in order.
    pub events: Vec<CourseEvent>,
}

/// The truck in one tick.
#[derive(Clone, Debug, PartialEq)]
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
    /// The truck has tipped over; the run ends.
    pub tipped: bool,
}

/// Where on the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Any of the wheels stands outside the lanes.
    pub outside_lane: bool,
    /// Lowest limit of the speed zones that hold the platform, m/s.
    pub zone_limit: Option<f64>,
    /// Floor under the drive wheel.
    pub surface: Surface,
}

/// Two things touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// What the truck touches.
    pub with: Touched,
    /// Speed with which the truck's outline moves into it at that place, m/s, before the contact
    /// pushed back; 0 when it only rests there.
    pub closing_speed: f64,
}

/// What a truck can touch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Touched {
    /// A cone, by its index in the course.
    Cone(u32),
    /// A rack, wall or parked load, by its index in the course.
    Structure(u32),
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
    },
    /// The truck has stood in the box as asked.
    Parked,
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
            truck: TruckMoment {
                pose: Pose::default(),
                platform_in_yard: Vec2::default(),
                nose_in_yard: Vec2::default(),
                tips_in_yard: Vec2::default(),
                speed: 0.0,
                yaw_rate: 0.0,
                accel_long: 0.0,
                accel_side: 0.0,
                steer: 0.0,
                steer_rate: 0.0,
                arm: 0.0,
                arm_zone: ArmZone::Driving,
                braking: false,
                plugging: false,
                high_speed_on: false,
                fork_height: 0.0,
                stance: Side::Left,
                stepping: false,
                arm_strength: false,
                arm_torque: 0.0,
                drive_wheel_slips: false,
                load_wheels_slip: false,
                wheel_loads: [0.0; 3],
                tipped: false,
            },
            place: Place { outside_lane: false, zone_limit: None, surface: Surface::Dry },
            contacts: Vec::new(),
            task: TaskMoment {
                step: 0,
                travel: Travel::PowerUnitFirst,
                next_gate: None,
                laps_done: 0,
                signal_since: None,
                signal_brake: None,
                mark_ahead: None,
                done: false,
                failed: false,
            },
            events: Vec::new(),
        }
    }
}

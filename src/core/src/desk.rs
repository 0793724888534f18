//! What crosses the desk between the canvas and the pages: plain data as JSON, shared by both so
//! that neither can misread the other. The pages never see the engine, the canvas never sees a
//! page.

use serde::{Deserialize, Serialize};

use crate::checks::list::Aspect;
use crate::controls::{Look, Side};
use crate::course::warehouse::DockCheck;
use crate::course::{BrakeZone, Travel};
use crate::debrief::Ending;
use crate::finding::Finding;
use crate::run::Verdict;
use crate::task::hint::Hint;
use crate::time::Tick;
use crate::truck::arm::ArmZone;

/// What the canvas is doing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mode {
    /// Nothing is open.
    Idle,
    /// A live drive.
    Drive,
    /// A recorded run.
    Replay,
}

/// The dashboard's data, asked for several times a second.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Status {
    /// What is open.
    pub mode: Mode,
    /// The tick that is shown.
    pub tick: Tick,
    /// Last tick of the recording; equal to `tick` in a live drive.
    pub last_tick: Tick,
    /// Standing still because it was asked to.
    pub paused: bool,
    /// Simulated seconds for one second on the wall that were asked for, at most 1 in a live drive.
    pub pace: f64,
    /// Simulated time over the time that should have been simulated, since the start, 0 to 1.
    pub time_ratio: f64,
    /// The live drive is over, and how; None while it goes on, and in a replay.
    pub ending: Option<Ending>,
    /// The truck.
    pub truck: TruckStatus,
    /// The task.
    pub task: TaskStatus,
    /// All findings so far, in order of their first tick.
    pub findings: Vec<Finding>,
    /// The walk-round, while it is the step that is due.
    pub walk: Option<WalkStatus>,
}

/// A walk-round under way. It is told as it looks: who shows it says nothing of what is the matter.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WalkStatus {
    /// For each point of the list the defect by whose name its parts are drawn; None where it is sound.
    pub looks: Vec<Option<u8>>,
    /// What is looked at closer or was tried last.
    pub shown: Option<ShownStatus>,
    /// For each point whether it was looked at or tried for long enough.
    pub done: Vec<bool>,
    /// For each point the code of its answer: 0 is fine, then the severities of the list.
    pub said: Vec<Option<u8>>,
    /// What the hour meter shows, tenths of an hour.
    pub hours: u32,
    /// What was written down of it.
    pub hours_read: Option<u32>,
}

/// What is before the eyes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ShownStatus {
    /// The point.
    pub point: u8,
    /// From which view; None when it was tried.
    pub view: Option<Aspect>,
    /// The defect that shows; None when none does.
    pub defect: Option<u8>,
    /// Looked at or tried for so long, ticks.
    pub ticks: u32,
}

/// The truck on the dashboard. SI units, radians.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TruckStatus {
    /// m/s, positive power unit first.
    pub speed: f64,
    /// Percent, positive power unit first.
    pub throttle: i8,
    /// Drive wheel angle, rad, left positive.
    pub steer: f64,
    /// Arm from upright, rad.
    pub arm: f64,
    /// Part of the arm's arc.
    pub arm_zone: ArmZone,
    /// Service brake on.
    pub braking: bool,
    /// Motor braking by the throttle.
    pub plugging: bool,
    /// Sliding wheels.
    pub slipping: bool,
    /// High speed in effect.
    pub high_speed: bool,
    /// Fork height, m.
    pub forks: f64,
    /// Side of the platform.
    pub stance: Side,
    /// Between the sides.
    pub stepping: bool,
    /// Hands and feet in their places, 0 to 4.
    pub contacts: u8,
    /// Look direction.
    pub look: Look,
    /// Horn sounding.
    pub horn: bool,
    /// Limit of the zone, m/s.
    pub zone_limit: Option<f64>,
    /// The rider is on the platform.
    pub aboard: bool,
    /// The key is on.
    pub key_on: bool,
    /// Where the head is turned, rad from the truck's +x axis, left positive.
    pub head: f64,
    /// Pallets on the forks.
    pub pallets: u32,
    /// Their mass, kg.
    pub load: f64,
    /// What the truck's plate allows, kg.
    pub capacity: f64,
    /// The most that plugging takes off the speed with this load, m/s^2.
    pub plugging_most: f64,
}

/// The task on the dashboard.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TaskStatus {
    /// Present step; equal to `steps` when done.
    pub step: u32,
    /// Number of steps.
    pub steps: u32,
    /// Which end leads.
    pub travel: Travel,
    /// Rounds done in this step.
    pub laps_done: u32,
    /// Index of the gate that is due.
    pub next_gate: Option<u32>,
    /// The emergency signal is on, and asks for this end of the arm's swing.
    pub signal: Option<BrakeZone>,
    /// The step's signal is not on yet, and comes only to who drives over its line at so many m/s.
    pub signal_from: Option<f64>,
    /// m from the leading end to the mark.
    pub mark_ahead: Option<f64>,
    /// m from the platform to the next place to pick from.
    pub pick_away: Option<f64>,
    /// The checks of the dock that the step asks for, in the order of the course; empty otherwise.
    pub dock: Vec<CheckStatus>,
    /// Where the step wants the truck next, m: ahead of the end that leads, and to its left.
    pub toward: Option<[f64; 2]>,
    /// Why the step is not done though the truck stands.
    pub hint: Option<Hint>,
    /// All done.
    pub done: bool,
    /// Can no longer be done.
    pub failed: bool,
}

/// A check at a dock on the dashboard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CheckStatus {
    /// What is checked.
    pub what: DockCheck,
    /// Whether it is as it must be; None until it was looked at for long enough.
    pub is_fine: Option<bool>,
}

/// Lines under the timeline: one value every `every` ticks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Traces {
    /// Ticks from one value to the next.
    pub every: u32,
    /// m/s, positive power unit first.
    pub speed: Vec<f32>,
    /// Percent.
    pub throttle: Vec<f32>,
    /// Arm from upright, degrees.
    pub arm: Vec<f32>,
    /// Drive wheel angle, degrees, left positive.
    pub steer: Vec<f32>,
    /// Where the head is turned, degrees from the truck's +x axis, left positive.
    pub look: Vec<f32>,
    /// Fork height, m.
    pub forks: Vec<f32>,
    /// Path of the platform's middle, yard frame, m.
    pub path: Vec<[f32; 2]>,
}

/// What opening a replay gives the pages.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Opened {
    /// The judge's word.
    pub verdict: Verdict,
    /// Lines for the timeline.
    pub traces: Traces,
    /// Length of the run, ticks.
    pub last_tick: Tick,
    /// Who drove.
    pub who: String,
    /// Course id.
    pub course: String,
}

/// How much of the yard is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sight {
    /// What the rider does not see is dimmed, and people and trucks there are not shown.
    #[default]
    WhatTheRiderSees,
    /// All of it, with an outline around what the rider sees.
    Everything,
}

/// How the yard is shown.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct View {
    /// North stays up; otherwise the yard turns with the truck.
    pub north_up: bool,
    /// Predicted paths of nose and fork tips, stopping distance, lane edges.
    pub helps: bool,
    /// The colours of the dark look.
    pub dark: bool,
    /// How much is shown.
    pub sight: Sight,
    /// What of the picture lies under other things.
    pub covered: Covered,
    /// Metres seen across the picture over the usual: 1 is usual, 2 shows twice as much.
    pub zoom: f64,
    /// All of the yard is shown, north up, instead of what is about the truck.
    pub overview: bool,
}

/// Shares of the picture's height that lie under instruments and controls, 0 to 1: the truck is kept in
/// the middle of what is left.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Covered {
    /// From above.
    pub top: f64,
    /// From below.
    pub bottom: f64,
}

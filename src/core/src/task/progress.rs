//! Follows the task while it is driven: which step, which gate, what has just happened.
//!
//! It sees the truck once a tick and keeps what it needs of the tick before. It judges nothing:
//! whether a stop was good is for the watchers.
//!
//! Gates. The gate that is due counts when the middle of the platform crosses it in its
//! direction. Any other gate of the step is an error when it is crossed within 60 degrees of its
//! normal, so that roads may cross at a gate; driving back over it takes nothing away and adds
//! nothing, so an error can be repaired. The gate that is due stays due. After three errors the
//! task has failed.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::Rng;

use crate::course::{BrakeZone, Course, Gate, Line, Step, StepKind, Travel};
use crate::dice::{Stream, dice};
use crate::geometry::{crossing, in_polygon, rectangle};
use crate::math::{Vec2, cos};
use crate::moment::{CourseEvent, TaskMoment, TruckMoment};
use crate::state;
use crate::state::State;
use crate::state::chain::Chain;
use crate::task::facts::{FORKS_DOWN, Facts, REST_SPEED, REST_TICKS};
use crate::task::handling::{Handling, dock_checked, pick_at};
use crate::task::walk_round::{Goes, reported, walked};
use crate::time::{DT, TICK_RATE, Tick};
use crate::truck::arm::ArmZone;

/// Gate errors after which the task has failed.
pub const ERRORS_THAT_FAIL: u32 = 3;
/// A stop short of the mark by more than this, m, is not yet the stop that the step asks for.
pub const MARK_REACH: f64 = 1.5;
/// How far beside the ends of a mark the leading end may stop, m.
const MARK_SIDE: f64 = 1.0;
/// The truck stands in its box for this many ticks.
const PARKED_TICKS: u32 = TICK_RATE;
/// Faster than this the truck has moved in this step, m/s.
const MOVED_SPEED: f64 = 0.1;

/// The task's state. Equal states go on equally.
#[derive(Clone, Debug, PartialEq)]
pub struct Progress {
    /// Index of the present step.
    step: usize,
    /// Place of the due gate in the step's order.
    due: usize,
    /// Rounds done in this step.
    laps: u32,
    /// Gate that counted last.
    passed: Option<usize>,
    /// For each gate of the course: crossings in its direction less those against it, since it
    /// counted last.
    strays: Vec<i32>,
    /// Gate errors so far.
    errors: u32,
    /// Platform, nose and fork tips in the tick before.
    before: Option<[Vec2; 3]>,
    /// Ticks at rest so far.
    rest: u32,
    /// Load axle's way in this step has begun.
    moved: bool,
    /// Side of the mark on which the leading end was at the start of the step, 1 or -1.
    mark_side: Option<f64>,
    /// How the emergency stop stands.
    emergency: Emergency,
    /// Draws the emergency signals' delays.
    dice: ChaCha8Rng,
    /// Ticks stood in the box as asked.
    parked: u32,
    /// What is handled in this step.
    handling: Handling,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Emergency {
    Waiting,
    Armed { signal_at: Tick },
    On { since: Tick, distance: f64, braked: Option<(Tick, BrakeZone)> },
}

impl Progress {
    /// At the start of a course.
    pub fn new(course: &Course, seed: u64) -> Self {
        Self {
            step: 0,
            due: 0,
            laps: 0,
            passed: None,
            strays: vec![0; course.gates.len()],
            errors: 0,
            before: None,
            rest: 0,
            moved: false,
            mark_side: None,
            emergency: Emergency::Waiting,
            dice: dice(seed, Stream::Task),
            parked: 0,
            handling: Handling::default(),
        }
    }

    /// One tick. The first call hands in the state at the start.
    pub fn tick(&mut self, course: &Course, now: &Facts<'_>) -> (TaskMoment, Vec<CourseEvent>) {
        let mut events = Vec::new();
        let points = [now.truck.platform_in_yard, now.truck.nose_in_yard, now.truck.tips_in_yard];
        let before = self.before.replace(points).unwrap_or(points);
        let speed = now.truck.speed.abs();
        self.rest = if speed <= REST_SPEED { (self.rest + 1).min(REST_TICKS) } else { 0 };
        self.moved |= speed > MOVED_SPEED;
        if self.errors < ERRORS_THAT_FAIL
            && let Some(step) = course.steps.get(self.step)
        {
            let complete = match &step.what {
                StepKind::Gates { gates, laps } => {
                    self.gates(course, gates, *laps, (before[0], points[0]), &mut events)
                }
                StepKind::StopAtMark { line, within_m } => {
                    self.mark(&course.lines[*line], *within_m, step.travel, now, &mut events)
                }
                StepKind::EmergencyStop { trigger, .. } => {
                    let end = usize::from(step.travel == Travel::ForksFirst) + 1;
                    let way = (before[end], points[end]);
                    self.emergency(&course.lines[*trigger], step, way, now, &mut events)
                }
                StepKind::Park { stop_box, leave } => {
                    let area = &course.boxes[*stop_box];
                    let left = !now.key_on && !now.around.aboard;
                    let area = rectangle(area.pose, area.size);
                    self.park(&area, !leave || left, now, &mut events)
                }
                StepKind::PickUp { pallet } => self.handling.pick_up(*pallet, now, &mut events),
                StepKind::SetDown { bay } => {
                    let bay = (*bay, &course.warehouse.bays[*bay]);
                    self.handling.set_down(bay, now, &mut events)
                }
                StepKind::Picks { stops } => {
                    self.handling.pick(stops, &course.warehouse.stops, now, &mut events)
                }
                StepKind::WalkRound { mode } => match walked(*mode, now, &mut events) {
                    Some(Goes::On) => true,
                    Some(Goes::Home) => {
                        self.step = course.steps.len() - 1;
                        true
                    }
                    Some(Goes::Nowhere) => {
                        self.errors = ERRORS_THAT_FAIL;
                        false
                    }
                    None => false,
                },
                StepKind::CheckDock { dock } => {
                    let dock = now.around.docks.iter().find(|d| d.dock as usize == *dock);
                    match dock.and_then(|d| dock_checked(d, &mut events)) {
                        // Who refuses has done all there is to do.
                        Some(true) => {
                            self.step = course.steps.len() - 1;
                            true
                        }
                        Some(false) => true,
                        None => false,
                    }
                }
            };
            // A truck that is rightly said to be bad has done its day, whatever the step.
            let reported = !complete && reported(now);
            if reported {
                self.step = course.steps.len() - 1;
            }
            if complete || reported {
                self.next_step(course, &mut events);
            }
        }
        (self.task(course, now.truck), events)
    }

    /// Sets the truck down elsewhere: the next tick crosses nothing.
    #[cfg(test)]
    pub(crate) fn lift(&mut self) {
        self.before = None;
    }

    fn next_step(&mut self, course: &Course, events: &mut Vec<CourseEvent>) {
        events.push(CourseEvent::StepDone { step: self.step as u32 });
        self.step += 1;
        self.due = 0;
        self.laps = 0;
        self.passed = None;
        self.strays.fill(0);
        self.moved = false;
        self.mark_side = None;
        self.emergency = Emergency::Waiting;
        self.parked = 0;
        self.handling = Handling::default();
        if self.step == course.steps.len() {
            events.push(CourseEvent::TaskDone);
        }
    }

    /// The platform went along `way` in this tick. True when the last round is complete.
    fn gates(
        &mut self,
        course: &Course,
        order: &[usize],
        laps: u32,
        way: (Vec2, Vec2),
        events: &mut Vec<CourseEvent>,
    ) -> bool {
        let due = order[self.due];
        if crossed(&course.gates[due], way) == Some(Sense::Right) {
            events.push(CourseEvent::GatePassed { gate: due as u32 });
            self.passed = Some(due);
            self.strays[due] = 0;
            self.due += 1;
            if self.due == order.len() {
                self.due = 0;
                self.laps += 1;
                events.push(CourseEvent::LapDone { laps: self.laps });
            }
            return self.laps == laps;
        }
        for (i, gate) in course.gates.iter().enumerate() {
            if !order.contains(&i) {
                continue;
            }
            let Some(side) = crossed(gate, way) else {
                continue;
            };
            if i != due && !squarely(gate, way) {
                continue;
            }
            let step = if side == Sense::Right { 1 } else { -1 };
            self.strays[i] += step;
            // Driving back over an error, or to and fro over the gate that has just counted.
            if self.strays[i] * step <= 0 || self.passed == Some(i) {
                continue;
            }
            self.errors += 1;
            events.push(match side {
                Sense::Right => CourseEvent::GateMissed { gate: due as u32 },
                Sense::Wrong => CourseEvent::GateWrongWay { gate: i as u32 },
            });
        }
        false
    }

    fn mark(
        &mut self,
        line: &Line,
        within_m: f64,
        travel: Travel,
        now: &Facts<'_>,
        events: &mut Vec<CourseEvent>,
    ) -> bool {
        let end = leading_end(now.truck, travel);
        let side = *self.mark_side.get_or_insert_with(|| {
            let s = side_of(line, end);
            if s.abs() >= 0.3 {
                return s.signum();
            }
            // It starts on the line: then the way it points decides.
            let ahead = leading_direction(now.truck, travel);
            let s = -(line.to - line.from).cross(ahead);
            if s < 0.0 { -1.0 } else { 1.0 }
        });
        let short_by = side * side_of(line, end);
        if !self.moved || self.rest < REST_TICKS || short_by > MARK_REACH || !beside(line, end) {
            return false;
        }
        events.push(CourseEvent::StoppedAtMark {
            short_by,
            within: short_by.abs() <= within_m,
            tolerance: within_m,
        });
        true
    }

    fn emergency(
        &mut self,
        trigger: &Line,
        step: &Step,
        way: (Vec2, Vec2),
        now: &Facts<'_>,
        events: &mut Vec<CourseEvent>,
    ) -> bool {
        let StepKind::EmergencyStop { min_speed_mps, delay_min_s, delay_max_s, .. } = step.what
        else {
            return false;
        };
        let ahead = match step.travel {
            Travel::PowerUnitFirst => now.truck.speed,
            Travel::ForksFirst => -now.truck.speed,
        };
        let zone = brake_zone(now.truck.arm_zone);
        match &mut self.emergency {
            Emergency::Waiting => {
                let over = crossing(way.0, way.1, trigger.from, trigger.to).is_some();
                if over && ahead >= min_speed_mps && zone.is_none() {
                    let signal_at = now.tick + self.draw_delay(delay_min_s, delay_max_s);
                    self.emergency = Emergency::Armed { signal_at };
                }
                false
            }
            // Stopped or braked before there was anything to stop for: another try.
            Emergency::Armed { .. } if zone.is_some() || self.rest >= REST_TICKS => {
                self.emergency = Emergency::Waiting;
                false
            }
            Emergency::Armed { signal_at } => {
                if now.tick >= *signal_at {
                    events.push(CourseEvent::SignalOn);
                    self.emergency = Emergency::On { since: now.tick, distance: 0.0, braked: None };
                }
                false
            }
            Emergency::On { since, distance, braked } => {
                *distance += ahead.abs() * DT;
                if braked.is_none() {
                    *braked = zone.map(|z| (now.tick, z));
                }
                if self.rest < REST_TICKS {
                    return false;
                }
                events.push(CourseEvent::EmergencyStopped {
                    distance: *distance,
                    reaction_s: braked.map(|(t, _)| f64::from(t - *since) * DT),
                    used: braked.map(|(_, z)| z),
                });
                // A stop without the arm is not what was asked for: another try.
                let with_the_arm = braked.is_some();
                self.emergency = Emergency::Waiting;
                with_the_arm
            }
        }
    }

    fn draw_delay(&mut self, least_s: f64, most_s: f64) -> Tick {
        let rate = f64::from(TICK_RATE);
        let (least, most) = ((least_s * rate).round(), (most_s * rate).round());
        let choices = (most - least) as u64 + 1;
        // The top 32 bits of a 32 by 32 bit product: even to one part in four thousand million.
        let drawn = (u64::from(self.dice.next_u32()) * choices) >> 32;
        least as Tick + drawn as Tick
    }

    /// `left`: the rider has left it, where that is asked for.
    fn park(
        &mut self,
        area: &[Vec2; 4],
        left: bool,
        now: &Facts<'_>,
        events: &mut Vec<CourseEvent>,
    ) -> bool {
        let stands = left
            && now.truck.speed.abs() <= REST_SPEED
            && now.throttle == 0
            && now.truck.fork_height <= FORKS_DOWN
            && now.outline_in_yard.iter().all(|c| in_polygon(*c, area));
        self.parked = if stands { self.parked + 1 } else { 0 };
        if self.parked < PARKED_TICKS {
            return false;
        }
        events.push(CourseEvent::Parked);
        true
    }

    fn task(&self, course: &Course, truck: &TruckMoment) -> TaskMoment {
        let step = course.steps.get(self.step);
        let what = step.map(|s| &s.what);
        let travel = step.or(course.steps.last()).map(|s| s.travel);
        let (signal_since, signal_brake) = match (self.emergency, what) {
            (Emergency::On { since, .. }, Some(StepKind::EmergencyStop { brake, .. })) => {
                (Some(since), Some(*brake))
            }
            _ => (None, None),
        };
        TaskMoment {
            step: self.step as u32,
            travel: travel.unwrap_or(Travel::PowerUnitFirst),
            next_gate: match what {
                Some(StepKind::Gates { gates, .. }) => Some(gates[self.due] as u32),
                _ => None,
            },
            laps_done: self.laps,
            signal_since,
            signal_brake,
            pick_at: match what {
                Some(StepKind::Picks { stops }) => {
                    pick_at(stops, &course.warehouse.stops, self.handling.due)
                }
                _ => None,
            },
            mark_ahead: match (what, step) {
                (Some(StepKind::StopAtMark { line, .. }), Some(step)) => self
                    .mark_side
                    .map(|m| m * side_of(&course.lines[*line], leading_end(truck, step.travel))),
                _ => None,
            },
            done: self.step == course.steps.len(),
            failed: self.errors >= ERRORS_THAT_FAIL,
        }
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Sense {
    Right,
    Wrong,
}

/// Whether a movement crosses a gate, and with its left post on the left hand or not.
fn crossed(gate: &Gate, (from, to): (Vec2, Vec2)) -> Option<Sense> {
    crossing(from, to, gate.left, gate.right)?;
    Some(if (to - from).dot(gate.direction()) > 0.0 { Sense::Right } else { Sense::Wrong })
}

/// Within 60 degrees of the gate's normal.
fn squarely(gate: &Gate, (from, to): (Vec2, Vec2)) -> bool {
    let along = (to - from).normalized().dot(gate.direction());
    along.abs() >= cos(core::f64::consts::FRAC_PI_3)
}

/// Distance of a point from a line without ends, m; positive on its left.
fn side_of(line: &Line, p: Vec2) -> f64 {
    (line.to - line.from).normalized().cross(p - line.from)
}

/// Between the ends of a mark, seen along the way, or not far beside them.
fn beside(line: &Line, p: Vec2) -> bool {
    let along = line.to - line.from;
    let at = (p - line.from).dot(along.normalized());
    (-MARK_SIDE..=along.length() + MARK_SIDE).contains(&at)
}

/// The end of the truck that leads, yard frame.
fn leading_end(truck: &TruckMoment, travel: Travel) -> Vec2 {
    match travel {
        Travel::PowerUnitFirst => truck.nose_in_yard,
        Travel::ForksFirst => truck.tips_in_yard,
    }
}

fn leading_direction(truck: &TruckMoment, travel: Travel) -> Vec2 {
    let ahead = Vec2::from_angle(truck.pose.heading);
    match travel {
        Travel::PowerUnitFirst => ahead,
        Travel::ForksFirst => -ahead,
    }
}

fn brake_zone(zone: ArmZone) -> Option<BrakeZone> {
    match zone {
        ArmZone::UpperBrake => Some(BrakeZone::Upper),
        ArmZone::Driving => None,
        ArmZone::LowerBrake => Some(BrakeZone::Lower),
    }
}

impl State for Emergency {
    fn digest(&self, chain: &mut Chain) {
        match self {
            Self::Waiting => 0_u32.digest(chain),
            Self::Armed { signal_at } => (1_u32, *signal_at).digest(chain),
            Self::On { since, distance, braked } => {
                (2_u32, *since).digest(chain);
                distance.digest(chain);
                braked.map(|(tick, zone)| (tick, zone as u32)).digest(chain);
            }
        }
    }
}

state!(Progress {
    step,
    due,
    laps,
    passed,
    strays,
    errors,
    before,
    rest,
    moved,
    mark_side,
    emergency,
    dice,
    parked,
    handling,
});

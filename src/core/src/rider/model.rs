//! The rider that makes no mistake, and with other habits the ones that do.
//!
//! From rest: plan the way to the next stop, stand on the right side for its first turn, sound the
//! horn, and drive. While driving: keep the load axle on the planned track, at the planned speed,
//! step across at a crawl where the turns change sides, and answer an emergency signal with the
//! arm. At the end of the track: stop by plugging and let go before the truck runs back.

use super::Rider;
use super::habits::{Habits, Stepping, Stopping};
use super::handling;
use super::hands::{BEAT, Hands};
use super::inspecting::Round;
use super::route::{End, Ground, Plan};
use super::speed::{CRAWL, STOPPING};
use super::track::steer_for;
use super::wits::Wits;
use crate::acts::Input;
use crate::controls::{ArmAsk, Controls, Look};
use crate::course::{BrakeZone, Course, StepKind};
use crate::math::{Vec2, wrap_angle};
use crate::moment::Moment;
use crate::rules::SiteRules;
use crate::time::{DT, TICK_RATE, Tick};
use crate::truck::arm::ArmZone;
use crate::truck::spec::TruckSpec;

/// Slower than this the truck stands, m/s.
const STANDS: f64 = 0.05;
/// Standing for so long, ticks, counts as having stopped.
const STOPPED: u32 = 40;
/// The horn is held for so long, ticks.
const HORN: u32 = 24;
/// Distance over which the hands bring the axle back onto the track, m.
const CATCH_UP: f64 = 1.1;
/// The hands look so far ahead, s: about what tiller and motor need to follow.
const TILLER_AHEAD: f64 = 0.2;
const THROTTLE_AHEAD: f64 = 0.3;
/// At this speed the rest of a stop is left to coasting, m/s.
const LET_GO: f64 = 0.13;
/// Part of the way before the end from which the stop is steered by what is left, m.
const STOP_WITHIN: f64 = 4.0;
/// Those who let go too late run back with so much throttle, percent.
const RUN_BACK_THROTTLE: f64 = 16.0;
/// Those who look aside begin so far along the way, m.
const LOOKS_AWAY_FROM: f64 = 6.0;
/// Those who step off early do so this far before the place, m.
const STEPS_OFF_AT: f64 = 0.4;
/// A highest speed below this is not worth moving off for, m/s.
const GOES_ON: f64 = 0.35;
/// A place to step across is reached so far before it, m.
const NEARLY_THERE: f64 = 0.12;
/// Ticks for which those who snatch hold full throttle.
const SNATCH: u32 = 24;

/// What the rider is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Doing {
    /// Standing, to think about the way.
    Planning,
    /// Standing, with a plan: feet, forks and horn. The horn was pressed so many ticks ago.
    Preparing { horn: u32 },
    /// On the way since this tick.
    Driving { since: Tick },
    /// The emergency signal is on.
    Braking,
    /// The stop is made; wait until the truck stands and the arm can be held again.
    Standing,
    /// In the box: forks down.
    Parking,
    /// Standing, to handle a pallet, to pick or to check, since this tick.
    Handling { since: Tick },
}

/// A rider with a plan.
pub(super) struct Model {
    course: Course,
    truck: TruckSpec,
    habits: Habits,
    speed_limit: f64,
    hands: Hands,
    doing: Doing,
    plan: Option<Plan>,
    /// Where on the plan.
    at: usize,
    /// Crossings of the plan that are done.
    crossed: usize,
    /// Step that was present when the plan was made.
    step: u32,
    /// For how long the rider has looked aside, s, by those who do.
    looked_away: f64,
    /// Since when it has been time to step across.
    due_since: Option<Tick>,
    /// The stop was for something on the way: the plan still holds.
    goes_on: bool,
    /// What the rider has in mind of what is around.
    wits: Wits,
    /// For how many ticks the truck has stood.
    still: u32,
    /// Has driven off once.
    started: bool,
    /// Has backed up, by those who do.
    backed_up: bool,
    /// How far it ran back at the first mark, by those who let it, m.
    ran_back: Option<f64>,
    /// The walk-round.
    round: Round,
    /// What the rider does now; the next tick changes what it must.
    controls: Controls,
}

impl Model {
    pub(super) fn new(
        course: &Course,
        truck: &TruckSpec,
        rules: &SiteRules,
        habits: Habits,
    ) -> Self {
        Self {
            course: course.clone(),
            truck: truck.clone(),
            habits,
            speed_limit: rules.speed_limit.value,
            hands: Hands::default(),
            doing: Doing::Planning,
            plan: None,
            at: 0,
            crossed: 0,
            step: 0,
            looked_away: 0.0,
            due_since: None,
            goes_on: false,
            wits: Wits::default(),
            still: STOPPED,
            started: false,
            backed_up: false,
            ran_back: None,
            round: Round::default(),
            controls: Controls { stance: course.spawn_stance, ..Controls::default() },
        }
    }

    fn make_plan(&mut self, m: &Moment) {
        if self.habits.checks_docks && handling::stands_for(&self.course, m) {
            self.step = m.task.step;
            self.doing = Doing::Handling { since: m.tick };
            return;
        }
        let ground = Ground {
            course: &self.course,
            truck: &self.truck,
            habits: &self.habits,
            speed_limit: self.speed_limit,
        };
        let step = m.task.step as usize;
        let backs_up = self.habits.backs_up.filter(|(s, _)| *s == step && !self.backed_up);
        self.plan = match backs_up {
            Some((_, metres)) => {
                self.backed_up = true;
                Some(ground.back_up(m.truck.pose, metres))
            }
            None => ground.plan(m.truck.pose, &m.task, m.load.pallets),
        };
        (self.at, self.crossed, self.step) = (0, 0, m.task.step);
        self.doing =
            if self.plan.is_some() { Doing::Preparing { horn: 0 } } else { Doing::Planning };
    }

    /// At rest with a plan: what has to be done before moving off.
    fn prepare(&mut self, m: &Moment, plan: &Plan, horn: u32) {
        if let Some(height) = self.habits.forks_to
            && m.truck.fork_height < height
        {
            self.controls.forks_up = true;
            return;
        }
        self.controls.forks_up = false;
        if self.habits.forks_to.is_some_and(|height| m.truck.fork_height > height + 0.002) {
            self.controls.forks_down = true;
            return;
        }
        if self.habits.forks_to.is_none()
            && let Some(up) = handling::forks(m, plan.end, self.habits.enters_at)
        {
            (self.controls.forks_up, self.controls.forks_down) = (up, !up);
            return;
        }
        let (s, _) = self.find(m, plan);
        let mind = self.wits.mind(m, &self.course, (plan, s), &self.habits, true);
        if self.habits.looks {
            self.controls.look = mind.look;
        }
        if mind.speed_most < GOES_ON {
            // A horn sounded before a wait is forgotten when it is over.
            self.doing = Doing::Preparing { horn: 0 };
            return;
        }
        if let Some(side) =
            plan.crossings.iter().rev().find(|c| c.s - NEARLY_THERE <= s.max(0.0)).map(|c| c.to)
            && self.habits.stepping != Stepping::Never
        {
            self.controls.stance = side;
            if m.truck.stance != side || m.truck.stepping {
                return;
            }
        }
        if horn == 0 && f64::from(self.still) * DT < self.habits.ponders_s {
            return;
        }
        let waits = self.habits.horn_then_waits.unwrap_or(0.0);
        self.controls.horn = self.habits.horn_then_waits.is_some() && horn < HORN;
        self.doing = if horn < HORN + (waits / DT) as u32 {
            Doing::Preparing { horn: horn + 1 }
        } else {
            Doing::Driving { since: m.tick }
        };
    }

    /// While the emergency signal is on: the arm after the time to react, and straight on.
    fn brake(&mut self, m: &Moment, plan: &Plan, since: Tick) {
        let (s, aside) = self.find(m, plan);
        if m.tick.is_multiple_of(BEAT) {
            self.steer(m, plan, s, aside, plan.direction * m.truck.speed);
        }
        let waited = f64::from(m.tick.saturating_sub(since)) * DT;
        if waited >= self.habits.reaction_s {
            self.hands.neutral();
            let lower = m.task.signal_brake == Some(BrakeZone::Lower);
            let lower = lower != self.habits.other_brake;
            self.controls.arm = if lower { ArmAsk::PushDown } else { ArmAsk::LetGo };
        }
    }

    /// Moves `at` on to the sample nearest to the axle; returns the way along the track, m, and how
    /// far to the left of it the axle is, m.
    fn find(&mut self, m: &Moment, plan: &Plan) -> (f64, f64) {
        let axle = m.truck.pose.at;
        let last = plan.samples.len() - 1;
        let off = |i: usize| (plan.samples[i].axle.at - axle).length();
        while self.at < last && off(self.at + 1) <= off(self.at) {
            self.at += 1;
        }
        let here = &plan.samples[self.at];
        let from = axle - here.axle.at;
        let ahead = Vec2::from_angle(here.axle.heading);
        (here.s + from.dot(ahead), ahead.cross(from))
    }

    fn drive(&mut self, m: &Moment, plan: &Plan, since: Tick) {
        let speed = plan.direction * m.truck.speed;
        let (s, aside) = self.find(m, plan);
        let still = self.still >= STOPPED / 2;
        let mind = self.wits.mind(m, &self.course, (plan, s), &self.habits, still);
        if self.habits.looks {
            self.controls.look = mind.look;
        }
        if self.looked_away < self.habits.looks_away_s && s > LOOKS_AWAY_FROM {
            self.looked_away += DT;
            self.controls.look = Look::Right;
        }
        self.controls.horn = mind.horn;
        if mind.brake {
            self.hands.neutral();
            self.controls.arm = ArmAsk::LetGo;
            if self.habits.looks {
                // What is braked for lies ahead.
                self.controls.look = if plan.direction < 0.0 { Look::Behind } else { Look::Ahead };
            }
            (self.doing, self.goes_on) = (Doing::Standing, true);
            return;
        }
        self.step_across(m, plan, s, speed);
        if !m.tick.is_multiple_of(BEAT) {
            return;
        }
        let left = plan.samples[plan.samples.len() - 1].s - s;
        if self.habits.steps_off_below.is_some_and(|most| speed < most)
            && plan.end == End::Handling
            && left < STEPS_OFF_AT
        {
            self.hands.neutral();
            self.doing = Doing::Handling { since: m.tick };
            return;
        }
        self.steer(m, plan, s, aside, speed);
        let driven = m.tick.saturating_sub(since);
        if let Some(throttle) = self.habits.snatches
            && !self.started
            && driven < SNATCH
        {
            self.hands.throttle = throttle * plan.direction;
            return;
        }
        self.started = true;
        if !self.stops_with_arm(plan, left, speed) && !self.runs_back(plan, left, speed) {
            self.pace(m, plan, (s, left), speed, mind.speed_most * self.habits.hurries);
        }
        if self.still < STOPPED || driven < TICK_RATE {
            return;
        }
        self.doing = match plan.end {
            End::Box if left < 0.3 => Doing::Parking,
            End::Handling if left < 0.3 => Doing::Handling { since: m.tick },
            _ if left < 0.3 => Doing::Planning,
            _ => Doing::Preparing { horn: 0 },
        };
    }

    fn steer(&mut self, m: &Moment, plan: &Plan, s: f64, aside: f64, speed: f64) {
        let here = plan.sample_at(s);
        let ahead = plan.sample_at(s + speed.max(0.0) * TILLER_AHEAD);
        let motion = if plan.direction < 0.0 {
            m.truck.pose.heading + core::f64::consts::PI
        } else {
            m.truck.pose.heading
        };
        let turned = wrap_angle(motion - here.axle.heading);
        let off = aside - self.keeps_aside(plan, s);
        let curvature = ahead.curvature - 1.8 * turned / CATCH_UP - off / (CATCH_UP * CATCH_UP);
        let angle = steer_for(curvature.clamp(-1.0, 1.0), plan.direction, &self.truck);
        self.hands.steer(angle, m, &self.truck);
    }

    /// A rider's own line beside the planned one; back on it where precision counts.
    fn keeps_aside(&self, plan: &Plan, s: f64) -> f64 {
        let left = plan.samples[plan.samples.len() - 1].s - s;
        let share = (s / 4.0).min(left / 6.0).clamp(0.0, 1.0);
        self.habits.aside * share
    }

    fn pace(&mut self, m: &Moment, plan: &Plan, (s, left): (f64, f64), speed: f64, most: f64) {
        let rise = self.habits.throttle_rise;
        let (direction, truck) = (plan.direction, &self.truck);
        let ahead = plan.sample_at(s + speed.max(0.1) * THROTTLE_AHEAD);
        let mut wanted_speed = ahead.speed;
        if m.truck.stepping && self.habits.stepping == Stepping::AtCrawl {
            wanted_speed = wanted_speed.min(CRAWL);
        }
        if self.overdue(plan, s) {
            wanted_speed = wanted_speed.min(0.8 * CRAWL);
        }
        let room = left - speed.max(0.0) * 0.06;
        let needed = speed * speed / (2.0 * room.max(0.02));
        if left < STOP_WITHIN && needed > 0.8 * STOPPING {
            if speed < LET_GO {
                self.hands.neutral();
            } else {
                self.hands.accelerate(-needed.min(1.5), speed, direction, 2.0 * rise, m, truck);
            }
            return;
        }
        if left < 0.03 {
            self.hands.neutral();
            return;
        }
        if most < wanted_speed {
            // Slower than planned, for what is around: down to rest when it asks for that.
            if most < LET_GO && speed < LET_GO {
                self.hands.neutral();
            } else {
                let wanted = (1.5 * (most - speed)).clamp(-1.3, 0.6);
                self.hands.accelerate(wanted, speed, direction, rise, m, truck);
            }
            self.controls.high_speed = false;
            return;
        }
        let slope = (ahead.speed - plan.sample_at(s).speed) / THROTTLE_AHEAD;
        let wanted = (0.7 * slope.max(-STOPPING) + 1.2 * (wanted_speed - speed)).clamp(-1.2, 0.8);
        // Creep on when the last bit of a stop came too early.
        let wanted = if left > 0.25 && speed < 0.1 { wanted.max(0.15) } else { wanted };
        self.hands.accelerate(wanted, speed, direction, rise, m, truck);
        let full = self.hands.throttle >= 100.0 && speed < wanted_speed;
        self.controls.high_speed = self.habits.high_speed && full;
    }

    /// The step in hand ends with leaving the truck.
    fn leaves(&self, m: &Moment) -> bool {
        let step = self.course.steps.get(m.task.step as usize);
        matches!(step.map(|s| &s.what), Some(StepKind::Park { leave: true, .. }))
    }

    /// A crossing lies behind and the feet have not moved yet.
    fn overdue(&self, plan: &Plan, s: f64) -> bool {
        self.habits.stepping == Stepping::AtCrawl
            && plan.crossings.get(self.crossed).is_some_and(|c| s > c.s)
    }

    fn step_across(&mut self, m: &Moment, plan: &Plan, s: f64, speed: f64) {
        let Some(next) = plan.crossings.get(self.crossed) else { return };
        if next.s <= 0.0 {
            self.crossed += 1;
            return;
        }
        let slow_enough = match self.habits.stepping {
            Stepping::AtCrawl => speed < self.habits.steps_below,
            Stepping::Rolling => true,
            Stepping::Never => return,
        };
        if s > next.s - NEARLY_THERE && slow_enough && !m.truck.stepping {
            let since = *self.due_since.get_or_insert(m.tick);
            if f64::from(m.tick - since) * DT < self.habits.steps_late {
                return;
            }
            self.controls.stance = next.to;
            self.crossed += 1;
            self.due_since = None;
        }
    }

    /// The bad habit of braking with the arm at a mark. True while it is at work.
    fn stops_with_arm(&mut self, plan: &Plan, left: f64, speed: f64) -> bool {
        let Stopping::Arm(from) = self.habits.stopping else { return false };
        if plan.end != End::Mark {
            return false;
        }
        if left < STOP_WITHIN && (0.8 * from..=from).contains(&speed) {
            self.hands.neutral();
            self.controls.arm = ArmAsk::LetGo;
            self.doing = Doing::Standing;
        }
        self.doing == Doing::Standing
    }

    /// The bad habit of holding the throttle against the motion until it drives off the other way.
    /// True while it is at work.
    fn runs_back(&mut self, plan: &Plan, left: f64, speed: f64) -> bool {
        let Stopping::PluggingTooLong(runs_back) = self.habits.stopping else { return false };
        if plan.end != End::Mark || self.step > 0 {
            return false;
        }
        let against = self.hands.throttle * plan.direction < 0.0;
        let back = match self.ran_back {
            Some(back) => back + (-speed).max(0.0) * DT * f64::from(BEAT),
            None if left < 1.0 && speed < 0.3 && against => 0.0,
            None => return false,
        };
        self.ran_back = Some(back);
        if back < runs_back {
            self.hands.throttle = -RUN_BACK_THROTTLE * plan.direction;
        } else {
            self.hands.neutral();
            self.doing = Doing::Standing;
        }
        true
    }
}

impl Rider for Model {
    fn ride(&mut self, m: &Moment) -> Input {
        if let Some(input) = self.round.go(m, self.habits.inspects) {
            return input;
        }
        self.still = if m.truck.speed.abs() <= STANDS { self.still + 1 } else { 0 };
        let stands = self.still >= STOPPED;
        let plan = self.plan.take();
        if !matches!(self.doing, Doing::Driving { .. } | Doing::Braking) {
            self.hands.hold_tiller();
        }
        (self.controls.horn, self.controls.forks_down) = (false, false);
        self.controls.forks_up &= self.habits.forks_to.is_some();
        self.controls.aboard = true;
        let mut acts = Vec::new();
        match (self.doing, &plan) {
            _ if m.task.done || m.task.failed => self.hands.neutral(),
            (_, Some(plan)) if let Some(since) = m.task.signal_since => {
                self.doing = Doing::Braking;
                self.brake(m, plan, since);
            }
            (Doing::Driving { .. }, Some(plan)) if self.step != m.task.step && stops(plan.end) => {
                self.hands.neutral();
                self.doing = Doing::Standing;
            }
            (Doing::Driving { since }, Some(plan)) => self.drive(m, plan, since),
            (Doing::Preparing { horn }, Some(plan)) => {
                self.hands.neutral();
                self.prepare(m, plan, horn);
            }
            (Doing::Parking, _) => {
                self.hands.neutral();
                let down = m.truck.fork_height <= 0.0;
                self.controls.forks_down = !down;
                if down && self.leaves(m) {
                    (self.controls.key_on, self.controls.aboard) = (false, false);
                }
            }
            (Doing::Handling { since }, _) => {
                self.hands.neutral();
                let looks = (self.habits.looks_at_check / DT) as Tick;
                if m.task.step != self.step
                    || handling::handle(
                        &self.course,
                        m,
                        since,
                        looks,
                        (&mut self.controls, &mut acts),
                    )
                {
                    self.doing = Doing::Planning;
                }
            }
            (Doing::Braking, _) => self.doing = Doing::Standing,
            (Doing::Standing, _) => {
                self.hands.neutral();
                if stands {
                    self.controls.arm = ArmAsk::Hold;
                }
                if stands && m.truck.arm_zone == ArmZone::Driving {
                    let goes_on = core::mem::take(&mut self.goes_on) && m.task.step == self.step;
                    self.doing =
                        if goes_on { Doing::Preparing { horn: 0 } } else { Doing::Planning };
                }
            }
            _ => {
                self.hands.neutral();
                self.make_plan(m);
            }
        }
        self.plan = self.plan.take().or(plan);
        self.hands.put_on(&mut self.controls);
        Input { controls: self.controls, acts }
    }
}

/// Whether a track that ends so ends with a step of the task.
fn stops(end: End) -> bool {
    matches!(end, End::Mark | End::Signal)
}

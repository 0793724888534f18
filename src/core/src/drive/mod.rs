//! One drive, tick by tick: controls in, a moment out, and everything recorded on the way.

mod judged;
#[cfg(test)]
mod tests;

pub use judged::JudgingBy;

use std::sync::Arc;

use crate::acts::{ACTS_MOST, Act, Done, Input};
use crate::course::Travel;
use crate::debrief::{Debrief, Ending};
use crate::finding::Finding;
use crate::math::{Pose, Vec2};
use crate::moment::Moment;
use crate::outside::BadInput;
use crate::rules::over;
use crate::run::file::{FORMAT, SIMULATION};
use crate::run::format_1;
use crate::run::{DriveSetup, FULL_PACE, Run, Span, TICKS_MOST, record};
use crate::score::Judge;
use crate::state::State;
use crate::state::chain::{Chain, Digest};
use crate::task::Progress;
use crate::task::facts::{Around, Facts};
use crate::time::{TICK_RATE, Tick};
use crate::yard::contacts::Contacts;
use crate::yard::frame::{ConeFrame, Frame};
use crate::yard::{Setting, Yard};

/// A drive in progress; `C` moves what the truck pushes.
pub struct Drive<C> {
    setup: DriveSetup,
    yard: Yard<C>,
    outline: Vec<Vec2>,
    /// Of this tick: the outline, and pallets on the floor with their index in the course.
    outline_in_yard: Vec<Vec2>,
    floor: Vec<(u32, Pose)>,
    progress: Progress,
    judge: Judge,
    chain: Chain,
    /// Version of the file that the digests are of.
    format: u32,
    spans: Vec<Span>,
    acts: Vec<Done>,
    digests: Vec<Digest>,
    moment: Moment,
    cones: Arc<[ConeFrame]>,
    ending: Option<Ending>,
    time_limit: Tick,
    /// The drive ends when the truck has pushed someone farther than this, m.
    struck_from: Option<f64>,
}

impl<C: Contacts> Drive<C> {
    /// Sets the yard up at the start of a drive.
    ///
    /// # Errors
    /// One sentence with the file and the place that cannot be used.
    pub fn new(setup: &DriveSetup) -> Result<Self, BadInput> {
        Ok(Self::of(setup, Setting::open(setup)?))
    }

    /// The same in a setting that was read from the set-up, and may have been changed since.
    pub fn of(setup: &DriveSetup, setting: Setting) -> Self {
        let seed = u64::from(setup.seed);
        let (course, truck) = (&setting.course, &setting.truck);
        let progress = Progress::new(course, seed);
        let judge = Judge::new(course, &setting.rules, truck);
        let struck = &setting.rules.rules["person-struck"];
        let struck_from = struck.on.then(|| struck.limits["moved"].value);
        let time_limit = ((course.time_limit_s * f64::from(TICK_RATE)) as Tick).min(TICKS_MOST);
        let outline = truck.outline().concat();
        let yard = Yard::new(setting, seed);
        let mut drive = Self {
            setup: setup.clone(),
            cones: yard.cones().collect(),
            yard,
            outline,
            outline_in_yard: Vec::new(),
            floor: Vec::new(),
            progress,
            judge,
            chain: setup.chain(SIMULATION),
            format: FORMAT,
            spans: Vec::new(),
            acts: Vec::new(),
            digests: Vec::new(),
            moment: Moment::at_rest(),
            ending: None,
            time_limit,
            struck_from,
        };
        let at_first = drive.yard.setting.at_first();
        drive.observe(0, at_first.into());
        drive
    }

    /// The same for a run that is driven again: its digests are formed as its file's format has them.
    ///
    /// # Errors
    /// One sentence with the file and the place that cannot be used.
    pub fn again(run: &Run) -> Result<Self, BadInput> {
        Ok(Self { format: run.format, ..Self::new(&run.setup)? })
    }

    /// One tick of 1/64 s. A drive that has ended stays as it is; more than [`ACTS_MOST`] acts are left
    /// undone.
    pub fn step(&mut self, input: impl Into<Input>) -> &Moment {
        if self.ending.is_some() {
            return &self.moment;
        }
        let Input { controls, mut acts } = input.into();
        let controls = controls.clamped();
        // In the first format a button that was held counts in every tick.
        if self.format != format_1::FORMAT {
            acts.truncate(ACTS_MOST - self.acts.len());
        }
        let acts: Vec<Act> = acts.into_iter().map(Act::fitted).collect();
        let now = self.moment.tick + 1;
        self.yard.step(&controls, &self.moment);
        record(&mut self.spans, controls);
        self.acts.extend(acts.iter().map(|act| Done { tick: now, act: act.clone() }));
        if self.format == format_1::FORMAT {
            self.chain.u32(format_1::bits(controls, &acts));
        } else {
            self.chain.u32(controls.to_bits());
            acts.iter().for_each(|act| act.digest(&mut self.chain));
        }
        if !self.yard.cones().eq(self.cones.iter().copied()) {
            self.cones = self.yard.cones().collect();
        }
        self.observe(now, Input { controls, acts });
        if now.is_multiple_of(TICK_RATE) {
            self.close_second();
        }
        self.ending = self.ending_now();
        &self.moment
    }

    /// What is true now.
    pub fn moment(&self) -> &Moment {
        &self.moment
    }

    /// How the drive ended, once it has.
    pub fn ending(&self) -> Option<Ending> {
        self.ending
    }

    /// Findings so far, in order of their first tick.
    pub fn findings(&self) -> &[Finding] {
        self.judge.findings()
    }

    /// Course, truck and rules.
    pub fn setting(&self) -> &Setting {
        &self.yard.setting
    }

    /// What is driven, by whom.
    pub fn setup(&self) -> &DriveSetup {
        &self.setup
    }

    /// The acts recorded so far, in order.
    pub fn acts(&self) -> &[Done] {
        &self.acts
    }

    /// The controls recorded so far.
    pub fn spans(&self) -> &[Span] {
        &self.spans
    }

    /// The picture of this tick.
    pub fn frame(&self) -> Frame {
        self.yard.frame(&self.moment, self.cones.clone())
    }

    /// Ends a drive at full pace where it is. `time_ratio` is the simulated time over the time on the
    /// wall.
    pub fn finish(self, time_ratio: f64) -> Run {
        self.finish_at(time_ratio, FULL_PACE)
    }

    /// The same for a drive whose slowest pace was `pace`, simulated seconds for one on the wall.
    pub fn finish_at(mut self, time_ratio: f64, pace: f64) -> Run {
        let (last, debrief) = self.close(time_ratio, pace);
        self.digests.push(last);
        Run {
            setup: self.setup,
            time_ratio,
            pace,
            format: self.format,
            controls: self.spans,
            acts: self.acts,
            digests: self.digests,
            claimed: debrief,
        }
    }

    /// The last digest and the debrief.
    pub fn close(&mut self, time_ratio: f64, pace: f64) -> (Digest, Debrief) {
        self.chain.f64(time_ratio);
        self.chain.f64(pace);
        self.hash_state();
        let last = self.chain.close_second();
        let ending = self.ending.unwrap_or(Ending::Broken);
        (last, self.judge.finish(ending, self.moment.tick))
    }

    /// The digests of all full seconds so far.
    pub fn digests(&self) -> &[Digest] {
        &self.digests
    }

    fn ending_now(&self) -> Option<Ending> {
        let m = &self.moment;
        if m.truck.tipped {
            Some(Ending::Tipped)
        } else if m.truck.battery_slid {
            Some(Ending::BrokenDown)
        } else if m.people.iter().any(|p| self.struck_from.is_some_and(|far| over(p.pushed, far))) {
            Some(Ending::Struck)
        } else if m.task.done {
            Some(Ending::Done)
        } else if m.task.failed {
            Some(Ending::Failed)
        } else if m.tick >= self.time_limit {
            Some(Ending::TimeOut)
        } else {
            None
        }
    }

    /// Takes in what is true now, and lets the task and the judge see it.
    fn observe(&mut self, tick: Tick, input: Input) {
        let controls = input.controls;
        let steps = &self.yard.setting.course.steps;
        let step = steps.get(self.moment.task.step as usize);
        let travel: Travel = step.map_or(self.moment.task.travel, |s| s.travel);
        let last = core::mem::replace(&mut self.moment, Moment::at_rest());
        let moment = self.yard.observe(tick, input, travel, last);
        let to_yard = moment.truck.pose.placer();
        self.outline_in_yard.clear();
        self.outline_in_yard.extend(self.outline.iter().map(|p| to_yard(*p)));
        self.floor.clear();
        self.floor.extend(self.yard.loads.on_floor());
        let facts = Facts {
            tick,
            truck: &moment.truck,
            throttle: controls.throttle,
            key_on: controls.key_on,
            outline_in_yard: &self.outline_in_yard,
            around: Around {
                aboard: controls.aboard,
                carried: &self.yard.loads.carried,
                floor: &self.floor,
                docks: &moment.docks,
                walk: moment.walk.as_ref(),
            },
        };
        let (task, events) = self.progress.tick(&self.yard.setting.course, &facts);
        self.moment = Moment { task, events, ..moment };
        self.judge.see(&self.moment);
    }

    fn close_second(&mut self) {
        self.hash_state();
        let digest = self.chain.close_second();
        self.digests.push(digest);
    }

    /// The bits of everything the next tick depends on. The order is that of every digest so far.
    fn hash_state(&mut self) {
        let chain = &mut self.chain;
        self.moment.tick.digest(chain);
        self.yard.digest_truck(chain);
        self.progress.digest(chain);
        self.yard.digest_around(chain);
    }
}

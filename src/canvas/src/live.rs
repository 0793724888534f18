//! A live drive: a session fed with the controls that the pages last set, tick by tick as real
//! time passes, and recorded.

use coneyard_core::acts::{Act, Input};
use coneyard_core::controls::Controls;
use coneyard_core::desk::{Mode, Status};
use coneyard_core::run::{DriveSetup, Driven, Run, Timing};
use coneyard_core::task::aim;
use coneyard_core::time::Tick;
use coneyard_core::yard::Setting;
use coneyard_core::yard::frame::Frame;
use coneyard_sim::Session;

use crate::clock::Clock;
use crate::dashboard;
use crate::mix::between;
use crate::picture::{Due, Picture, Scene, v};
use crate::sound::Heard;
use crate::sound::ear::hear;
use crate::streak::{Streak, streaks};

/// More streaks than this are never kept; the oldest go first.
const STREAKS_MOST: usize = 6_000;

/// A drive in progress.
pub(crate) struct Live {
    session: Session,
    /// Real time.
    pub(crate) clock: Clock,
    /// What the rider holds until told otherwise.
    pub(crate) controls: Controls,
    /// What the rider does in the next tick.
    pub(crate) acts: Vec<Act>,
    before: Frame,
    now: Frame,
    streaks: Vec<Streak>,
    streaks_new: bool,
    /// Heard, and not yet played.
    heard: Vec<Heard>,
    /// Ticks of which was taken for storing what was driven, and acts.
    taken: (Tick, usize),
}

impl Live {
    /// Opens a drive that starts at once.
    pub(crate) fn new(setup: &DriveSetup) -> Result<Self, String> {
        let session = Session::new(setup).map_err(|e| e.to_string())?;
        let now = session.frame();
        let controls = session.setting().at_first();
        Ok(Self {
            session,
            clock: Clock::new(false),
            controls,
            acts: Vec::new(),
            before: now.clone(),
            heard: vec![hear(None, &now)],
            now,
            streaks: Vec::new(),
            streaks_new: true,
            taken: (0, 0),
        })
    }

    /// Opens a drive that was cut off: drives again what was recorded, then waits. `timing` is how real
    /// time went by in it.
    pub(crate) fn resume(
        setup: &DriveSetup,
        driven: &Driven,
        timing: &Timing,
    ) -> Result<Self, String> {
        if timing.is_impossible() {
            return Err("The recorded times are none that a drive can have taken.".into());
        }
        let mut live = Self::new(setup)?;
        let spans = driven.spans()?;
        let mut done = driven.acts.iter().peekable();
        for span in spans {
            for _ in 0..span.ticks {
                let next = live.session.moment().tick + 1;
                while let Some(now) = done.next_if(|d| d.tick <= next) {
                    live.acts.push(now.act.clone());
                }
                live.tick(span.controls);
            }
            live.controls = span.controls;
        }
        // Horn and throttle are not held any more; rider and key are where they were.
        let Controls { stance, aboard, key_on, .. } = live.controls;
        live.controls = Controls { stance, aboard, key_on, ..Controls::default() };
        live.before = live.now.clone();
        // What was heard before it was cut off is not heard again.
        live.heard.clear();
        live.clock = Clock::after(timing);
        live.taken = (live.session.moment().tick, live.session.acts().len());
        Ok(live)
    }

    /// Holds the drive, or lets it go on. What was done just before is done first: it would be lost if the drive
    /// were left while it is held.
    pub(crate) fn set_paused(&mut self, paused: bool) {
        if paused && !self.clock.paused && !self.acts.is_empty() {
            self.tick(self.controls);
        }
        self.clock.paused = paused;
    }

    /// Lets real time pass, s.
    pub(crate) fn advance(&mut self, elapsed_s: f64) {
        if self.ended() {
            return;
        }
        for _ in 0..self.clock.ticks_after(elapsed_s) {
            self.tick(self.controls);
        }
    }

    fn tick(&mut self, controls: Controls) {
        if self.ended() {
            return;
        }
        let acts = core::mem::take(&mut self.acts);
        self.session.step(Input { controls, acts });
        self.before = core::mem::replace(&mut self.now, self.session.frame());
        self.heard.push(hear(Some(&self.before), &self.now));
        let new = streaks(&self.before, &self.now, &self.session.setting().truck);
        if !new.is_empty() {
            self.streaks.extend(new);
            if self.streaks.len() > STREAKS_MOST {
                self.streaks.drain(..STREAKS_MOST / 2);
            }
            self.streaks_new = true;
        }
    }

    /// Ticks that are over.
    pub(crate) fn ticks(&self) -> Tick {
        self.session.moment().tick
    }

    /// The drive is over by itself.
    pub(crate) fn ended(&self) -> bool {
        self.session.ending().is_some()
    }

    /// Something will change by itself.
    pub(crate) fn moving(&self) -> bool {
        !self.clock.paused && !self.ended()
    }

    /// What was driven since the last call.
    pub(crate) fn take_driven(&mut self) -> Driven {
        let (mut skip, acts) = self.taken;
        let mut driven = Driven { pairs: Vec::new(), acts: self.session.acts()[acts..].to_vec() };
        for span in self.session.spans() {
            let known = skip.min(span.ticks);
            skip -= known;
            if span.ticks > known {
                driven.pairs.extend([span.controls.to_bits(), span.ticks - known]);
            }
        }
        self.taken = (self.session.moment().tick, self.session.acts().len());
        driven
    }

    /// Ends the drive where it is.
    pub(crate) fn finish(self) -> Run {
        let Timing { pace, .. } = self.clock.timing();
        self.session.finish_at(self.clock.ratio(), pace)
    }

    /// The dashboard's data.
    pub(crate) fn status(&self) -> Status {
        let moment = self.session.moment();
        let Setting { course, truck, .. } = self.session.setting();
        Status {
            mode: Mode::Drive,
            tick: moment.tick,
            last_tick: moment.tick,
            paused: self.clock.paused,
            pace: self.clock.pace(),
            time_ratio: self.clock.ratio(),
            ending: self.session.ending(),
            truck: dashboard::truck(moment, truck),
            task: dashboard::task(moment, &self.now.pallets, course, truck),
            findings: self.session.findings().to_vec(),
            walk: dashboard::walk(self.session.moment()),
        }
    }

    /// What never moves in it.
    pub(crate) fn scene(&self) -> Scene {
        let setting = self.session.setting();
        Scene::of(setting.course.clone(), setting.truck.clone())
    }

    /// What to draw now.
    pub(crate) fn picture(&self) -> Picture {
        let task = &self.session.moment().task;
        let course = &self.session.setting().course;
        // At the end, and in a pause, the last tick is shown as it is.
        let share = if self.moving() { self.clock.share() } else { 1.0 };
        Picture {
            frame: between(&self.before, &self.now, share),
            companion: None,
            due: Due::of(course, task.step, task.next_gate, task.pick_at),
            toward: aim(course, self.session.moment(), &self.now.pallets).map(v),
            signal: task.signal_brake.filter(|_| task.signal_since.is_some()),
        }
    }

    /// What was heard since the last call.
    pub(crate) fn take_heard(&mut self) -> Vec<Heard> {
        core::mem::take(&mut self.heard)
    }

    /// All streaks, when there are new ones.
    pub(crate) fn take_streaks(&mut self) -> Option<Vec<Streak>> {
        core::mem::take(&mut self.streaks_new).then(|| self.streaks.clone())
    }
}

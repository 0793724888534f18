//! A replay: a recorded run driven again at once, every tick of it kept, so that any moment can
//! be shown without waiting.

use bevy::math::Vec2;
use coneyard_core::course::Course;
use coneyard_core::desk::{Mode, Opened, Status, TaskStatus, Traces, TruckStatus};
use coneyard_core::finding::Finding;
use coneyard_core::math::DEG;
use coneyard_core::run::Run;
use coneyard_core::time::{TICK_RATE, Tick};
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::yard::frame::Frame;
use coneyard_sim::{Session, drive_again};

use crate::dashboard;
use crate::mix::between;
use crate::picture::{Due, Picture, Scene, v};
use crate::sound::Heard;
use crate::sound::ear::hear;
use crate::streak::{Streak, streaks};

/// A trace has at most about so many values, whatever the length of the run.
const TRACE_MOST: u32 = 4_000;

/// Fastest replay, ticks shown for one tick of real time.
const PACE_MOST: f64 = 16.0;

/// A recorded run, open for looking at.
pub(crate) struct Playback {
    course_text: String,
    course: Course,
    own: Strip,
    companion: Option<Strip>,
    findings: Vec<Finding>,
    time_ratio: f64,
    streaks: Vec<Streak>,
    streaks_new: bool,
    /// Heard, and not yet played.
    heard: Vec<Heard>,
    /// The tick that is shown, with its fraction.
    at: f64,
    playing: bool,
    pace: f64,
}

/// All ticks of one run.
struct Strip {
    truck: TruckSpec,
    frames: Vec<Frame>,
    beats: Vec<Beat>,
}

/// What the dashboard shows in one tick.
struct Beat {
    truck: TruckStatus,
    task: TaskStatus,
    due: Due,
}

impl Playback {
    /// Drives a run again and opens it at its start.
    pub(crate) fn open(text: &str) -> Result<(Self, Opened), String> {
        let run = read(text)?;
        let mut course = None;
        let (own, verdict) = Strip::of(&run, |session| {
            course.get_or_insert_with(|| session.setting().course.clone());
        })?;
        let course = course.ok_or("The run holds nothing that could be shown.")?;
        let opened = Opened {
            traces: own.traces(),
            last_tick: own.last(),
            who: run.setup.who.clone(),
            course: course.id.clone(),
            verdict,
        };
        let mut streaks_of_all = Vec::new();
        for pair in own.frames.windows(2) {
            streaks_of_all.extend(streaks(&pair[0], &pair[1], &own.truck));
        }
        let playback = Self {
            course_text: run.setup.course,
            course,
            own,
            companion: None,
            findings: opened.verdict.debrief.findings.clone(),
            time_ratio: run.time_ratio,
            streaks: streaks_of_all,
            streaks_new: true,
            heard: Vec::new(),
            at: 0.0,
            playing: false,
            pace: 1.0,
        };
        Ok((playback, opened))
    }

    /// Puts another run of the same course beside this one.
    pub(crate) fn open_companion(&mut self, text: &str) -> Result<(), String> {
        let run = read(text)?;
        if run.setup.course != self.course_text {
            return Err("The companion run was driven on another course.".into());
        }
        self.companion = Some(Strip::of(&run, |_| ())?.0);
        Ok(())
    }

    /// Takes the companion away.
    pub(crate) fn close_companion(&mut self) {
        self.companion = None;
    }

    /// Shows this tick and stops there. Returns whether it is far from the one shown before.
    pub(crate) fn show(&mut self, tick: Tick) -> bool {
        let before = self.at;
        self.playing = false;
        self.at = f64::from(tick.min(self.own.last()));
        (self.at - before).abs() > f64::from(TICK_RATE)
    }

    /// Plays on from here, or stops. From the end it plays from the start.
    pub(crate) fn play(&mut self, playing: bool, pace: f64) {
        self.playing = playing;
        self.pace = if pace.is_finite() { pace.clamp(0.05, PACE_MOST) } else { 1.0 };
        if playing && self.at >= f64::from(self.own.last()) {
            self.at = 0.0;
        }
        if playing && self.at == 0.0 {
            self.heard.push(hear(None, &self.own.frames[0]));
        }
    }

    /// Lets real time pass, s.
    pub(crate) fn advance(&mut self, elapsed_s: f64) {
        if !self.playing {
            return;
        }
        let last = f64::from(self.own.last());
        let from = self.own.index(self.at as Tick);
        self.at =
            (self.at + elapsed_s.clamp(0.0, 0.25) * self.pace * f64::from(TICK_RATE)).min(last);
        self.playing = self.at < last;
        let passed = &self.own.frames[from..=self.own.index(self.at as Tick)];
        self.heard.extend(passed.windows(2).map(|pair| hear(Some(&pair[0]), &pair[1])));
    }

    /// Something will change by itself.
    pub(crate) fn moving(&self) -> bool {
        self.playing
    }

    /// The dashboard's data.
    pub(crate) fn status(&self) -> Status {
        let tick = self.at as Tick;
        let beat = &self.own.beats[self.own.index(tick)];
        Status {
            mode: Mode::Replay,
            tick,
            last_tick: self.own.last(),
            paused: !self.playing,
            pace: self.pace,
            time_ratio: self.time_ratio,
            ending: None,
            truck: beat.truck.clone(),
            task: beat.task.clone(),
            findings: self.findings.iter().filter(|f| f.from <= tick).cloned().collect(),
            walk: None,
        }
    }

    /// What never moves in it.
    pub(crate) fn scene(&self) -> Scene {
        Scene {
            path: self.own.path(),
            companion: self.companion.as_ref().map(|c| c.truck.clone()),
            companion_path: self.companion.as_ref().map(Strip::path).unwrap_or_default(),
            ..Scene::of(self.course.clone(), self.own.truck.clone())
        }
    }

    /// What to draw now.
    pub(crate) fn picture(&self) -> Picture {
        let beat = &self.own.beats[self.own.index(self.at as Tick)];
        Picture {
            frame: self.own.frame(self.at),
            companion: self.companion.as_ref().map(|c| c.frame(self.at)),
            due: beat.due,
            toward: None,
            signal: beat.task.signal,
        }
    }

    /// What was heard since the last call.
    pub(crate) fn take_heard(&mut self) -> Vec<Heard> {
        core::mem::take(&mut self.heard)
    }

    /// Every tick of the run.
    pub(crate) fn frames(&self) -> &[Frame] {
        &self.own.frames
    }

    /// All streaks, the first time it is asked.
    pub(crate) fn take_streaks(&mut self) -> Option<Vec<Streak>> {
        core::mem::take(&mut self.streaks_new).then(|| self.streaks.clone())
    }
}

fn read(text: &str) -> Result<Run, String> {
    Run::parse("the run", text.as_bytes()).map_err(|e| e.to_string())
}

impl Strip {
    fn of(
        run: &Run,
        mut see: impl FnMut(&Session),
    ) -> Result<(Self, coneyard_core::run::Verdict), String> {
        let ticks = run.ticks() as usize + 1;
        let (mut frames, mut beats) = (Vec::with_capacity(ticks), Vec::with_capacity(ticks));
        let mut truck = None;
        let verdict = drive_again(run, |session| {
            see(session);
            let setting = session.setting();
            truck.get_or_insert_with(|| setting.truck.clone());
            let frame = session.frame();
            let moment = session.moment();
            beats.push(Beat {
                truck: dashboard::truck(moment, &setting.truck),
                task: dashboard::task(moment, &frame.pallets, &setting.course, &setting.truck),
                due: Due::of(
                    &setting.course,
                    moment.task.step,
                    moment.task.next_gate,
                    moment.task.pick_at,
                ),
            });
            frames.push(frame);
        })
        .map_err(|e| e.to_string())?;
        // The start is always seen, so there is at least one frame.
        let truck = truck.ok_or("The run holds nothing that could be shown.")?;
        Ok((Self { truck, frames, beats }, verdict))
    }

    fn last(&self) -> Tick {
        self.frames.len() as Tick - 1
    }

    fn index(&self, tick: Tick) -> usize {
        tick.min(self.last()) as usize
    }

    fn frame(&self, at: f64) -> Frame {
        let tick = at.max(0.0) as Tick;
        let (a, b) = (self.index(tick), self.index(tick.saturating_add(1)));
        between(&self.frames[a], &self.frames[b], at.fract())
    }

    fn path(&self) -> Vec<Vec2> {
        let platform = self.truck.platform();
        self.frames.iter().step_by(4).map(|f| v(f.truck.to_yard(platform))).collect()
    }

    fn traces(&self) -> Traces {
        // Eight values a second, fewer in a long run.
        let every = (TICK_RATE / 8).max((self.frames.len() as u32).div_ceil(TRACE_MOST));
        let (platform, step) = (self.truck.platform(), every as usize);
        let of = |value: fn(&Frame) -> f64| -> Vec<f32> {
            self.frames.iter().step_by(step).map(|f| value(f) as f32).collect()
        };
        Traces {
            every,
            speed: of(|f| f.speed),
            throttle: of(|f| f64::from(f.throttle)),
            arm: of(|f| f.arm / DEG),
            steer: of(|f| f.steer / DEG),
            look: of(|f| f.head / DEG),
            forks: of(|f| f.fork_height),
            path: self
                .frames
                .iter()
                .step_by(step)
                .map(|f| f.truck.to_yard(platform))
                .map(|p| [p.x as f32, p.y as f32])
                .collect(),
        }
    }
}

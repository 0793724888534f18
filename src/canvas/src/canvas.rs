//! What is open on the canvas. The exports change it, the stage draws it.
//!
//! The session lives here and not in the renderer's world: it has a headless world of its own,
//! and nothing that draws can reach into it.

use core::cell::RefCell;

use coneyard_core::acts::Act;
use coneyard_core::controls::Controls;
use coneyard_core::desk::{Opened, Status, View};
use coneyard_core::run::{DriveSetup, Driven, Timing};
use coneyard_core::time::Tick;

use crate::dashboard;

use crate::live::Live;
use crate::picture::{Scene, Shown};
use crate::playback::Playback;
use crate::sound::Heard;
use crate::streak::Streak;
use crate::view;

/// What is open.
enum Open {
    Nothing,
    Drive(Box<Live>),
    Replay(Box<Playback>),
}

/// The canvas's state.
pub(crate) struct Canvas {
    open: Open,
    view: View,
    /// The scene is to be put up anew, or taken down.
    scene_new: bool,
    /// Something was done that the next pictures must show.
    stirred: bool,
    /// The camera is to jump.
    jump: bool,
    /// So many pictures are shown before real time counts: what passed until now passed while
    /// nothing was running, and a drive begins when it is seen.
    held: u32,
}

thread_local! {
    static CANVAS: RefCell<Canvas> = const {
        RefCell::new(Canvas {
            open: Open::Nothing,
            view: view::FIRST,
            scene_new: false,
            stirred: false,
            jump: false,
            held: 1,
        })
    };
}

/// Works on the canvas's state.
///
/// # Errors
/// One sentence when an earlier call stopped in the middle.
pub(crate) fn with_canvas<T>(work: impl FnOnce(&mut Canvas) -> T) -> Result<T, String> {
    CANVAS.with(|yard| match yard.try_borrow_mut() {
        Ok(mut yard) => Ok(work(&mut yard)),
        Err(_) => Err("The yard stopped after an error; load the page again.".into()),
    })
}

/// A new scene costs the renderer a few slow pictures; they are not the drive's.
const FIRST_PICTURES: u32 = 5;

const NO_DRIVE: &str = "No drive is open.";
const NO_REPLAY: &str = "No recorded run is open.";

impl Canvas {
    fn put(&mut self, open: Open) {
        self.open = open;
        self.scene_new = true;
        self.jump = true;
        self.stir();
        self.held = FIRST_PICTURES;
    }

    /// Draw again, and let no time pass for what went before.
    fn stir(&mut self) {
        self.stirred = true;
        self.held = self.held.max(1);
    }

    fn live(&mut self) -> Result<&mut Live, String> {
        match &mut self.open {
            Open::Drive(live) => Ok(live),
            _ => Err(NO_DRIVE.into()),
        }
    }

    fn playback(&mut self) -> Result<&mut Playback, String> {
        match &mut self.open {
            Open::Replay(playback) => Ok(playback),
            _ => Err(NO_REPLAY.into()),
        }
    }

    /// Opens a live drive; `before` is what was driven of one that was cut off, with its times.
    pub(crate) fn drive(
        &mut self,
        setup: &DriveSetup,
        before: Option<(&Driven, &Timing)>,
    ) -> Result<(), String> {
        let live = match before {
            None => Live::new(setup)?,
            Some((driven, timing)) => Live::resume(setup, driven, timing)?,
        };
        self.put(Open::Drive(Box::new(live)));
        Ok(())
    }

    /// What the rider does once, in the next tick.
    pub(crate) fn act(&mut self, act: Act) -> Result<(), String> {
        self.live()?.acts.push(act);
        Ok(())
    }

    /// What the rider holds from now on.
    pub(crate) fn set_controls(&mut self, controls: Controls) -> Result<(), String> {
        self.live()?.controls = controls;
        Ok(())
    }

    /// Ticks of the drive that are over.
    pub(crate) fn ticks(&mut self) -> Result<Tick, String> {
        Ok(self.live()?.ticks())
    }

    /// Holds the drive, or lets it go on.
    pub(crate) fn set_paused(&mut self, paused: bool) -> Result<(), String> {
        self.live()?.set_paused(paused);
        self.stir();
        Ok(())
    }

    /// Slower time when practising.
    pub(crate) fn set_pace(&mut self, pace: f64) -> Result<(), String> {
        self.live()?.clock.set_pace(pace);
        Ok(())
    }

    /// What was driven, to be stored.
    pub(crate) fn take_driven(&mut self) -> Result<Driven, String> {
        Ok(self.live()?.take_driven())
    }

    /// How real time went by in the drive so far.
    pub(crate) fn timing(&mut self) -> Result<Timing, String> {
        Ok(self.live()?.clock.timing())
    }

    /// Ends the drive; gives the run file.
    pub(crate) fn finish(&mut self) -> Result<String, String> {
        self.live()?;
        let Open::Drive(live) = core::mem::replace(&mut self.open, Open::Nothing) else {
            return Err(NO_DRIVE.into());
        };
        self.put(Open::Nothing);
        Ok(live.finish().to_text())
    }

    /// The dashboard's data.
    pub(crate) fn status(&self) -> Status {
        match &self.open {
            Open::Nothing => dashboard::idle(),
            Open::Drive(live) => live.status(),
            Open::Replay(playback) => playback.status(),
        }
    }

    /// How the yard is shown.
    pub(crate) fn set_view(&mut self, view: View) {
        self.scene_new |= view.dark != self.view.dark;
        self.jump |= view.north_up != self.view.north_up;
        self.jump |= view.covered != self.view.covered;
        self.view = view::within(view);
        self.stirred = true;
    }

    /// Opens a recorded run.
    pub(crate) fn open_replay(&mut self, text: &str) -> Result<Opened, String> {
        let (playback, opened) = Playback::open(text)?;
        self.put(Open::Replay(Box::new(playback)));
        Ok(opened)
    }

    /// Shows a tick of the recorded run.
    pub(crate) fn replay_to(&mut self, tick: u32) -> Result<(), String> {
        let far = self.playback()?.show(tick);
        self.jump |= far;
        self.stir();
        Ok(())
    }

    /// Plays the recorded run, or stops it.
    pub(crate) fn replay_play(&mut self, playing: bool, pace: f64) -> Result<(), String> {
        self.playback()?.play(playing, pace);
        self.stir();
        Ok(())
    }

    /// Puts a second run beside it.
    pub(crate) fn open_companion(&mut self, text: &str) -> Result<(), String> {
        self.playback()?.open_companion(text)?;
        self.scene_new = true;
        self.stir();
        Ok(())
    }

    /// Takes the second run away.
    pub(crate) fn close_companion(&mut self) -> Result<(), String> {
        self.playback()?.close_companion();
        self.scene_new = true;
        self.stir();
        Ok(())
    }

    /// Back to nothing.
    pub(crate) fn close(&mut self) {
        self.put(Open::Nothing);
    }

    /// Lets real time pass, s.
    pub(crate) fn advance(&mut self, elapsed_s: f64) {
        let elapsed_s = if self.held > 0 { 0.0 } else { elapsed_s };
        self.held = self.held.saturating_sub(1);
        match &mut self.open {
            Open::Nothing => {}
            Open::Drive(live) => live.advance(elapsed_s),
            Open::Replay(playback) => playback.advance(elapsed_s),
        }
    }

    /// Something will change by itself.
    pub(crate) fn moving(&self) -> bool {
        match &self.open {
            Open::Nothing => false,
            Open::Drive(live) => live.moving(),
            Open::Replay(playback) => playback.moving(),
        }
    }

    /// What was heard since the last call.
    pub(crate) fn take_heard(&mut self) -> Vec<Heard> {
        match &mut self.open {
            Open::Nothing => Vec::new(),
            Open::Drive(live) => live.take_heard(),
            Open::Replay(playback) => playback.take_heard(),
        }
    }

    /// Something was done since the last call.
    pub(crate) fn take_stirred(&mut self) -> bool {
        core::mem::take(&mut self.stirred)
    }

    /// The scene, when it is to be put up anew; None inside when it is to be taken down.
    pub(crate) fn take_scene(&mut self) -> Option<Option<Scene>> {
        core::mem::take(&mut self.scene_new).then(|| {
            let scene = match &self.open {
                Open::Nothing => return None,
                Open::Drive(live) => live.scene(),
                Open::Replay(playback) => playback.scene(),
            };
            Some(Scene { dark: self.view.dark, ..scene })
        })
    }

    /// The streaks on the floor, when they are not those given before.
    pub(crate) fn take_streaks(&mut self) -> Option<Vec<Streak>> {
        match &mut self.open {
            Open::Nothing => None,
            Open::Drive(live) => live.take_streaks(),
            Open::Replay(playback) => playback.take_streaks(),
        }
    }

    /// What to draw now.
    pub(crate) fn shown(&mut self) -> Option<Shown> {
        let picture = match &self.open {
            Open::Nothing => return None,
            Open::Drive(live) => live.picture(),
            Open::Replay(playback) => playback.picture(),
        };
        Some(Shown { picture, view: self.view, jump: core::mem::take(&mut self.jump) })
    }
}

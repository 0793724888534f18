//! The browser's loudspeaker: plays what is heard while it is heard. It is off until it is asked for, as
//! browsers want it too: they let nothing sound before a person has pressed something.

use core::cell::RefCell;

use web_sys::{AudioContext, AudioContextState};

use super::Heard;
use super::board::Board;
use super::shapes::Made;

struct Speaker {
    context: AudioContext,
    board: Board,
    /// What goes on was told to be silent.
    hushed: bool,
}

thread_local! {
    static SPEAKER: RefCell<Option<Speaker>> = const { RefCell::new(None) };
}

const NO_SOUND: &str = "This browser plays no sound.";

/// Volume as it is set, 0 to 1, as a gain: ears hear ratios.
fn as_gain(volume: f64) -> f32 {
    let volume = volume.clamp(0.0, 1.0) as f32;
    volume * volume
}

/// Switches the sound on at this volume, 0 to 1, or off at 0. While a person presses something, a browser
/// that had withheld it lets it sound from then on.
///
/// # Errors
/// One sentence when the browser plays none.
pub(crate) fn set_volume(volume: f64) -> Result<(), String> {
    let is_on = volume > 0.0;
    SPEAKER.with_borrow_mut(|speaker| {
        if !is_on {
            if let Some(off) = speaker.take() {
                // It fails only when it is closed already.
                let _ = off.context.close();
            }
            return Ok(());
        }
        if speaker.is_none() {
            *speaker = Some(Speaker::new(as_gain(volume)).map_err(|_| NO_SOUND.to_owned())?);
        }
        if let Some(speaker) = speaker {
            speaker.board.out.gain().set_value(as_gain(volume));
            // A browser that will not yet is asked again when something is pressed.
            let _ = speaker.context.resume();
        }
        Ok(())
    })
}

/// Plays what was heard since the last call; `goes_on`: there is more to come.
pub(crate) fn play(heard: &[Heard], goes_on: bool) {
    with(|speaker| speaker.play(heard, goes_on));
}

/// Lets what goes on fall silent.
pub(crate) fn hush() {
    with(Speaker::hush);
}

/// Works with the speaker, if it sounds. One that fails is given up: the drive goes on.
fn with(work: impl FnOnce(&mut Speaker) -> Made<()>) {
    SPEAKER.with_borrow_mut(|all| {
        let Some(speaker) = all else {
            return;
        };
        // The time of one that is withheld stands still: all would sound at once later.
        if speaker.context.state() != AudioContextState::Running {
            return;
        }
        if let Err(why) = work(speaker) {
            web_sys::console::warn_2(&NO_SOUND.into(), &why);
            *all = None;
        }
    });
}

impl Speaker {
    fn new(gain: f32) -> Made<Self> {
        let context = AudioContext::new()?;
        let board = Board::new(&context, gain)?;
        Ok(Self { context, board, hushed: false })
    }

    fn play(&mut self, heard: &[Heard], goes_on: bool) -> Made<()> {
        let now = self.context.current_time();
        for what in heard.iter().flat_map(|h| &h.once) {
            self.board.once(*what, now)?;
        }
        if let Some(last) = heard.last() {
            self.board.voices(&last.voices, now)?;
        }
        if !goes_on {
            return self.hush();
        }
        self.hushed = false;
        self.board.go_on(now)
    }

    fn hush(&mut self) -> Made<()> {
        if core::mem::replace(&mut self.hushed, true) {
            return Ok(());
        }
        self.board.hush(self.context.current_time())
    }
}

//! A run: the whole drive in a few kilobytes, and nothing in it that cannot be computed again.
//!
//! What was driven (setup), what the rider did (controls), what the simulation was at every second
//! (digests), and what is claimed of it (the debrief). `file` is its form on disk, `header` what can be
//! told of it without driving it, `papers` the texts that travel in it, `coding` the compact form of the
//! controls, `format_1` how files had it before there were acts, `driven` what was driven as it is kept
//! while it is made, `setup` what was driven, `timing` how real time went by, `verdict` what driving it again
//! comes to.

pub mod coding;
mod driven;
pub mod file;
pub mod format_1;
pub mod header;
pub mod papers;
mod setup;
#[cfg(test)]
mod tests;
mod timing;
mod verdict;

pub use driven::Driven;
pub use setup::DriveSetup;
pub use timing::Timing;
pub use verdict::{CannotJudge, JudgedBy, Verdict};

use crate::acts::{Done, Input};
use crate::controls::Controls;
use crate::debrief::Debrief;
use crate::state::chain::Digest;
use crate::time::{TICK_RATE, Tick};

/// Longest drive that can be recorded, ticks: two hours.
pub const TICKS_MOST: Tick = 2 * 3600 * TICK_RATE;

/// The pace of real time: nothing is driven faster, and only this is no slowed practice.
pub const FULL_PACE: f64 = 1.0;

/// The same controls for a number of ticks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Span {
    /// What the rider held.
    pub controls: Controls,
    /// For how many ticks, at least 1.
    pub ticks: Tick,
}

/// A recorded drive.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// What was driven, by whom, with which seed.
    pub setup: DriveSetup,
    /// Simulated time over the time that should have been simulated at the chosen pace, 0 to 1: below
    /// 0.95 this computer was too slow.
    pub time_ratio: f64,
    /// Slowest pace at which any of it was driven, simulated seconds for one second on the wall, above
    /// 0 and at most 1: below 1 it is slowed practice, whatever the computer can do.
    pub pace: f64,
    /// Version of the file's format; digests of the first one are formed otherwise.
    pub format: u32,
    /// What the rider held, in order; neighbours differ.
    pub controls: Vec<Span>,
    /// What the rider did once, in the order of ticks.
    pub acts: Vec<Done>,
    /// State digest after every full second, and one after the last tick.
    pub digests: Vec<Digest>,
    /// What is claimed of the drive.
    pub claimed: Debrief,
}

impl Run {
    /// Length, ticks.
    pub fn ticks(&self) -> Tick {
        self.controls.iter().map(|s| s.ticks).sum()
    }

    /// Slower time was chosen for some of it.
    pub fn is_slowed(&self) -> bool {
        is_slowed(self.pace)
    }

    /// The least that simulated time was of time on the wall, 0 to 1, whether the computer was slow or
    /// slower time was chosen.
    pub fn share_of_real_time(&self) -> f64 {
        share_of_real_time(self.time_ratio, self.pace)
    }

    /// What the rider did, tick by tick.
    pub fn each_tick(&self) -> impl Iterator<Item = Input> + '_ {
        let held =
            self.controls.iter().flat_map(|s| core::iter::repeat_n(s.controls, s.ticks as usize));
        let mut done = self.acts.iter().peekable();
        held.zip(1..).map(move |(controls, tick)| {
            let mut acts = Vec::new();
            while let Some(now) = done.next_if(|d| d.tick <= tick) {
                acts.push(now.act.clone());
            }
            Input { controls, acts }
        })
    }
}

/// Whether a drive whose slowest pace was this is slowed practice.
pub fn is_slowed(pace: f64) -> bool {
    pace < FULL_PACE
}

/// The least that simulated time was of time on the wall, by the share that the computer kept up with
/// and the slowest pace that was chosen, all 0 to 1.
pub fn share_of_real_time(time_ratio: f64, pace: f64) -> f64 {
    time_ratio * pace
}

/// Adds one tick of controls to a recording, joining it to the last span where it is the same.
pub fn record(spans: &mut Vec<Span>, controls: Controls) {
    match spans.last_mut() {
        Some(last) if last.controls == controls => last.ticks += 1,
        _ => spans.push(Span { controls, ticks: 1 }),
    }
}

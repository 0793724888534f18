//! Drives a recorded run again, and says whether it comes out the same.

use coneyard_core::outside::BadInput;
use coneyard_core::run::Run;
use coneyard_core::run::Verdict;
use coneyard_core::time::TICK_RATE;

use crate::Session;
use coneyard_core::yard::frame::Frame;

/// A run driven again.
pub struct Replay {
    /// One picture for every tick, the start included.
    pub frames: Vec<Frame>,
    /// Whether it reproduces, and the computed debrief.
    pub verdict: Verdict,
}

/// Judges a run from itself alone.
///
/// # Errors
/// One sentence when the set-up inside cannot be used.
pub fn judge(run: &Run) -> Result<Verdict, BadInput> {
    drive_again(run, |_| ())
}

/// Drives a run again and keeps every picture.
///
/// # Errors
/// One sentence when the set-up inside cannot be used.
pub fn replay(run: &Run) -> Result<Replay, BadInput> {
    let mut frames = Vec::with_capacity(run.ticks() as usize + 1);
    let verdict = drive_again(run, |session| frames.push(session.frame()))?;
    Ok(Replay { frames, verdict })
}

/// Drives a run again and shows the session at the start and after every tick, for those who need
/// more of it than its pictures.
///
/// # Errors
/// One sentence when the set-up inside cannot be used.
pub fn drive_again(run: &Run, mut see: impl FnMut(&Session)) -> Result<Verdict, BadInput> {
    let mut session = Session::again(run)?;
    see(&session);
    for input in run.each_tick() {
        // Controls recorded after the end of the drive are none of it.
        if session.ending().is_some() {
            break;
        }
        session.step(input);
        see(&session);
    }
    let driven = session.moment().tick;
    let (last, debrief) = session.close(run.time_ratio, run.pace);
    let computed: Vec<_> = session.digests().iter().copied().chain([last]).collect();
    let wrong = (0..computed.len().max(run.digests.len()))
        .find(|i| computed.get(*i) != run.digests.get(*i));
    // The last digest closes the second that was under way.
    let first_difference_s = wrong.map(|i| (i as u32 + 1).min(driven / TICK_RATE + 1));
    let debrief_agrees = debrief == run.claimed;
    Ok(Verdict {
        reproduces: wrong.is_none() && debrief_agrees && driven == run.ticks(),
        first_difference_s,
        debrief_agrees,
        debrief,
        final_digest: last.to_hex(),
    })
}

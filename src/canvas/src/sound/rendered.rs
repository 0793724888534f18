//! A whole run as a wave, faster than it can be listened to.

use coneyard_core::time::DT;
use coneyard_core::yard::frame::Frame;
use js_sys::Promise;
use web_sys::OfflineAudioContext;

use super::board::Board;
use super::ear::hear;
use super::shapes::Made;

/// Longest wave that is made, s.
const LONGEST_S: f64 = 600.0;
/// After the last tick what has begun may end, s.
const ENDS_S: f64 = 0.5;
/// Rates that every browser must take, samples a second (Web Audio API 1.1, section 1.9.1).
const RATES: core::ops::RangeInclusive<f32> = 8_000.0..=96_000.0;

/// Renders what is heard in these Frames, left and right, at so many samples a second; the promise is of an
/// `AudioBuffer`.
///
/// # Errors
/// One sentence when the rate is none or the browser makes no waves.
pub(crate) fn render(frames: &[Frame], rate: f32) -> Result<Promise, String> {
    if !RATES.contains(&rate) {
        let (least, most) = (RATES.start(), RATES.end());
        return Err(format!("A wave has {least} to {most} samples a second, not {rate}."));
    }
    let lasts = (frames.len() as f64 * DT + ENDS_S).min(LONGEST_S);
    let length = (lasts * f64::from(rate)).ceil() as u32;
    play(frames, length, rate).map_err(|_| "This browser makes no waves.".to_owned())
}

fn play(frames: &[Frame], length: u32, rate: f32) -> Made<Promise> {
    let context = OfflineAudioContext::new_with_number_of_channels_and_length_and_sample_rate(
        2, length, rate,
    )?;
    let mut board = Board::new(&context, 1.0)?;
    let mut before = None;
    for now in frames {
        let heard = hear(before, now);
        let at = f64::from(now.tick) * DT;
        for what in heard.once {
            board.once(what, at)?;
        }
        board.voices(&heard.voices, at)?;
        before = Some(now);
    }
    board.hush(frames.len() as f64 * DT)?;
    context.start_rendering()
}

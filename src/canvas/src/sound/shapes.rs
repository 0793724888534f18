//! The pieces that sounds are made of: tones, noise, filters and gains of the browser.

use wasm_bindgen::JsValue;
use web_sys::{
    AudioBuffer, AudioBufferSourceNode, AudioNode, AudioParam, BaseAudioContext, BiquadFilterNode,
    BiquadFilterType, GainNode, OscillatorNode, OscillatorType,
};

/// A piece, or why the browser did not make it.
pub(super) type Made<T> = Result<T, JsValue>;

/// A change of a voice takes about this long, s: a step would click.
const GLIDE_S: f64 = 0.012;

/// Length of the noise that is played round and round, s.
const NOISE_S: f32 = 2.0;

/// A number of a piece that is changed while it sounds.
pub(super) struct Dial {
    param: AudioParam,
    is: f32,
}

impl Dial {
    /// A dial that stands here.
    pub(super) fn new(param: AudioParam, is: f32) -> Self {
        param.set_value(is);
        Self { param, is }
    }

    /// Turns it at this time, s; a turn that nobody would hear is left out.
    pub(super) fn turn(&mut self, to: f32, at: f64) -> Made<()> {
        let far = (to - self.is).abs() > 1e-3 * self.is.abs().max(1e-3);
        if far || (to == 0.0) != (self.is == 0.0) {
            self.param.set_target_at_time(to, at, GLIDE_S)?;
            self.is = to;
        }
        Ok(())
    }
}

/// What makes what passes louder or softer.
pub(super) fn gain(context: &BaseAudioContext, is: f32) -> Made<GainNode> {
    let gain = context.create_gain()?;
    gain.gain().set_value(is);
    Ok(gain)
}

/// A tone, not yet begun.
pub(super) fn tone(
    context: &BaseAudioContext,
    kind: OscillatorType,
    pitch: f32,
) -> Made<OscillatorNode> {
    let tone = context.create_oscillator()?;
    tone.set_type(kind);
    tone.frequency().set_value(pitch);
    Ok(tone)
}

/// A filter about this frequency, Hz.
pub(super) fn filter(
    context: &BaseAudioContext,
    kind: BiquadFilterType,
    at: f32,
    q: f32,
) -> Made<BiquadFilterNode> {
    let filter = context.create_biquad_filter()?;
    filter.set_type(kind);
    filter.frequency().set_value(at);
    filter.q().set_value(q);
    Ok(filter)
}

/// The stuff of noise; the same every time, so that a replay sounds as the drive did.
pub(super) fn grain(context: &BaseAudioContext) -> Made<AudioBuffer> {
    let rate = context.sample_rate();
    let count = (rate * NOISE_S) as u32;
    let buffer = context.create_buffer(1, count, rate)?;
    // A linear congruential generator (Numerical Recipes, 2nd ed., section 7.1): good enough to hear.
    let mut state = 1u32;
    let noise: Vec<f32> = (0..count)
        .map(|_| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (state >> 8) as f32 / (1u32 << 23) as f32 - 1.0
        })
        .collect();
    buffer.copy_to_channel(&noise, 0)?;
    Ok(buffer)
}

/// Noise, not yet begun, that goes on until it is stopped.
pub(super) fn noise(
    context: &BaseAudioContext,
    grain: &AudioBuffer,
) -> Made<AudioBufferSourceNode> {
    let noise = context.create_buffer_source()?;
    noise.set_buffer(Some(grain));
    noise.set_loop(true);
    Ok(noise)
}

/// Leads each into the next.
pub(super) fn chain(nodes: &[&AudioNode]) -> Made<()> {
    for pair in nodes.windows(2) {
        pair[0].connect_with_audio_node(pair[1])?;
    }
    Ok(())
}

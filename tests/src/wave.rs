//! A wave in samples: how strong it is, and how high.

use core::ops::Range;

use coneyard_core::math::{cos, sin};

/// One channel of a wave, -1 to 1.
pub struct Wave {
    samples: Vec<f64>,
    rate: f64,
}

/// Frequencies are tried this far apart, Hz.
const STEP: f64 = 1.0;

impl Wave {
    /// The mean of left and right of 16-bit samples, little end first, left and right in turn.
    pub fn of(bytes: &[u8], rate: u32) -> Self {
        let sample = |pair: &[u8]| f64::from(i16::from_le_bytes([pair[0], pair[1]])) / 32_767.0;
        let both = |four: &[u8; 4]| 0.5 * (sample(&four[..2]) + sample(&four[2..]));
        let samples = bytes.as_chunks().0.iter().map(both).collect();
        Self { samples, rate: f64::from(rate) }
    }

    /// How long it is, s.
    pub fn lasts(&self) -> f64 {
        self.samples.len() as f64 / self.rate
    }

    fn part(&self, from: f64, to: f64) -> &[f64] {
        let at = |s: f64| ((s * self.rate).max(0.0) as usize).min(self.samples.len());
        &self.samples[at(from)..at(to)]
    }

    /// Root of the mean square between two times, s.
    pub fn strength(&self, from: f64, to: f64) -> f64 {
        let part = self.part(from, to);
        (part.iter().map(|x| x * x).sum::<f64>() / part.len().max(1) as f64).sqrt()
    }

    /// Amplitude of a pure tone of this frequency between two times (Fourier's sum under Hann's window).
    pub fn level(&self, from: f64, to: f64, frequency: f64) -> f64 {
        let part = self.part(from, to);
        let turn = core::f64::consts::TAU;
        let (mut re, mut im, mut weight) = (0.0, 0.0, 0.0);
        for (i, x) in part.iter().enumerate() {
            let window = 0.5 - 0.5 * cos(turn * (i as f64 + 0.5) / part.len() as f64);
            let phase = turn * frequency * i as f64 / self.rate;
            re += window * x * cos(phase);
            im += window * x * sin(phase);
            weight += window;
        }
        if weight > 0.0 { 2.0 * (re * re + im * im).sqrt() / weight } else { 0.0 }
    }

    fn levels(&self, from: f64, to: f64, among: Range<f64>) -> impl Iterator<Item = (f64, f64)> {
        let count = ((among.end - among.start) / STEP) as usize;
        let at = move |i: usize| among.start + STEP * i as f64;
        (0..=count).map(move |i| (at(i), self.level(from, to, at(i))))
    }

    /// The strongest frequency between two times, Hz.
    pub fn loudest(&self, from: f64, to: f64, among: Range<f64>) -> f64 {
        let levels = self.levels(from, to, among);
        levels.fold((0.0, 0.0), |most, l| if l.1 > most.1 { l } else { most }).0
    }

    /// The level that half of these frequencies reach: noise raises it, and tones do not.
    pub fn noise(&self, from: f64, to: f64, among: Range<f64>) -> f64 {
        let mut levels: Vec<f64> = self.levels(from, to, among).map(|(_, l)| l).collect();
        levels.sort_by(f64::total_cmp);
        levels[levels.len() / 2]
    }
}

/// A sound file (WAVE, uncompressed, two channels of 16 bits) of these samples.
pub fn to_file(bytes: &[u8], rate: u32) -> Vec<u8> {
    let count = u32::try_from(bytes.len()).expect("a test's wave is short");
    let mut file = Vec::from(b"RIFF");
    file.extend((36 + count).to_le_bytes());
    file.extend(b"WAVEfmt ");
    file.extend(16u32.to_le_bytes());
    for half in [1u16, 2] {
        file.extend(half.to_le_bytes());
    }
    for word in [rate, rate * 4] {
        file.extend(word.to_le_bytes());
    }
    for half in [4u16, 16] {
        file.extend(half.to_le_bytes());
    }
    file.extend(b"data");
    file.extend(count.to_le_bytes());
    file.extend(bytes);
    file
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A tone of 0.5 at 440 Hz on the left, and nothing on the right.
    fn tone() -> Wave {
        let left = |i: u32| sin(core::f64::consts::TAU * 440.0 * f64::from(i) / 8_000.0) * 16_383.0;
        let bytes: Vec<u8> =
            (0..8_000).flat_map(|i| [left(i) as i16, 0]).flat_map(i16::to_le_bytes).collect();
        Wave::of(&bytes, 8_000)
    }

    #[test]
    fn a_tone_is_found_where_it_is_and_as_strong_as_it_is() {
        let wave = tone();
        assert_eq!(wave.lasts(), 1.0);
        assert_eq!(wave.loudest(0.1, 0.4, 50.0..700.0), 440.0);
        assert!((wave.level(0.1, 0.4, 440.0) - 0.25).abs() < 0.01);
        assert!(wave.level(0.1, 0.4, 515.0) < 0.001);
        assert!(wave.noise(0.1, 0.4, 300.0..700.0) < 0.001);
        assert!((wave.strength(0.0, 1.0) - 0.25 / 2.0_f64.sqrt()).abs() < 0.001);
    }
}

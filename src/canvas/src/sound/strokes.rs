//! What sounds once and ends by itself.

use coneyard_core::checks::list::Noise;
use web_sys::{AudioScheduledSourceNode, BiquadFilterType, OscillatorType};

use super::board::Board;
use super::shapes::{Made, chain, filter, gain, noise, tone};
use super::{HORN, Once};

/// The two relays of a start: how long each is, how far apart, s, and where in the spectrum, Hz.
const RELAY: (f64, f64, f32) = (0.004, 0.060, 2_000.0);
/// From one thud of a case to the next, s: each comes sooner than the one before.
const THUDS: (f64, f64) = (0.13, 0.85);
/// A thud, Hz.
const THUD: f32 = 70.0;
/// A cone falls from this pitch to that, Hz.
const CONE: (f32, f32) = (180.0, 90.0);
/// What runs into something that stands fast, Hz.
const KNOCK: f32 = 52.0;

/// A burst of noise: middle of its band, Hz, and length, s.
struct Burst {
    band: f32,
    q: f32,
    lasts: f64,
    loud: f32,
}

/// A stroke of a tone that falls from one pitch to another, Hz.
struct Stroke {
    kind: OscillatorType,
    from: f32,
    to: f32,
    lasts: f64,
    loud: f32,
}

impl Board {
    /// Plays it at this time, s.
    pub(super) fn once(&self, what: Once, at: f64) -> Made<()> {
        match what {
            Once::StartUp => {
                let (lasts, apart, band) = RELAY;
                for n in 0..2 {
                    let click = Burst { band, q: 1.0, lasts, loud: 1.0 };
                    self.burst(&click, at + apart * f64::from(n))?;
                }
                Ok(())
            }
            Once::BrakeOn => {
                self.burst(&Burst { band: 700.0, q: 0.8, lasts: 0.030, loud: 0.5 }, at)
            }
            Once::Cone => {
                let (from, to) = CONE;
                let kind = OscillatorType::Triangle;
                self.stroke(&Stroke { kind, from, to, lasts: 0.2, loud: 0.5 }, at)
            }
            Once::Case(thuds) => {
                let (mut at, mut apart) = (at, THUDS.0);
                for n in 0..thuds {
                    let loud = 0.6 / (1.0 + 0.5 * n as f32);
                    self.stroke(&thud(THUD, 0.1, loud), at)?;
                    at += apart;
                    apart *= THUDS.1;
                }
                Ok(())
            }
            Once::Joint(loud) => {
                let tick = Burst { band: 1_100.0, q: 1.2, lasts: 0.012, loud: 0.1 + 0.25 * loud };
                self.burst(&tick, at)
            }
            Once::Knock(hard) => {
                let loud = 0.3 + 0.5 * hard;
                self.stroke(&thud(KNOCK, 0.22, loud), at)?;
                self.burst(&Burst { band: 400.0, q: 0.6, lasts: 0.09, loud: 0.7 * loud }, at)
            }
            Once::Tried(noise) => self.tried(noise, at),
        }
    }

    /// What a point of the walk-round sounds like when it is tried.
    fn tried(&self, noise: Noise, at: f64) -> Made<()> {
        let kind = OscillatorType::Square;
        match noise {
            Noise::Horn => HORN.iter().try_for_each(|pitch| {
                let (from, to) = (*pitch, *pitch);
                self.stroke(&Stroke { kind, from, to, lasts: 0.6, loud: 0.25 }, at)
            }),
            Noise::Click => {
                self.burst(&Burst { band: RELAY.2, q: 1.0, lasts: RELAY.0, loud: 1.0 }, at)
            }
            Noise::Buzz => {
                self.stroke(&Stroke { kind, from: 104.0, to: 98.0, lasts: 0.7, loud: 0.25 }, at)
            }
            Noise::Hiss => self.burst(&Burst { band: 5_000.0, q: 0.5, lasts: 0.8, loud: 0.4 }, at),
            Noise::Squeal => {
                let kind = OscillatorType::Sawtooth;
                self.stroke(&Stroke { kind, from: 1_250.0, to: 950.0, lasts: 0.5, loud: 0.15 }, at)
            }
        }
    }

    fn burst(&self, burst: &Burst, at: f64) -> Made<()> {
        let source = noise(&self.context, &self.grain)?;
        let passes = filter(&self.context, BiquadFilterType::Bandpass, burst.band, burst.q)?;
        let loud = gain(&self.context, 0.0)?;
        loud.gain().set_value_at_time(burst.loud, at)?;
        loud.gain().set_target_at_time(0.0, at + 0.5 * burst.lasts, 0.2 * burst.lasts)?;
        chain(&[&source, &passes, &loud, &self.out])?;
        source.start_with_when(at)?;
        ends(&source, at + 2.0 * burst.lasts)
    }

    fn stroke(&self, stroke: &Stroke, at: f64) -> Made<()> {
        let source = tone(&self.context, stroke.kind, stroke.from)?;
        source.frequency().set_value_at_time(stroke.from, at)?;
        source.frequency().exponential_ramp_to_value_at_time(stroke.to, at + stroke.lasts)?;
        let loud = gain(&self.context, 0.0)?;
        loud.gain().set_value_at_time(0.0, at)?;
        loud.gain().linear_ramp_to_value_at_time(stroke.loud, at + 0.004)?;
        loud.gain().set_target_at_time(0.0, at + 0.3 * stroke.lasts, 0.25 * stroke.lasts)?;
        chain(&[&source, &loud, &self.out])?;
        source.start_with_when(at)?;
        ends(&source, at + 2.0 * stroke.lasts)
    }
}

/// A dull stroke that hardly falls.
fn thud(pitch: f32, lasts: f64, loud: f32) -> Stroke {
    Stroke { kind: OscillatorType::Sine, from: 1.15 * pitch, to: pitch, lasts, loud }
}

fn ends(source: &AudioScheduledSourceNode, at: f64) -> Made<()> {
    source.stop_with_when(at)
}

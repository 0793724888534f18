//! The voices as the browser plays them, and the desk on which they are mixed.

use web_sys::{
    AudioBuffer, BaseAudioContext, BiquadFilterType, GainNode, OscillatorType, StereoPannerNode,
};

use super::shapes::{Dial, Made, chain, filter, gain, grain, noise, tone};
use super::{Band, FAR_HORN, HORN, Motor, SLIP, Voices, WOBBLE};

/// Loudest that each may be, so that all together stay below what a speaker can give.
const MOTOR: f32 = 0.22;
const BRAKE: f32 = 0.5;
const SLIPPING: f32 = 0.4;
const OWN_HORN: f32 = 0.14;
const OTHERS: f32 = 0.12;
const PUMP: f32 = 0.08;
const VALVE: f32 = 0.12;

/// A hum is this low, Hz; oil hisses up here.
const PUMP_PITCH: f32 = 95.0;
const VALVE_BAND: f32 = 2_600.0;
/// The own horn comes through a grille: above this little passes, Hz.
const HORN_CUTOFF: f32 = 2_400.0;

/// Voices that nobody has asked to go on for so long fall silent, s: a page that is hidden or hangs must
/// not drone.
const GOES_ON_S: f64 = 0.6;
/// How they fall silent: most of it in this time, s.
const FALLS_S: f64 = 0.03;

/// All voices, mixed.
pub(super) struct Board {
    pub(super) context: BaseAudioContext,
    /// Everything goes through this one: the volume.
    pub(super) out: GainNode,
    /// What goes on goes through this one as well.
    bus: GainNode,
    pub(super) grain: AudioBuffer,
    motor: MotorVoice,
    brake: (Dial, Dial),
    slip: Dial,
    horn: Dial,
    pump: Dial,
    valve: Dial,
    others: Vec<FarVoice>,
}

struct MotorVoice {
    pitches: [Dial; 2],
    detune: Dial,
    cutoff: Dial,
    gain: Dial,
    /// Middle and depth of the wobble.
    wobble: [Dial; 2],
}

struct FarVoice {
    other: u32,
    pan: Dial,
    cutoff: Dial,
    gain: Dial,
}

impl Board {
    /// A desk at which all is silent, at this volume, 0 to 1.
    pub(super) fn new(context: &BaseAudioContext, volume: f32) -> Made<Self> {
        let (out, bus) = (gain(context, volume)?, gain(context, 1.0)?);
        chain(&[&bus, &out, &context.destination()])?;
        let grain = grain(context)?;
        let band = |at: f32, q: f32| -> Made<(Dial, Dial)> {
            let (source, passes) =
                (noise(context, &grain)?, filter(context, BiquadFilterType::Bandpass, at, q)?);
            let loud = gain(context, 0.0)?;
            chain(&[&source, &passes, &loud, &bus])?;
            source.start()?;
            Ok((Dial::new(passes.frequency(), at), Dial::new(loud.gain(), 0.0)))
        };
        Ok(Self {
            motor: MotorVoice::new(context, &bus)?,
            brake: band(300.0, 1.4)?,
            slip: band(SLIP, 1.0)?.1,
            valve: band(VALVE_BAND, 0.8)?.1,
            horn: two_tones(context, &bus, HORN)?,
            pump: hum(context, &bus)?,
            others: Vec::new(),
            context: context.clone(),
            out,
            bus,
            grain,
        })
    }

    /// What goes on from this time on, s.
    pub(super) fn voices(&mut self, voices: &Voices, at: f64) -> Made<()> {
        self.motor.turn(&voices.motor, at)?;
        let Band { middle, gain } = voices.brake;
        // While it is silent it stays where it is: the next sound begins without a sweep.
        if gain > 0.0 {
            self.brake.0.turn(middle, at)?;
        }
        self.brake.1.turn(gain * BRAKE, at)?;
        self.slip.turn(voices.slip * SLIPPING, at)?;
        self.horn.turn(voices.horn * OWN_HORN, at)?;
        self.pump.turn(voices.pump * PUMP, at)?;
        self.valve.turn(voices.valve * VALVE, at)?;
        for far in &voices.others {
            if !self.others.iter().any(|v| v.other == far.other) {
                self.others.push(FarVoice::new(&self.context, &self.bus, far.other)?);
            }
        }
        for voice in &mut self.others {
            match voices.others.iter().find(|far| far.other == voice.other) {
                Some(far) => {
                    voice.pan.turn(far.pan, at)?;
                    voice.cutoff.turn(far.cutoff, at)?;
                    voice.gain.turn(far.gain * OTHERS, at)?;
                }
                None => voice.gain.turn(0.0, at)?,
            }
        }
        Ok(())
    }

    /// What goes on goes on for a while from now, s.
    pub(super) fn go_on(&self, now: f64) -> Made<()> {
        let bus = self.bus.gain();
        bus.cancel_scheduled_values(now)?;
        bus.set_target_at_time(1.0, now, FALLS_S)?;
        bus.set_target_at_time(0.0, now + GOES_ON_S, FALLS_S)?;
        Ok(())
    }

    /// What goes on falls silent now, s.
    pub(super) fn hush(&self, now: f64) -> Made<()> {
        let bus = self.bus.gain();
        bus.cancel_scheduled_values(now)?;
        bus.set_target_at_time(0.0, now, FALLS_S)?;
        Ok(())
    }
}

impl MotorVoice {
    fn new(context: &BaseAudioContext, bus: &GainNode) -> Made<Self> {
        let saw = tone(context, OscillatorType::Sawtooth, 60.0)?;
        let square = tone(context, OscillatorType::Square, 60.0)?;
        // So soft that the two never cancel each other, however they lie: of a saw the ground tone is 2/pi
        // and the octave 1/pi, of a square 4/pi and none, so a quarter would leave no more than the octave.
        let softer = gain(context, 0.15)?;
        let passes = filter(context, BiquadFilterType::Lowpass, 500.0, 0.7)?;
        let (wobbles, loud) = (gain(context, 1.0)?, gain(context, 0.0)?);
        chain(&[&saw, &passes, &wobbles, &loud, bus])?;
        chain(&[&square, &softer, &passes])?;
        let (wave, depth) = (tone(context, OscillatorType::Sine, WOBBLE)?, gain(context, 0.0)?);
        chain(&[&wave, &depth])?;
        depth.connect_with_audio_param(&wobbles.gain())?;
        for each in [&saw, &square, &wave] {
            each.start()?;
        }
        Ok(Self {
            pitches: [&saw, &square].map(|tone| Dial::new(tone.frequency(), 60.0)),
            detune: Dial::new(square.detune(), 0.0),
            cutoff: Dial::new(passes.frequency(), 500.0),
            gain: Dial::new(loud.gain(), 0.0),
            wobble: [Dial::new(wobbles.gain(), 1.0), Dial::new(depth.gain(), 0.0)],
        })
    }

    fn turn(&mut self, to: &Motor, at: f64) -> Made<()> {
        for pitch in &mut self.pitches {
            pitch.turn(to.pitch, at)?;
        }
        self.detune.turn(to.detune, at)?;
        self.cutoff.turn(to.cutoff, at)?;
        self.gain.turn(to.gain * MOTOR, at)?;
        self.wobble[0].turn(1.0 - 0.5 * to.wobble, at)?;
        self.wobble[1].turn(0.5 * to.wobble, at)
    }
}

impl FarVoice {
    fn new(context: &BaseAudioContext, bus: &GainNode, other: u32) -> Made<Self> {
        let side: StereoPannerNode = context.create_stereo_panner()?;
        let passes = filter(context, BiquadFilterType::Lowpass, 700.0, 0.7)?;
        chain(&[&passes, &side, bus])?;
        Ok(Self {
            other,
            pan: Dial::new(side.pan(), 0.0),
            cutoff: Dial::new(passes.frequency(), 700.0),
            gain: squares(context, &passes, FAR_HORN)?,
        })
    }
}

/// Two squares at once, silent, into what comes after.
fn squares(context: &BaseAudioContext, into: &web_sys::AudioNode, pitches: [f32; 2]) -> Made<Dial> {
    let loud = gain(context, 0.0)?;
    chain(&[&loud, into])?;
    for pitch in pitches {
        let one = tone(context, OscillatorType::Square, pitch)?;
        chain(&[&one, &loud])?;
        one.start()?;
    }
    Ok(Dial::new(loud.gain(), 0.0))
}

fn two_tones(context: &BaseAudioContext, bus: &GainNode, pitches: [f32; 2]) -> Made<Dial> {
    let passes = filter(context, BiquadFilterType::Lowpass, HORN_CUTOFF, 0.7)?;
    chain(&[&passes, bus])?;
    squares(context, &passes, pitches)
}

fn hum(context: &BaseAudioContext, bus: &GainNode) -> Made<Dial> {
    let (saw, loud) = (tone(context, OscillatorType::Sawtooth, PUMP_PITCH)?, gain(context, 0.0)?);
    let passes = filter(context, BiquadFilterType::Lowpass, 6.0 * PUMP_PITCH, 0.7)?;
    chain(&[&saw, &passes, &loud, bus])?;
    saw.start()?;
    Ok(Dial::new(loud.gain(), 0.0))
}

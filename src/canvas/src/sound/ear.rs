//! From two Frames to what is heard in the tick between them. The numbers are chosen by ear, with no source:
//! they tell apart what a rider needs to tell apart, and are those of no truck.

use coneyard_core::math::{sin, wrap_angle};
use coneyard_core::time::TICK_RATE;
use coneyard_core::yard::frame::{ConeFrame, Frame, OtherFrame};

use super::{Band, FarHorn, Heard, Motor, Once, Voices};
use crate::joints::slab;

/// Slower than this nothing rolls, m/s.
const STILL: f64 = 0.02;
/// From this speed on what rolls is as loud as it gets, m/s.
const LOUD_FROM: f64 = 0.5;

/// Pitch of the motor at rest, Hz, and what each m/s adds.
const PITCH: f64 = 60.0;
/// See there, Hz s/m.
const PITCH_BY_SPEED: f64 = 180.0;
/// The motor without throttle, beside full throttle.
const ROLLING_FREE: f64 = 0.35;
/// What passes of the motor without throttle, Hz, and what full throttle adds.
const CUTOFF: f64 = 500.0;
/// See there, Hz.
const CUTOFF_BY_THROTTLE: f64 = 2_000.0;
/// The square beside the sawtooth at the most, cents.
const DETUNE: f64 = 30.0;
/// This acceleration alone is all the strain it can have, m/s^2.
const STRAIN: f64 = 1.5;
/// How much of its strain a load makes.
const BY_LOAD: f64 = 0.4;
/// How deep the motor wobbles while it plugs.
const WOBBLES: f32 = 0.7;

/// The hardest braking, m/s^2, and the band of noise at the gentlest and at the hardest, Hz.
const HARDEST: f64 = 3.5;
/// See there.
const BRAKE_BAND: (f64, f64) = (300.0, 900.0);

/// From this distance on another truck's horn is half as loud, m.
const HALF_AT: f64 = 8.0;
/// What passes of a horn in sight, and of a hidden one, Hz.
const FAR_CUTOFF: (f32, f32) = (4_000.0, 700.0);

/// A touch slower than this makes no sound, m/s; from the other on none is louder.
const KNOCK: (f64, f64) = (0.05, 1.5);
/// Joints tick loudest from this speed on, m/s.
const TICKS_LOUD_FROM: f64 = 2.0;
/// Forks that move less than this in a tick stand, m.
const FORKS_STAND: f64 = 1e-6;

/// What is heard in the tick of `now`. `before` is the Frame of the tick before it; what only the change
/// from one to the next can tell is not heard without it.
pub(crate) fn hear(before: Option<&Frame>, now: &Frame) -> Heard {
    let before = before.filter(|b| b.tick + 1 == now.tick);
    let lift = before.map_or(0.0, |b| now.fork_height - b.fork_height);
    let is = |yes: bool| if yes { 1.0 } else { 0.0 };
    let voices = Voices {
        motor: motor(before, now),
        brake: brake(now),
        slip: slip(now),
        horn: is(now.horn),
        pump: is(lift > FORKS_STAND),
        valve: is(lift < -FORKS_STAND),
        others: now.others.iter().filter(|o| o.horn).map(|o| far(now, o)).collect(),
    };
    Heard { tick: now.tick, voices, once: once(before, now) }
}

/// From nothing at rest to all of it, by speed.
fn rolling(frame: &Frame) -> f64 {
    let speed = frame.speed.abs();
    if speed < STILL { 0.0 } else { (speed / LOUD_FROM).min(1.0) }
}

fn motor(before: Option<&Frame>, now: &Frame) -> Motor {
    let throttle = f64::from(now.throttle.unsigned_abs()) / 100.0;
    // In a brake zone the throttle asks in vain.
    let throttle = if now.braking { 0.0 } else { throttle };
    let speeding = before.map_or(0.0, |b| (now.speed - b.speed) * f64::from(TICK_RATE));
    let laden = now.pallets.iter().any(|p| p.carried);
    let strain = (speeding.abs() / STRAIN).min(1.0) * (1.0 - BY_LOAD);
    let strain = if laden { strain + BY_LOAD } else { strain };
    Motor {
        pitch: (PITCH + PITCH_BY_SPEED * now.speed.abs()) as f32,
        detune: (DETUNE * strain) as f32,
        cutoff: (CUTOFF + CUTOFF_BY_THROTTLE * throttle) as f32,
        gain: (rolling(now) * (ROLLING_FREE + (1.0 - ROLLING_FREE) * throttle)) as f32,
        wobble: if now.plugging { WOBBLES } else { 0.0 },
    }
}

fn brake(now: &Frame) -> Band {
    let share = if now.braking { (now.deceleration / HARDEST).clamp(0.0, 1.0) } else { 0.0 };
    let (gentlest, hardest) = BRAKE_BAND;
    Band {
        middle: (gentlest + (hardest - gentlest) * share) as f32,
        gain: (share * rolling(now)) as f32,
    }
}

/// Both kinds of wheels slide louder than one, and fast louder than slowly; a wheel may spin at rest.
fn slip(now: &Frame) -> f32 {
    let wheels = if now.drive_wheel_slips { 0.6 } else { 0.0 }
        + if now.load_wheels_slip { 0.4 } else { 0.0 };
    (wheels * (0.4 + 0.6 * rolling(now))) as f32
}

fn far(now: &Frame, other: &OtherFrame) -> FarHorn {
    let to = other.pose.at - now.eye;
    let bearing = wrap_angle(to.angle() - now.truck.heading - now.head);
    FarHorn {
        other: other.other,
        pan: -sin(bearing) as f32,
        cutoff: if other.seen { FAR_CUTOFF.0 } else { FAR_CUTOFF.1 },
        gain: (HALF_AT / (HALF_AT + to.length())) as f32,
    }
}

fn once(before: Option<&Frame>, now: &Frame) -> Vec<Once> {
    let mut once: Vec<Once> = now.tried.map(Once::Tried).into_iter().collect();
    let Some(before) = before else {
        // A drive begins with the key turned.
        if now.tick == 0 && now.key_on {
            once.push(Once::StartUp);
        }
        return once;
    };
    if now.key_on && !before.key_on {
        once.push(Once::StartUp);
    }
    if now.braking && !before.braking && rolling(before) > 0.0 {
        once.push(Once::BrakeOn);
    }
    let falls = |(was, is): (&ConeFrame, &ConeFrame)| {
        was.fallen_towards.is_none() && is.fallen_towards.is_some()
    };
    let fallen = before.cones.iter().zip(now.cones.iter()).filter(|pair| falls(*pair)).count();
    once.extend(core::iter::repeat_n(Once::Cone, fallen));
    // No two cases that lie side by side have fallen alike.
    let cases = before.cases.len()..now.cases.len();
    once.extend(cases.map(|n| Once::Case(3 + n as u32 % 3)));
    let (from, to) = (before.truck.at, now.truck.at);
    if slab(from.x) != slab(to.x) || slab(from.y) != slab(to.y) {
        let loud = (now.speed.abs() / TICKS_LOUD_FROM).min(1.0);
        once.push(Once::Joint(loud as f32));
    }
    if now.knock > KNOCK.0 && before.knock <= KNOCK.0 {
        once.push(Once::Knock((now.knock / KNOCK.1).min(1.0) as f32));
    }
    once
}

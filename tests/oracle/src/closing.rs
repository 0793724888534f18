//! Whether a body that goes on as it went meets a thing within a tick, and how fast.

use coneyard_core::math::Pose;
use coneyard_core::time::DT;

use crate::shapes::{Motion, Shape, apart};

/// A meeting.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Meeting {
    /// Speed with which the body moves into the thing, m/s.
    pub(crate) speed: f64,
    /// How far the two would go into each other by the end of the tick, m.
    pub(crate) depth: f64,
}

/// A little longer than a tick: a body may get faster in it.
const LOOKS: f64 = 1.1;
/// Looked at so many times on the way: a corner passes a corner quickly.
const STEPS: u32 = 8;
/// The last stretch before the meeting, ticks, over which the speed is measured.
const BEFORE: f64 = 0.25;
/// Halvings, to the last stretch of which the meeting is known: a ten-thousandth of a tick.
const HALVINGS: u32 = 10;

/// What a body of these parts, which stood at `before` and a tick later at `here`, meets in the next tick;
/// `thing` is where the thing is so many ticks on. Only the body's own motion counts for the speed.
/// `within` is the farthest that the two can come together in that time, m.
pub(crate) fn meets(
    parts: &[Shape],
    (before, here): (Pose, Pose),
    within: f64,
    thing: impl Fn(f64) -> Shape,
) -> Option<Meeting> {
    let now = thing(0.0);
    // What is farther away is not looked at further.
    let near = |p: &&Shape| p.apart_at_least(&now) <= within && p.apart(&now) <= within;
    let parts: Vec<&Shape> = parts.iter().filter(near).collect();
    if parts.is_empty() {
        return None;
    }
    let motion = Motion::of(before, here);
    let at = |ticks: f64| -> Vec<Shape> {
        let to = motion.at(ticks);
        parts.iter().map(|p| p.carried(here, to)).collect()
    };
    let gap = |ticks: f64| apart(&at(ticks), &thing(ticks));
    let (mut free, mut met) = (0.0, None);
    if gap(0.0) <= 0.0 {
        met = Some(0.0);
    } else {
        for step in 1..=STEPS {
            let ticks = LOOKS * f64::from(step) / f64::from(STEPS);
            if gap(ticks) <= 0.0 {
                met = Some(ticks);
                break;
            }
            free = ticks;
        }
    }
    let mut met = met?;
    if met > 0.0 {
        for _ in 0..HALVINGS {
            let half = 0.5 * (free + met);
            if gap(half) <= 0.0 { met = half } else { free = half }
        }
    }
    let came = at(met - BEFORE);
    let speed = apart(&came, &thing(met)) / (BEFORE * DT);
    let together = apart(&came, &thing(met - BEFORE)) / BEFORE;
    Some(Meeting { speed, depth: (1.0 - met) * together })
}

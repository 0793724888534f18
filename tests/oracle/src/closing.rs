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

/// From now on for a little longer than a tick: a body may get faster in it.
pub(crate) const NEXT: [f64; 2] = [0.0, 1.1];
/// Before and behind it as well.
pub(crate) const AROUND: [f64; 2] = [-1.0, 2.1];
/// Looked at so many times in a tick: a corner passes a corner quickly.
const STEPS: f64 = 8.0;
/// The last stretch before the meeting, ticks, over which the speed is measured.
const BEFORE: f64 = 0.25;
/// Halvings, to the last stretch of which the meeting is known: a ten-thousandth of a tick.
const HALVINGS: u32 = 10;

/// What a body of these parts, which stood at `before` and a tick later at `here`, meets within these
/// ticks from then, if nothing holds it up; `thing` is where the thing is so many ticks on. Only the body's
/// own motion counts for the speed. `most` is the farthest that the two come together in a tick, m.
pub(crate) fn meets(
    parts: &[Shape],
    (before, here): (Pose, Pose),
    ([from, until], most): ([f64; 2], f64),
    thing: impl Fn(f64) -> Shape,
) -> Option<Meeting> {
    // What is farther away is not looked at further.
    let (now, within) = (thing(0.0), most * until);
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
    let met = if gap(from) > 0.0 { first_met(gap, from, until)? } else { from };
    let came = at(met - BEFORE);
    let speed = apart(&came, &thing(met)) / (BEFORE * DT);
    let together = apart(&came, &thing(met - BEFORE)) / BEFORE;
    Some(Meeting { speed, depth: (1.0 - met) * together })
}

/// When the gap is first none, ticks.
fn first_met(gap: impl Fn(f64) -> f64, from: f64, until: f64) -> Option<f64> {
    let steps = (STEPS * (until - from)).ceil();
    let ticks = |step: u32| from + (until - from) * f64::from(step) / steps;
    let first = (1..=steps as u32).find(|step| gap(ticks(*step)) <= 0.0)?;
    let (mut free, mut met) = (ticks(first - 1), ticks(first));
    for _ in 0..HALVINGS {
        let half = 0.5 * (free + met);
        *(if gap(half) <= 0.0 { &mut met } else { &mut free }) = half;
    }
    Some(met)
}

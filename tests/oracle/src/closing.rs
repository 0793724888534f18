//! Whether a body that goes on as it went meets a thing within a tick, and how fast.

use coneyard_core::math::Pose;
use coneyard_core::time::DT;

use crate::shapes::{Motion, Shape};

/// A meeting.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Meeting {
    /// Speed with which the body moves into the thing, m/s.
    pub(crate) speed: f64,
    /// That of any corner that would meet it within the tick, were nothing in its way, m/s.
    pub(crate) most: f64,
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
/// Slower than this a part leans on the thing or slides along it, m/s.
const BLOW: f64 = 0.04;
/// Blows so near to each other in time come at once, ticks.
const AT_ONCE: f64 = 0.02;
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
    let motion = Motion::of(before, here);
    // What is farther away is not looked at further.
    let (now, within) = (thing(0.0), most * until);
    let near = |p: &&Shape| p.apart_at_least(&now) <= within && p.apart(&now) <= within;
    // Each corner for itself: one that slides along the thing does not hide the blow of another.
    let all = parts.iter().filter(near).flat_map(|part| {
        let own = part.corners().iter().filter_map(|corner| {
            let at = |ticks: f64| motion.at(ticks).to_yard(here.to_body(*corner));
            meeting(|own, its| thing(its).to_point(at(own)), from, until)
        });
        let its = (0..now.corners().len()).filter_map(|i| {
            let at = |ticks: f64| part.carried(here, motion.at(ticks));
            meeting(|own, its| at(own).to_point(thing(its).corners()[i]), from, until)
        });
        own.chain(its).collect::<Vec<_>>()
    });
    let all: Vec<(f64, Meeting)> = all.collect();
    // The first blow changes the motion, so that no other need come as it would have.
    let blows = || all.iter().filter(|(_, m)| m.speed > BLOW);
    let first = blows().map(|(met, _)| *met).fold(f64::INFINITY, f64::min);
    let at_once = blows().filter(|(met, _)| *met <= first + AT_ONCE).map(|(_, m)| *m);
    let fastest = |a: &Meeting, b: &Meeting| a.speed.total_cmp(&b.speed);
    let met = at_once.max_by(fastest).or(all.first().map(|(_, m)| *m))?;
    let most = all.iter().map(|(_, m)| m.speed).fold(met.speed, f64::max);
    Some(Meeting { most, ..met })
}

/// When and how a gap closes: it is given the ticks of the body and of the thing.
fn meeting(gap: impl Fn(f64, f64) -> f64, from: f64, until: f64) -> Option<(f64, Meeting)> {
    let now = |ticks: f64| gap(ticks, ticks);
    let met = if now(from) > 0.0 { first_met(now, from, until)? } else { from };
    let speed = gap(met - BEFORE, met) / (BEFORE * DT);
    let together = now(met - BEFORE) / BEFORE;
    Some((met, Meeting { speed, most: speed, depth: (1.0 - met) * together }))
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

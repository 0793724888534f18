//! The walk-round as a step: it is over when the truck is taken or tagged out.

use crate::checks::draw::Mode;
use crate::checks::walk::Decision;
use crate::moment::CourseEvent;
use crate::task::facts::Facts;

/// How it goes on after a walk-round.
pub(super) enum Goes {
    /// With the next step.
    On,
    /// All is done.
    Home,
    /// The task can no longer be done.
    Nowhere,
}

/// Once the truck is taken or tagged out. Who tags out a truck that may run has not done the day's work; in
/// practice the next truck comes all the same.
pub(super) fn walked(mode: Mode, now: &Facts<'_>, events: &mut Vec<CourseEvent>) -> Option<Goes> {
    let walk = now.around.walk?;
    let decision = walk.decided?;
    events.push(CourseEvent::WalkRoundDone);
    Some(match decision {
        Decision::Taken => Goes::On,
        Decision::TaggedOut if walk.truck.must_not_run() || mode == Mode::Practice => Goes::Home,
        Decision::TaggedOut => Goes::Nowhere,
    })
}

/// Said on the drive, standing beside the truck, that something is the matter, and something is.
pub(super) fn reported(now: &Facts<'_>) -> bool {
    now.around.walk.is_some_and(|w| w.is_rightly_reported())
}

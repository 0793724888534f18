//! What a rider does standing: forks, pallets, picking on foot, checks at a dock.

use super::route::End;
use crate::acts::Act;
use crate::controls::{Controls, Look};
use crate::course::{Course, StepKind};
use crate::math::{Vec2, wrap_angle};
use crate::moment::Moment;
use crate::time::{TICK_RATE, Tick};
use crate::yard::loads::{CARRIES_ABOVE_M, ENTRY_LOW_M};

/// Fork height for travelling over lowered, m.
const TRAVEL_M: f64 = 0.035;
/// Nearer than this the forks are left alone, m.
const NEAR_M: f64 = 0.0015;
/// Time on foot at a place to pick from, ticks.
const ON_FOOT: Tick = TICK_RATE * 5 / 4;

/// The present step is done from where the truck stands.
pub(super) fn stands_for(course: &Course, m: &Moment) -> bool {
    let step = course.steps.get(m.task.step as usize);
    matches!(step.map(|s| &s.what), Some(StepKind::CheckDock { .. }))
}

/// Before moving off: whether the forks have to go up (true) or down; None when they are right.
/// `under` is the height at which this rider goes under a pallet, m.
pub(super) fn forks(m: &Moment, end: End, under: f64) -> Option<bool> {
    let height = m.truck.fork_height;
    let goal = if m.load.pallets > 0 {
        TRAVEL_M
    } else if end == End::Handling && m.task.pick_at.is_none() || height <= ENTRY_LOW_M {
        // Higher would lift what was set down.
        under
    } else {
        TRAVEL_M
    };
    let off = goal - height;
    // Travelling heights differ from truck to truck: only what is too low or too high is changed.
    let is_right = if goal == TRAVEL_M {
        height > CARRIES_ABOVE_M + 0.005 && height < 0.05
    } else {
        off.abs() < NEAR_M
    };
    (!is_right).then_some(off > 0.0)
}

/// One tick of handling; true when it is done and a new plan is wanted. `looks` is the time to look
/// at one check of a dock, ticks.
pub(super) fn handle(
    course: &Course,
    m: &Moment,
    since: Tick,
    looks: Tick,
    (controls, acts): (&mut Controls, &mut Vec<Act>),
) -> bool {
    let Some(step) = course.steps.get(m.task.step as usize) else { return true };
    let waited = m.tick.saturating_sub(since);
    match &step.what {
        StepKind::PickUp { .. } => controls.forks_up = true,
        StepKind::SetDown { .. } => controls.forks_down = true,
        StepKind::Picks { .. } => {
            let near = m.task.pick_at.is_some_and(|p| {
                (p - m.truck.platform_in_yard).length() < crate::course::warehouse::PICK_REACH_M
            });
            // Again, when the first time did not count: the truck was still rolling.
            controls.aboard = !near || waited % (ON_FOOT + TICK_RATE) > ON_FOOT;
            return !near;
        }
        StepKind::CheckDock { dock } => {
            let file = &course.warehouse.docks[*dock];
            let n = file.checks.len() as Tick;
            let (_, at) = file.checks[(waited / looks % n) as usize];
            controls.look = towards(m, at);
            let found = m.docks.iter().find(|d| d.dock as usize == *dock);
            if found.is_some_and(|d| d.inspected.is_found() && !d.inspected.reported) {
                acts.push(Act::Report);
            }
        }
        _ => return true,
    }
    false
}

/// The look whose direction is nearest to a point.
fn towards(m: &Moment, at: Vec2) -> Look {
    use core::f64::consts::{FRAC_PI_4, PI};
    let to = at - m.truck.platform_in_yard;
    let angle = wrap_angle(to.angle() - m.truck.pose.heading);
    if angle.abs() <= FRAC_PI_4 {
        Look::Ahead
    } else if angle.abs() > PI - FRAC_PI_4 {
        Look::Behind
    } else if angle > 0.0 {
        Look::Left
    } else {
        Look::Right
    }
}

//! Steps in which something is handled: taking a pallet up, setting it down, picking on foot,
//! checking a dock. `progress` asks here whether such a step is complete.

use crate::course::warehouse::{Bay, PICK_REACH_M, PickStop};
use crate::math::{Pose, Vec2, wrap_angle};
use crate::moment::{CourseEvent, DockMoment};
use crate::state;
use crate::task::facts::{FORKS_DOWN, Facts, REST_SPEED};
use crate::time::TICK_RATE;

/// A pallet farther from its bay than this is not yet set down there, m.
const BAY_REACH: f64 = 0.5;
/// On foot at a place to pick from for so many ticks.
const PICK_TICKS: u32 = TICK_RATE;

/// What is remembered within a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Handling {
    /// Place in the order of places to pick from.
    pub(super) due: usize,
    on_foot: u32,
    was_carrying: bool,
}

state!(Handling { due, on_foot, was_carrying });

impl Handling {
    /// True when the pallet is on the forks.
    pub(super) fn pick_up(
        &self,
        pallet: usize,
        now: &Facts<'_>,
        events: &mut Vec<CourseEvent>,
    ) -> bool {
        let pallet = pallet as u32;
        if !now.around.carried.contains(&pallet) {
            return false;
        }
        events.push(CourseEvent::PickedUp { pallet });
        true
    }

    /// True when a pallet that was carried stands in the bay.
    pub(super) fn set_down(
        &mut self,
        (index, bay): (usize, &Bay),
        now: &Facts<'_>,
        events: &mut Vec<CourseEvent>,
    ) -> bool {
        let carrying = !now.around.carried.is_empty();
        let set_down = self.was_carrying && !carrying && now.truck.fork_height <= FORKS_DOWN;
        self.was_carrying |= carrying;
        if !set_down {
            return false;
        }
        let off = |p: &Pose| (p.at - bay.pose.at).length();
        let nearest = now.around.floor.iter().min_by(|a, b| off(&a.1).total_cmp(&off(&b.1)));
        let Some((_, pallet)) = nearest.filter(|(_, p)| off(p) <= BAY_REACH) else {
            return false;
        };
        self.was_carrying = false;
        events.push(CourseEvent::SetDown {
            bay: index as u32,
            off: off(pallet),
            turned: quarter_free(pallet.heading - bay.pose.heading),
        });
        true
    }

    /// True when the last place is done.
    pub(super) fn pick(
        &mut self,
        order: &[usize],
        stops: &[PickStop],
        now: &Facts<'_>,
        events: &mut Vec<CourseEvent>,
    ) -> bool {
        let stop = order[self.due];
        let within = (stops[stop].at - now.truck.platform_in_yard).length() <= PICK_REACH_M;
        let on_foot = !now.around.aboard && now.truck.speed.abs() <= REST_SPEED && within;
        if on_foot {
            self.on_foot += 1;
            return false;
        }
        let picked = self.on_foot >= PICK_TICKS && now.around.aboard;
        self.on_foot = 0;
        if !picked {
            return false;
        }
        events.push(CourseEvent::Picked { stop: stop as u32 });
        self.due += 1;
        if self.due < order.len() {
            return false;
        }
        self.due = 0;
        true
    }
}

/// Whether the checks of a dock are made; `Some(true)` when a false one was reported.
pub(super) fn dock_checked(dock: &DockMoment, events: &mut Vec<CourseEvent>) -> Option<bool> {
    let refused = dock.inspected.is_refused();
    let is_sound = dock.inspected.left_out() == 0 && dock.inspected.is_sound();
    if !is_sound && !refused {
        return None;
    }
    events.push(CourseEvent::DockChecked { dock: dock.dock, refused });
    Some(refused)
}

/// Where the next place to pick from is, for the dashboard and for scripted riders.
pub(super) fn pick_at(order: &[usize], stops: &[PickStop], due: usize) -> Option<Vec2> {
    order.get(due).map(|i| stops[*i].at)
}

/// The size of an angle between two pallets: either end may be the front.
fn quarter_free(angle: f64) -> f64 {
    let a = wrap_angle(angle).abs();
    a.min(core::f64::consts::PI - a)
}

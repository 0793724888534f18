//! The duties of a rider, one file each: what is watched, and how it becomes findings.
//!
//! A watcher is a small state machine that sees Moments and nothing else. Its numbers come from
//! the site rules through a [`Yardstick`](crate::rules::Yardstick); none stands here.
//! To add a finding: a file with its watcher, a row in `duties.rs` and one in `rules/needs.rs`, an entry
//! in levels/site-rules.json and in its schema, and its four texts in each assets/lang/findings.*.ftl.

mod blind_spot;
mod body;
pub mod causes;
mod contact;
mod corner_speed;
mod crossing;
mod dock;
mod duties;
mod emergency;
pub(crate) mod entries;
mod forks_first;
mod forks_high;
mod gates;
mod gentle_start;
mod handling;
mod high_speed;
mod horn;
mod jerk;
mod lane;
mod lap;
mod left_truck;
mod lines;
mod load_shift;
mod looking;
mod mark;
mod near_miss;
mod outruns;
mod over_speed;
mod plugging;
mod reaction;
mod report;
mod report_claim;
pub(crate) mod rest;
mod service_brake;
mod spell;
mod spells;
mod stance;
mod stepping_off;
mod stop_line;
mod struck;
pub(crate) mod surprise;
mod task;
#[cfg(test)]
pub(crate) mod test_support;
mod throttle;
mod tipping;
mod trail;
mod travel_load;
mod trucks;
mod walk_round;
mod walked;
mod wet;
mod wrong_way;
mod yield_line;

pub use duties::{watched, watcher};
pub use report::{Chance, Handle, Report};

use crate::moment::Moment;
use crate::time::Tick;

/// Watches one duty.
pub trait Watcher: Send + Sync {
    /// Looks at one tick. Ticks come in order, each once.
    fn see(&mut self, moment: &Moment, out: &mut Report);
    /// The drive is over after this tick: closes what only the end decides.
    fn end(&mut self, last: Tick, out: &mut Report) {
        let _ = (last, out);
    }
}

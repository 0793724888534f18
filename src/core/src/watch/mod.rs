//! The duties of a rider, one file each: what is watched, and how it becomes findings.
//!
//! A watcher is a small state machine that sees Moments and nothing else. Its numbers come from
//! the site rules through a [`Yardstick`]; none stands here except how large a number may be.
//! To add a finding: a file with its watcher, a row in [`DUTIES`] (duties.rs), an entry in
//! levels/site-rules.json, and its four texts in assets/lang/findings.*.ftl.

mod blind_spot;
mod body;
mod contact;
mod corner_speed;
mod crossing;
mod dock;
mod duties;
mod emergency;
mod entries;
mod exposure;
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
mod rest;
mod service_brake;
mod spell;
mod spells;
mod stance;
mod stepping_off;
mod stop_line;
mod struck;
mod surprise;
mod task;
#[cfg(test)]
pub(crate) mod test_support;
mod throttle;
mod tipping;
mod travel_load;
mod trucks;
mod walked;
mod wet;
mod wrong_way;
pub mod yardstick;
mod yield_line;

pub use duties::DUTIES;
pub use exposure::Exposure;
pub use report::{Chance, Handle, Report};
pub use yardstick::{Called, Common, Yardstick};

use crate::finding::{Tick, Unit};
use crate::moment::Moment;

/// Watches one duty.
pub trait Watcher: Send + Sync {
    /// Looks at one tick. Ticks come in order, each once.
    fn see(&mut self, moment: &Moment, out: &mut Report);
    /// The drive is over after this tick: closes what only the end decides.
    fn end(&mut self, last: Tick, out: &mut Report) {
        let _ = (last, out);
    }
}

/// A number that a rule needs from the site rules.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Need {
    /// Its name in the file.
    pub name: &'static str,
    /// The unit it must have there.
    pub unit: Unit,
    /// The smallest value that makes sense.
    pub least: f64,
    /// The largest.
    pub most: f64,
}

/// Name of the number below which a finding is graver; otherwise it is above one.
pub const BELOW: &str = "below";

/// One kind of finding.
#[derive(Clone, Copy, Debug)]
pub struct Duty {
    /// Its code, everywhere.
    pub code: &'static str,
    /// A deed, not a fault.
    pub good: bool,
    /// Only where the course has others about.
    pub in_traffic: bool,
    /// The numbers it needs.
    pub limits: &'static [Need],
    /// What makes it graver, where anything can: a value above it, or below it where its name is
    /// [`BELOW`].
    pub graver: Option<Need>,
    /// Makes its watcher.
    pub watcher: fn(Yardstick) -> Box<dyn Watcher>,
}

const fn need(name: &'static str, unit: Unit, least: f64, most: f64) -> Need {
    Need { name, unit, least, most }
}

use Unit::{Count, Degree, Metre, MetrePerSecond, Second, Share};

use crate::course::warehouse::CHECK_REACH_M;

/// Words that several rules share, with their numbers in the site rules.
pub const TERMS: &[Need] = &[
    // The same fault again within this time is the same finding.
    need("again-after", Second, 0.0, 5.0),
    // How long after a fault something may still come of it.
    need("cause-within", Second, 0.0, 10.0),
    // At rest is no faster than this,
    need("rest-speed", MetrePerSecond, 0.001, 0.1),
    // and for this long.
    need("rest-for", Second, 0.0, 10.0),
    // The counting of opportunities: see `exposure`.
    need("stretch", Metre, 1.0, 1000.0),
    need("turn", Degree, 1.0, 80.0),
    need("stop-from", MetrePerSecond, 0.05, 3.0),
    need("near-person", Metre, 0.5, 50.0),
    // From which lower end of the share of clean opportunities on someone is ready; see
    // `score::certainty`.
    need("ready-from", Share, 0.1, 0.99),
    // What calls for the brake: see `service_brake`.
    need("called-near", Metre, 0.0, 50.0),
    need("called-soon", Second, 0.0, 10.0),
    need("called-out", Metre, 0.0, 50.0),
    need("called-for", Second, 0.0, 10.0),
    // Nearer to a crossing than this someone who walks to it steps on.
    need("steps-on", Metre, 0.0, 5.0),
    // How a check at a dock is made: see `around::ways`. A course promises that each can be made
    // from so near; the looks of a head are a right angle apart.
    need("check-reach", Metre, CHECK_REACH_M, 30.0),
    need("check-time", Second, 0.0, 5.0),
    need("check-aside", Degree, 45.0, 90.0),
    // Seeing the way ahead: see `around::eye`. The field of view reaches no farther to a side.
    need("remembers", Second, 0.0, 10.0),
    need("looks-along", Degree, 10.0, 95.0),
    // What a pre-test asks for besides points: see `pretest::joined`.
    need("time-ratio", Share, 0.5, 0.99),
    need("pauses", Count, 0.0, 1.0),
];

/// The row of a code.
pub fn duty(code: &str) -> Option<&'static Duty> {
    DUTIES.iter().find(|d| d.code == code)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_stands_once_and_the_clean_lap_last() {
        let mut codes: Vec<&str> = DUTIES.iter().map(|d| d.code).collect();
        assert_eq!(codes.last(), Some(&"clean-lap"));
        codes.sort_unstable();
        let all = codes.len();
        codes.dedup();
        assert_eq!(codes.len(), all);
    }
}

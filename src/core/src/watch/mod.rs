//! The duties of a rider, one file each: what is watched, and how it becomes findings.
//!
//! A watcher is a small state machine that sees Moments and nothing else. Its numbers come from
//! the site rules through a [`Yardstick`]; none stands here except how large a number may be.
//! To add a finding: a file with its watcher, a row in [`DUTIES`], an entry in
//! levels/site-rules.json, and its four texts in assets/lang/findings.*.ftl.

mod contact;
mod corner_speed;
mod emergency;
mod exposure;
mod forks_first;
mod forks_high;
mod gates;
mod gentle_start;
mod horn;
mod lane;
mod lap;
mod mark;
mod over_speed;
mod plugging;
mod report;
mod rest;
mod service_brake;
mod spell;
mod stance;
mod task;
#[cfg(test)]
pub(crate) mod test_support;
mod throttle;
mod tipping;
pub mod yardstick;

pub use exposure::Exposure;
pub use report::{Chance, Handle, Report};
pub use yardstick::{Common, Yardstick};

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
    /// What makes it graver, where anything can.
    pub graver: Option<Need>,
    /// Makes its watcher.
    pub watcher: fn(Yardstick) -> Box<dyn Watcher>,
}

const fn need(name: &'static str, unit: Unit, least: f64, most: f64) -> Need {
    Need { name, unit, least, most }
}

const fn fault(
    code: &'static str,
    limits: &'static [Need],
    watcher: fn(Yardstick) -> Box<dyn Watcher>,
) -> Duty {
    Duty { code, good: false, in_traffic: false, limits, graver: None, watcher }
}

const fn deed(
    code: &'static str,
    limits: &'static [Need],
    watcher: fn(Yardstick) -> Box<dyn Watcher>,
) -> Duty {
    Duty { good: true, ..fault(code, limits, watcher) }
}

use Unit::{Degree, Gravity, Metre, MetrePerSecond, NewtonMetreSecond, Second, Share};

/// Every finding that can be made. Deeds stand after the faults, and the clean lap last: it asks
/// what the others found.
pub const DUTIES: &[Duty] = &[
    fault("contact-cone", &[], contact::cone),
    Duty {
        graver: Some(need("above", MetrePerSecond, 0.0, 10.0)),
        ..fault(
            "contact-structure",
            &[need("closing-speed", MetrePerSecond, 0.0, 2.0)],
            contact::structure,
        )
    },
    fault("left-the-lane", &[need("for", Second, 0.0, 10.0)], lane::left),
    fault("gate-missed", &[], gates::missed),
    fault("gate-wrong-way", &[], gates::wrong_way),
    Duty {
        graver: Some(need("above", Share, 0.0, 5.0)),
        ..fault(
            "over-speed",
            &[need("excess", Share, 0.0, 1.0), need("for", Second, 0.0, 10.0)],
            over_speed::watcher,
        )
    },
    fault(
        "corner-speed",
        &[need("side-acceleration", Gravity, 0.02, 1.0), need("for", Second, 0.0, 5.0)],
        corner_speed::watcher,
    ),
    fault("plugging-ran-back", &[need("distance", Metre, 0.0, 5.0)], plugging::ran_back),
    fault(
        "brake-arm-as-service",
        &[need("speed", MetrePerSecond, 0.0, 5.0)],
        service_brake::watcher,
    ),
    fault(
        "throttle-snatched",
        &[need("throttle", Share, 0.1, 1.0), need("within", Second, 0.0, 2.0)],
        throttle::snatched,
    ),
    fault("emergency-late", &[need("reaction", Second, 0.2, 10.0)], emergency::late),
    fault("other-brake-used", &[], emergency::other_brake),
    fault(
        "forks-first-travel",
        &[need("distance", Metre, 0.0, 50.0), need("normal-again", Metre, 0.0, 10.0)],
        forks_first::watcher,
    ),
    fault(
        "forks-high-in-travel",
        &[
            need("height", Metre, 0.0, 0.5),
            need("distance", Metre, 0.0, 50.0),
            need("speed", MetrePerSecond, 0.0, 5.0),
        ],
        forks_high::watcher,
    ),
    fault(
        "arm-strength-turn",
        &[need("for", Second, 0.1, 30.0), need("effort", NewtonMetreSecond, 1.0, 5000.0)],
        stance::arm_strength,
    ),
    fault(
        "stepped-across-moving",
        &[need("speed", MetrePerSecond, 0.0, 5.0)],
        stance::stepped_across,
    ),
    Duty {
        in_traffic: true,
        ..fault("no-horn-moving-off", &[need("before", Second, 0.5, 60.0)], horn::missing)
    },
    fault("tipped-over", &[], tipping::watcher),
    deed(
        "clean-plug",
        &[need("from-mark", Metre, 0.005, 2.0), need("ran-back", Metre, 0.0, 5.0)],
        mark::clean_plug,
    ),
    deed("quick-emergency-stop", &[need("reaction", Second, 0.2, 10.0)], emergency::quick),
    deed(
        "gentle-start",
        &[
            need("rise", Share, 0.05, 1.0),
            need("within", Second, 0.02, 2.0),
            need("up-to-speed", MetrePerSecond, 0.1, 3.0),
        ],
        gentle_start::watcher,
    ),
    Duty {
        in_traffic: true,
        ..deed("horn-before-moving", &[need("before", Second, 0.5, 60.0)], horn::sounded)
    },
    deed("full-task", &[], task::full),
    deed("clean-lap", &[need("settle", Second, 0.0, 10.0)], lap::clean),
];

/// Words that several rules share, with their numbers in the site rules.
pub const TERMS: &[Need] = &[
    // The same fault again within this time is the same finding.
    need("again-after", Second, 0.0, 5.0),
    // At rest is no faster than this,
    need("rest-speed", MetrePerSecond, 0.001, 0.5),
    // and for this long.
    need("rest-for", Second, 0.0, 10.0),
    // The counting of opportunities: see `exposure`.
    need("stretch", Metre, 1.0, 1000.0),
    need("turn", Degree, 1.0, 80.0),
    need("stop-from", MetrePerSecond, 0.05, 3.0),
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

//! What one rule measures by: its numbers from the site rules, ready for a watcher.

use std::collections::BTreeMap;

use crate::finding::{Finding, Severity, Unit};
use crate::moment::Moment;
use crate::time::{TICK_RATE, Tick};

/// Numbers that several rules share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Common {
    /// The same fault again within this many ticks is the same finding.
    pub again_after: Tick,
    /// At rest is no faster than this, m/s.
    pub rest_speed: f64,
    /// At rest is for this many ticks.
    pub rest_for: Tick,
    /// The site's own speed limit where no zone has one, m/s.
    pub speed_limit: f64,
    /// A throttle no further from zero than this is neutral, share of one: the truck's dead band.
    pub neutral: f64,
    /// Someone is struck once the truck has moved so far while it touches them, m.
    pub struck_from: f64,
    /// What is wrong for long counts again after so many metres,
    pub spell_metres: f64,
    /// or after so many ticks, whichever comes first.
    pub spell_ticks: Tick,
    /// When someone on foot, or another truck, calls for the quickest stop there is.
    pub called: Called,
}

/// From when on someone in sight calls for the brake.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Called {
    /// Nearer than this, m,
    pub near: f64,
    /// or met sooner than this, s,
    pub soon: f64,
    /// or having stepped out nearer than this, m;
    pub stepped_out: f64,
    /// and for so many ticks after that.
    pub still: Tick,
}

/// When a finding is graver.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Graver {
    /// How grave then.
    pub severity: Severity,
    /// Below the value; otherwise above it.
    pub below: bool,
    /// The value, in the unit that the table of duties says.
    pub beyond: f64,
}

/// One rule's numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Yardstick {
    /// The rule's code.
    pub code: &'static str,
    /// How grave a finding is at least.
    pub severity: Severity,
    /// When a finding is graver, and how grave.
    pub graver: Option<Graver>,
    /// The rule's own limits by name.
    pub limits: BTreeMap<String, f64>,
    /// What it shares with others.
    pub common: Common,
}

impl Yardstick {
    /// A limit by its name, in the unit that the table of duties says.
    ///
    /// # Panics
    /// When the table of duties does not list this name for this code; a test makes every watcher.
    pub fn limit(&self, name: &str) -> f64 {
        self.limits[name]
    }

    /// How grave a finding is whose worst value is this. At the very value it is not graver.
    pub fn severity_at(&self, worst: f64) -> Severity {
        let beyond = |g: &Graver| {
            if g.below { over(g.beyond, worst) } else { over(worst, g.beyond) }
        };
        self.graver.filter(beyond).map_or(self.severity, |g| g.severity)
    }

    /// How grave a finding is at the most.
    pub fn worst_severity(&self) -> Severity {
        self.graver.map_or(self.severity, |g| g.severity.max(self.severity))
    }

    /// A finding of this tick alone.
    pub fn finding(&self, m: &Moment, measured: f64, limit: f64, unit: Unit) -> Finding {
        Finding {
            code: self.code.to_owned(),
            severity: self.severity,
            from: m.tick,
            to: m.tick,
            measured,
            limit,
            unit,
            at: m.truck.platform_in_yard,
            before: None,
            cause: None,
            point: None,
        }
    }
}

/// Whether a computed value is more than a limit. A sum, a product or a quotient that comes to
/// exactly the limit may round to either side of it; at the limit is within it.
pub fn over(value: f64, limit: f64) -> bool {
    value > limit + ROUNDING * limit.abs().max(1.0)
}

/// Rounding in thousands of sums stays far below this share, and no rule asks for so little.
const ROUNDING: f64 = 1e-9;

/// Seconds as whole ticks, to the nearest.
pub fn ticks(seconds: f64) -> Tick {
    (seconds * f64::from(TICK_RATE)).round() as Tick
}

/// Ticks as seconds.
pub fn seconds(ticks: Tick) -> f64 {
    f64::from(ticks) * crate::time::DT
}

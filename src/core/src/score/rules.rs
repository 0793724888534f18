//! The site rules: which duties are watched, by which limits, and what a fault costs.
//!
//! Every number that a rule uses stands in this file with its unit and its source. The shipped
//! file holds the defaults; a site's own file may leave out what it does not change. `file` reads
//! it at the border; the types here cannot hold a wrong value.

use std::collections::BTreeMap;

use crate::course::Said;
use crate::finding::{Severity, Skill, Tick, Unit};
use crate::outside::BadInput;
use crate::score::file;
use crate::score::own::SiteZone;
use crate::watch::yardstick::{self, ticks};
use crate::watch::{Called, Common, DUTIES, Duty, Yardstick};

/// Text of levels/site-rules.json.
pub const SHIPPED: &str = include_str!("../../../../levels/site-rules.json");

/// Name in `Debrief::changed_rules` when points or pass marks are not the defaults.
pub const CHANGED_POINTS: &str = "points";

/// Name there when the site has speed zones of its own.
pub const CHANGED_ZONES: &str = "zones";

/// Name there when the site has something of its own said beside findings.
pub const CHANGED_NOTES: &str = "notes";

/// A number with its unit and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// In `unit`.
    pub value: f64,
    /// Of the value.
    pub unit: Unit,
    /// A paragraph of law, "site rule", "course task", "common practice, no source", or what the
    /// site says.
    pub source: String,
}

/// When a finding is graver than its rule says.
#[derive(Clone, Debug, PartialEq)]
pub struct Graver {
    /// How grave then.
    pub severity: Severity,
    /// Below this; otherwise above.
    pub below: bool,
    /// Beyond this.
    pub beyond: Limit,
}

/// One rule.
#[derive(Clone, Debug, PartialEq)]
pub struct Rule {
    /// Watched at all.
    pub on: bool,
    /// The skill whose points it takes.
    pub skill: Skill,
    /// How grave.
    pub severity: Severity,
    /// And when it is graver.
    pub graver: Option<Graver>,
    /// Where the rule itself comes from.
    pub citation: String,
    /// What the site wants said beside it.
    pub note: Option<String>,
    /// Its numbers.
    pub limits: BTreeMap<String, Limit>,
}

/// What findings cost.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Points {
    /// Taken by a minor fault.
    pub minor: f64,
    /// Taken by a major fault. A critical one takes all.
    pub major: f64,
    /// Taken at most by all findings of one code.
    pub most_by_one_code: f64,
}

/// What a pre-test asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PassMarks {
    /// By every skill shown.
    pub skill: f64,
    /// In total.
    pub total: f64,
}

/// A site's rules, checked.
#[derive(Clone, Debug, PartialEq)]
pub struct SiteRules {
    /// Whose rules these are; may be empty.
    pub site: String,
    /// What findings cost.
    pub points: Points,
    /// What a pre-test asks for.
    pub pass: PassMarks,
    /// The speed limit where no zone has its own, m/s.
    pub speed_limit: Limit,
    /// Words that several rules share, by the names in `watch::TERMS`.
    pub terms: BTreeMap<String, Limit>,
    /// Speed zones that the site adds to courses; none in the shipped rules.
    pub zones: Vec<SiteZone>,
    /// What the site wants said beside findings, by code; nothing in the shipped rules.
    pub notes: BTreeMap<String, Said>,
    /// By code; every code of `watch::DUTIES`.
    pub rules: BTreeMap<String, Rule>,
}

impl SiteRules {
    /// Reads a site-rules file. What it leaves out is as in the shipped file.
    ///
    /// # Errors
    /// One sentence with file and place: unknown codes, missing limits, wrong units, values that
    /// make no sense, formats of the future.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        file::read(file, text, Some(&Self::shipped()))
    }

    /// The defaults.
    ///
    /// # Panics
    /// Never: a test reads the shipped file.
    #[allow(clippy::expect_used)]
    pub fn shipped() -> Self {
        file::read("site-rules.json", SHIPPED.as_bytes(), None).expect("the shipped file is valid")
    }

    /// What the watcher of a duty measures by; `neutral` is the truck's throttle dead band, share
    /// of one.
    pub fn yardstick(&self, duty: &Duty, neutral: f64) -> Yardstick {
        let rule = &self.rules[duty.code];
        Yardstick {
            code: duty.code,
            severity: rule.severity,
            graver: rule.graver.as_ref().map(|g| yardstick::Graver {
                severity: g.severity,
                below: g.below,
                beyond: g.beyond.value,
            }),
            limits: rule.limits.iter().map(|(name, limit)| (name.clone(), limit.value)).collect(),
            common: self.common(neutral),
        }
    }

    /// The numbers that rules share.
    pub fn common(&self, neutral: f64) -> Common {
        Common {
            again_after: ticks(self.term("again-after")),
            rest_speed: self.term("rest-speed"),
            rest_for: ticks(self.term("rest-for")),
            speed_limit: self.speed_limit.value,
            neutral,
            called: Called {
                near: self.term("called-near"),
                soon: self.term("called-soon"),
                stepped_out: self.term("called-out"),
                still: ticks(self.term("called-for")),
            },
        }
    }

    /// A shared number by its name in `watch::TERMS`, in the unit it has there.
    ///
    /// # Panics
    /// When `watch::TERMS` has no such name.
    pub fn term(&self, name: &str) -> f64 {
        self.terms[name].value
    }

    /// A limit of a rule, by code and name, in the unit that the table of duties says.
    ///
    /// # Panics
    /// When the table of duties has no such limit.
    pub fn limit(&self, code: &str, name: &str) -> f64 {
        self.rules[code].limits[name].value
    }

    /// Whether any fault of a skill is watched: with all of them off it cannot be shown.
    pub fn watches(&self, skill: Skill) -> bool {
        self.rules.values().any(|r| r.on && r.skill == skill && r.severity != Severity::Good)
    }

    /// How long after a fault something may still come of it, ticks.
    pub fn cause_within(&self) -> Tick {
        ticks(self.term("cause-within"))
    }

    /// Codes of the rules that judge otherwise than the defaults or are switched off, in the
    /// order of `watch::DUTIES`; then the names of changed terms; then "points", "zones" and
    /// "notes". Another source or citation changes nothing.
    pub fn changed(&self) -> Vec<String> {
        let default = Self::shipped();
        let rules = DUTIES
            .iter()
            .map(|d| d.code)
            .filter(|code| {
                let speed_limit_differs =
                    *code == "over-speed" && self.speed_limit.value != default.speed_limit.value;
                speed_limit_differs || !same_judgement(&self.rules[*code], &default.rules[*code])
            })
            .map(str::to_owned);
        let terms = self
            .terms
            .iter()
            .filter(|(name, limit)| default.terms[*name].value != limit.value)
            .map(|(name, _)| name.clone());
        let points = (self.points != default.points || self.pass != default.pass)
            .then(|| CHANGED_POINTS.to_owned());
        let zones = (!self.zones.is_empty()).then(|| CHANGED_ZONES.to_owned());
        let says = |r: &Rule| r.note.is_some();
        let notes = (!self.notes.is_empty() || self.rules.values().any(says))
            .then(|| CHANGED_NOTES.to_owned());
        rules.chain(terms).chain(points).chain(zones).chain(notes).collect()
    }
}

fn same_judgement(a: &Rule, b: &Rule) -> bool {
    let numbers = |r: &Rule| -> Vec<f64> { r.limits.values().map(|l| l.value).collect() };
    let graver = |r: &Rule| r.graver.as_ref().map(|g| (g.severity, g.beyond.value));
    (a.on, a.skill, a.severity) == (b.on, b.skill, b.severity)
        && graver(a) == graver(b)
        && numbers(a) == numbers(b)
}

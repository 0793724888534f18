//! The site rules: which duties are watched, by which limits, and what a fault costs.
//!
//! Every number that a rule uses stands in this file with its unit and its source. The shipped
//! file holds the defaults; a site's own file may leave out what it does not change. `read` reads
//! it at the border; the types here cannot hold a wrong value.

use std::collections::BTreeMap;

use crate::course::{Course, Zone};
use crate::finding::{Severity, Skill, Unit};
use crate::math::Vec2;
use crate::outside::Said;
use crate::rules::needs::Duty;
use crate::rules::yardstick::{self, Called, Common, Yardstick, ticks};
use crate::time::Tick;

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
#[derive(Clone, Debug, PartialEq)]
pub struct PassMarks {
    /// By every skill shown, points of 100.
    pub skill: Limit,
    /// In total, points of 100.
    pub total: Limit,
}

impl PassMarks {
    /// The two marks without their sources.
    pub(super) fn values(&self) -> (f64, f64) {
        (self.skill.value, self.total.value)
    }
}

/// A speed zone that a site adds to a course.
#[derive(Clone, Debug, PartialEq)]
pub struct SiteZone {
    /// The course by its id; a zone for one that there is not holds nowhere.
    pub course: String,
    /// The zone's corners, yard frame, m.
    pub area: Vec<Vec2>,
    /// Its limit, m/s, and where that comes from.
    pub limit: Limit,
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
    /// Words that several rules share, by the names in `rules::TERMS`.
    pub terms: BTreeMap<String, Limit>,
    /// Speed zones that the site adds to courses; none in the shipped rules.
    pub zones: Vec<SiteZone>,
    /// What the site wants said beside findings, by code; nothing in the shipped rules.
    pub notes: BTreeMap<String, Said>,
    /// By code; every code of `rules::DUTIES`.
    pub rules: BTreeMap<String, Rule>,
}

impl SiteRules {
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
            struck_from: self.limit("person-struck", "moved"),
            spell_metres: self.term("spell-metres"),
            spell_ticks: ticks(self.term("spell-seconds")),
            called: Called {
                near: self.term("called-near"),
                soon: self.term("called-soon"),
                stepped_out: self.term("called-out"),
                still: ticks(self.term("called-for")),
            },
        }
    }

    /// A shared number by its name in `rules::TERMS`, in the unit it has there.
    ///
    /// # Panics
    /// When `rules::TERMS` has no such name.
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

    /// The course with the zones that this site adds to it. They hold like its own: where several
    /// overlap the lowest limit counts, and it is drawn and shown to the rider as well.
    pub fn add_zones(&self, mut course: Course) -> Course {
        let added = self
            .zones
            .iter()
            .filter(|z| z.course == course.id)
            .map(|z| Zone { area: z.area.clone(), limit_mps: z.limit.value });
        course.zones.extend(added);
        course
    }

    /// What the site wants said beside findings of a code, in a language by its code: else in
    /// English, else in whichever language there is, else the rule's own note.
    pub fn note(&self, code: &str, lang: &str) -> Option<&str> {
        let said = self.notes.get(code).and_then(|texts| {
            texts.get(lang).or_else(|| texts.get("en")).or_else(|| texts.values().next())
        });
        said.or_else(|| self.rules.get(code)?.note.as_ref()).map(String::as_str)
    }
}

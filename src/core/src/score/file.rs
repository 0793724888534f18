//! The site-rules file as it is written, and what is checked in it.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::finding::{Severity, Skill, Unit};
use crate::outside::{BadInput, read_json};
use crate::score::names::Unique;
use crate::score::own::{NotesFile, ZonesFile};
use crate::score::rules::{Graver, Limit, PassMarks, Points, Rule, SiteRules};
use crate::watch::{BELOW, DUTIES, Duty, Need, TERMS, duty};

/// Largest site-rules file that is read, bytes.
pub(super) const MAX_BYTES: usize = 256 * 1024;

/// The format that this program reads.
pub(super) const FORMAT: u32 = 1;

/// Longest text in the file, characters.
const MAX_TEXT: usize = 300;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RulesFile {
    #[serde(rename = "$schema", default)]
    _schema: Option<String>,
    format: u32,
    #[serde(default)]
    site: Option<String>,
    #[serde(default)]
    points: Option<PointsFile>,
    #[serde(default)]
    pass: Option<PassFile>,
    #[serde(default)]
    speed_limit: Option<LimitFile>,
    #[serde(default)]
    terms: Unique<LimitFile>,
    #[serde(default)]
    zones: ZonesFile,
    #[serde(default)]
    notes: NotesFile,
    #[serde(default)]
    rules: Unique<RuleFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PointsFile {
    minor: f64,
    major: f64,
    most_by_one_code: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PassFile {
    skill: f64,
    total: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LimitFile {
    value: f64,
    unit: Unit,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct GraverFile {
    severity: Severity,
    #[serde(default)]
    above: Option<LimitFile>,
    #[serde(default)]
    below: Option<LimitFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RuleFile {
    on: bool,
    skill: Skill,
    severity: Severity,
    #[serde(default)]
    graver: Option<GraverFile>,
    citation: String,
    #[serde(default)]
    note: Option<String>,
    #[serde(default)]
    limits: Unique<LimitFile>,
}

/// Reads a file; what it leaves out is taken from `base`, and without one nothing may be left out.
pub(super) fn read(
    file: &str,
    text: &[u8],
    base: Option<&SiteRules>,
) -> Result<SiteRules, BadInput> {
    let f: RulesFile =
        read_json(file, text, MAX_BYTES).map_err(|e| of_the_future(file, text, e))?;
    let read = Reader { file };
    if f.format != FORMAT {
        return Err(read.bad("format", other_format(f.format)));
    }
    Ok(SiteRules {
        site: match f.site {
            Some(site) => read.text("site", site)?,
            None => String::new(),
        },
        points: match f.points {
            Some(p) => read.points(&p)?,
            None => read.left_out("points", base.map(|b| b.points))?,
        },
        pass: match f.pass {
            Some(p) => read.pass(&p)?,
            None => read.left_out("pass", base.map(|b| b.pass))?,
        },
        speed_limit: match f.speed_limit {
            Some(l) => read.limit("speed_limit", l, &SPEED_LIMIT)?,
            None => read.left_out("speed_limit", base.map(|b| b.speed_limit.clone()))?,
        },
        terms: read.terms(f.terms.0, base)?,
        zones: read.zones(f.zones)?,
        notes: read.notes(f.notes)?,
        rules: read.rules(f.rules.0, base)?,
    })
}

const SPEED_LIMIT: Need =
    Need { name: "speed_limit", unit: Unit::MetrePerSecond, least: 0.2, most: 6.0 };

fn other_format(format: u32) -> String {
    format!("this is format {format}, and this program reads format {FORMAT}")
}

/// A file of a later format has fields that this program does not know: say so instead of naming
/// the first of them.
fn of_the_future(file: &str, text: &[u8], error: BadInput) -> BadInput {
    #[derive(Deserialize)]
    struct Only {
        format: u32,
    }
    if text.len() > MAX_BYTES {
        return error;
    }
    match serde_json::from_slice::<Only>(text) {
        Ok(only) if only.format != FORMAT => {
            BadInput::new(file, "format", other_format(only.format))
        }
        _ => error,
    }
}

pub(super) struct Reader<'a> {
    file: &'a str,
}

impl Reader<'_> {
    pub(super) fn bad(&self, place: &str, reason: impl Into<String>) -> BadInput {
        BadInput::new(self.file, place, reason)
    }

    fn left_out<T>(&self, place: &str, default: Option<T>) -> Result<T, BadInput> {
        default.ok_or_else(|| self.bad(place, "this is missing; add it"))
    }

    fn text(&self, place: &str, text: String) -> Result<String, BadInput> {
        if text.chars().count() > MAX_TEXT || text.chars().any(char::is_control) {
            return Err(self.bad(place, format!("use one line of at most {MAX_TEXT} characters")));
        }
        Ok(text)
    }

    fn said(&self, place: &str, text: String) -> Result<String, BadInput> {
        if text.trim().is_empty() {
            return Err(self.bad(place, "say where this comes from, such as \"site rule\""));
        }
        self.text(place, text)
    }

    fn number(&self, place: &str, value: f64, least: f64, most: f64) -> Result<f64, BadInput> {
        if (least..=most).contains(&value) {
            Ok(value)
        } else {
            Err(self.bad(place, format!("{value} lies outside {least} to {most}")))
        }
    }

    fn points(&self, p: &PointsFile) -> Result<Points, BadInput> {
        Ok(Points {
            minor: self.number("points.minor", p.minor, 0.0, 100.0)?,
            major: self.number("points.major", p.major, p.minor, 100.0)?,
            most_by_one_code: self.number(
                "points.most_by_one_code",
                p.most_by_one_code,
                p.major,
                100.0,
            )?,
        })
    }

    fn pass(&self, p: &PassFile) -> Result<PassMarks, BadInput> {
        Ok(PassMarks {
            skill: self.number("pass.skill", p.skill, 0.0, 100.0)?,
            total: self.number("pass.total", p.total, 0.0, 100.0)?,
        })
    }

    pub(super) fn limit(&self, place: &str, l: LimitFile, need: &Need) -> Result<Limit, BadInput> {
        if l.unit != need.unit {
            return Err(self.bad(
                &format!("{place}.unit"),
                format!("the unit is \"{}\" here", unit_in_file(need.unit)),
            ));
        }
        Ok(Limit {
            value: self.number(&format!("{place}.value"), l.value, need.least, need.most)?,
            unit: l.unit,
            source: self.said(&format!("{place}.source"), l.source)?,
        })
    }

    fn terms(
        &self,
        mut given: BTreeMap<String, LimitFile>,
        base: Option<&SiteRules>,
    ) -> Result<BTreeMap<String, Limit>, BadInput> {
        let mut terms = BTreeMap::new();
        for need in TERMS {
            let place = format!("terms.{}", need.name);
            let limit = match given.remove(need.name) {
                Some(l) => self.limit(&place, l, need)?,
                None => self.left_out(&place, base.map(|b| b.terms[need.name].clone()))?,
            };
            terms.insert(need.name.to_owned(), limit);
        }
        match given.keys().next() {
            Some(name) => Err(self.unknown("terms", name, TERMS.iter().map(|n| n.name))),
            None => Ok(terms),
        }
    }

    fn rules(
        &self,
        mut given: BTreeMap<String, RuleFile>,
        base: Option<&SiteRules>,
    ) -> Result<BTreeMap<String, Rule>, BadInput> {
        if let Some(code) = given.keys().find(|c| duty(c).is_none()) {
            return Err(self.unknown("rules", code, DUTIES.iter().map(|d| d.code)));
        }
        let mut rules = BTreeMap::new();
        for d in DUTIES {
            let place = format!("rules.{}", d.code);
            let rule = match given.remove(d.code) {
                Some(r) => self.rule(&place, r, d)?,
                None => self.left_out(&place, base.map(|b| b.rules[d.code].clone()))?,
            };
            rules.insert(d.code.to_owned(), rule);
        }
        Ok(rules)
    }

    fn rule(&self, place: &str, mut r: RuleFile, d: &Duty) -> Result<Rule, BadInput> {
        if (r.severity == Severity::Good) != d.good {
            let reason = if d.good {
                "this is a good deed; its severity is \"good\""
            } else {
                "this is a fault; its severity is \"minor\", \"major\" or \"critical\""
            };
            return Err(self.bad(&format!("{place}.severity"), reason));
        }
        let mut limits = BTreeMap::new();
        for need in d.limits {
            let place = format!("{place}.limits.{}", need.name);
            let Some(l) = r.limits.0.remove(need.name) else {
                return Err(self.bad(
                    &place,
                    format!(
                        "this limit is missing; add it with value, unit \"{}\" and source, or leave out the whole rule",
                        unit_in_file(need.unit)
                    ),
                ));
            };
            limits.insert(need.name.to_owned(), self.limit(&place, l, need)?);
        }
        if let Some(name) = r.limits.0.keys().next() {
            let known = d.limits.iter().map(|n| n.name);
            return Err(self.unknown(&format!("{place}.limits"), name, known));
        }
        Ok(Rule {
            on: r.on,
            skill: r.skill,
            severity: r.severity,
            graver: self.graver(place, r.graver, r.severity, d)?,
            citation: self.said(&format!("{place}.citation"), r.citation)?,
            note: match r.note {
                Some(note) => Some(self.text(&format!("{place}.note"), note)?),
                None => None,
            },
            limits,
        })
    }

    fn graver(
        &self,
        place: &str,
        given: Option<GraverFile>,
        severity: Severity,
        d: &Duty,
    ) -> Result<Option<Graver>, BadInput> {
        let Some(g) = given else {
            return Ok(None);
        };
        let place = format!("{place}.graver");
        let Some(need) = &d.graver else {
            return Err(self.bad(&place, "nothing makes this finding graver; leave this out"));
        };
        if g.severity <= severity {
            return Err(self.bad(
                &format!("{place}.severity"),
                "this must be graver than the rule's own severity",
            ));
        }
        let (given, other) =
            if need.name == BELOW { (g.below, g.above) } else { (g.above, g.below) };
        if other.is_some() {
            let name = if need.name == BELOW { "above" } else { BELOW };
            return Err(self.unknown(&place, name, core::iter::once(need.name)));
        }
        let place = format!("{place}.{}", need.name);
        let limit = self.left_out(&place, given)?;
        Ok(Some(Graver {
            severity: g.severity,
            below: need.name == BELOW,
            beyond: self.limit(&place, limit, need)?,
        }))
    }

    pub(super) fn unknown(
        &self,
        place: &str,
        name: &str,
        known: impl Iterator<Item = &'static str>,
    ) -> BadInput {
        let shown: String =
            name.chars().map(|c| if c.is_control() { ' ' } else { c }).take(60).collect();
        let known: Vec<&str> = known.collect();
        let reason = if known.is_empty() {
            format!("there is no \"{shown}\"; leave it out")
        } else {
            format!("there is no \"{shown}\"; there is {}", known.join(", "))
        };
        self.bad(place, reason)
    }
}

fn unit_in_file(unit: Unit) -> String {
    match serde_json::to_value(unit) {
        Ok(serde_json::Value::String(s)) => s,
        _ => String::new(),
    }
}

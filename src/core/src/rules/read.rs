//! Reads a site-rules file at the border, once, into rules that cannot hold a wrong value.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::finding::{Severity, Unit};
use crate::outside::{BadInput, read_json};
use crate::rules::file::{
    FORMAT, GraverFile, LimitFile, MAX_BYTES, MarkFile, PassFile, PointsFile, RuleFile, RulesFile,
};
use crate::rules::needs::{BELOW, DUTIES, Duty, Need, duty};
use crate::rules::reader::Reader;
use crate::rules::site::{Graver, Limit, PassMarks, Points, Rule, SiteRules};
use crate::rules::terms::TERMS;

/// Text of levels/site-rules.json.
pub const SHIPPED: &str = include_str!("../../../../levels/site-rules.json");

impl SiteRules {
    /// Reads a site-rules file. What it leaves out is as in the shipped file.
    ///
    /// # Errors
    /// One sentence with file and place: unknown codes, missing limits, wrong units, values that
    /// make no sense, formats of the future.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        read(file, text, Some(&Self::shipped()))
    }

    /// The defaults.
    ///
    /// # Panics
    /// Never: a test reads the shipped file.
    #[allow(clippy::expect_used)]
    pub fn shipped() -> Self {
        read("site-rules.json", SHIPPED.as_bytes(), None).expect("the shipped file is valid")
    }
}

/// Reads a file; what it leaves out is taken from `base`, and without one nothing may be left out.
fn read(file: &str, text: &[u8], base: Option<&SiteRules>) -> Result<SiteRules, BadInput> {
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
            Some(p) => read.pass(p, base.map(|b| &b.pass))?,
            None => read.left_out("pass", base.map(|b| b.pass.clone()))?,
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

/// Of a pre-test, points of the 100 that each skill starts with.
pub(super) const MARK: Need = Need { name: "mark", unit: Unit::Count, least: 0.0, most: 100.0 };

pub(super) const SPEED_LIMIT: Need =
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

impl Reader<'_> {
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

    fn pass(&self, p: PassFile, base: Option<&PassMarks>) -> Result<PassMarks, BadInput> {
        Ok(PassMarks {
            skill: self.mark("pass.skill", p.skill, base.map(|b| &b.skill))?,
            total: self.mark("pass.total", p.total, base.map(|b| &b.total))?,
        })
    }

    fn mark(
        &self,
        place: &str,
        given: Option<MarkFile>,
        base: Option<&Limit>,
    ) -> Result<Limit, BadInput> {
        match given {
            Some(MarkFile::Limit(l)) => self.limit(place, l, &MARK),
            Some(MarkFile::Alone(points)) => Ok(Limit {
                value: self.number(place, points, MARK.least, MARK.most)?,
                unit: MARK.unit,
                source: "site rule".to_owned(),
            }),
            None => self.left_out(place, base.cloned()),
        }
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
                Some(r) => self.rule(&place, r, d, base.map(|b| &b.rules[d.code]))?,
                None => self.left_out(&place, base.map(|b| b.rules[d.code].clone()))?,
            };
            rules.insert(d.code.to_owned(), rule);
        }
        Ok(rules)
    }

    /// A rule; a limit that it leaves out is that of `base`, so that files which were written before the
    /// limit was thought of can still be read.
    fn rule(
        &self,
        place: &str,
        mut r: RuleFile,
        d: &Duty,
        base: Option<&Rule>,
    ) -> Result<Rule, BadInput> {
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
            let limit = match r.limits.0.remove(need.name) {
                Some(l) => self.limit(&place, l, need)?,
                None => self.left_out(&place, base.map(|b| b.limits[need.name].clone()))?,
            };
            limits.insert(need.name.to_owned(), limit);
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
}

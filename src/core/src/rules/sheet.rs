//! A site's rules as a page shows them: every number with what it may be and what it is usually, plain data.

use serde::{Deserialize, Serialize};

use crate::finding::{Severity, Skill, Unit};
use crate::outside::Said;
use crate::rules::needs::{DUTIES, Duty, Need};
use crate::rules::read::{MARK, SPEED_LIMIT};
use crate::rules::site::{Limit, Rule, SiteRules};
use crate::rules::terms::TERMS;

/// A number of the rules.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Number {
    /// Where it stands in the file, as [`Edit`](crate::rules::Edit) names it.
    pub place: String,
    /// Its name there, dashed.
    pub name: String,
    /// Of all numbers here.
    pub unit: Unit,
    /// As it is set; None where nothing makes a finding graver any more.
    pub value: Option<f64>,
    /// As it ships.
    pub usual: f64,
    /// The least that makes sense.
    pub least: f64,
    /// The most.
    pub most: f64,
    /// Where the value comes from, as it stands in the file; empty for points, which have no source.
    pub source: String,
}

impl Number {
    /// It is not as shipped.
    pub fn differs(&self) -> bool {
        self.value != Some(self.usual)
    }
}

/// One rule.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RuleRow {
    /// Its code.
    pub code: String,
    /// Whose points it takes.
    pub skill: Skill,
    /// How grave it is.
    pub severity: Severity,
    /// And beyond its number "above" or "below"; None where nothing makes it graver.
    pub graver: Option<Severity>,
    /// It is watched.
    pub on: bool,
    /// It is as shipped, or says only more: skill, severity and whether it is watched.
    pub as_usual: bool,
    /// Where it comes from, as it stands in the file.
    pub citation: String,
    /// What the site wants said beside it, by language.
    pub said: Said,
    /// Its numbers.
    pub numbers: Vec<Number>,
}

impl RuleRow {
    /// Something of it is not as shipped.
    pub fn differs(&self) -> bool {
        !self.as_usual || !self.said.is_empty() || self.numbers.iter().any(Number::differs)
    }
}

/// All of them. Which rules and numbers there are, and in which order, is the same for any site.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sheet {
    /// Whose rules these are; may be empty.
    pub site: String,
    /// What a pre-test asks for.
    pub pretest: Vec<Number>,
    /// What findings cost.
    pub points: Vec<Number>,
    /// What several rules share.
    pub shared: Vec<Number>,
    /// Every rule, faults before good deeds.
    pub rules: Vec<RuleRow>,
    /// Speed zones that the site adds to courses.
    pub zones: usize,
}

impl Sheet {
    /// How much of it is not as shipped: rules, shared numbers, marks, points, zones.
    pub fn differing(&self) -> usize {
        let numbers = [&self.pretest, &self.points, &self.shared].into_iter().flatten();
        let rules = self.rules.iter().filter(|r| r.differs()).count();
        rules + numbers.filter(|n| n.differs()).count() + self.zones
    }
}

/// Terms that only a pre-test asks for.
const OF_A_PRETEST: [&str; 3] = ["time-ratio", "pauses", "majors-of-one-code"];
/// Terms that say what findings cost.
const OF_POINTS: [&str; 1] = ["critical-total"];

fn number(place: String, need: &Need, set: Option<&Limit>, usual: &Limit) -> Number {
    Number {
        place,
        name: need.name.to_owned(),
        unit: need.unit,
        value: set.map(|l| l.value),
        usual: usual.value,
        least: need.least,
        most: need.most,
        source: set.unwrap_or(usual).source.clone(),
    }
}

impl SiteRules {
    /// What a page shows of these rules.
    pub fn sheet(&self) -> Sheet {
        let shipped = Self::shipped();
        let terms = |wanted: fn(&str) -> bool| {
            let wanted = TERMS.iter().filter(move |need| wanted(need.name));
            wanted.map(|need| {
                let (set, usual) = (&self.terms[need.name], &shipped.terms[need.name]);
                number(format!("terms.{}", need.name), need, Some(set), usual)
            })
        };
        let mark = |name: &'static str, set: &Limit, usual: &Limit| {
            let need = Need { name, ..MARK };
            number(name.replace("pass-", "pass."), &need, Some(set), usual)
        };
        let marks = [
            mark("pass-skill", &self.pass.skill, &shipped.pass.skill),
            mark("pass-total", &self.pass.total, &shipped.pass.total),
        ];
        let point = |place: &str, name: &str, [least, value, most]: [f64; 3], usual: f64| Number {
            place: format!("points.{place}"),
            name: name.to_owned(),
            unit: Unit::Count,
            value: Some(value),
            usual,
            least,
            most,
            source: String::new(),
        };
        let (p, u) = (self.points, shipped.points);
        // A graver fault never costs less.
        let points = [
            point("minor", "minor", [0.0, p.minor, p.major], u.minor),
            point("major", "major", [p.minor, p.major, p.most_by_one_code], u.major),
            point(
                "most_by_one_code",
                "most-by-one-code",
                [p.major, p.most_by_one_code, 100.0],
                u.most_by_one_code,
            ),
        ];
        Sheet {
            site: self.site.clone(),
            pretest: marks.into_iter().chain(terms(|n| OF_A_PRETEST.contains(&n))).collect(),
            points: points.into_iter().chain(terms(|n| OF_POINTS.contains(&n))).collect(),
            shared: terms(|n| !OF_A_PRETEST.contains(&n) && !OF_POINTS.contains(&n)).collect(),
            rules: DUTIES.iter().map(|d| self.row(&shipped, d)).collect(),
            zones: self.zones.len(),
        }
    }

    fn row(&self, shipped: &Self, d: &Duty) -> RuleRow {
        let (set, usual) = (&self.rules[d.code], &shipped.rules[d.code]);
        let mut numbers = Vec::new();
        if d.code == "over-speed" {
            let need = Need { name: "speed-limit", ..SPEED_LIMIT };
            let (set, usual) = (&self.speed_limit, &shipped.speed_limit);
            numbers.push(number("speed_limit".to_owned(), &need, Some(set), usual));
        }
        numbers.extend(d.limits.iter().map(|need| {
            let place = format!("rules.{}.limits.{}", d.code, need.name);
            number(place, need, Some(&set.limits[need.name]), &usual.limits[need.name])
        }));
        if let (Some(need), Some(graver)) = (&d.graver, &usual.graver) {
            let set = set.graver.as_ref().map(|g| &g.beyond);
            let mut row = number(format!("rules.{}.graver", d.code), need, set, &graver.beyond);
            row.name = format!("graver-{}", need.name);
            numbers.push(row);
        }
        let judges = |r: &Rule| (r.on, r.skill, r.severity, r.graver.as_ref().map(|g| g.severity));
        let mut said = self.notes.get(d.code).cloned().unwrap_or_default();
        if let Some(note) = set.note.as_ref().filter(|_| said.is_empty()) {
            said.insert("en".to_owned(), note.clone());
        }
        RuleRow {
            code: d.code.to_owned(),
            skill: set.skill,
            severity: set.severity,
            graver: set.graver.as_ref().map(|g| g.severity),
            on: set.on,
            as_usual: judges(set) == judges(usual),
            citation: set.citation.clone(),
            said,
            numbers,
        }
    }
}

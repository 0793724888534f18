//! A site's rules as the text of a file: one that says only what is not as shipped, for people and other computers, or
//! one that says all of it, as a run carries it.

use serde_json::{Map, Value, json};

use crate::rules::file::FORMAT;
use crate::rules::needs::{BELOW, DUTIES};
use crate::rules::site::{Limit, Rule, SiteRules};

impl SiteRules {
    /// The text of a file that `parse` reads as these rules. What is as shipped is left out, so that a site follows
    /// the shipped rules in all that it has not changed; a rule that differs stands there whole.
    pub fn to_text(&self) -> String {
        self.text_beside(Some(&Self::shipped()))
    }

    /// The text of a file that says all of these rules, so that what is judged by it stays so when others are shipped.
    pub fn to_whole_text(&self) -> String {
        self.text_beside(None)
    }

    /// Leaves out what is as in `base`.
    fn text_beside(&self, base: Option<&Self>) -> String {
        let mut file = Map::new();
        file.insert("format".to_owned(), json!(FORMAT));
        let mut add = |name: &str, differs: bool, value: Value| {
            if differs {
                file.insert(name.to_owned(), value);
            }
        };
        add("site", !self.site.is_empty(), json!(self.site));
        let p = self.points;
        let points = json!({
            "minor": p.minor, "major": p.major, "most_by_one_code": p.most_by_one_code,
        });
        add("points", base.is_none_or(|b| p != b.points), points);
        let pass = json!({ "skill": limit(&self.pass.skill), "total": limit(&self.pass.total) });
        add("pass", base.is_none_or(|b| self.pass != b.pass), pass);
        let speed = limit(&self.speed_limit);
        add("speed_limit", base.is_none_or(|b| self.speed_limit != b.speed_limit), speed);
        let terms = self.terms.iter();
        let terms = terms.filter(|(name, term)| base.is_none_or(|b| b.terms[*name] != **term));
        let terms: Map<_, _> = terms.map(|(name, term)| (name.clone(), limit(term))).collect();
        add("terms", !terms.is_empty(), terms.into());
        let zones = self.zones.iter().map(|zone| {
            let area: Vec<_> = zone.area.iter().map(|p| [p.x, p.y]).collect();
            json!({ "course": zone.course, "area_m": area, "limit": limit(&zone.limit) })
        });
        add("zones", !self.zones.is_empty(), zones.collect());
        add("notes", !self.notes.is_empty(), json!(self.notes));
        let differs = |code: &str| base.is_none_or(|b| self.rules[code] != b.rules[code]);
        let rules = DUTIES.iter().filter(|d| differs(d.code));
        let rules: Map<_, _> =
            rules.map(|d| (d.code.to_owned(), rule(&self.rules[d.code]))).collect();
        add("rules", !rules.is_empty(), rules.into());
        // Numbers, texts and maps by texts can always be written.
        let mut text = serde_json::to_string_pretty(&file).unwrap_or_default();
        text.push('\n');
        text
    }
}

fn limit(limit: &Limit) -> Value {
    json!({ "value": limit.value, "unit": limit.unit, "source": limit.source })
}

fn rule(rule: &Rule) -> Value {
    let limits: Map<_, _> = rule.limits.iter().map(|(n, l)| (n.clone(), limit(l))).collect();
    let mut said = json!({
        "on": rule.on,
        "skill": rule.skill,
        "severity": rule.severity,
        "citation": rule.citation,
        "limits": limits,
    });
    if let Some(g) = &rule.graver {
        let beyond = if g.below { BELOW } else { "above" };
        said["graver"] = json!({ "severity": g.severity, beyond: limit(&g.beyond) });
    }
    if let Some(note) = &rule.note {
        said["note"] = json!(note);
    }
    said
}

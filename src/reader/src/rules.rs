//! Site rules as a debrief shows them: where each comes from, what the site wants said, and what it
//! changed, value by value, beside what ships. The rules of an old run may not be valid rules any
//! more, so nothing is checked here but that what is shown can be read.

use coneyard_core::reading::{Change, Citation, RuleValue, RulesShown, Terms};
use coneyard_core::rules::{CHANGED_POINTS, SHIPPED};

use crate::rules_text::{LimitText, RuleText, RulesText};

/// A site's rules beside the shipped ones. What the site leaves out is as shipped.
pub(crate) struct Rules {
    site: RulesText,
    shipped: RulesText,
}

/// Names and values of one thing, in the order in which they are shown.
type Values<'a> = Vec<(&'a str, Option<RuleValue>)>;

fn limit(limit: Option<&LimitText>) -> Option<RuleValue> {
    limit.map(|l| RuleValue::Limit(l.value, l.unit))
}

/// All values of a rule; `names` are those of its limits.
fn of_rule<'a>(rule: &RuleText, names: impl Iterator<Item = &'a str>) -> Values<'a> {
    let graver = rule.graver.as_ref();
    let mut values = vec![
        ("on", rule.on.map(RuleValue::On)),
        ("severity", rule.severity.map(RuleValue::Severity)),
        ("skill", rule.skill.map(RuleValue::Skill)),
        ("graver", graver.map(|g| RuleValue::Severity(g.severity))),
        ("graver-above", limit(graver.and_then(|g| g.above.as_ref()))),
        ("graver-below", limit(graver.and_then(|g| g.below.as_ref()))),
    ];
    values.extend(names.map(|name| (name, limit(rule.limits.get(name)))));
    values
}

impl Rules {
    /// Reads a site-rules file.
    pub(crate) fn read(file: &str, text: &str) -> Result<Self, String> {
        Ok(Self { site: RulesText::read(file, text)?, shipped: RulesText::read(file, SHIPPED)? })
    }

    /// The site's own, else the shipped one.
    fn find<'a, T>(&'a self, read: impl Fn(&'a RulesText) -> Option<T>) -> Option<T> {
        read(&self.site).or_else(|| read(&self.shipped))
    }

    /// What it asks for and allows.
    pub(crate) fn terms(&self) -> Terms {
        let term = |name: &str| self.find(|rules| rules.terms.get(name)).map(|t| t.value);
        Terms {
            pass_skill: self.find(|rules| rules.pass.skill()).unwrap_or_default(),
            pass_total: self.find(|rules| rules.pass.total()).unwrap_or_default(),
            ready_from: term("ready-from").unwrap_or(1.0),
            time_ratio_least: term("time-ratio").unwrap_or(1.0),
            pauses_most: term("pauses").unwrap_or(0.0) as u32,
        }
    }

    /// What is shown of it, with the values of what a debrief lists as changed.
    pub(crate) fn shown(&self, changed: &[String]) -> RulesShown {
        let codes = self.site.rules.keys().chain(self.shipped.rules.keys());
        let cited = |code: &String| Some((code.clone(), self.citation(code)?));
        RulesShown {
            site: self.site_name().map(str::to_owned),
            citations: codes.filter_map(cited).collect(),
            changes: changed.iter().map(|what| (what.clone(), self.changes(what))).collect(),
        }
    }

    fn citation(&self, code: &str) -> Option<Citation> {
        let text = |of: fn(&RuleText) -> Option<&String>| {
            self.find(|rules| rules.rules.get(code).and_then(of)).cloned()
        };
        let said = self.find(|rules| rules.notes.get(code));
        Some(Citation {
            source: text(|rule| rule.citation.as_ref())?,
            note: text(|rule| rule.note.as_ref()),
            said: said.cloned().unwrap_or_default(),
            skill: self.find(|rules| rules.rules.get(code)?.skill),
        })
    }

    /// What the site calls itself; None when it does not say.
    pub(crate) fn site_name(&self) -> Option<&str> {
        self.site.site.as_deref().filter(|name| !name.trim().is_empty())
    }

    /// The changed values of one thing that a debrief lists as changed: a rule by its code, a term
    /// by its name, or "points".
    fn changes(&self, what: &str) -> Vec<Change> {
        let (here, usual) = (self.values(what, &self.site), self.values(what, &self.shipped));
        here.into_iter()
            .zip(usual)
            .map(|((name, here), (_, usual))| Change { name: name.to_owned(), here, usual })
            .filter(|c| c.here != c.usual)
            .collect()
    }

    /// The values of one thing by these rules. What they leave out is as shipped; but a rule that
    /// is written down holds as a whole, so what is left out of it is not taken from what ships.
    fn values<'a>(&'a self, what: &str, by: &'a RulesText) -> Values<'a> {
        if what == CHANGED_POINTS {
            let points = |read: fn(&RulesText) -> Option<f64>| {
                read(by).or_else(|| read(&self.shipped)).map(RuleValue::Points)
            };
            return vec![
                ("minor", points(|r| r.points.minor)),
                ("major", points(|r| r.points.major)),
                ("most-by-one-code", points(|r| r.points.most_by_one_code)),
                ("pass-skill", points(|r| r.pass.skill())),
                ("pass-total", points(|r| r.pass.total())),
            ];
        }
        let Some(shipped) = self.shipped.rules.get(what) else {
            let term = by.terms.get(what).or_else(|| self.shipped.terms.get(what));
            return vec![("value", limit(term))];
        };
        let rule = by.rules.get(what).unwrap_or(shipped);
        let mut values = of_rule(rule, shipped.limits.keys().map(String::as_str));
        if what == "over-speed" {
            let speed = by.speed_limit.as_ref().or(self.shipped.speed_limit.as_ref());
            values.push(("speed-limit", limit(speed)));
        }
        values
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::finding::Unit;
    use coneyard_core::pretest;
    use coneyard_core::rules::SiteRules;
    use serde_json::Value;

    use super::*;

    #[test]
    fn terms_and_citations_are_those_of_the_rules() {
        let shown = Rules::read("site-rules.json", SHIPPED).unwrap();
        let whole = SiteRules::shipped();
        let terms = shown.terms();
        assert_eq!(
            (terms.pass_skill, terms.pass_total),
            (whole.pass.skill.value, whole.pass.total.value)
        );
        assert_eq!(terms.ready_from, whole.term("ready-from"));
        assert_eq!(terms.time_ratio_least, pretest::time_ratio_least(&whole));
        assert_eq!(terms.pauses_most, pretest::pauses_most(&whole));
        let shown = shown.shown(&[]);
        assert_eq!(shown.citations.len(), whole.rules.len());
        for (code, rule) in &whole.rules {
            assert_eq!(shown.citations[code].source, rule.citation, "{code}");
        }
    }

    /// The pages go by what a file states without the reader; where it does not, they ask.
    #[test]
    fn terms_that_are_stated_are_those_that_hold() {
        assert_eq!(
            Terms::stated(SHIPPED),
            Some(Rules::read("ours.json", SHIPPED).unwrap().terms())
        );
        for left_out in ["ready-from", "time-ratio", "pauses"] {
            let mut rules: Value = serde_json::from_str(SHIPPED).unwrap();
            rules["terms"].as_object_mut().unwrap().remove(left_out).unwrap();
            assert_eq!(Terms::stated(&rules.to_string()), None, "{left_out}");
        }
        for text in ["", "{}", r#"{"pass":{"total":90}}"#] {
            assert_eq!(Terms::stated(text), None);
        }
    }

    #[test]
    fn what_a_site_leaves_out_is_as_shipped() {
        let text = r#"{"format":1,"pass":{"total":90},"rules":{"contact-cone":{"note":"Ours."}}}"#;
        let rules = Rules::read("ours.json", text).unwrap();
        let terms = rules.terms();
        let shipped = SiteRules::shipped().pass.skill.value;
        assert_eq!((terms.pass_skill, terms.pass_total), (shipped, 90.0));
        let cone = &rules.shown(&[]).citations["contact-cone"];
        assert_eq!((cone.source.as_str(), cone.note.as_deref()), ("course task", Some("Ours.")));
        assert_eq!(cone.note("es"), Some("Ours."));
    }

    #[test]
    fn notes_are_those_of_the_rules_in_every_language() {
        let text = r#"{"format":1,"notes":{"contact-cone":{"en":"Ours.","es":"Nuestro."},
            "contact-structure":{"es":"Solo aquí."}}}"#;
        let shown = Rules::read("ours.json", text).unwrap().shown(&[]);
        let whole = SiteRules::parse("ours.json", text.as_bytes()).unwrap();
        for code in ["contact-cone", "contact-structure", "no-horn-moving-off"] {
            for language in ["en", "es", "fi"] {
                assert_eq!(shown.citations[code].note(language), whole.note(code, language));
            }
        }
        assert_eq!(shown.citations["contact-cone"].note("es"), Some("Nuestro."));
    }

    /// The shipped rules with something changed in them.
    fn changed(change: impl FnOnce(&mut Value)) -> (Rules, Vec<String>) {
        let mut site: Value = serde_json::from_str(SHIPPED).unwrap();
        change(&mut site);
        let text = site.to_string();
        let whole = SiteRules::parse("ours.json", text.as_bytes()).unwrap();
        (Rules::read("ours.json", &text).unwrap(), whole.changed())
    }

    #[test]
    fn as_shipped_nothing_is_changed() {
        let (label, listed) = changed(|_| {});
        assert!(listed.is_empty());
        assert_eq!(label.site_name(), None);
        for code in SiteRules::shipped().rules.keys() {
            assert_eq!(label.changes(code), []);
        }
        assert_eq!(label.changes("points"), []);
        assert_eq!(label.changes("turn"), []);
    }

    #[test]
    fn everything_that_the_core_lists_as_changed_has_its_values() {
        let (label, listed) = changed(|site| {
            site["site"] = "Cold store North".into();
            site["rules"]["over-speed"]["limits"]["for"]["value"] = 0.75.into();
            site["speed_limit"]["value"] = 2.0.into();
            site["rules"]["contact-cone"]["on"] = false.into();
            site["rules"]["contact-structure"].as_object_mut().unwrap().remove("graver");
            site["terms"]["turn"]["value"] = 30.into();
            site["pass"]["total"] = 85.into();
        });
        assert_eq!(label.site_name(), Some("Cold store North"));
        assert_eq!(listed.len(), 5, "{listed:?}");
        for what in &listed {
            assert!(!label.changes(what).is_empty(), "{what} has no changed value");
        }
        let one = |what: &str| label.changes(what).into_iter().next().unwrap();
        let seconds = |s| Some(RuleValue::Limit(s, Unit::Second));
        let over = label.changes("over-speed");
        assert_eq!(over.len(), 2);
        assert_eq!((over[0].here.clone(), over[0].usual.clone()), (seconds(0.75), seconds(0.5)));
        assert_eq!(over[1].here, Some(RuleValue::Limit(2.0, Unit::MetrePerSecond)));
        assert_eq!(one("contact-cone").here, Some(RuleValue::On(false)));
        assert_eq!(label.changes("contact-structure").len(), 2);
        assert_eq!(one("contact-structure").here, None);
        assert_eq!(one("turn").here, Some(RuleValue::Limit(30.0, Unit::Degree)));
        assert_eq!(one("points").name, "pass-total");
    }
}

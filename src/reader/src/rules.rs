//! Site rules as a debrief shows them: where each comes from, what the site wants said, and what it
//! changed, value by value, beside what ships. The rules of an old run may not be valid rules any
//! more, so nothing is checked here but that they are JSON.

use coneyard_core::outside::Said;
use coneyard_core::reading::{Change, Citation, RuleValue, RulesShown, Terms};
use coneyard_core::rules::{CHANGED_POINTS, SHIPPED};
use serde::de::DeserializeOwned;
use serde_json::Value;

fn as_a<T: DeserializeOwned>(value: &Value) -> Option<T> {
    serde_json::from_value(value.clone()).ok()
}

fn limit(value: &Value) -> Option<RuleValue> {
    Some(RuleValue::Limit(value.get("value")?.as_f64()?, as_a(value.get("unit")?)?))
}

fn points(value: &Value) -> Option<RuleValue> {
    value.as_f64().map(RuleValue::Points)
}

type Read = fn(&Value) -> Option<RuleValue>;

/// A site's rules beside the shipped ones. What the site leaves out is as shipped.
pub(crate) struct Rules {
    site: Value,
    shipped: Value,
}

fn json(file: &str, text: &str) -> Result<Value, String> {
    serde_json::from_str(text).map_err(|e| format!("{file}: {e}"))
}

impl Rules {
    /// Reads a site-rules file.
    pub(crate) fn read(file: &str, text: &str) -> Result<Self, String> {
        Ok(Self { site: json(file, text)?, shipped: json(file, SHIPPED)? })
    }

    fn find<'a, T>(&'a self, place: &str, read: fn(&'a Value) -> Option<T>) -> Option<T> {
        [&self.site, &self.shipped].into_iter().find_map(|r| r.pointer(place).and_then(read))
    }

    /// What it asks for and allows.
    pub(crate) fn terms(&self) -> Terms {
        let at = |place: &str| self.find(place, Value::as_f64);
        Terms {
            pass_skill: at("/pass/skill").unwrap_or_default(),
            pass_total: at("/pass/total").unwrap_or_default(),
            ready_from: at("/terms/ready-from/value").unwrap_or(1.0),
            time_ratio_least: at("/terms/time-ratio/value").unwrap_or(1.0),
            pauses_most: at("/terms/pauses/value").unwrap_or(0.0) as u32,
        }
    }

    /// What is shown of it, with the values of what a debrief lists as changed.
    pub(crate) fn shown(&self, changed: &[String]) -> RulesShown {
        let codes = [&self.site, &self.shipped].into_iter().filter_map(|r| r.get("rules"));
        let codes = codes.filter_map(Value::as_object).flat_map(|rules| rules.keys());
        let cited = |code: &String| Some((code.clone(), self.citation(code)?));
        RulesShown {
            site: self.site_name().map(str::to_owned),
            citations: codes.filter_map(cited).collect(),
            changes: changed.iter().map(|what| (what.clone(), self.changes(what))).collect(),
        }
    }

    fn citation(&self, code: &str) -> Option<Citation> {
        let text = |name: &str| self.find(&format!("/rules/{code}/{name}"), Value::as_str);
        let said = self.find(&format!("/notes/{code}"), Value::as_object);
        let said = said.into_iter().flatten();
        Some(Citation {
            source: text("citation")?.to_owned(),
            note: text("note").map(str::to_owned),
            said: said
                .filter_map(|(language, text)| Some((language.clone(), text.as_str()?.to_owned())))
                .collect::<Said>(),
        })
    }

    /// What the site calls itself; None when it does not say.
    pub(crate) fn site_name(&self) -> Option<&str> {
        self.site.pointer("/site").and_then(Value::as_str).filter(|s| !s.trim().is_empty())
    }

    /// The changed values of one thing that a debrief lists as changed: a rule by its code, a term
    /// by its name, or "points".
    fn changes(&self, what: &str) -> Vec<Change> {
        let mut places: Vec<(String, String, Read)> = Vec::new();
        let mut look = |name: &str, place: String, read: Read| {
            places.push((name.to_owned(), place, read));
        };
        if what == CHANGED_POINTS {
            look("minor", "/points/minor".into(), points);
            look("major", "/points/major".into(), points);
            look("most-by-one-code", "/points/most_by_one_code".into(), points);
            look("pass-skill", "/pass/skill".into(), points);
            look("pass-total", "/pass/total".into(), points);
        } else if let Some(rule) = self.shipped.pointer(&format!("/rules/{what}")) {
            let at = |inner: &str| format!("/rules/{what}/{inner}");
            look("on", at("on"), |v| v.as_bool().map(RuleValue::On));
            look("severity", at("severity"), |v| as_a(v).map(RuleValue::Severity));
            look("skill", at("skill"), |v| as_a(v).map(RuleValue::Skill));
            look("graver", at("graver/severity"), |v| as_a(v).map(RuleValue::Severity));
            look("graver-above", at("graver/above"), limit);
            look("graver-below", at("graver/below"), limit);
            let limits = rule.pointer("/limits").and_then(Value::as_object);
            for name in limits.into_iter().flat_map(|l| l.keys()) {
                look(name, at(&format!("limits/{name}")), limit);
            }
            if what == "over-speed" {
                look("speed-limit", "/speed_limit".into(), limit);
            }
        } else {
            look("value", format!("/terms/{what}"), limit);
        }
        places
            .into_iter()
            .map(|(name, place, read)| Change {
                name,
                here: self.in_force(what, &place).and_then(read),
                usual: self.shipped.pointer(&place).and_then(read),
            })
            .filter(|c| c.here != c.usual)
            .collect()
    }

    /// The value in force: a rule that a site writes down holds as a whole, so what it leaves out
    /// of the rule is not taken from what ships.
    fn in_force(&self, what: &str, place: &str) -> Option<&Value> {
        let own_rule =
            place.starts_with("/rules/") && self.site.pointer(&format!("/rules/{what}")).is_some();
        match self.site.pointer(place) {
            Some(value) => Some(value),
            None if own_rule => None,
            None => self.shipped.pointer(place),
        }
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::finding::Unit;
    use coneyard_core::pretest;
    use coneyard_core::rules::SiteRules;

    use super::*;

    #[test]
    fn terms_and_citations_are_those_of_the_rules() {
        let shown = Rules::read("site-rules.json", SHIPPED).unwrap();
        let whole = SiteRules::shipped();
        let terms = shown.terms();
        assert_eq!((terms.pass_skill, terms.pass_total), (whole.pass.skill, whole.pass.total));
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
        let shipped = SiteRules::shipped().pass.skill;
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

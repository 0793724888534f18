//! What a site changed in its rules, value by value, beside what ships.

use coneyard_core::finding::{Severity, Skill, Unit};
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::RulesLabel;

/// A value of the rules.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum RuleValue {
    /// Watched or switched off.
    On(bool),
    /// How grave.
    Severity(Severity),
    /// Whose points it takes.
    Skill(Skill),
    /// A number with its unit.
    Limit(f64, Unit),
    /// Points.
    Points(f64),
}

/// One changed value.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Change {
    /// Its name in the file, dashed.
    pub(crate) name: String,
    /// Here; None when it was taken out.
    pub(crate) here: Option<RuleValue>,
    /// As it ships; None when it was put in.
    pub(crate) usual: Option<RuleValue>,
}

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

impl RulesLabel {
    /// The changed values of one thing that a debrief lists as changed: a rule by its code, a term
    /// by its name, or "points".
    pub(crate) fn changes(&self, what: &str) -> Vec<Change> {
        let mut places: Vec<(String, String, Read)> = Vec::new();
        let mut look = |name: &str, place: String, read: Read| {
            places.push((name.to_owned(), place, read));
        };
        if what == coneyard_core::rules::CHANGED_POINTS {
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

    /// What the site calls itself; None when it does not say.
    pub(crate) fn site_name(&self) -> Option<&str> {
        self.site.pointer("/site").and_then(Value::as_str).filter(|s| !s.trim().is_empty())
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::rules::SHIPPED;
    use coneyard_core::rules::SiteRules;

    use super::super::rules;
    use super::*;

    /// The shipped rules with something changed in them.
    fn changed(change: impl FnOnce(&mut Value)) -> (RulesLabel, Vec<String>) {
        let mut site: Value = serde_json::from_str(SHIPPED).unwrap();
        change(&mut site);
        let text = site.to_string();
        let whole = SiteRules::parse("ours.json", text.as_bytes()).unwrap();
        (rules("ours.json", &text).unwrap(), whole.changed())
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

//! What a site changed in its rules, value by value, beside what ships.

use coneyard_core::finding::{Severity, Skill, Unit};
use coneyard_core::score::rules::CHANGED_POINTS;

use super::rules::{LimitText, RuleText, RulesLabel, RulesText};

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

impl RulesLabel {
    /// The changed values of one thing that a debrief lists as changed: a rule by its code, a term
    /// by its name, or "points".
    pub(crate) fn changes(&self, what: &str) -> Vec<Change> {
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
                ("pass-skill", points(|r| r.pass.skill)),
                ("pass-total", points(|r| r.pass.total)),
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
    use coneyard_core::score::SiteRules;
    use coneyard_core::score::rules::SHIPPED;
    use serde_json::Value;

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

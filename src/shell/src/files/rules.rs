//! What the pages read of a site-rules file.

use std::collections::BTreeMap;

use coneyard_core::course::Said;
use coneyard_core::finding::{Severity, Skill, Unit};
use coneyard_core::score::rules::{PassMarks, SHIPPED};
use serde::Deserialize;

use super::read;

/// Where a rule comes from, and what the site wants said beside it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Citation {
    /// The rule's source, as it stands in the file.
    pub(crate) source: String,
    /// The site's note.
    pub(crate) note: Option<String>,
}

/// What the pages show of a site-rules file. What it leaves out is as in the shipped one.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct RulesLabel {
    pub(super) site: RulesText,
    pub(super) shipped: RulesText,
}

/// A site-rules file. What it leaves out is none or empty.
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[serde(default)]
pub(super) struct RulesText {
    pub(super) site: Option<String>,
    pub(super) points: PointsText,
    pub(super) pass: PassText,
    pub(super) speed_limit: Option<LimitText>,
    pub(super) terms: BTreeMap<String, LimitText>,
    notes: BTreeMap<String, Said>,
    pub(super) rules: BTreeMap<String, RuleText>,
}

#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[serde(default)]
pub(super) struct PointsText {
    pub(super) minor: Option<f64>,
    pub(super) major: Option<f64>,
    pub(super) most_by_one_code: Option<f64>,
}

#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[serde(default)]
pub(super) struct PassText {
    pub(super) skill: Option<f64>,
    pub(super) total: Option<f64>,
}

#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct LimitText {
    pub(super) value: f64,
    pub(super) unit: Unit,
}

#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[serde(default)]
pub(super) struct RuleText {
    pub(super) on: Option<bool>,
    pub(super) skill: Option<Skill>,
    pub(super) severity: Option<Severity>,
    pub(super) graver: Option<GraverText>,
    citation: Option<String>,
    note: Option<String>,
    pub(super) limits: BTreeMap<String, LimitText>,
}

#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct GraverText {
    pub(super) severity: Severity,
    pub(super) above: Option<LimitText>,
    pub(super) below: Option<LimitText>,
}

impl RulesLabel {
    /// The site's own, else the shipped one.
    pub(super) fn find<'a, T>(&'a self, read: impl Fn(&'a RulesText) -> Option<T>) -> Option<T> {
        read(&self.site).or_else(|| read(&self.shipped))
    }

    fn term(&self, name: &str) -> Option<f64> {
        self.find(|rules| rules.terms.get(name)).map(|term| term.value)
    }

    /// Where the rule of this code comes from.
    pub(crate) fn citation(&self, code: &str) -> Option<Citation> {
        let text = |of: fn(&RuleText) -> Option<&String>| {
            self.find(|rules| rules.rules.get(code).and_then(of)).cloned()
        };
        Some(Citation { source: text(|r| r.citation.as_ref())?, note: text(|r| r.note.as_ref()) })
    }

    /// What the site wants said beside findings of this code, in this language: else in English,
    /// else in whichever there is, else the rule's own note.
    pub(crate) fn note(&self, code: &str, language: &str) -> Option<String> {
        let said = self.find(|rules| rules.notes.get(code)).and_then(|texts| {
            let text = texts.get(language).or_else(|| texts.get("en"));
            text.or_else(|| texts.values().next()).cloned()
        });
        said.or_else(|| self.citation(code)?.note)
    }

    /// What a pre-test asks for.
    pub(crate) fn marks(&self) -> PassMarks {
        PassMarks {
            skill: self.find(|rules| rules.pass.skill).unwrap_or_default(),
            total: self.find(|rules| rules.pass.total).unwrap_or_default(),
        }
    }

    /// The least share of the time on the wall that a computer may simulate in a pre-test.
    pub(crate) fn time_ratio_least(&self) -> f64 {
        self.term("time-ratio").unwrap_or(1.0)
    }

    /// How often a pre-test may be paused.
    pub(crate) fn pauses_most(&self) -> u32 {
        self.term("pauses").unwrap_or(0.0) as u32
    }

    /// What the lower end of an interval must reach to be called ready, share of one.
    pub(crate) fn ready_from(&self) -> f64 {
        self.term("ready-from").unwrap_or(1.0)
    }

    /// What the site calls itself; None when it does not say.
    pub(crate) fn site_name(&self) -> Option<&str> {
        self.site.site.as_deref().filter(|name| !name.trim().is_empty())
    }
}

/// What the pages show of a site-rules file.
pub(crate) fn rules(file: &str, text: &str) -> Result<RulesLabel, String> {
    Ok(RulesLabel { site: read(file, text)?, shipped: read(file, SHIPPED)? })
}

#[cfg(test)]
mod tests {
    use coneyard_core::pretest;
    use coneyard_core::score::SiteRules;

    use super::*;

    #[test]
    fn marks_and_citations_are_those_of_the_rules() {
        let shown = rules("site-rules.json", SHIPPED).unwrap();
        let whole = SiteRules::shipped();
        assert_eq!(shown.marks(), whole.pass);
        assert_eq!(shown.ready_from(), whole.term("ready-from"));
        assert_eq!(shown.time_ratio_least(), pretest::time_ratio_least(&whole));
        assert_eq!(shown.pauses_most(), pretest::pauses_most(&whole));
        for (code, rule) in &whole.rules {
            assert_eq!(shown.citation(code).unwrap().source, rule.citation, "{code}");
        }
    }

    #[test]
    fn what_a_site_leaves_out_is_as_shipped() {
        let text = r#"{"format":1,"pass":{"total":90},"rules":{"contact-cone":{"note":"Ours."}}}"#;
        let shown = rules("ours.json", text).unwrap();
        let marks = shown.marks();
        assert_eq!((marks.skill, marks.total), (SiteRules::shipped().pass.skill, 90.0));
        let cone = shown.citation("contact-cone").unwrap();
        assert_eq!((cone.source.as_str(), cone.note.as_deref()), ("course task", Some("Ours.")));
        assert_eq!(shown.note("contact-cone", "es").as_deref(), Some("Ours."));
    }

    #[test]
    fn notes_are_those_of_the_rules_in_every_language() {
        let text = r#"{"format":1,"notes":{"contact-cone":{"en":"Ours.","es":"Nuestro."},
            "contact-structure":{"es":"Solo aquí."}}}"#;
        let shown = rules("ours.json", text).unwrap();
        let whole = SiteRules::parse("ours.json", text.as_bytes()).unwrap();
        for code in ["contact-cone", "contact-structure", "no-horn-at-start"] {
            for language in ["en", "es", "fi"] {
                assert_eq!(shown.note(code, language).as_deref(), whole.note(code, language));
            }
        }
        assert_eq!(shown.note("contact-cone", "es").as_deref(), Some("Nuestro."));
    }
}

//! A site-rules file, as far as it is shown. What it leaves out is none or empty.

use std::collections::BTreeMap;

use coneyard_core::finding::{Severity, Skill, Unit};
use coneyard_core::outside::Said;
use serde::Deserialize;

#[derive(Default, Deserialize)]
#[serde(default)]
pub(crate) struct RulesText {
    pub(crate) site: Option<String>,
    pub(crate) points: PointsText,
    pub(crate) pass: PassText,
    pub(crate) speed_limit: Option<LimitText>,
    pub(crate) terms: BTreeMap<String, LimitText>,
    pub(crate) notes: BTreeMap<String, Said>,
    pub(crate) rules: BTreeMap<String, RuleText>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
pub(crate) struct PointsText {
    pub(crate) minor: Option<f64>,
    pub(crate) major: Option<f64>,
    pub(crate) most_by_one_code: Option<f64>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
pub(crate) struct PassText {
    pub(crate) skill: Option<MarkText>,
    pub(crate) total: Option<MarkText>,
}

impl PassText {
    pub(crate) fn skill(&self) -> Option<f64> {
        self.skill.as_ref().map(MarkText::points)
    }

    pub(crate) fn total(&self) -> Option<f64> {
        self.total.as_ref().map(MarkText::points)
    }
}

/// A mark of a pre-test; rules from before marks had a unit and a source have the number alone.
#[derive(Deserialize)]
#[serde(untagged)]
pub(crate) enum MarkText {
    Alone(f64),
    Limit(LimitText),
}

impl MarkText {
    /// Points of 100.
    pub(crate) fn points(&self) -> f64 {
        match self {
            Self::Alone(points) => *points,
            Self::Limit(limit) => limit.value,
        }
    }
}

#[derive(Deserialize)]
pub(crate) struct LimitText {
    pub(crate) value: f64,
    pub(crate) unit: Unit,
}

#[derive(Default, Deserialize)]
#[serde(default)]
pub(crate) struct RuleText {
    pub(crate) on: Option<bool>,
    pub(crate) skill: Option<Skill>,
    pub(crate) severity: Option<Severity>,
    pub(crate) graver: Option<GraverText>,
    pub(crate) citation: Option<String>,
    pub(crate) note: Option<String>,
    pub(crate) limits: BTreeMap<String, LimitText>,
}

#[derive(Deserialize)]
pub(crate) struct GraverText {
    pub(crate) severity: Severity,
    pub(crate) above: Option<LimitText>,
    pub(crate) below: Option<LimitText>,
}

impl RulesText {
    /// Reads a file.
    pub(crate) fn read(file: &str, text: &str) -> Result<Self, String> {
        serde_json::from_str(text).map_err(|e| format!("{file}: {e}"))
    }
}

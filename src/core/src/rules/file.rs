//! The site-rules file as it is written; levels/site-rules.schema.json says the same for editors.

use serde::Deserialize;

use crate::finding::{Severity, Skill, Unit};
use crate::outside::bounded::{List, Map};
use crate::outside::values::{Outline, SaidFile};

/// Largest site-rules file that is read, bytes.
pub(super) const MAX_BYTES: usize = 256 * 1024;

/// The format that this program reads.
pub(super) const FORMAT: u32 = 1;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RulesFile {
    #[serde(rename = "$schema", default)]
    pub(super) _schema: Option<String>,
    pub(super) format: u32,
    #[serde(default)]
    pub(super) site: Option<String>,
    #[serde(default)]
    pub(super) points: Option<PointsFile>,
    #[serde(default)]
    pub(super) pass: Option<PassFile>,
    #[serde(default)]
    pub(super) speed_limit: Option<LimitFile>,
    #[serde(default)]
    pub(super) terms: Map<String, LimitFile, 200>,
    #[serde(default)]
    pub(super) zones: ZonesFile,
    #[serde(default)]
    pub(super) notes: NotesFile,
    #[serde(default)]
    pub(super) rules: Map<String, RuleFile, 200>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PointsFile {
    pub(super) minor: f64,
    pub(super) major: f64,
    pub(super) most_by_one_code: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PassFile {
    #[serde(default)]
    pub(super) skill: Option<MarkFile>,
    #[serde(default)]
    pub(super) total: Option<MarkFile>,
}

/// A mark with its unit and source; alone as a number in files from before marks had those.
#[derive(Deserialize)]
#[serde(untagged, expecting = "a mark is a number, or a value with its unit and source")]
pub(super) enum MarkFile {
    Alone(f64),
    Limit(LimitFile),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LimitFile {
    pub(super) value: f64,
    pub(super) unit: Unit,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GraverFile {
    pub(super) severity: Severity,
    #[serde(default)]
    pub(super) above: Option<LimitFile>,
    #[serde(default)]
    pub(super) below: Option<LimitFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RuleFile {
    pub(super) on: bool,
    pub(super) skill: Skill,
    pub(super) severity: Severity,
    #[serde(default)]
    pub(super) graver: Option<GraverFile>,
    pub(super) citation: String,
    #[serde(default)]
    pub(super) note: Option<String>,
    #[serde(default)]
    pub(super) limits: Map<String, LimitFile, 200>,
}

/// Speed zones as they are written.
pub(super) type ZonesFile = List<ZoneFile, 64>;

/// Sentences as they are written, by code.
pub(super) type NotesFile = Map<String, SaidFile, 200>;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ZoneFile {
    pub(super) course: String,
    pub(super) area_m: Outline,
    pub(super) limit: LimitFile,
}

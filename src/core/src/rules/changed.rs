//! What a site's rules judge otherwise than the defaults.

use crate::rules::needs::DUTIES;
use crate::rules::site::{Rule, SiteRules};

/// Name in `Debrief::changed_rules` when points or pass marks are not the defaults.
pub const CHANGED_POINTS: &str = "points";

/// Name there when the site has speed zones of its own.
pub const CHANGED_ZONES: &str = "zones";

/// Name there when the site has something of its own said beside findings.
pub const CHANGED_NOTES: &str = "notes";

impl SiteRules {
    /// Codes of the rules that judge otherwise than the defaults or are switched off, in the
    /// order of `rules::DUTIES`; then the names of changed terms; then "points", "zones" and
    /// "notes". Another source or citation changes nothing.
    pub fn changed(&self) -> Vec<String> {
        let default = Self::shipped();
        let rules = DUTIES
            .iter()
            .map(|d| d.code)
            .filter(|code| {
                let speed_limit_differs =
                    *code == "over-speed" && self.speed_limit.value != default.speed_limit.value;
                speed_limit_differs || !same_judgement(&self.rules[*code], &default.rules[*code])
            })
            .map(str::to_owned);
        let terms = self
            .terms
            .iter()
            .filter(|(name, limit)| default.terms[*name].value != limit.value)
            .map(|(name, _)| name.clone());
        let points = (self.points != default.points || self.pass.values() != default.pass.values())
            .then(|| CHANGED_POINTS.to_owned());
        let zones = (!self.zones.is_empty()).then(|| CHANGED_ZONES.to_owned());
        let says = |r: &Rule| r.note.is_some();
        let notes = (!self.notes.is_empty() || self.rules.values().any(says))
            .then(|| CHANGED_NOTES.to_owned());
        rules.chain(terms).chain(points).chain(zones).chain(notes).collect()
    }
}

fn same_judgement(a: &Rule, b: &Rule) -> bool {
    let numbers = |r: &Rule| -> Vec<f64> { r.limits.values().map(|l| l.value).collect() };
    let graver = |r: &Rule| r.graver.as_ref().map(|g| (g.severity, g.beyond.value));
    (a.on, a.skill, a.severity) == (b.on, b.skill, b.severity)
        && graver(a) == graver(b)
        && numbers(a) == numbers(b)
}

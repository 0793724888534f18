//! A finding in words: its title, what was measured, why it matters and what to do instead.

use coneyard_core::finding::{Finding, Severity};

use crate::units::Units;
use crate::words::{k, say, say_with, text};

/// A shape for each severity, so that it never hangs on colour alone.
pub(crate) fn mark(severity: Severity) -> &'static str {
    match severity {
        Severity::Good => "✓",
        Severity::Minor => "○",
        Severity::Major => "▲",
        Severity::Critical => "■",
    }
}

/// Key of a severity's word.
pub(crate) fn severity_word(severity: Severity) -> &'static str {
    match severity {
        Severity::Good => k("severity-good"),
        Severity::Minor => k("severity-minor"),
        Severity::Major => k("severity-major"),
        Severity::Critical => k("severity-critical"),
    }
}

/// A class for its style.
pub(crate) fn class(severity: Severity) -> &'static str {
    match severity {
        Severity::Good => "good",
        Severity::Minor => "minor",
        Severity::Major => "major",
        Severity::Critical => "critical",
    }
}

/// What happened, in a few words.
pub(crate) fn title(finding: &Finding) -> String {
    say(&format!("{}-title", finding.code))
}

/// What was measured beside its limit.
pub(crate) fn measured(finding: &Finding, units: Units) -> String {
    let measured = units.text(finding.measured, finding.unit);
    let limit = units.text(finding.limit, finding.unit);
    say_with(k("finding-measured"), vec![("measured", text(measured)), ("limit", text(limit))])
}

/// Why it matters.
pub(crate) fn why(finding: &Finding) -> String {
    say(&format!("{}-why", finding.code))
}

/// What to do instead.
pub(crate) fn instead(finding: &Finding) -> String {
    say(&format!("{}-instead", finding.code))
}

/// The rule's number.
pub(crate) fn citation(finding: &Finding) -> String {
    say(&format!("{}-citation", finding.code))
}

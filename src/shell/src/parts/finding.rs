//! How a finding is marked: a shape, a word and a class for its style.

use coneyard_core::finding::Severity;

/// A shape for each severity, so that it never hangs on colour alone.
pub(crate) fn mark(severity: Severity) -> &'static str {
    match severity {
        Severity::Good => "✓",
        Severity::Minor => "○",
        Severity::Major => "▲",
        Severity::Critical => "■",
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

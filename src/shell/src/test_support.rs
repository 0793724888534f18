//! Findings and rules as tests of several pages need them.

use coneyard_core::finding::{Finding, Severity, Unit};
use coneyard_core::math::vec2;
use coneyard_core::reading::Terms;
use coneyard_core::time::Tick;

/// A finding of one tick.
pub(crate) fn found(code: &str, severity: Severity, from: Tick) -> Finding {
    Finding {
        code: code.into(),
        severity,
        from,
        to: from,
        measured: 1.0,
        limit: 0.0,
        unit: Unit::Count,
        at: vec2(0.0, 0.0),
        before: None,
        cause: None,
        point: None,
    }
}

/// What the rules ask for.
pub(crate) fn terms() -> Terms {
    Terms {
        pass_skill: 70.0,
        pass_total: 80.0,
        ready_from: 0.9,
        time_ratio_least: 0.95,
        pauses_most: 1,
    }
}

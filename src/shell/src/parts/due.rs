//! What is due, in words.

use coneyard_core::class::again::{Cause, Why};
use coneyard_core::class::date::Date;

use crate::parts::when::day_text as shown;
use crate::words::{k, say, source};

/// A day in the language's way.
pub(crate) fn day_text(day: Date) -> String {
    shown(&day.to_string())
}

/// Key of what made a refresher due.
pub(crate) fn cause_key(cause: Cause) -> &'static str {
    match cause {
        Cause::UnsafeSeen => k("due-unsafe-seen"),
        Cause::AccidentOrNearMiss => k("due-near-miss"),
        Cause::EvaluationUnsafe => k("due-evaluation-unsafe"),
        Cause::OtherTruck => k("due-other-truck"),
        Cause::WorkplaceChanged => k("due-workplace-changed"),
    }
}

/// Why something is due, and where that stands.
pub(crate) fn why_text(why: Why) -> String {
    let key = match why {
        Why::Refresher(cause) => cause_key(cause),
        Why::NeverEvaluated => k("due-never-evaluated"),
        Why::TrainedSince => k("due-trained-since"),
        Why::ThreeYears => k("due-three-years"),
        Why::HalfAYear => return say(k("due-half-a-year")),
    };
    format!("{} ({})", say(key), source(why.citation()))
}

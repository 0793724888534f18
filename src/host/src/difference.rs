//! What is said when a run driven again is not what its file says.

use coneyard_core::run::Verdict;

/// What differs, in a sentence; None when the drive comes out as the file says.
pub(crate) fn difference(name: &str, verdict: &Verdict) -> Option<String> {
    if verdict.reproduces {
        return None;
    }
    Some(match verdict.first_difference_s {
        Some(second) => format!(
            "{name}: driven again, it first differs in second {second}: the file was changed, or \
             another version of the simulation made it"
        ),
        None if !verdict.debrief_agrees => format!(
            "{name}: the drive comes out the same, but not the debrief that is claimed in it; the \
             computed one is shown"
        ),
        None => format!("{name}: the drive is over before its recorded controls are"),
    })
}

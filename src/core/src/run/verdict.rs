//! What driving a run again comes to.

use serde::{Deserialize, Serialize};

use crate::debrief::Debrief;

/// What the judge says of a run.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Verdict {
    /// Every state digest and the claimed debrief came out again.
    pub reproduces: bool,
    /// What differs first, in a sentence's worth of data: the second of the first wrong digest.
    pub first_difference_s: Option<u32>,
    /// The claimed debrief is the computed one.
    pub debrief_agrees: bool,
    /// The computed debrief.
    pub debrief: Debrief,
    /// The digest after the last tick, hexadecimal.
    pub final_digest: String,
}

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

/// What comes of judging a run again by other rules than its own.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum JudgedBy {
    /// So much of it is driven again, share of one.
    Working(f64),
    /// What these rules say of it.
    Done(Debrief),
    /// They say nothing of it.
    Cannot(CannotJudge),
}

/// Why a run cannot be judged by other rules than its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CannotJudge {
    /// It ended by itself where it would have gone on by these rules: nobody knows how.
    WouldGoOn,
    /// What is asked of the rider at a dock or a truck decides here what comes next, and then somebody would have moved
    /// otherwise.
    WouldBeOtherwise,
}

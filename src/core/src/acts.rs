//! Acts: what a rider does once, in one tick, beside the controls that are held from tick to tick. They
//! are a drive's second track.

use serde::{Deserialize, Serialize};

use crate::controls::Controls;
use crate::state::chain::Chain;
use crate::time::Tick;

/// More acts than this are none of one drive: one in every half second of two hours.
pub const ACTS_MOST: usize = 2 * 2 * 3600;

/// Something that is done once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Act {
    /// Says that something is wrong here, and does not go on.
    Report,
}

/// An act with its tick.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Done {
    /// The tick in which it was done, from the start of the drive; the first one is 1.
    pub tick: Tick,
    /// What was done.
    pub act: Act,
}

/// All that a rider does in one tick: what is held, and what is done once.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Input {
    /// What is held.
    pub controls: Controls,
    /// What is done, in order.
    pub acts: Vec<Act>,
}

/// Says which act of a drive of so many ticks is out of order, and why.
///
/// # Errors
/// Its place in the list, and a reason.
pub fn check(acts: &[Done], ticks: Tick) -> Result<(), (usize, String)> {
    if acts.len() > ACTS_MOST {
        return Err((ACTS_MOST, format!("more than {ACTS_MOST} acts are none of one drive")));
    }
    let mut least = 1;
    for (i, done) in acts.iter().enumerate() {
        if !(least..=ticks).contains(&done.tick) {
            return Err((i, format!("tick {} lies outside {least} to {ticks}", done.tick)));
        }
        least = done.tick;
    }
    Ok(())
}

impl From<Controls> for Input {
    fn from(controls: Controls) -> Self {
        Self { controls, acts: Vec::new() }
    }
}

/// Marks the word of an act in a chain of digests: no controls have this bit.
const IS_ACT: u32 = 1 << 31;

impl Act {
    /// Puts the act into the chain of digests, behind the controls of its tick.
    pub fn digest(self, chain: &mut Chain) {
        let code = match self {
            Self::Report => 0,
        };
        chain.u32(IS_ACT | code);
    }
}

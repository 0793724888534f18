//! What is driven: a course, a truck, rules and a seed.

use serde::{Deserialize, Serialize};

use crate::state::chain::Chain;

/// What to drive: the texts of the three files as they are, and who drives.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct DriveSetup {
    /// Text of the course file.
    pub course: String,
    /// Text of the truck file.
    pub truck: String,
    /// Text of the site-rules file.
    pub rules: String,
    /// Text of the check list; empty where the course has no walk-round.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub checks: String,
    /// Seed of everything random.
    pub seed: u32,
    /// Who drives, as they want to be called; may be empty.
    pub who: String,
    /// When it began, RFC 3339; kept, never computed with.
    pub started: String,
}

impl DriveSetup {
    /// The chain of digests of a drive, begun with everything the drive depends on, so that a run cannot
    /// be told to be of another course, truck, rule book, seed or person.
    pub fn chain(&self, simulation: u32) -> Chain {
        let Self { course, truck, rules, checks, seed, who, started } = self;
        let mut chain = Chain::new(b"coneyard run 1");
        chain.u32(simulation);
        chain.u32(*seed);
        [course, truck, rules, who, started].into_iter().for_each(|text| chain.text(text));
        if !checks.is_empty() {
            chain.text(checks);
        }
        chain
    }
}

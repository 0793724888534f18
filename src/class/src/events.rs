//! What has just happened in a class, for those who watch it.

use serde::{Deserialize, Serialize};

/// Something that happened. With PostgreSQL it goes to all hosts, as text of fewer than 8000 bytes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Event {
    /// Class.
    pub class: String,
    /// What.
    pub what: What,
}

/// What happened. Whoever is told looks up the rest.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum What {
    /// A run arrived.
    Arrived {
        /// Run.
        run: String,
    },
    /// A run was driven again.
    Judged {
        /// Run.
        run: String,
    },
    /// Somebody drives.
    Live {
        /// Who.
        person: String,
    },
    /// Somebody joined.
    Joined {
        /// Who.
        person: String,
    },
    /// Somebody was deleted.
    Gone {
        /// Who.
        person: String,
    },
}

/// How many events a slow watcher may be behind before it misses some.
pub const BEHIND: usize = 256;

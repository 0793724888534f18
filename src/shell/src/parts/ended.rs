//! How a drive ended, and what its points stand for when it was not driven to the end.

use coneyard_core::debrief::{Debrief, Ending};
use coneyard_core::words::ending_key;

use crate::words::{k, number, say, say_with, text};

/// In words.
pub(crate) fn how_it_ended(debrief: &Debrief) -> String {
    let ending = say(ending_key(debrief.ending));
    match debrief.did {
        _ if debrief.ending == Ending::Done => ending,
        Some(did) => {
            // Never a hundred percent of what was not done to its end.
            let percent = number((did * 100.0).floor());
            say_with(k("debrief-in-part"), vec![("ending", text(ending)), ("percent", percent)])
        }
        None => say_with(k("debrief-does-not-count"), vec![("ending", text(ending))]),
    }
}

//! What trucks and endings are called, and which truck was chosen.

use coneyard_core::debrief::Ending;
use coneyard_core::pretest::TRUCKS;

use crate::settings::Settings;
use crate::words::{k, say};

/// Key of a truck's name.
pub(crate) fn truck_name(truck: &str) -> String {
    match truck {
        "single" => say(k("truck-single")),
        "double" => say(k("truck-double")),
        other => other.to_owned(),
    }
}

/// Key of the word for how a drive ended.
pub(crate) fn ending_word(ending: Ending) -> &'static str {
    match ending {
        Ending::Done => k("ending-done"),
        Ending::Failed => k("ending-failed"),
        Ending::Tipped => k("ending-tipped"),
        Ending::Struck => k("ending-struck"),
        Ending::BrokenDown => k("ending-broken-down"),
        Ending::TimeOut => k("ending-time-out"),
        Ending::Broken => k("ending-broken"),
    }
}

/// The truck that the pre-test is taken on: the one that was chosen last, where that can be.
pub(crate) fn chosen_truck(settings: &Settings) -> &'static str {
    pretest_truck(&settings.truck)
}

fn pretest_truck(chosen: &str) -> &'static str {
    TRUCKS.into_iter().find(|truck| *truck == chosen).unwrap_or(TRUCKS[0])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pretest_is_taken_on_the_truck_that_was_chosen_last_or_on_the_first() {
        assert_eq!((pretest_truck("single"), pretest_truck("double")), ("single", "double"));
        assert_eq!(pretest_truck("a truck of the site"), "single");
    }
}

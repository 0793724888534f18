//! Who watches each duty of `rules::DUTIES`, in the same order. Deeds stand after the faults, and the
//! clean lap last: it asks what the others found.

use crate::rules::{DUTIES, Duty, Yardstick};
use crate::watch::*;

/// Makes a watcher that measures by this.
type Made = fn(Yardstick) -> Box<dyn Watcher>;

const WATCHERS: &[(&str, Made)] = &[
    ("contact-cone", contact::cone),
    ("contact-structure", contact::structure),
    ("left-the-lane", lane::left),
    ("gate-missed", gates::missed),
    ("gate-wrong-way", gates::wrong_way),
    ("over-speed", over_speed::watcher),
    ("corner-speed", corner_speed::watcher),
    ("plugging-ran-back", plugging::ran_back),
    ("brake-arm-as-service", service_brake::watcher),
    ("throttle-snatched", throttle::snatched),
    ("emergency-late", emergency::late),
    ("other-brake-used", emergency::other_brake),
    ("missed-mark", mark::missed),
    ("forks-first-travel", forks_first::watcher),
    ("forks-high-in-travel", forks_high::watcher),
    ("arm-strength-turn", stance::arm_strength),
    ("stepped-across-moving", stance::stepped_across),
    ("no-horn-moving-off", horn::missing),
    ("horn-misused", horn::misused),
    ("tipped-over", tipping::watcher),
    ("person-struck", struck::watcher),
    ("person-near-miss", near_miss::watcher),
    ("person-not-given-way", crossing::not_given),
    ("stop-line-run", stop_line::run),
    ("yield-not-slowed", yield_line::watcher),
    ("no-horn-at-blind-spot", blind_spot::silent),
    ("too-fast-at-blind-spot", blind_spot::too_fast),
    ("not-looking", looking::watcher),
    ("not-looked-before-entry", looking::before_entry),
    ("outruns-sight", outruns::watcher),
    ("wet-not-slowed", wet::watcher),
    ("high-speed-in-traffic", high_speed::watcher),
    ("too-close-behind", trucks::too_close),
    ("meeting-not-stopped", trucks::meeting),
    ("passed-truck-hidden", trucks::passed),
    ("wrong-first-reaction", reaction::wrong_first),
    ("wrong-way-command", wrong_way::watcher),
    ("stepped-off-rolling", stepping_off::rolling),
    ("walked-the-truck", walked::watcher),
    ("contact-lost", stance::contact_lost),
    ("body-gap-closing", body::gap),
    ("headroom", body::headroom),
    ("unchecked-crossing", dock::unchecked),
    ("false-report", report_claim::false_report),
    ("load-shifted", load_shift::shifted),
    ("load-spilled", load_shift::spilled),
    ("over-capacity", handling::over_capacity),
    ("loose-object-run-over", handling::ran_over),
    ("forks-dragged", travel_load::dragged),
    ("pallet-pushed", handling::pushed),
    ("set-down-off", handling::set_down_off),
    ("load-not-upgrade", travel_load::not_upgrade),
    ("grade-too-fast", travel_load::grade_too_fast),
    ("load-hides-view", travel_load::hides_view),
    ("plugging-jerk", jerk::watcher),
    ("unattended", left_truck::unattended),
    ("left-unsecured", left_truck::unsecured),
    ("parked-in-the-way", left_truck::in_the_way),
    ("bad-truck-taken", walk_round::bad_truck_taken),
    ("defect-missed", walk_round::defect_missed),
    ("not-checked", walk_round::not_checked),
    ("tagged-out-sound", walk_round::tagged_out_sound),
    ("speed-settings-touched", walk_round::settings_touched),
    ("clean-plug", mark::clean_plug),
    ("quick-emergency-stop", emergency::quick),
    ("gentle-start", gentle_start::watcher),
    ("horn-before-moving", horn::sounded),
    ("gave-way", crossing::gave_way),
    ("full-stop", stop_line::stopped),
    ("horn-at-blind-spot", blind_spot::sounded),
    ("quick-reaction", reaction::quick),
    ("refused-unsafe-dock", dock::refused),
    ("defect-found", walk_round::defect_found),
    ("bad-truck-refused", walk_round::bad_truck_refused),
    ("clean-set-down", handling::clean_set_down),
    ("full-task", task::full),
    ("clean-lap", lap::clean),
];

/// The watcher of a duty.
pub fn watcher(duty: &Duty, by: Yardstick) -> Option<Box<dyn Watcher>> {
    WATCHERS.iter().find(|(code, _)| *code == duty.code).map(|(_, made)| made(by))
}

/// Every duty with what makes its watcher.
pub fn watched() -> impl Iterator<Item = (&'static Duty, Made)> {
    DUTIES.iter().zip(WATCHERS).map(|(duty, (_, made))| (duty, *made))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_duty_has_its_watcher_at_its_place() {
        let duties: Vec<&str> = DUTIES.iter().map(|d| d.code).collect();
        let watchers: Vec<&str> = WATCHERS.iter().map(|(code, _)| *code).collect();
        assert_eq!(duties, watchers);
    }
}

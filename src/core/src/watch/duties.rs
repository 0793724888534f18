//! The table of duties: every finding that can be made, the numbers it needs, and its watcher.

use crate::around::body::FOLLOWED;
use crate::around::trucks::FAR;
use crate::around::ways::AHEAD;
use crate::finding::Unit::{
    Count, Degree, Gravity, Metre, MetrePerSecond, MetrePerSecondCubed, NewtonMetreSecond, Second,
    Share,
};
use crate::watch::*;

const fn fault(
    code: &'static str,
    limits: &'static [Need],
    watcher: fn(Yardstick) -> Box<dyn Watcher>,
) -> Duty {
    Duty { code, good: false, in_traffic: false, limits, graver: None, watcher }
}

const fn deed(
    code: &'static str,
    limits: &'static [Need],
    watcher: fn(Yardstick) -> Box<dyn Watcher>,
) -> Duty {
    Duty { good: true, ..fault(code, limits, watcher) }
}

/// Least time in which a hand can bring the arm into its farther brake zone, s: 0.32 s for the
/// shipped trucks' arms, and a quick person's reaction (typical, from memory, no source).
const ARM_AND_HAND_S: f64 = 0.6;
/// A look to one side takes so long, s: less could not be kept to at a line that asks for one.
const GLANCE_S: f64 = 0.75;
/// Another truck is seen so much farther than any rule asks for that there is time to fall back, m.
const FALLS_BACK_M: f64 = 5.0;

/// Every finding that can be made. A limit reaches no farther than what measures it: where that has a
/// bound, the bound stands here by its name; see also the test `ends_of_ranges`. Deeds stand after the faults, and the clean lap last: it asks
/// what the others found.
pub const DUTIES: &[Duty] = &[
    fault("contact-cone", &[], contact::cone),
    Duty {
        graver: Some(need("above", MetrePerSecond, 0.0, 10.0)),
        ..fault(
            "contact-structure",
            &[need("closing-speed", MetrePerSecond, 0.0, 2.0)],
            contact::structure,
        )
    },
    fault("left-the-lane", &[need("for", Second, 0.0, 10.0)], lane::left),
    fault("gate-missed", &[], gates::missed),
    fault("gate-wrong-way", &[], gates::wrong_way),
    Duty {
        graver: Some(need("above", Share, 0.0, 5.0)),
        ..fault(
            "over-speed",
            &[need("excess", Share, 0.0, 1.0), need("for", Second, 0.0, 10.0)],
            over_speed::watcher,
        )
    },
    fault(
        "corner-speed",
        &[
            need("side-acceleration", Gravity, 0.08, 1.0),
            need("of-load", Share, 0.1, 1.0),
            need("for", Second, 0.0, 5.0),
        ],
        corner_speed::watcher,
    ),
    fault("plugging-ran-back", &[need("distance", Metre, 0.0, 5.0)], plugging::ran_back),
    fault(
        "brake-arm-as-service",
        &[need("speed", MetrePerSecond, 0.0, 5.0)],
        service_brake::watcher,
    ),
    fault(
        "throttle-snatched",
        &[need("throttle", Share, 0.1, 1.0), need("within", Second, 0.0, 2.0)],
        throttle::snatched,
    ),
    fault("emergency-late", &[need("reaction", Second, ARM_AND_HAND_S, 10.0)], emergency::late),
    fault("other-brake-used", &[], emergency::other_brake),
    fault(
        "forks-first-travel",
        &[need("distance", Metre, 0.0, 50.0), need("normal-again", Metre, 0.0, 10.0)],
        forks_first::watcher,
    ),
    fault(
        "forks-high-in-travel",
        &[
            need("height", Metre, 0.04, 0.5),
            need("distance", Metre, 0.0, 50.0),
            need("speed", MetrePerSecond, 0.0, 5.0),
        ],
        forks_high::watcher,
    ),
    fault(
        "arm-strength-turn",
        &[need("for", Second, 0.1, 30.0), need("effort", NewtonMetreSecond, 1.0, 5000.0)],
        stance::arm_strength,
    ),
    fault(
        "stepped-across-moving",
        &[need("speed", MetrePerSecond, 0.2, 5.0)],
        stance::stepped_across,
    ),
    Duty {
        in_traffic: true,
        ..fault("no-horn-moving-off", &[need("before", Second, 2.0, 60.0)], horn::missing)
    },
    fault("tipped-over", &[], tipping::watcher),
    fault("person-struck", &[], struck::watcher),
    Duty {
        graver: Some(need("below", Second, 0.0, 10.0)),
        ..fault(
            "person-near-miss",
            &[
                need("time", Second, 0.2, 2.5),
                need("gap", Metre, 0.05, 1.0),
                need("speed", MetrePerSecond, 0.05, 5.0),
                need("struck-within", Second, 0.0, 30.0),
            ],
            near_miss::watcher,
        )
    },
    fault("person-not-given-way", &[], crossing::not_given),
    fault(
        "stop-line-run",
        &[need("before", Metre, 0.5, 10.0), need("speed", MetrePerSecond, 0.001, 0.5)],
        stop_line::run,
    ),
    fault(
        "yield-not-slowed",
        &[
            need("speed", MetrePerSecond, 0.4, 6.0),
            need("look", Degree, 5.0, 85.0),
            need("within", Second, 3.0, 30.0),
        ],
        yield_line::watcher,
    ),
    fault(
        "no-horn-at-blind-spot",
        &[need("from", Metre, 2.0, AHEAD), need("until", Metre, 0.0, 2.0)],
        blind_spot::silent,
    ),
    fault(
        "too-fast-at-blind-spot",
        &[need("speed", MetrePerSecond, 0.4, 6.0)],
        blind_spot::too_fast,
    ),
    fault(
        "not-looking",
        &[
            need("off-path", Degree, 10.0, 170.0),
            need("speed", MetrePerSecond, 0.05, 3.0),
            need("for", Second, GLANCE_S, 10.0),
        ],
        looking::watcher,
    ),
    fault(
        "outruns-sight",
        &[
            need("reaction", Second, 0.1, 2.0),
            need("speed", MetrePerSecond, 0.05, 3.0),
            need("for", Second, 0.0, 10.0),
        ],
        outruns::watcher,
    ),
    fault("wet-not-slowed", &[need("speed", MetrePerSecond, 0.4, 6.0)], wet::watcher),
    Duty { in_traffic: true, ..fault("high-speed-in-traffic", &[], high_speed::watcher) },
    fault(
        "too-close-behind",
        &[
            need("distance", Metre, 1.0, FAR - FALLS_BACK_M),
            need("speed", MetrePerSecond, 0.05, 3.0),
            need("for", Second, 0.0, 20.0),
        ],
        trucks::too_close,
    ),
    fault("meeting-not-stopped", &[need("distance", Metre, 0.5, 20.0)], trucks::meeting),
    fault(
        "wrong-first-reaction",
        &[
            need("within", Metre, 1.0, 50.0),
            need("watch", Second, 0.5, 10.0),
            need("throttle", Share, 0.05, 1.0),
            need("steer", Degree, 2.0, 80.0),
        ],
        reaction::wrong_first,
    ),
    Duty {
        graver: Some(need("below", Metre, 0.0, 20.0)),
        ..fault("wrong-way-command", &[need("distance", Metre, 0.0, 2.0)], wrong_way::watcher)
    },
    fault(
        "stepped-off-rolling",
        &[need("speed", MetrePerSecond, 0.001, 1.0)],
        stepping_off::rolling,
    ),
    fault("walked-the-truck", &[need("distance", Metre, 0.0, 2.0)], walked::watcher),
    fault("contact-lost", &[need("speed", MetrePerSecond, 0.2, 5.0)], stance::contact_lost),
    Duty {
        graver: Some(need("below", Metre, 0.0, FOLLOWED)),
        ..fault(
            "body-gap-closing",
            &[
                need("gap", Metre, 0.05, 1.0),
                need("closing", MetrePerSecond, 0.01, 3.0),
                need("for", Second, 0.0, 2.0),
            ],
            body::gap,
        )
    },
    fault("headroom", &[], body::headroom),
    Duty {
        graver: Some(need("above", Count, 0.0, 10.0)),
        ..fault("unchecked-crossing", &[need("creep", MetrePerSecond, 0.4, 3.0)], dock::unchecked)
    },
    fault(
        "load-shifted",
        &[need("slide", Metre, 0.001, 1.0), need("spill-within", Second, 0.0, 30.0)],
        load_shift::shifted,
    ),
    Duty {
        graver: Some(need("above", Count, 0.0, 1000.0)),
        ..fault("load-spilled", &[need("together", Second, 0.0, 30.0)], load_shift::spilled)
    },
    fault("over-capacity", &[], handling::over_capacity),
    fault("loose-object-run-over", &[], handling::ran_over),
    fault(
        "forks-dragged",
        &[
            need("height", Metre, 0.0, 0.03),
            need("distance", Metre, 0.0, 50.0),
            need("speed", MetrePerSecond, 0.0, 5.0),
        ],
        travel_load::dragged,
    ),
    fault("pallet-pushed", &[need("distance", Metre, 0.01, 2.0)], handling::pushed),
    fault(
        "set-down-off",
        &[need("off", Metre, 0.05, 1.0), need("turned", Degree, 1.0, 45.0)],
        handling::set_down_off,
    ),
    fault(
        "load-not-upgrade",
        &[need("grade", Share, 0.01, 1.0), need("for", Second, 0.0, 10.0)],
        travel_load::not_upgrade,
    ),
    fault("load-hides-view", &[need("distance", Metre, 0.0, 20.0)], travel_load::hides_view),
    fault(
        "plugging-jerk",
        &[need("jerk", MetrePerSecondCubed, 3.0, 100.0), need("over", Second, 0.05, 1.0)],
        jerk::watcher,
    ),
    fault(
        "unattended",
        &[need("for", Second, 1.0, 600.0), need("forks", Metre, 0.0, 0.1)],
        left_truck::unattended,
    ),
    fault("parked-in-the-way", &[need("for", Second, 0.0, 600.0)], left_truck::in_the_way),
    deed(
        "clean-plug",
        &[need("from-mark", Metre, 0.005, 2.0), need("ran-back", Metre, 0.0, 5.0)],
        mark::clean_plug,
    ),
    deed(
        "quick-emergency-stop",
        &[need("reaction", Second, ARM_AND_HAND_S, 10.0)],
        emergency::quick,
    ),
    deed(
        "gentle-start",
        &[
            need("rise", Share, 0.05, 1.0),
            need("within", Second, 0.02, 2.0),
            need("up-to-speed", MetrePerSecond, 0.1, 3.0),
        ],
        gentle_start::watcher,
    ),
    Duty {
        in_traffic: true,
        ..deed("horn-before-moving", &[need("before", Second, 2.0, 60.0)], horn::sounded)
    },
    deed(
        "gave-way",
        &[need("within", Metre, 0.5, 30.0), need("stood", Second, 0.0, 10.0)],
        crossing::gave_way,
    ),
    deed(
        "full-stop",
        &[need("before", Metre, 0.5, 10.0), need("speed", MetrePerSecond, 0.001, 0.5)],
        stop_line::stopped,
    ),
    deed(
        "horn-at-blind-spot",
        &[need("from", Metre, 2.0, AHEAD), need("until", Metre, 0.0, 2.0)],
        blind_spot::sounded,
    ),
    deed(
        "quick-reaction",
        &[need("within", Metre, 1.0, 50.0), need("reaction", Second, 0.2, 10.0)],
        reaction::quick,
    ),
    deed("refused-unsafe-dock", &[], dock::refused),
    deed(
        "clean-set-down",
        &[need("off", Metre, 0.05, 1.0), need("turned", Degree, 1.0, 45.0)],
        handling::clean_set_down,
    ),
    deed("full-task", &[], task::full),
    deed("clean-lap", &[need("settle", Second, 0.0, 10.0)], lap::clean),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::duty;

    /// What a sensor does not tell of, no rule may ask for.
    #[test]
    fn no_limit_reaches_farther_than_what_measures_it() {
        for (code, name, sensor) in [
            ("no-horn-at-blind-spot", "from", AHEAD),
            ("horn-at-blind-spot", "from", AHEAD),
            ("stop-line-run", "before", AHEAD),
            ("full-stop", "before", AHEAD),
            ("body-gap-closing", "gap", FOLLOWED),
            ("body-gap-closing", "below", FOLLOWED),
            ("too-close-behind", "distance", FAR),
            ("meeting-not-stopped", "distance", FAR),
            // The head turns by a right angle to a side, and by two to look behind.
            ("yield-not-slowed", "look", 89.0),
            ("not-looking", "off-path", 179.0),
        ] {
            let duty = duty(code).expect(code);
            let mut needs = duty.limits.iter().chain(duty.graver.as_ref());
            let need = needs.find(|n| n.name == name).expect(name);
            assert!(need.most <= sensor, "{code} {name}: {} of {sensor}", need.most);
        }
    }
}

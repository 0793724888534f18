//! The table of duties: every finding that can be made, and the numbers it needs. Who watches it stands
//! in `watch::duties`.

use crate::finding::Unit;
use crate::finding::Unit::{
    Count, Degree, Gravity, Metre, MetrePerSecond, MetrePerSecondCubed, MetrePerSecondSquared,
    NewtonMetreSecond, Second, Share,
};
use crate::moment::reach::{BESIDE_THE_RIDER, LINES_AHEAD, TRUCKS_AHEAD};

/// A number that a rule needs from the site rules.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Need {
    /// Its name in the file.
    pub name: &'static str,
    /// The unit it must have there.
    pub unit: Unit,
    /// The smallest value that makes sense.
    pub least: f64,
    /// The largest.
    pub most: f64,
}

/// Name of the number below which a finding is graver; otherwise it is above one.
pub const BELOW: &str = "below";

/// One kind of finding.
#[derive(Clone, Copy, Debug)]
pub struct Duty {
    /// Its code, everywhere.
    pub code: &'static str,
    /// A deed, not a fault.
    pub good: bool,
    /// Only where the course has others about.
    pub in_traffic: bool,
    /// The numbers it needs.
    pub limits: &'static [Need],
    /// What makes it graver, where anything can: a value above it, or below it where its name is
    /// [`BELOW`].
    pub graver: Option<Need>,
}

pub(super) const fn need(name: &'static str, unit: Unit, least: f64, most: f64) -> Need {
    Need { name, unit, least, most }
}

const fn fault(code: &'static str, limits: &'static [Need]) -> Duty {
    Duty { code, good: false, in_traffic: false, limits, graver: None }
}

const fn deed(code: &'static str, limits: &'static [Need]) -> Duty {
    Duty { good: true, ..fault(code, limits) }
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
    fault("contact-cone", &[]),
    Duty {
        graver: Some(need("above", MetrePerSecond, 0.0, 10.0)),
        ..fault(
            "contact-structure",
            &[
                need("closing-speed", MetrePerSecond, 0.0, 2.0),
                need("load-closing-speed", MetrePerSecond, 0.0, 2.0),
                need("sliding", MetrePerSecond, 0.05, 5.0),
                need("again-every", Metre, 0.1, 50.0),
            ],
        )
    },
    fault("left-the-lane", &[need("for", Second, 0.0, 10.0)]),
    fault("gate-missed", &[]),
    fault("gate-wrong-way", &[]),
    Duty {
        graver: Some(need("above", Share, 0.0, 5.0)),
        ..fault("over-speed", &[need("excess", Share, 0.0, 1.0), need("for", Second, 0.0, 10.0)])
    },
    fault(
        "corner-speed",
        &[
            need("side-acceleration", Gravity, 0.08, 1.0),
            need("of-load", Share, 0.1, 1.0),
            need("for", Second, 0.0, 5.0),
        ],
    ),
    fault("plugging-ran-back", &[need("distance", Metre, 0.0, 5.0)]),
    fault(
        "brake-arm-as-service",
        &[
            need("speed", MetrePerSecond, 0.0, 5.0),
            need("habit", MetrePerSecond, 0.05, 5.0),
            need("times", Count, 1.0, 100.0),
        ],
    ),
    fault(
        "throttle-snatched",
        &[need("throttle", Share, 0.1, 1.0), need("within", Second, 0.0, 2.0)],
    ),
    Duty {
        graver: Some(need("above", Second, 0.5, 30.0)),
        ..fault(
            "emergency-late",
            &[
                need("reaction", Second, ARM_AND_HAND_S, 10.0),
                need("speed", MetrePerSecond, 0.05, 3.0),
                need("near", Metre, 0.1, 10.0),
            ],
        )
    },
    fault("other-brake-used", &[]),
    Duty { graver: Some(need("above", Metre, 0.0, 20.0)), ..fault("missed-mark", &[]) },
    fault(
        "forks-first-travel",
        &[need("distance", Metre, 0.0, 50.0), need("normal-again", Metre, 0.0, 10.0)],
    ),
    fault(
        "forks-high-in-travel",
        &[
            need("height", Metre, 0.04, 0.5),
            need("distance", Metre, 0.0, 50.0),
            need("speed", MetrePerSecond, 0.0, 5.0),
        ],
    ),
    fault(
        "arm-strength-turn",
        &[need("for", Second, 0.1, 30.0), need("effort", NewtonMetreSecond, 1.0, 5000.0)],
    ),
    fault("stepped-across-moving", &[need("speed", MetrePerSecond, 0.2, 5.0)]),
    Duty {
        in_traffic: true,
        ..fault(
            "no-horn-moving-off",
            &[need("before", Second, 2.0, 60.0), need("at-a-line", Second, 2.0, 60.0)],
        )
    },
    fault(
        "horn-misused",
        &[
            need("held", Second, 0.5, 20.0),
            need("times", Count, 1.0, 20.0),
            need("lately", Second, 1.0, 60.0),
            need("near", Metre, 1.0, 50.0),
        ],
    ),
    fault("tipped-over", &[]),
    fault("person-struck", &[need("moved", Metre, 0.001, 1.0)]),
    Duty {
        graver: Some(need("below", Second, 0.0, 10.0)),
        ..fault(
            "person-near-miss",
            &[
                need("time", Second, 0.2, 2.5),
                need("gap", Metre, 0.05, 1.0),
                need("speed", MetrePerSecond, 0.05, 5.0),
                need("struck-within", Second, 0.0, 30.0),
                need("closest", Metre, 0.0, 1.0),
                need("fast", MetrePerSecond, 0.1, 5.0),
                need("gap-fast", Metre, 0.05, 0.8),
                need("own-speed", MetrePerSecond, 0.05, 1.0),
                need("slowing", MetrePerSecondSquared, 0.2, 5.0),
                need("slowing-hard", MetrePerSecondSquared, 0.2, 9.0),
                need("grace", Second, 0.0, 3.0),
                need("hand", Second, 0.0, 1.0),
            ],
        )
    },
    fault(
        "person-not-given-way",
        &[need("after", Second, 0.0, 5.0), need("creep", MetrePerSecond, 0.05, 1.0)],
    ),
    Duty {
        graver: Some(need("above", MetrePerSecond, 0.1, 6.0)),
        ..fault(
            "stop-line-run",
            &[
                need("before", Metre, 0.5, 10.0),
                need("speed", MetrePerSecond, 0.001, 0.5),
                need("stood-within", Metre, 0.5, 10.0),
                need("then-over", MetrePerSecond, 0.05, 2.0),
            ],
        )
    },
    fault(
        "yield-not-slowed",
        &[
            need("speed", MetrePerSecond, 0.4, 6.0),
            need("look", Degree, 5.0, 85.0),
            need("within", Second, 3.0, 30.0),
        ],
    ),
    fault(
        "no-horn-at-blind-spot",
        &[need("from", Metre, 2.0, LINES_AHEAD), need("until", Metre, 0.0, 2.0)],
    ),
    fault("too-fast-at-blind-spot", &[need("speed", MetrePerSecond, 0.4, 6.0)]),
    fault(
        "not-looking",
        &[
            need("off-path", Degree, 45.0, 170.0),
            need("speed", MetrePerSecond, 0.05, 3.0),
            need("for", Second, GLANCE_S, 10.0),
            need("share", Share, 0.6, 1.0),
            need("lately", Second, 1.0, 20.0),
        ],
    ),
    fault(
        "not-looked-before-entry",
        &[
            need("glance", Second, 0.05, 0.4),
            need("within", Second, 3.0, 30.0),
            need("look", Degree, 5.0, 85.0),
        ],
    ),
    fault(
        "outruns-sight",
        &[
            need("reaction", Second, 0.1, 2.0),
            need("speed", MetrePerSecond, 0.05, 3.0),
            need("for", Second, 0.0, 10.0),
        ],
    ),
    fault("wet-not-slowed", &[need("speed", MetrePerSecond, 0.4, 6.0)]),
    Duty { in_traffic: true, ..fault("high-speed-in-traffic", &[]) },
    Duty {
        graver: Some(need("below", Metre, 0.0, 20.0)),
        ..fault(
            "too-close-behind",
            &[
                need("distance", Metre, 1.0, TRUCKS_AHEAD - FALLS_BACK_M),
                need("speed", MetrePerSecond, 0.05, 3.0),
                need("for", Second, 0.0, 20.0),
            ],
        )
    },
    fault("meeting-not-stopped", &[need("distance", Metre, 0.5, 20.0)]),
    fault("passed-truck-hidden", &[need("distance", Metre, 0.5, 10.0)]),
    fault(
        "wrong-first-reaction",
        &[
            need("within", Metre, 1.0, 50.0),
            need("watch", Second, 0.5, 10.0),
            need("throttle", Share, 0.05, 1.0),
            need("steer", Degree, 2.0, 80.0),
        ],
    ),
    Duty {
        graver: Some(need("below", Metre, 0.0, 20.0)),
        ..fault("wrong-way-command", &[need("distance", Metre, 0.0, 2.0)])
    },
    fault("stepped-off-rolling", &[need("speed", MetrePerSecond, 0.001, 1.0)]),
    fault("walked-the-truck", &[need("distance", Metre, 0.0, 2.0)]),
    fault("contact-lost", &[need("speed", MetrePerSecond, 0.2, 5.0)]),
    Duty {
        graver: Some(need("below", Metre, 0.0, BESIDE_THE_RIDER)),
        ..fault(
            "body-gap-closing",
            &[
                need("gap", Metre, 0.05, 1.0),
                need("closing", MetrePerSecond, 0.01, 3.0),
                need("for", Second, 0.0, 2.0),
            ],
        )
    },
    fault("headroom", &[]),
    Duty {
        graver: Some(need("above", Count, 0.0, 10.0)),
        ..fault("unchecked-crossing", &[need("creep", MetrePerSecond, 0.4, 3.0)])
    },
    fault("false-report", &[]),
    fault(
        "load-shifted",
        &[need("slide", Metre, 0.001, 1.0), need("spill-within", Second, 0.0, 30.0)],
    ),
    Duty {
        graver: Some(need("above", Count, 0.0, 1000.0)),
        ..fault("load-spilled", &[need("together", Second, 0.0, 30.0)])
    },
    fault("over-capacity", &[]),
    fault("loose-object-run-over", &[]),
    fault(
        "forks-dragged",
        &[
            need("height", Metre, 0.0, 0.03),
            need("distance", Metre, 0.0, 50.0),
            need("speed", MetrePerSecond, 0.0, 5.0),
        ],
    ),
    fault("pallet-pushed", &[need("distance", Metre, 0.01, 2.0)]),
    fault("set-down-off", &[need("off", Metre, 0.05, 1.0), need("turned", Degree, 1.0, 45.0)]),
    fault("load-not-upgrade", &[need("grade", Share, 0.01, 1.0), need("for", Second, 0.0, 10.0)]),
    fault(
        "grade-too-fast",
        &[
            need("grade", Share, 0.01, 1.0),
            need("speed", MetrePerSecond, 0.5, 5.0),
            need("for", Second, 0.0, 10.0),
        ],
    ),
    fault("load-hides-view", &[need("distance", Metre, 0.0, 20.0)]),
    fault(
        "plugging-jerk",
        &[need("jerk", MetrePerSecondCubed, 3.0, 100.0), need("over", Second, 0.05, 1.0)],
    ),
    fault(
        "unattended",
        &[
            need("for", Second, 1.0, 600.0),
            need("forks", Metre, 0.0, 0.1),
            need("away", Metre, 0.5, 50.0),
        ],
    ),
    fault(
        "left-unsecured",
        &[
            need("for", Second, 0.5, 60.0),
            need("forks", Metre, 0.0, 0.1),
            need("grade", Share, 0.01, 1.0),
            need("hidden", Metre, 0.0, 20.0),
        ],
    ),
    fault("parked-in-the-way", &[need("for", Second, 0.0, 600.0)]),
    fault("bad-truck-taken", &[need("distance", Metre, 0.1, 20.0)]),
    Duty { graver: Some(need("above", Count, 0.0, 10.0)), ..fault("defect-missed", &[]) },
    fault("not-checked", &[]),
    Duty { graver: Some(need("above", Count, 0.0, 10.0)), ..fault("tagged-out-sound", &[]) },
    fault("speed-settings-touched", &[]),
    deed("clean-plug", &[need("from-mark", Metre, 0.005, 2.0), need("ran-back", Metre, 0.0, 5.0)]),
    deed("quick-emergency-stop", &[need("reaction", Second, ARM_AND_HAND_S, 10.0)]),
    deed(
        "gentle-start",
        &[
            need("rise", Share, 0.05, 1.0),
            need("within", Second, 0.02, 2.0),
            need("up-to-speed", MetrePerSecond, 0.1, 3.0),
        ],
    ),
    Duty {
        in_traffic: true,
        ..deed(
            "horn-before-moving",
            &[need("before", Second, 2.0, 60.0), need("at-a-line", Second, 2.0, 60.0)],
        )
    },
    deed("gave-way", &[need("within", Metre, 0.5, 30.0), need("stood", Second, 0.0, 10.0)]),
    deed(
        "full-stop",
        &[need("before", Metre, 0.5, 10.0), need("speed", MetrePerSecond, 0.001, 0.5)],
    ),
    deed(
        "horn-at-blind-spot",
        &[need("from", Metre, 2.0, LINES_AHEAD), need("until", Metre, 0.0, 2.0)],
    ),
    deed(
        "quick-reaction",
        &[need("within", Metre, 1.0, 50.0), need("reaction", Second, 0.2, 10.0)],
    ),
    deed("refused-unsafe-dock", &[]),
    deed("defect-found", &[]),
    deed("bad-truck-refused", &[]),
    deed("clean-set-down", &[need("off", Metre, 0.05, 1.0), need("turned", Degree, 1.0, 45.0)]),
    deed("full-task", &[]),
    deed("clean-lap", &[need("settle", Second, 0.0, 10.0)]),
];

/// The row of a code.
pub fn duty(code: &str) -> Option<&'static Duty> {
    DUTIES.iter().find(|d| d.code == code)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::duty;

    /// What a sensor does not tell of, no rule may ask for.
    #[test]
    fn no_limit_reaches_farther_than_what_measures_it() {
        for (code, name, sensor) in [
            ("no-horn-at-blind-spot", "from", LINES_AHEAD),
            ("horn-at-blind-spot", "from", LINES_AHEAD),
            ("stop-line-run", "before", LINES_AHEAD),
            ("full-stop", "before", LINES_AHEAD),
            ("body-gap-closing", "gap", BESIDE_THE_RIDER),
            ("body-gap-closing", "below", BESIDE_THE_RIDER),
            ("too-close-behind", "distance", TRUCKS_AHEAD),
            ("meeting-not-stopped", "distance", TRUCKS_AHEAD),
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

    #[test]
    fn every_code_stands_once_and_the_clean_lap_last() {
        let mut codes: Vec<&str> = DUTIES.iter().map(|d| d.code).collect();
        assert_eq!(codes.last(), Some(&"clean-lap"));
        codes.sort_unstable();
        let all = codes.len();
        codes.dedup();
        assert_eq!(codes.len(), all);
    }
}

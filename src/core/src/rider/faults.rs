//! Riders that each commit one fault on purpose: what they do wrong, where, and what is found.

use super::habits::{Habits, Stepping, Stopping, Swerve};
use crate::math::{G, vec2};

/// A rider with one bad habit.
#[derive(Clone, Copy, Debug)]
pub struct Fault {
    /// The rider's name.
    pub name: &'static str,
    /// Code of the finding that comes of it.
    pub code: &'static str,
    /// Shipped course on which it comes out, and nothing else does.
    pub course: &'static str,
    /// It comes out with some seeds only: what others do decides.
    pub by_chance: bool,
    /// Changes a model rider's ways.
    pub(super) habit: fn(&mut Habits),
}

/// All of them.
pub const ALL: &[Fault] = &[
    Fault {
        name: "snatch-throttle",
        code: "throttle-snatched",
        course: "straight",
        by_chance: false,
        habit: |h| h.snatches = true,
    },
    Fault {
        name: "hit-a-cone",
        code: "contact-cone",
        course: "slalom",
        by_chance: false,
        habit: |h| {
            h.swerve =
                Some(Swerve { step: 0, near: vec2(26.0, -1.1), aside: 0.6, half_length: 6.0 });
        },
    },
    Fault {
        name: "arm-as-service-brake",
        code: "brake-arm-as-service",
        course: "straight",
        by_chance: false,
        habit: |h| h.stopping = Stopping::Arm,
    },
    Fault {
        name: "run-back",
        code: "plugging-ran-back",
        course: "straight",
        by_chance: false,
        habit: |h| h.stopping = Stopping::PluggingTooLong,
    },
    Fault {
        name: "forks-high",
        code: "forks-high-in-travel",
        course: "laps-clockwise",
        by_chance: false,
        habit: |h| h.forks_to = Some(0.1),
    },
    Fault {
        name: "wrong-stance",
        code: "arm-strength-turn",
        course: "figure-eight",
        by_chance: false,
        habit: |h| h.stepping = Stepping::Never,
    },
    Fault {
        name: "step-across-moving",
        code: "stepped-across-moving",
        course: "figure-eight",
        by_chance: false,
        habit: |h| h.stepping = Stepping::Rolling,
    },
    Fault {
        name: "no-horn",
        code: "no-horn-moving-off",
        course: "emergency-stops",
        by_chance: false,
        habit: |h| h.horn = false,
    },
    Fault {
        name: "forks-first",
        code: "forks-first-travel",
        course: "straight",
        by_chance: false,
        habit: |h| h.backs_up = Some((1, 2.2)),
    },
    Fault {
        name: "over-speed",
        code: "over-speed",
        course: "laps-clockwise",
        by_chance: false,
        habit: |h| {
            h.share_of_limit = 1.2;
            h.cruise = 2.7;
            h.pace = 1.0;
        },
    },
    Fault {
        name: "fast-corner",
        code: "corner-speed",
        course: "slalom",
        by_chance: false,
        habit: |h| {
            h.side_acceleration = 0.28 * G;
            h.high_speed = true;
            h.cruise = 2.72;
            h.pace = 1.0;
            h.share_of_limit = 1.01;
        },
    },
    Fault {
        name: "late-emergency",
        code: "emergency-late",
        course: "emergency-stops",
        by_chance: false,
        habit: |h| h.reaction_s = 1.7,
    },
    Fault {
        name: "gate-wrong-way",
        code: "gate-wrong-way",
        course: "laps-counter-clockwise",
        by_chance: false,
        habit: |h| h.backs_up = Some((0, 0.9)),
    },
    Fault {
        name: "leaves-lane",
        code: "left-the-lane",
        course: "straight",
        by_chance: false,
        habit: |h| {
            h.swerve =
                Some(Swerve { step: 1, near: vec2(25.0, 0.0), aside: 1.55, half_length: 6.5 });
        },
    },
    Fault {
        name: "no-horn-at-corners",
        code: "no-horn-at-blind-spot",
        course: "cross-aisles",
        by_chance: false,
        habit: |h| h.horn_at_blind_spots = false,
    },
    Fault {
        name: "rolls-over-stop-lines",
        code: "stop-line-run",
        course: "cross-aisles",
        by_chance: false,
        habit: |h| h.stops_at_lines = false,
    },
    Fault {
        name: "looks-straight-on",
        code: "yield-not-slowed",
        course: "cross-aisles",
        by_chance: false,
        habit: |h| h.looks = false,
    },
    Fault {
        name: "fast-at-corners",
        code: "too-fast-at-blind-spot",
        course: "cross-aisles",
        by_chance: false,
        habit: |h| h.slows_at_blind_spots = false,
    },
    Fault {
        name: "looks-away",
        code: "not-looking",
        course: "straight",
        by_chance: false,
        habit: |h| h.looks_away_s = 1.4,
    },
    Fault {
        name: "fast-on-wet",
        code: "wet-not-slowed",
        course: "wet-stop",
        by_chance: false,
        habit: |h| h.slows_on_wet = false,
    },
    Fault {
        name: "drags-forks",
        code: "forks-dragged",
        course: "laps-clockwise",
        by_chance: false,
        habit: |h| h.forks_to = Some(0.005),
    },
    Fault {
        name: "steps-off-rolling",
        code: "stepped-off-rolling",
        course: "pick-run",
        by_chance: false,
        habit: |h| h.steps_off_rolling = true,
    },
    Fault {
        name: "forks-too-high-for-pallets",
        code: "pallet-pushed",
        course: "bays",
        by_chance: false,
        habit: |h| h.enters_at = 0.03,
    },
    Fault {
        name: "sets-down-beside",
        code: "set-down-off",
        course: "bays",
        by_chance: false,
        habit: |h| h.sets_down_aside = 0.16,
    },
    Fault {
        name: "never-minds-trucks",
        code: "meeting-not-stopped",
        course: "head-on",
        by_chance: true,
        habit: |h| h.minds_trucks = false,
    },
];

/// A rider by name.
pub fn by_name(name: &str) -> Option<&'static Fault> {
    ALL.iter().find(|f| f.name == name)
}

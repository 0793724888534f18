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
    /// Changes a model rider's ways.
    pub(super) habit: fn(&mut Habits),
}

/// All of them.
pub const ALL: &[Fault] = &[
    Fault {
        name: "snatch-throttle",
        code: "throttle-snatched",
        course: "straight",
        habit: |h| h.snatches = true,
    },
    Fault {
        name: "hit-a-cone",
        code: "contact-cone",
        course: "slalom",
        habit: |h| {
            h.swerve =
                Some(Swerve { step: 0, near: vec2(26.0, -1.1), aside: 0.6, half_length: 6.0 });
        },
    },
    Fault {
        name: "arm-as-service-brake",
        code: "brake-arm-as-service",
        course: "straight",
        habit: |h| h.stopping = Stopping::Arm,
    },
    Fault {
        name: "run-back",
        code: "plugging-ran-back",
        course: "straight",
        habit: |h| h.stopping = Stopping::PluggingTooLong,
    },
    Fault {
        name: "forks-high",
        code: "forks-high-in-travel",
        course: "laps-clockwise",
        habit: |h| h.forks_to = Some(0.1),
    },
    Fault {
        name: "wrong-stance",
        code: "arm-strength-turn",
        course: "figure-eight",
        habit: |h| h.stepping = Stepping::Never,
    },
    Fault {
        name: "step-across-moving",
        code: "stepped-across-moving",
        course: "figure-eight",
        habit: |h| h.stepping = Stepping::Rolling,
    },
    Fault {
        name: "no-horn",
        code: "no-horn-moving-off",
        course: "emergency-stops",
        habit: |h| h.horn = false,
    },
    Fault {
        name: "forks-first",
        code: "forks-first-travel",
        course: "straight",
        habit: |h| h.backs_up = Some((1, 2.2)),
    },
    Fault {
        name: "over-speed",
        code: "over-speed",
        course: "laps-clockwise",
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
        habit: |h| h.reaction_s = 1.7,
    },
    Fault {
        name: "gate-wrong-way",
        code: "gate-wrong-way",
        course: "laps-counter-clockwise",
        habit: |h| h.backs_up = Some((0, 0.9)),
    },
    Fault {
        name: "leaves-lane",
        code: "left-the-lane",
        course: "straight",
        habit: |h| {
            h.swerve =
                Some(Swerve { step: 1, near: vec2(25.0, 0.0), aside: 1.55, half_length: 6.5 });
        },
    },
];

/// A rider by name.
pub fn by_name(name: &str) -> Option<&'static Fault> {
    ALL.iter().find(|f| f.name == name)
}

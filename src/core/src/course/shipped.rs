//! The courses that Coneyard ships, for tests and for programs without a file system.

use super::Course;

macro_rules! courses {
    ($($name:literal),* $(,)?) => {
        /// Name and text of every shipped course, in the order of the path through them.
        pub const ALL: &[(&str, &str)] =
            &[$(($name, include_str!(concat!("../../../../levels/", $name, ".json")))),*];
    };
}

courses![
    "straight",
    "emergency-stops",
    "laps-counter-clockwise",
    "laps-clockwise",
    "figure-eight",
    "slalom",
    "laps-forks-first",
    "figure-eight-forks-first",
    "bays",
    "tight-corner-load",
    "cross-aisles",
    "rack-end",
    "wet-stop",
    "dock",
    "long-truck-turn",
    "doorway",
    "surprise",
    "head-on",
    "pick-run",
    "charging-bay",
    "tall-load",
    "full-circuit",
    "pretest-stops",
    "pretest-laps",
    "pretest-eight",
    "pretest-circuit",
    "pretest-leaving",
];

/// Text of a shipped course.
pub fn text(name: &str) -> Option<&'static str> {
    ALL.iter().find(|(n, _)| *n == name).map(|(_, text)| *text)
}

/// A shipped course by its name.
///
/// # Panics
/// When there is none of this name; a test reads all of them.
#[allow(clippy::expect_used)]
pub fn parse(name: &str) -> Course {
    let text = text(name).expect("a shipped course");
    Course::parse(&format!("{name}.json"), text.as_bytes()).expect("a shipped file is valid")
}

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
    "first-drive",
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
    "walk-round",
    "morning",
    "pick-run",
    "charging-bay",
    "tall-load",
    "full-circuit",
    "pretest-straight-double",
    "pretest-stops",
    "pretest-stops-double",
    "pretest-laps",
    "pretest-laps-double",
    "pretest-eight",
    "pretest-circuit",
    "pretest-leaving",
    "pretest-leaving-double",
];

/// Yards that are no exercises: each lets one fault be committed on purpose, and nothing else.
pub const CORPUS: &[(&str, &str)] = &[
    ("beam-beside", include_str!("../../../../levels/corpus/beam-beside.json")),
    ("beam-high", include_str!("../../../../levels/corpus/beam-high.json")),
    ("crossing-busy", include_str!("../../../../levels/corpus/crossing-busy.json")),
    ("crossing-quiet", include_str!("../../../../levels/corpus/crossing-quiet.json")),
    ("dock-ahead", include_str!("../../../../levels/corpus/dock-ahead.json")),
    ("follow", include_str!("../../../../levels/corpus/follow.json")),
    ("full-pallet", include_str!("../../../../levels/corpus/full-pallet.json")),
    ("heavy-pallet", include_str!("../../../../levels/corpus/heavy-pallet.json")),
    ("loose-stack", include_str!("../../../../levels/corpus/loose-stack.json")),
    ("low-stack", include_str!("../../../../levels/corpus/low-stack.json")),
    ("open-floor", include_str!("../../../../levels/corpus/open-floor.json")),
    ("open-traffic", include_str!("../../../../levels/corpus/open-traffic.json")),
    ("passed-clear", include_str!("../../../../levels/corpus/passed-clear.json")),
    ("passed-hidden", include_str!("../../../../levels/corpus/passed-hidden.json")),
    ("person-ahead", include_str!("../../../../levels/corpus/person-ahead.json")),
    ("person-beside", include_str!("../../../../levels/corpus/person-beside.json")),
    ("pillar-beside", include_str!("../../../../levels/corpus/pillar-beside.json")),
    ("ramp", include_str!("../../../../levels/corpus/ramp.json")),
    ("slope", include_str!("../../../../levels/corpus/slope.json")),
    ("slope-free", include_str!("../../../../levels/corpus/slope-free.json")),
    ("tall-stack", include_str!("../../../../levels/corpus/tall-stack.json")),
    ("wrapped-stack", include_str!("../../../../levels/corpus/wrapped-stack.json")),
];

/// Of the check list that is shipped what a drive of this course needs, by its text.
pub fn checks_of(course: &str) -> String {
    super::checks_for(course, crate::checks::list::SHIPPED).to_owned()
}

/// Text of a shipped course.
pub fn text(name: &str) -> Option<&'static str> {
    ALL.iter().find(|(n, _)| *n == name).map(|(_, text)| *text)
}

/// Text of a shipped course or of a yard of the corpus.
pub fn text_of_any(name: &str) -> Option<&'static str> {
    text(name).or_else(|| CORPUS.iter().find(|(n, _)| *n == name).map(|(_, text)| *text))
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

//! The courses that parts of a pre-test are driven on. A table of its own, so that a page that
//! draws a pre-test carries these and not all.

macro_rules! courses {
    ($($name:literal),* $(,)?) => {
        const TEXTS: &[(&str, &str)] =
            &[$(($name, include_str!(concat!("../../../../levels/", $name, ".json")))),*];
    };
}

courses![
    "pretest-walk-round",
    "straight",
    "pretest-straight-double",
    "pretest-stops",
    "pretest-stops-double",
    "pretest-laps",
    "pretest-laps-double",
    "pretest-eight",
    "tight-corner-load",
    "bays",
    "pretest-circuit",
    "pretest-leaving",
    "pretest-leaving-double",
];

/// Text of a course that parts are driven on.
pub(super) fn text(name: &str) -> Option<&'static str> {
    TEXTS.iter().find(|(n, _)| *n == name).map(|(_, text)| *text)
}

//! Which exercises train what was found: by the code of the fault, the one to begin with first.
//!
//! A table and no search, because it is the trade that knows: of many courses on which a fault can be made, these ask
//! for the right thing on purpose. Tests hold that each is a shipped exercise that has in it what the fault needs, and
//! that no fault is without.

/// Codes of faults with the exercises that train them.
const TRAINED: &[(&[&str], &[&str])] = &[
    (&["contact-cone"], &["slalom", "figure-eight"]),
    (&["contact-structure"], &["long-truck-turn", "charging-bay", "bays"]),
    (
        &["left-the-lane", "gate-missed", "gate-wrong-way"],
        &["laps-counter-clockwise", "figure-eight"],
    ),
    (&["over-speed", "outruns-sight"], &["rack-end", "doorway"]),
    (&["corner-speed", "tipped-over"], &["tight-corner-load", "figure-eight"]),
    (
        &[
            "plugging-ran-back",
            "brake-arm-as-service",
            "throttle-snatched",
            "missed-mark",
            "wrong-way-command",
        ],
        &["straight"],
    ),
    (&["plugging-jerk"], &["straight", "tight-corner-load"]),
    (&["emergency-late", "other-brake-used"], &["emergency-stops"]),
    (&["wrong-first-reaction"], &["surprise", "rack-end"]),
    (&["forks-first-travel"], &["laps-forks-first", "figure-eight-forks-first"]),
    (&["forks-high-in-travel", "forks-dragged"], &["bays", "laps-clockwise"]),
    (&["arm-strength-turn", "contact-lost"], &["figure-eight", "laps-counter-clockwise"]),
    (&["stepped-across-moving"], &["figure-eight"]),
    (&["stepped-off-rolling", "walked-the-truck"], &["pick-run"]),
    (&["no-horn-moving-off", "horn-misused"], &["cross-aisles", "first-drive"]),
    (&["person-struck", "person-near-miss"], &["rack-end", "doorway", "cross-aisles"]),
    (&["person-not-given-way", "yield-not-slowed"], &["cross-aisles", "full-circuit"]),
    (&["stop-line-run"], &["cross-aisles", "wet-stop"]),
    (
        &["no-horn-at-blind-spot", "too-fast-at-blind-spot"],
        &["rack-end", "doorway", "cross-aisles"],
    ),
    (&["not-looked-before-entry"], &["cross-aisles", "rack-end"]),
    (&["not-looking"], &["doorway", "tall-load"]),
    (&["wet-not-slowed"], &["wet-stop"]),
    (&["high-speed-in-traffic"], &["cross-aisles"]),
    (&["too-close-behind", "meeting-not-stopped", "passed-truck-hidden"], &["head-on"]),
    (&["body-gap-closing"], &["charging-bay"]),
    (&["headroom", "unchecked-crossing", "load-not-upgrade", "grade-too-fast"], &["dock"]),
    (&["load-shifted", "load-spilled"], &["tight-corner-load"]),
    (
        &["over-capacity", "loose-object-run-over", "pallet-pushed", "set-down-off"],
        &["bays", "full-circuit"],
    ),
    (&["load-hides-view"], &["tall-load"]),
    (&["unattended", "left-unsecured", "parked-in-the-way"], &["morning", "pick-run"]),
    (
        &[
            "bad-truck-taken",
            "defect-missed",
            "not-checked",
            "tagged-out-sound",
            "speed-settings-touched",
        ],
        &["walk-round", "morning"],
    ),
    (&["false-report"], &["walk-round", "surprise"]),
];

/// Codes of all faults that something trains.
pub fn trained() -> impl Iterator<Item = &'static str> {
    TRAINED.iter().flat_map(|(codes, _)| codes.iter().copied())
}

/// Ids of the exercises that train what this fault shows; none for a code that is no fault.
pub fn that_train(code: &str) -> &'static [&'static str] {
    TRAINED.iter().find(|(codes, _)| codes.contains(&code)).map_or(&[], |(_, courses)| courses)
}

/// The exercises for all these faults, each once, in the order in which they are first asked for.
pub fn that_train_all<'a>(codes: impl IntoIterator<Item = &'a str>) -> Vec<&'static str> {
    let mut all: Vec<&'static str> = Vec::new();
    for course in codes.into_iter().flat_map(that_train) {
        if !all.contains(course) {
            all.push(course);
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::course::shipped::{ALL, parse};
    use crate::course::{Course, LineKind, StepKind};
    use crate::finding::Skill;
    use crate::rules::{DUTIES, SiteRules};

    fn faults() -> impl Iterator<Item = &'static str> {
        DUTIES.iter().filter(|d| !d.good).map(|d| d.code)
    }

    #[test]
    fn every_fault_is_trained_and_named_once() {
        for code in faults() {
            assert!(!that_train(code).is_empty(), "nothing trains {code}");
        }
        let named: Vec<&str> = TRAINED.iter().flat_map(|(codes, _)| *codes).copied().collect();
        assert_eq!(named.len(), faults().count());
        assert!(named.iter().all(|code| faults().any(|f| f == *code)), "{named:?}");
        assert!(that_train("clean-lap").is_empty() && that_train("").is_empty());
    }

    /// What a course must have in it for this fault to be trained on it.
    fn has_it(course: &Course, code: &str) -> bool {
        let (w, kinds) = (&course.warehouse, |kind| course.lines.iter().any(|l| l.kind == kind));
        let walk = course.walk_round().is_some();
        match code {
            "contact-cone" => !course.cones.is_empty(),
            "contact-structure" | "body-gap-closing" => !course.structures.is_empty(),
            "stop-line-run" => kinds(LineKind::Stop),
            "yield-not-slowed" => kinds(LineKind::Yield),
            "missed-mark" => kinds(LineKind::Mark),
            "no-horn-at-blind-spot" | "too-fast-at-blind-spot" => !w.blind_spots.is_empty(),
            "not-looked-before-entry" => !w.blind_spots.is_empty() || kinds(LineKind::Stop),
            "person-struck" | "person-near-miss" => !w.people.is_empty(),
            "person-not-given-way" => !w.crossings.is_empty() && !w.people.is_empty(),
            "wet-not-slowed" => !course.patches.is_empty(),
            "unchecked-crossing" | "load-not-upgrade" | "grade-too-fast" | "headroom" => {
                !w.docks.is_empty()
            }
            "load-shifted" | "load-spilled" | "load-hides-view" => !w.pallets.is_empty(),
            "set-down-off" | "pallet-pushed" | "over-capacity" => !w.bays.is_empty(),
            "too-close-behind" | "meeting-not-stopped" | "passed-truck-hidden" => {
                !w.others.is_empty()
            }
            "no-horn-moving-off" | "high-speed-in-traffic" => course.traffic,
            "emergency-late" | "other-brake-used" => {
                course.steps.iter().any(|s| matches!(s.what, StepKind::EmergencyStop { .. }))
            }
            "unattended" | "left-unsecured" | "parked-in-the-way" => {
                course.steps.iter().any(|s| matches!(s.what, StepKind::Park { .. }))
            }
            "bad-truck-taken"
            | "defect-missed"
            | "not-checked"
            | "tagged-out-sound"
            | "speed-settings-touched" => walk,
            _ => true,
        }
    }

    #[test]
    fn each_is_an_exercise_that_has_in_it_what_the_fault_needs() {
        let mut some_has_not = false;
        for code in faults() {
            for name in that_train(code) {
                let course = parse(name);
                assert!(course.part_of.is_none(), "{name} is no exercise");
                assert!(has_it(&course, code), "{name} does not ask for {code}");
            }
            some_has_not |= ALL.iter().any(|(name, _)| !has_it(&parse(name), code));
        }
        assert!(some_has_not, "the check can fail");
    }

    /// The first exercise for a fault gives an opportunity of its skill more weight, where any exercise does so.
    #[test]
    fn some_exercise_of_each_skill_is_one_that_weighs_it() {
        let rules = SiteRules::shipped();
        for skill in
            [Skill::StartingAndStopping, Skill::ForksAndLoad, Skill::RightOfWay, Skill::Steering]
        {
            let codes = faults().filter(|c| rules.rules[*c].skill == skill);
            let weighs = |name: &str| parse(name).weights.get(&skill).is_some_and(|w| *w > 1.0);
            for code in codes {
                assert!(that_train(code).iter().any(|n| weighs(n)), "{code}");
            }
        }
    }

    #[test]
    fn several_faults_are_trained_in_one_list() {
        let all = that_train_all([
            "stop-line-run",
            "wet-not-slowed",
            "no-such",
            "not-looked-before-entry",
        ]);
        assert_eq!(all, ["cross-aisles", "wet-stop", "rack-end"]);
    }
}

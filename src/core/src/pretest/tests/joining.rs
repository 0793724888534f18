//! The judgement over all parts.

use super::debrief;
use crate::debrief::{Debrief, Ending};
use crate::finding::{Severity, Skill};
use crate::pretest::{Joined, Outcome, Reason, count, join};
use crate::rules::SiteRules;

/// All parts clean but the first ones, which are these.
fn joined(first: &[Debrief], parts: usize, ratio: f64, pauses: u32) -> Joined {
    let clean = debrief(&[]);
    let all = first.iter().chain(core::iter::repeat(&clean)).take(parts);
    let all: Vec<_> = all.map(|d| (d, ratio)).collect();
    join(&all, pauses, &SiteRules::shipped())
}

fn points(j: &Joined, skill: Skill) -> Option<f64> {
    j.skills.iter().find(|s| s.skill == skill).unwrap().points
}

#[test]
fn a_clean_sitting_passes_with_one_pause_and_not_with_two() {
    let j = joined(&[], count(), 0.95, 1);
    assert_eq!((j.result, j.reasons, j.total), (Outcome::Passed, vec![], Some(100.0)));
    assert_eq!((j.driven, j.parts, j.ticks), (count(), count(), 64 * count() as u32));
    assert!(j.skills.iter().all(|s| s.opportunities == 2 * count() as u32));
    let j = joined(&[], count(), 1.0, 2);
    assert_eq!(j.result, Outcome::NotPassed);
    assert_eq!(j.reasons, [Reason::Pauses { pauses: 2, limit: 1 }]);
}

#[test]
fn one_code_takes_at_most_the_cap_over_all_parts_together() {
    // Minor is 4: ten times would be forty in one drive, and are forty in ten.
    let one = debrief(&[("contact-cone", Severity::Minor)]);
    let two = debrief(&[("contact-cone", Severity::Minor); 2]);
    assert_eq!(points(&joined(&vec![one; 10], 10, 1.0, 0), Skill::Steering), Some(60.0));
    assert_eq!(points(&joined(&vec![two; 10], 10, 1.0, 0), Skill::Steering), Some(60.0));
    let mixed = [
        debrief(&[("contact-cone", Severity::Minor)]),
        debrief(&[("contact-structure", Severity::Major)]),
    ];
    let j = joined(&mixed, count(), 1.0, 0);
    assert_eq!(points(&j, Skill::Steering), Some(81.0));
    assert_eq!((j.result, j.practise), (Outcome::Passed, Some(Skill::Steering)));
}

#[test]
fn a_skill_below_its_mark_fails_already_while_parts_are_left() {
    let bad =
        debrief(&[("contact-structure", Severity::Major), ("left-the-lane", Severity::Major)]);
    let worse = debrief(&[("contact-structure", Severity::Major)]);
    let j = joined(&[bad, worse], 3, 1.0, 0);
    assert_eq!(j.result, Outcome::NotPassed);
    let skill = Skill::Steering;
    // Two of one code in two parts are a reason of their own.
    let again = Reason::MajorAgain { code: "contact-structure".to_owned(), times: 2, limit: 1 };
    assert_eq!(j.reasons[0], again);
    assert_eq!(j.reasons[1], Reason::SkillBelow { skill, points: 55.0, limit: 70.0 });
    assert_eq!(j.reasons.len(), 2 + count() - 3);
}

#[test]
fn the_same_major_finding_a_second_time_fails_and_two_different_ones_do_not() {
    let with = |codes: &[&str]| {
        let major: Vec<_> = codes.iter().map(|code| (*code, Severity::Major)).collect();
        let mut all: Vec<_> = (0..count()).map(|_| debrief(&[])).collect();
        all[0] = debrief(&major);
        joined(&all, count(), 1.0, 0)
    };
    assert_eq!(with(&["over-speed", "not-looking"]).result, Outcome::Passed);
    let twice = with(&["not-looking", "not-looking"]);
    assert_eq!(twice.result, Outcome::NotPassed);
    let code = "not-looking".to_owned();
    assert_eq!(twice.reasons, [Reason::MajorAgain { code, times: 2, limit: 1 }]);
}

#[test]
fn a_critical_finding_fails_and_says_in_which_part() {
    let struck = debrief(&[("person-struck", Severity::Critical)]);
    let j = joined(&[debrief(&[]), struck], count(), 1.0, 0);
    assert_eq!(j.result, Outcome::NotPassed);
    assert_eq!(j.reasons[0], Reason::Critical { part: 1, code: "person-struck".into() });
    assert_eq!(points(&j, Skill::RightOfWay), Some(0.0));
}

#[test]
fn parts_that_are_left_or_were_too_slow_leave_it_open() {
    let j = joined(&[], count() - 1, 1.0, 0);
    assert_eq!(j.result, Outcome::Incomplete);
    assert_eq!(j.reasons, [Reason::Missing { part: count() - 1 }]);
    let j = joined(&[], count(), 0.949, 0);
    assert_eq!(j.result, Outcome::Incomplete);
    assert_eq!(j.reasons[0], Reason::TooSlow { part: 0, ratio: 0.949, limit: 0.95 });
    assert_eq!(joined(&[], 0, 1.0, 0).total, None);
}

#[test]
fn a_part_that_was_given_up_is_not_done() {
    let broken = Debrief { ending: Ending::Broken, ..debrief(&[]) };
    let j = joined(&[broken], count(), 1.0, 0);
    assert_eq!(j.result, Outcome::NotPassed);
    assert_eq!(j.reasons, [Reason::NotDone { part: 0, ending: Ending::Broken }]);
}

#[test]
fn a_part_whose_time_ran_out_is_a_result_of_what_was_shown_until_then() {
    let late = Debrief {
        ending: Ending::TimeOut,
        ticks: 180 * 64,
        did: Some(0.5),
        ..debrief(&[("contact-cone", Severity::Minor)])
    };
    let j = joined(&[debrief(&[]), late], 2, 1.0, 0);
    // One skill of eight has lost four points, and a half of one part of two is not done.
    assert_eq!(j.total, Some(74.6));
    // It is settled while parts are left, and it is driven: the next one is due.
    assert_eq!((j.result, j.driven), (Outcome::NotPassed, 2));
    assert_eq!(j.reasons[0], Reason::OutOfTime { part: 1, after_s: 180.0 });
    assert!(!j.reasons.contains(&Reason::Missing { part: 1 }));
    assert_eq!(points(&j, Skill::Steering), Some(96.0));
    assert!(j.skills.iter().all(|s| s.opportunities == 4));
}

#[test]
fn a_skill_that_is_not_shown_is_not_passed_but_for_checking() {
    let hidden = |skill| {
        let mut d = debrief(&[]);
        for s in d.skills.iter_mut().filter(|s| s.skill == skill) {
            (s.points, s.opportunities, s.clean) = (None, 0, 0);
        }
        joined(&vec![d; count()], count(), 1.0, 0)
    };
    assert_eq!(hidden(Skill::Checking).result, Outcome::Passed);
    let j = hidden(Skill::Leaving);
    assert_eq!(j.result, Outcome::NotPassed);
    assert_eq!(j.reasons, [Reason::SkillNotShown { skill: Skill::Leaving }]);
}

#[test]
fn the_total_has_a_mark_of_its_own() {
    // Five skills at 70 and the other three at 100 or 70: below 80 in the mean.
    let faults = [
        "contact-structure",
        "left-the-lane",
        "stepped-across-moving",
        "contact-lost",
        "emergency-late",
        "wrong-first-reaction",
        "forks-high-in-travel",
        "load-spilled",
        "stop-line-run",
        "not-looking",
        "outruns-sight",
        "forks-first-travel",
    ];
    let all: Vec<_> = faults.iter().map(|code| (*code, Severity::Major)).collect();
    let j = joined(&[debrief(&all)], count(), 1.0, 0);
    assert_eq!(j.total, Some(77.5));
    assert_eq!(j.reasons, [Reason::TotalBelow { points: 77.5, limit: 80.0 }]);
}

#[test]
fn the_judgement_goes_through_json() {
    let struck = debrief(&[("person-struck", Severity::Critical)]);
    for j in [joined(&[struck], 4, 0.5, 3), joined(&[], count(), 1.0, 0)] {
        let text = serde_json::to_string(&j).unwrap();
        assert_eq!(serde_json::from_str::<Joined>(&text).unwrap(), j);
    }
}

#[test]
fn the_site_says_how_slow_a_computer_may_be_and_how_often_it_is_paused() {
    let mut rules = SiteRules::shipped();
    rules.terms.get_mut("time-ratio").unwrap().value = 0.8;
    rules.terms.get_mut("pauses").unwrap().value = 0.0;
    let clean = debrief(&[]);
    let all = |ratio| vec![(&clean, ratio); count()];
    assert_eq!(join(&all(0.8), 0, &rules).result, Outcome::Passed);
    let slow = join(&all(0.799), 0, &rules);
    assert_eq!(slow.result, Outcome::Incomplete);
    assert_eq!(slow.reasons[0], Reason::TooSlow { part: 0, ratio: 0.799, limit: 0.8 });
    let paused = join(&all(0.8), 1, &rules);
    assert_eq!(paused.reasons, [Reason::Pauses { pauses: 1, limit: 0 }]);
}

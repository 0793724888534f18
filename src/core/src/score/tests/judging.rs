//! The judge on hand-made drives: points, opportunities, what to practise, and switched-off rules.

use std::collections::BTreeMap;

use crate::course::{Course, shipped as courses};
use crate::debrief::{Debrief, Ending, SkillResult};
use crate::finding::{Finding, Severity, Skill, Unit};
use crate::math::vec2;
use crate::moment::{CourseEvent, Moment, Touched};
use crate::rules::SiteRules;
use crate::score::points::{self, SKILLS, by_skill, practise, total};
use crate::score::{Judge, passes};
use crate::truck::spec::shipped as trucks;
use crate::watch::Chance;
use crate::watch::test_support::{Drive, contact};

fn fault(code: &str, severity: Severity, from: u32) -> Finding {
    Finding {
        code: code.to_owned(),
        severity,
        from,
        to: from,
        measured: 0.0,
        limit: 0.0,
        unit: Unit::Count,
        at: vec2(0.0, 0.0),
        before: None,
        cause: None,
        point: None,
    }
}

fn chances(skill: Skill, spans: &[(u32, u32)]) -> Vec<Chance> {
    spans.iter().map(|&(from, to)| Chance { skill, from, to }).collect()
}

fn steering(findings: &[Finding], spans: &[(u32, u32)]) -> SkillResult {
    let rules = SiteRules::shipped();
    let all = by_skill(findings, &chances(Skill::Steering, spans), &rules, &BTreeMap::new());
    all[3].clone()
}

const TEN: [(u32, u32); 10] = [
    (0, 9),
    (10, 19),
    (20, 29),
    (30, 39),
    (40, 49),
    (50, 59),
    (60, 69),
    (70, 79),
    (80, 89),
    (90, 99),
];

#[test]
fn faults_take_points_by_their_severity_and_a_critical_one_all() {
    use Severity::{Critical, Good, Major, Minor};
    let points = |f: &[Finding]| steering(f, &TEN).points;
    assert_eq!(points(&[]), Some(100.0));
    assert_eq!(points(&[fault("contact-cone", Minor, 5)]), Some(96.0));
    assert_eq!(
        points(&[fault("contact-cone", Minor, 5), fault("gate-missed", Major, 6)]),
        Some(81.0)
    );
    assert_eq!(points(&[fault("contact-structure", Critical, 5)]), Some(0.0));
    assert_eq!(points(&[fault("clean-lap", Good, 5)]), Some(100.0));
    // Another skill's fault takes nothing here.
    assert_eq!(points(&[fault("over-speed", Major, 5)]), Some(100.0));
}

#[test]
fn one_code_takes_at_most_forty_points_and_a_skill_at_most_all() {
    let many = |code: &str, severity, n: u32| -> Vec<Finding> {
        (0..n).map(|i| fault(code, severity, i)).collect()
    };
    let points = |f: &[Finding]| steering(f, &TEN).points;
    assert_eq!(points(&many("contact-cone", Severity::Minor, 10)), Some(60.0));
    assert_eq!(points(&many("contact-cone", Severity::Minor, 11)), Some(60.0));
    let mut all = many("contact-cone", Severity::Minor, 11);
    all.extend(many("contact-structure", Severity::Major, 9));
    assert_eq!(points(&all), Some(20.0));
    all.extend(many("gate-missed", Severity::Major, 9));
    assert_eq!(points(&all), Some(0.0));
}

#[test]
fn a_skill_without_an_opportunity_is_not_shown_unless_it_was_at_fault() {
    let none = steering(&[], &[]);
    assert_eq!((none.points, none.opportunities, none.clean), (None, 0, 0));
    let hit = steering(&[fault("contact-cone", Severity::Minor, 5)], &[]);
    assert_eq!((hit.points, hit.opportunities, hit.clean), (Some(96.0), 1, 0));
}

#[test]
fn a_fault_spoils_the_opportunity_nearest_to_its_beginning() {
    let clean = |at: &[u32]| {
        let faults: Vec<_> =
            at.iter().map(|&t| fault("contact-cone", Severity::Minor, t)).collect();
        steering(&faults, &[(10, 20), (100, 200), (300, 310)]).clean
    };
    assert_eq!(clean(&[]), 3);
    assert_eq!(clean(&[150]), 2);
    assert_eq!(clean(&[150, 160]), 2);
    assert_eq!(clean(&[0, 95]), 1);
    assert_eq!(clean(&[0, 95, 900]), 0);
}

#[test]
fn the_total_is_weighted_over_the_skills_shown() {
    let result =
        |skill, points, weight| SkillResult { skill, points, opportunities: 1, clean: 1, weight };
    let skills = [
        result(Skill::Steering, Some(80.0), 2.0),
        result(Skill::Mounting, Some(95.0), 1.0),
        result(Skill::Leaving, None, 5.0),
    ];
    assert_eq!(total(&skills, 1.0, [].iter(), &SiteRules::shipped()), Some(85.0));
    let thirds =
        [result(Skill::Steering, Some(80.0), 1.0), result(Skill::Mounting, Some(90.0), 2.0)];
    assert_eq!(total(&thirds, 1.0, [].iter(), &SiteRules::shipped()), Some(86.7));
    assert_eq!(
        total(&[result(Skill::Leaving, None, 1.0)], 1.0, [].iter(), &SiteRules::shipped()),
        None
    );
    assert_eq!(
        total(&[result(Skill::Steering, Some(80.0), 0.0)], 1.0, [].iter(), &SiteRules::shipped()),
        None
    );
    // Of a share of the exercise, the share; what is critical leaves no more for it.
    assert_eq!(total(&thirds, 0.25, [].iter(), &SiteRules::shipped()), Some(21.7));
}

#[test]
fn who_does_less_has_less() {
    let after = |steps: u32, ending| {
        let mut drive = plain_drive();
        let last = drive.0.len() - 1;
        for step in 0..steps {
            drive.0[last].events.push(CourseEvent::StepDone { step });
        }
        let d = judged(&course(), &SiteRules::shipped(), &drive, ending);
        (d.did, d.total)
    };
    // Three stops at a mark, and the parking.
    assert_eq!(after(4, Ending::Done), (Some(1.0), Some(100.0)));
    assert_eq!(after(3, Ending::Failed), (Some(0.75), Some(75.0)));
    assert_eq!(after(1, Ending::Failed), (Some(0.25), Some(25.0)));
    assert_eq!(after(0, Ending::Failed), (Some(0.0), Some(0.0)));
}

#[test]
fn what_lost_most_is_practised_next() {
    let result = |skill, points: f64, clean| SkillResult {
        skill,
        points: Some(points),
        opportunities: 10,
        clean,
        weight: 1.0,
    };
    let best = result(Skill::Mounting, 100.0, 10);
    assert_eq!(practise(std::slice::from_ref(&best)), None);
    let equal = [best, result(Skill::Steering, 96.0, 9), result(Skill::Leaving, 96.0, 8)];
    assert_eq!(practise(&equal), Some(Skill::Leaving));
    let worse = [equal[1].clone(), result(Skill::ForksAndLoad, 85.0, 9), equal[2].clone()];
    assert_eq!(practise(&worse), Some(Skill::ForksAndLoad));
}

pub(super) fn judged(course: &Course, rules: &SiteRules, drive: &Drive, ending: Ending) -> Debrief {
    let mut judge = Judge::new(course, rules, &trucks::single());
    drive.0.iter().for_each(|m| judge.see(m));
    let ticks = drive.0.last().map_or(0, |m| m.tick);
    let debrief = judge.finish(ending, ticks);
    assert_eq!(judge.finish(ending, ticks), debrief, "a second call says the same");
    assert_eq!(judge.findings(), debrief.findings);
    debrief
}

/// A course with others about, from the shipped ones.
pub(super) fn course() -> Course {
    let course = courses::parse("straight");
    assert!(course.traffic);
    course
}

/// Horn, a gentle start, 25 m at 1.5 m/s, and rest.
pub(super) fn plain_drive() -> Drive {
    let ramp = |m: &mut Moment, n: u32| {
        m.controls.throttle = (2 * n).min(80) as i8;
        m.truck.speed = (0.02 * f64::from(n)).min(1.5);
    };
    let slow = |m: &mut Moment, n: u32| m.truck.speed = (1.5 - 0.02 * f64::from(n)).max(0.0);
    Drive::new()
        .with(10, |m| m.truck.horn_sounds = true)
        .with(1100, move |m| ramp(m, m.tick - 9))
        .with(75, move |m| slow(m, m.tick - 1109))
        .still(100)
        .event(CourseEvent::TaskDone)
}

#[test]
fn a_clean_drive_shows_what_it_gave_an_opportunity_for() {
    let d = judged(&course(), &SiteRules::shipped(), &plain_drive(), Ending::Done);
    let codes: Vec<&str> = d.findings.iter().map(|f| f.code.as_str()).collect();
    assert_eq!(codes, ["horn-before-moving", "gentle-start", "full-task"]);
    assert!(d.findings.iter().all(|f| f.severity == Severity::Good));
    let shown: Vec<_> = d
        .skills
        .iter()
        .filter(|s| s.points.is_some())
        .map(|s| (s.skill, s.opportunities, s.clean))
        .collect();
    // 25 m are two stretches and a half one; a start and a stop; one moving off.
    assert_eq!(
        shown,
        [
            (Skill::StartingAndStopping, 2, 2),
            (Skill::Steering, 3, 3),
            (Skill::ForksAndLoad, 3, 3),
            (Skill::RightOfWay, 1, 1),
            (Skill::SpeedAndRoom, 3, 3),
        ]
    );
    assert_eq!(d.skills.iter().map(|s| s.skill).collect::<Vec<_>>(), SKILLS);
    assert_eq!((d.total, d.practise), (Some(100.0), None));
    assert!(d.changed_rules.is_empty());
    assert!(passes(&d, &SiteRules::shipped()));
    let broken = judged(&course(), &SiteRules::shipped(), &plain_drive(), Ending::Broken);
    assert!(!passes(&broken, &SiteRules::shipped()));
}

#[test]
fn the_pass_marks_themselves_are_enough() {
    let rules = SiteRules::shipped();
    let mut d = judged(&course(), &rules, &plain_drive(), Ending::Done);
    (d.skills[3].points, d.total) = (Some(70.0), Some(80.0));
    assert!(passes(&d, &rules));
    d.skills[3].points = Some(69.9);
    assert!(!passes(&d, &rules));
    (d.skills[3].points, d.total) = (Some(70.0), Some(79.9));
    assert!(!passes(&d, &rules));
    d.total = None;
    assert!(!passes(&d, &rules));
}

#[test]
fn a_fault_is_in_the_findings_at_once_and_carried_on() {
    let mut judge = Judge::new(&course(), &SiteRules::shipped(), &trucks::single());
    let drive = Drive::new().still(4).with(40, |m| m.place.outside_lane = true).still(2);
    let mut seen = Vec::new();
    for m in &drive.0 {
        judge.see(m);
        seen.push(judge.findings().first().map(|f| f.to));
    }
    assert_eq!(seen[22], None);
    assert_eq!(seen[23], Some(23));
    assert_eq!(seen[30], Some(30));
    assert_eq!(seen[45], Some(43));
}

#[test]
fn a_critical_fault_fails_a_test_and_weights_come_from_the_course() {
    let hit = plain_drive().all(|m| {
        if m.tick == 500 {
            m.contacts.push(contact(Touched::Structure(0), 1.5));
        }
    });
    let rules = SiteRules::shipped();
    let d = judged(&course(), &rules, &hit, Ending::Done);
    assert_eq!(d.practise, Some(Skill::Steering));
    assert_eq!(d.skills[3].points, Some(0.0));
    assert!(!passes(&d, &rules));
    let weight = course().weights[&Skill::StartingAndStopping];
    assert!(weight > 1.0);
    // Four skills at 100, one of them weighted, and steering at 0 would be more than 80: no more than
    // 59 are left of it.
    assert!((300.0 + 100.0 * weight) / (4.0 + weight) > 80.0);
    assert_eq!(d.total, Some(59.0));
    // What takes no points caps it all the same, and less stays less.
    let few = [SkillResult { points: Some(40.0), ..d.skills[0].clone() }];
    assert_eq!(total(&few, 1.0, d.findings.iter(), &rules), Some(40.0));
    assert_eq!(total(&d.skills, 1.0, [].iter(), &rules).map(|t| t > 80.0), Some(true));
}

#[test]
fn a_rule_that_is_off_finds_nothing_and_a_skill_without_rules_is_not_shown() {
    let mut rules = SiteRules::shipped();
    for rule in rules.rules.values_mut().filter(|r| r.skill == Skill::RightOfWay) {
        rule.on = false;
    }
    let silent = plain_drive().all(|m| m.truck.horn_sounds = false);
    let with = judged(&course(), &SiteRules::shipped(), &silent, Ending::Done);
    assert!(with.findings.iter().any(|f| f.code == "no-horn-moving-off"));
    let without = judged(&course(), &rules, &silent, Ending::Done);
    assert!(without.findings.iter().all(|f| f.code != "no-horn-moving-off"));
    assert_eq!(without.skills[5].points, None);
    let of_the_skill = crate::rules::DUTIES
        .iter()
        .map(|d| d.code)
        .filter(|code| rules.rules[*code].skill == Skill::RightOfWay);
    assert_eq!(without.changed_rules, of_the_skill.collect::<Vec<_>>());
}

#[test]
fn where_no_others_are_about_the_horn_is_no_matter() {
    let quiet = Course { traffic: false, ..course() };
    let d = judged(&quiet, &SiteRules::shipped(), &plain_drive(), Ending::Done);
    assert!(d.findings.iter().all(|f| !f.code.contains("horn")));
    assert_eq!(d.skills[5].points, None);
}

/// A run holds the debrief as JSON and compares it with the computed one.
#[test]
fn a_debrief_survives_json_to_the_last_bit() {
    let drive = plain_drive().all(|m| {
        let t = f64::from(m.tick);
        m.truck.platform_in_yard = vec2(t / 7.0, t / -3.0);
        m.truck.fork_height = 0.06 + t / 30_000.0;
        m.truck.arm_strength = m.tick % 3 == 0;
        m.truck.arm_torque = t / 9.0;
        m.truck.accel_side = t / 350.0;
        m.place.zone_limit = Some(0.7 + t / 11_000.0);
        m.place.outside_lane = m.tick % 200 < 33;
    });
    let d = judged(&course(), &SiteRules::shipped(), &drive, Ending::Done);
    assert!(d.findings.len() > 10);
    let text = serde_json::to_string(&d).expect("plain data");
    assert_eq!(serde_json::from_str::<Debrief>(&text).expect("own text"), d);
    assert_eq!(judged(&course(), &SiteRules::shipped(), &drive, Ending::Done), d);
    // The points follow from the findings alone.
    let lost = points::by_skill(
        &d.findings,
        &chances(Skill::SpeedAndRoom, &[(0, 9)]),
        &SiteRules::shipped(),
        &BTreeMap::new(),
    );
    assert_eq!(lost[6].points, d.skills[6].points);
}

/// An emergency stop is one opportunity, however its event and its rest fall in time.
#[test]
fn opportunities_of_starting_and_stopping_are_counted_once() {
    let count = |d: &Drive| {
        let d = judged(&course(), &SiteRules::shipped(), d, Ending::Done);
        d.skills[2].opportunities
    };
    let stop = CourseEvent::EmergencyStopped { distance: 1.0, reaction_s: None, used: None };
    let signalled = |after: u32| {
        Drive::new()
            .still(1)
            .rolling(100, 1.0)
            .with(10, |m| {
                m.truck.speed = 0.6;
                if m.tick == 101 {
                    m.events.push(CourseEvent::SignalOn);
                }
            })
            .still(after)
            .event(stop)
            .still(80)
    };
    // A start and the signal.
    assert_eq!(count(&signalled(0)), 2);
    assert_eq!(count(&signalled(16)), 2);
    // And then an ordinary start and stop.
    let on = |d: Drive| d.rolling(100, 1.0).still(80);
    assert_eq!(count(&on(signalled(0))), 4);
    assert_eq!(count(&on(signalled(16))), 4);
    // Never stopped: the signal was an opportunity all the same.
    let never = Drive::new().rolling(100, 1.0).event(CourseEvent::SignalOn).all(|m| {
        m.truck.speed = 1.0;
    });
    assert_eq!(count(&never), 2);
    // A nudge that never came up to speed is a start, and no stop.
    assert_eq!(count(&Drive::new().still(1).rolling(50, 0.3).still(80)), 1);
}

/// Broken off within thirty metres, or left until its time was out, a drive shows its faults and nothing
/// else; from there on it counts.
#[test]
fn what_was_broken_off_or_out_of_time_soon_shows_only_its_faults() {
    let ended = |ending, ticks: u32, fault: bool| {
        let drive = Drive::new().still(1).rolling(ticks, 1.0).all(|m| {
            m.place.outside_lane = fault && (100..140).contains(&m.tick);
        });
        let d = judged(&course(), &SiteRules::shipped(), &drive, ending);
        let s = d.skills.iter().find(|s| s.skill == Skill::Steering).expect("listed").clone();
        (s.opportunities, s.clean, s.points)
    };
    // 64 ticks are a metre.
    for ending in [Ending::Broken, Ending::TimeOut] {
        assert_eq!(ended(ending, 64 * 30 - 1, false), (0, 0, None));
        assert_eq!(ended(ending, 64 * 30, false), (3, 3, Some(100.0)));
        assert_eq!(ended(ending, 64 * 25, true), (1, 0, Some(96.0)));
    }
    assert_eq!(ended(Ending::Done, 64 * 25, false), (3, 3, Some(100.0)));
}

#[test]
fn opportunities_of_the_stance_are_turns_and_steps_across() {
    let drive = Drive::new()
        .with(10, |m| m.truck.steer = 0.36)
        .with(10, |m| m.truck.steer = 0.2)
        .with(10, |m| m.truck.steer = 0.36)
        .still(5)
        .with(10, |m| m.truck.steer = -0.5)
        .still(5)
        .with(10, |m| m.truck.stepping = true)
        .still(1)
        .with(3, |m| m.truck.steer = 0.5);
    // Twenty degrees are 0.349 rad: two turns, a step, and a turn that the end cuts off.
    let d = judged(&course(), &SiteRules::shipped(), &drive, Ending::Done);
    assert_eq!(d.skills[1].opportunities, 4);
}

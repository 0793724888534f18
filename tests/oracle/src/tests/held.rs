//! What was found, held against what was seen.

use coneyard_core::debrief::{Debrief, Ending};
use coneyard_core::finding::{Finding, Severity, Unit};
use coneyard_core::math::vec2;
use coneyard_core::rules::SHIPPED;
use coneyard_core::time::{DT, Tick};
use coneyard_core::yard::foot::PERSON_RADIUS;

use super::{at, drive, half_width, into_a_wall, nose, sure, yard};
use crate::answers::{ANSWERS, Answer, CRITICALS, hold};
use crate::notes::Kind;

/// A drive with these findings that came to its end.
fn debrief(findings: &[Finding]) -> Debrief {
    Debrief {
        ending: Ending::Done,
        ticks: Tick::MAX,
        total: None,
        did: None,
        skills: Vec::new(),
        findings: findings.to_vec(),
        practise: None,
        changed_rules: Vec::new(),
    }
}

fn finding(code: &str, severity: Severity, from: Tick, to: Tick) -> Finding {
    Finding {
        code: code.to_owned(),
        severity,
        from,
        to,
        measured: 1.0,
        limit: 0.0,
        unit: Unit::MetrePerSecond,
        at: vec2(0.0, 0.0),
        before: None,
        cause: None,
        point: None,
    }
}

#[test]
fn a_finding_answers_within_two_seconds_and_not_a_tick_later() {
    let oracle = into_a_wall(1.5);
    let contact = sure(&oracle, Kind::StruckHard)[0];
    let unfound = |findings: &[Finding]| -> Vec<Kind> {
        hold(&oracle, &debrief(findings)).unfound().map(|n| n.kind).collect()
    };
    let struck = |from, severity| finding("contact-structure", severity, from, from);
    assert_eq!(unfound(&[]), [Kind::NoRoom, Kind::Struck, Kind::StruckHard]);
    assert_eq!(unfound(&[struck(contact.from + 128, Severity::Critical)]), []);
    assert_eq!(unfound(&[struck(contact.from + 128, Severity::Major)]), [Kind::StruckHard]);
    assert!(unfound(&[struck(contact.to + 129, Severity::Critical)]).contains(&Kind::StruckHard));
    let answer = |findings: &[Finding]| {
        let held = hold(&oracle, &debrief(findings));
        held.harms.iter().find(|(n, _)| n.kind == Kind::StruckHard).map(|(_, answer)| *answer)
    };
    assert_eq!(answer(&[]), Some(Answer::None));
    assert_eq!(answer(&[struck(contact.from, Severity::Major)]), Some(Answer::TooMild));
    assert_eq!(answer(&[struck(contact.from, Severity::Critical)]), Some(Answer::Found));
    // And what is critical rests on what was seen.
    let harmless = |f: Finding| hold(&oracle, &debrief(&[f])).harmless().count();
    assert_eq!(harmless(struck(contact.to + 128, Severity::Critical)), 0);
    assert_eq!(harmless(struck(contact.to + 129, Severity::Critical)), 1);
    assert_eq!(harmless(finding("person-struck", Severity::Critical, contact.from, contact.to)), 1);
    assert_eq!(harmless(finding("person-struck", Severity::Major, contact.from, contact.to)), 0);
    assert_eq!(
        harmless(finding("never-heard-of", Severity::Critical, contact.from, contact.to)),
        1
    );
}

#[test]
fn no_stop_for_somebody_is_three_metres_a_second_squared() {
    // 1.5 m/s and 0.375 m take 3 m/s^2, and the quickest hand as much before.
    for (gap, no_stop) in [(0.70, true), (0.82, false)] {
        let ticks = 64;
        let way = 1.5 * DT * f64::from(ticks);
        let ahead = vec2(nose() + way + gap + PERSON_RADIUS, 0.0);
        let mut speeds = vec![1.5; ticks as usize];
        speeds.push(0.0);
        let oracle = drive(&yard(), &speeds, at(ahead));
        let near_miss = finding("person-near-miss", Severity::Critical, 64, 64);
        assert_eq!(hold(&oracle, &debrief(&[near_miss])).harmless().count() == 0, no_stop, "{gap}");
    }
}

#[test]
fn whoever_is_grazed_by_a_truck_that_moves_is_struck_and_at_a_millimetre_is_not() {
    let struck = finding("person-struck", Severity::Critical, 32, 64);
    for (gap, speed, grazed) in [(0.0, 1.0, true), (0.001, 1.0, false), (0.0, 0.008, false)] {
        let ahead = vec2(nose() + 0.2, half_width() + PERSON_RADIUS + gap);
        let oracle = drive(&yard(), &[speed; 128], at(ahead));
        assert!(sure(&oracle, Kind::PersonTouched).is_empty());
        let harmless = hold(&oracle, &debrief(core::slice::from_ref(&struck))).harmless().count();
        assert_eq!(harmless == 0, grazed, "{gap} at {speed}");
    }
}

/// Every code in the tables is one of the site rules', and everything that can be critical has a row.
#[test]
fn the_tables_name_codes_that_there_are() {
    let rules: serde_json::Value = serde_json::from_str(SHIPPED).expect("the shipped rules");
    let rules = rules["rules"].as_object().expect("rules");
    for (_, _, codes) in ANSWERS {
        codes.iter().for_each(|code| assert!(rules.contains_key(*code), "{code}"));
    }
    assert!(Kind::ALL.iter().eq(ANSWERS.iter().map(|(kind, ..)| kind)));
    CRITICALS.iter().for_each(|(code, _)| assert!(rules.contains_key(*code), "{code}"));
    for (code, rule) in rules {
        let critical = |v: &serde_json::Value| v["severity"] == "critical";
        if critical(rule) || critical(&rule["graver"]) {
            assert!(CRITICALS.iter().any(|(c, _)| c == code), "{code}: what must be seen for it?");
        }
    }
}

#[test]
fn what_begins_just_before_a_ride_is_broken_off_had_no_time_to_be_found() {
    let oracle = into_a_wall(1.5);
    let contact = sure(&oracle, Kind::StruckHard)[0];
    let unfound = |ending, later: Tick| {
        let debrief = Debrief { ending, ticks: contact.from + later, ..debrief(&[]) };
        hold(&oracle, &debrief).unfound().any(|n| n.kind == Kind::StruckHard)
    };
    assert_eq!((unfound(Ending::Broken, 15), unfound(Ending::Broken, 16)), (false, true));
    // What ended the drive has to be found.
    assert!(unfound(Ending::Tipped, 0));
}

//! Whole drives without an engine: on a floor where nothing pushes back.

use super::*;
use crate::acts::Act;
use crate::controls::{ArmAsk, Controls};
use crate::course::shipped;
use crate::finding::Unit;
use crate::rider::{MODEL, by_name};
use crate::rules::{Edit, SHIPPED, SiteRules};
use crate::run::{CannotJudge, JudgedBy};
use crate::truck::condition::Condition;
use crate::truck::spec;
use crate::yard::level::Level;

fn setup(course: &str, seed: u32) -> DriveSetup {
    let course = shipped::text_of_any(course).expect("shipped");
    DriveSetup {
        course: course.to_owned(),
        truck: spec::shipped::SINGLE.to_owned(),
        rules: SHIPPED.to_owned(),
        checks: shipped::checks_of(course),
        seed,
        who: String::new(),
        started: String::new(),
    }
}

fn ride(course: &str, seed: u32) -> Run {
    let mut drive = Drive::<Level>::new(&setup(course, seed)).expect("shipped");
    let Setting { course, truck, rules, .. } = drive.setting();
    let mut rider = by_name(MODEL, course, truck, rules, u64::from(seed)).expect("the model");
    while drive.ending().is_none() {
        let input = rider.ride(drive.moment());
        drive.step(input);
    }
    drive.finish(1.0)
}

#[test]
fn the_model_rider_drives_clean_without_an_engine() {
    for course in ["straight", "slalom", "figure-eight", "rack-end", "bays", "dock", "picking"] {
        let Some(_) = shipped::text(course) else { continue };
        let debrief = ride(course, 1).claimed;
        let faults: Vec<&str> = debrief
            .findings
            .iter()
            .filter(|f| f.severity != crate::finding::Severity::Good)
            .map(|f| f.code.as_str())
            .collect();
        assert_eq!((debrief.ending, faults), (Ending::Done, vec![]), "{course}");
    }
}

#[test]
fn a_drive_fed_again_is_the_same_to_the_last_digest() {
    let run = ride("dock", 7);
    let mut again = Drive::<Level>::again(&run).expect("shipped");
    for input in run.each_tick() {
        again.step(input);
    }
    assert_eq!(again.finish(1.0), run);
}

/// A report is an act of one tick; held as a button in the first format it counts in every one, and its
/// digests are those of that format.
#[test]
fn an_act_is_in_the_moment_of_its_tick_and_in_the_digests() {
    let drive = |format, report: bool| {
        let mut drive = Drive::<Level>::new(&setup("dock", 1)).expect("shipped");
        drive.format = format;
        let acts = if report { vec![Act::Report] } else { Vec::new() };
        let m = drive.step(Input { acts: acts.clone(), ..Input::default() });
        assert_eq!(m.acts, acts);
        assert!(drive.step(Input::default()).acts.is_empty());
        drive.finish(1.0).digests
    };
    assert_eq!(drive(1, false), drive(2, false), "without acts the formats agree");
    assert_ne!(drive(2, true), drive(2, false));
    assert_ne!(drive(1, true), drive(2, true));
}

/// Brakes with this arm from full speed; way from there to rest, m.
fn way_to_rest(condition: Condition, arm: ArmAsk) -> f64 {
    let setup = setup("straight", 1);
    let setting = Setting { condition, ..Setting::open(&setup).expect("shipped") };
    let mut drive = Drive::<Level>::of(&setup, setting);
    for _ in 0..64 * 8 {
        drive.step(Controls { throttle: 100, ..Controls::default() });
    }
    let from = drive.moment().truck.pose.at;
    for _ in 0..64 * 12 {
        drive.step(Controls { arm, ..Controls::default() });
    }
    assert!(drive.moment().truck.speed.abs() < 1e-3);
    (drive.moment().truck.pose.at - from).length()
}

#[test]
fn a_brake_that_is_gone_in_one_zone_still_works_in_the_other() {
    let sound = way_to_rest(Condition::SOUND, ArmAsk::PushDown);
    let gone = Condition { lower_brake: 0.0, ..Condition::SOUND };
    // Nothing but rolling resistance slows it: it does not come to rest in this time.
    let half = Condition { lower_brake: 0.5, ..Condition::SOUND };
    let longer = way_to_rest(half, ArmAsk::PushDown);
    assert!(longer > 1.6 * sound && longer < 2.1 * sound, "{sound} and {longer}");
    assert_eq!(way_to_rest(gone, ArmAsk::LetGo), way_to_rest(Condition::SOUND, ArmAsk::LetGo));
}

#[test]
fn a_dead_horn_is_pressed_and_not_heard() {
    let setup = setup("straight", 1);
    for (horn_works, key_on, sounds) in
        [(true, true, true), (false, true, false), (true, false, false)]
    {
        let condition = Condition { horn_works, ..Condition::SOUND };
        let setting = Setting { condition, ..Setting::open(&setup).expect("shipped") };
        let mut drive = Drive::<Level>::of(&setup, setting);
        let m = drive.step(Controls { horn: true, key_on, ..Controls::default() });
        assert_eq!((m.controls.horn, m.truck.horn_sounds), (true, sounds));
    }
}

/// Steps down at full speed and lets the truck roll: how far it came to be away, and what is found of its
/// being left unattended.
fn left_rolling(condition: Condition) -> (f64, Vec<Finding>) {
    let setup = setup("straight", 1);
    let setting = Setting { condition, ..Setting::open(&setup).expect("shipped") };
    let mut drive = Drive::<Level>::of(&setup, setting);
    for _ in 0..64 * 10 {
        let m = drive.step(Controls { throttle: 100, high_speed: true, ..Controls::default() });
        assert_eq!(m.rider.off, None);
    }
    let stepped_down = drive.moment().truck.platform_in_yard;
    let mut away = 0.0;
    for _ in 0..64 * 12 {
        let m = drive.step(Controls { aboard: false, ..Controls::default() });
        let off = m.rider.off.expect("nobody is aboard");
        assert!((off.at - stepped_down).length() < 0.06 && off.in_view);
        away = off.away;
    }
    let m = drive.step(Controls::default());
    assert_eq!(m.rider.off, None);
    let found = drive.findings().iter().filter(|f| f.code == "unattended");
    (away, found.cloned().collect())
}

#[test]
fn a_truck_that_rolls_off_from_who_left_it_is_unattended_from_25_feet_on() {
    // The arm of a sound one springs up and brakes: it stays near, and half a minute has not gone by.
    let (away, found) = left_rolling(Condition::SOUND);
    assert!(away < 2.5 && found.is_empty(), "{away}");
    let (away, found) = left_rolling(Condition { arm_spring: 0.0, ..Condition::SOUND });
    assert!(away > 7.6, "{away}");
    let last = found.last().expect("it is told");
    assert_eq!((last.unit, last.limit), (Unit::Metre, 7.6));
    assert!((last.measured - away).abs() < 1e-3, "{} and {away}", last.measured);
}

/// Somebody walks across the way, where nothing is painted, once the truck is as near as this, m; it comes
/// on as it is, or stands until they have been away for two seconds.
fn across(within_m: f64, waits: bool) -> Vec<Finding> {
    let (_, course) = shipped::CORPUS.iter().find(|(n, _)| *n == "crossing-busy").expect("there");
    let mut course: serde_json::Value = serde_json::from_str(course).expect("JSON");
    course["crossings"] = serde_json::json!([]);
    course["people"][0]["route"] = serde_json::json!([{ "at_m": [30, 3] }, { "at_m": [30, -6] }]);
    course["people"][0]["sets_off"] =
        serde_json::json!({ "near": { "at_m": [30, 0], "within_m": within_m } });
    let setup = DriveSetup { course: course.to_string(), ..setup("straight", 1) };
    let mut drive = Drive::<Level>::new(&setup).expect("valid");
    let mut gone_for = 0;
    for _ in 0..64 * 40 {
        let m = drive.moment();
        let p = m.people[0];
        let (near, gone) = (m.truck.nose_in_yard.x > 26.0, p.at.y < -1.0);
        gone_for += u32::from(gone);
        let stops = waits && near && gone_for < 128;
        let arm = if stops { ArmAsk::LetGo } else { ArmAsk::Hold };
        drive.step(Controls { throttle: if stops { 0 } else { 60 }, arm, ..Controls::default() });
    }
    assert!(drive.moment().truck.nose_in_yard.x > 31.0, "it came past");
    let found = drive.findings().iter().filter(|f| f.code == "person-not-given-way");
    found.cloned().collect()
}

#[test]
fn wherever_somebody_goes_across_they_are_given_the_way() {
    let told: Vec<Vec<Finding>> = (10..30).map(|n| across(0.5 * f64::from(n), false)).collect();
    assert!(told.iter().any(|found| found.len() == 1), "nobody was passed too soon after");
    assert!(told.iter().all(|found| found.len() <= 1), "one passing is one finding");
    for f in told.iter().flatten() {
        assert!(f.measured < 1.5 && f.limit == 1.5 && f.unit == Unit::Second, "{f:?}");
    }
    // From far enough they are well clear, whoever drives on.
    assert!(told.last().is_some_and(Vec::is_empty));
    for n in 10..30 {
        assert_eq!(across(0.5 * f64::from(n), true), [], "who stands until they are gone");
    }
}

/// A drive by a rider with this fault, on a course where it comes out.
fn ridden(course: &str, rider: &str, seed: u32) -> Run {
    let mut drive = Drive::<Level>::new(&setup(course, seed)).expect("shipped");
    let Setting { course, truck, rules, .. } = drive.setting();
    let mut rider = by_name(rider, course, truck, rules, u64::from(seed)).expect("a rider");
    while drive.ending().is_none() {
        let input = rider.ride(drive.moment());
        drive.step(input);
    }
    drive.finish(1.0)
}

fn by(run: &Run, edits: &[Edit]) -> JudgedBy {
    let rules = SiteRules::shipped();
    let rules = edits.iter().fold(rules, |r, e| r.edited("own", e).expect("within its bounds"));
    let mut judging = JudgingBy::<Level>::new(run, rules).expect("it can be driven");
    loop {
        match judging.go_on(100) {
            JudgedBy::Working(share) => assert!((0.0..=1.0).contains(&share)),
            done => return done,
        }
    }
}

fn debrief_by(run: &Run, edits: &[Edit]) -> Debrief {
    match by(run, edits) {
        JudgedBy::Done(debrief) => debrief,
        other => panic!("{other:?}"),
    }
}

fn number(place: &str, value: f64) -> Edit {
    Edit::Number(place.to_owned(), value)
}

#[test]
fn a_run_judged_by_its_own_rules_is_judged_as_it_was() {
    for (course, rider) in [("rack-end", MODEL), ("dock", MODEL), ("straight", "run-back")] {
        let run = ridden(course, rider, 3);
        assert_eq!(debrief_by(&run, &[]), run.claimed, "{course}");
    }
}

/// The limit just at what was measured finds nothing, a hair below it does; and what was found goes when its rule is
/// switched off.
#[test]
fn a_limit_that_is_moved_finds_what_lies_beyond_it() {
    let run = ridden("straight", "run-back", 3);
    let times = |d: &Debrief| d.findings.iter().filter(|f| f.code == "plugging-ran-back").count();
    let found = run.claimed.findings.iter().filter(|f| f.code == "plugging-ran-back");
    let worst = found.map(|f| f.measured).fold(0.0, f64::max);
    assert!(times(&run.claimed) > 0 && worst > 0.15);
    let limit = |value: f64| number("rules.plugging-ran-back.limits.distance", value);
    // What is told of a finding is rounded to four decimals.
    assert_eq!(times(&debrief_by(&run, &[limit(worst + 1e-4)])), 0);
    assert!(times(&debrief_by(&run, &[limit(worst - 1e-3)])) > 0);
    let off = debrief_by(&run, &[Edit::On("plugging-ran-back".to_owned(), false)]);
    assert_eq!(
        (times(&off), off.changed_rules.as_slice()),
        (0, &["plugging-ran-back".to_owned()][..])
    );
    assert!(off.total > run.claimed.total);
    assert_eq!(run.claimed, ridden("straight", "run-back", 3).claimed, "the run stays as it is");
}

/// A lower limit of the site finds who was too fast, and nobody steps out elsewhere for it.
#[test]
fn people_step_out_where_they_did_whatever_the_limit_is() {
    let run = ride("rack-end", 5);
    let slow = SiteRules::shipped().edited("own", &number("speed_limit", 0.8)).expect("within");
    let mut judging = JudgingBy::<Level>::new(&run, slow.clone()).expect("it can be driven");
    let mut again = Drive::<Level>::again(&run).expect("it can be driven");
    let mut stepped_out = false;
    for input in run.each_tick() {
        again.step(input);
        assert!(matches!(judging.go_on(1), JudgedBy::Working(_)));
        let (a, b) = (again.moment(), judging.moment());
        assert_eq!((a.truck.pose, a.people.len()), (b.truck.pose, b.people.len()));
        for (a, b) in a.people.iter().zip(&b.people) {
            assert_eq!((a.at, a.stepped_out), (b.at, b.stepped_out));
            stepped_out |= a.stepped_out.is_some();
        }
    }
    assert!(stepped_out);
    let JudgedBy::Done(debrief) = judging.go_on(1) else { panic!("it is over") };
    assert!(debrief.findings.iter().any(|f| f.code == "over-speed"));
    // In a drive that begins under that limit they do step out later.
    let later = Drive::<Level>::new(&DriveSetup { rules: slow.to_text(), ..run.setup.clone() });
    let mut later = later.expect("it can be driven");
    let out = |m: &Moment| m.people.iter().find_map(|p| p.stepped_out);
    for input in run.each_tick() {
        later.step(input);
    }
    assert_ne!(out(later.moment()), out(again.moment()));
}

#[test]
fn a_zone_of_the_site_finds_who_was_too_fast_in_it() {
    let run = ride("straight", 1);
    let zone = r#"{"format": 1, "zones": [{"course": "straight",
        "area_m": [[-100, -100], [100, -100], [100, 100], [-100, 100]],
        "limit": {"value": 0.5, "unit": "m/s", "source": "board 3"}}]}"#;
    let rules = SiteRules::parse("own", zone.as_bytes()).expect("valid");
    let mut judging = JudgingBy::<Level>::new(&run, rules).expect("it can be driven");
    let JudgedBy::Done(debrief) = judging.go_on(u32::MAX) else { panic!("it is over") };
    assert!(debrief.findings.iter().any(|f| f.code == "over-speed"));
    assert!(run.claimed.findings.iter().all(|f| f.code != "over-speed"));
}

/// Somebody struck ends a drive. Where that is switched off it would have gone on, and nobody knows how.
#[test]
fn what_would_have_gone_on_is_not_judged() {
    let runs = (1..100).map(|seed| ridden("person-ahead", "runs-somebody-down", seed));
    let run = runs.into_iter().find(|run| run.claimed.ending == Ending::Struck);
    let run = run.expect("somebody is struck sooner or later");
    let off = [Edit::On("person-struck".to_owned(), false)];
    assert_eq!(by(&run, &off), JudgedBy::Cannot(CannotJudge::WouldGoOn));
    let near = debrief_by(&run, &[Edit::On("person-near-miss".to_owned(), false)]);
    assert_eq!(near.ending, Ending::Struck);
}

/// A longer look at each check leaves checks open that were made: the drive by its own rules goes along.
#[test]
fn checks_that_take_longer_are_told_or_not_judged() {
    let run = ride("dock", 7);
    let by = by(&run, &[number("terms.check-time", 5.0)]);
    match &by {
        JudgedBy::Done(debrief) => assert_ne!(debrief, &run.claimed),
        JudgedBy::Cannot(_) => {}
        JudgedBy::Working(_) => panic!("it is over"),
    }
    assert_eq!(debrief_by(&run, &[number("terms.check-time", 0.4)]).ending, Ending::Done);
}

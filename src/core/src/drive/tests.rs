//! Whole drives without an engine: on a floor where nothing pushes back.

use super::*;
use crate::acts::Act;
use crate::controls::{ArmAsk, Controls};
use crate::course::shipped;
use crate::rider::{MODEL, by_name};
use crate::rules::SHIPPED;
use crate::truck::condition::Condition;
use crate::truck::spec;
use crate::yard::level::Level;

fn setup(course: &str, seed: u32) -> DriveSetup {
    DriveSetup {
        course: shipped::text(course).expect("shipped").to_owned(),
        truck: spec::shipped::SINGLE.to_owned(),
        rules: SHIPPED.to_owned(),
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

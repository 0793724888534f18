//! What needs whole runs and rules.

use super::*;
use crate::pretest::{TRUCKS, course_of};

fn sitting() -> Taken {
    Taken { rules: SHIPPED.to_owned(), pauses: 1, ..taken("s") }
}

/// The run file of a part, of which nothing was driven.
fn run(part: usize) -> String {
    let begun = whole::begun(&sitting(), part, "d".into(), "2026-01-05T08:01:00Z").unwrap();
    let mut claimed = attempt("a").verdict.debrief;
    claimed.ticks = 0;
    let digests = vec![Digest([7; 8])];
    let setup = begun.setup;
    Run {
        setup,
        time_ratio: 1.0,
        pace: 1.0,
        format: 2,
        controls: vec![],
        acts: vec![],
        digests,
        claimed,
    }
    .to_text()
}

#[test]
fn a_part_begins_on_its_course_with_its_truck_and_there_are_no_others() {
    for truck in TRUCKS {
        let sitting = Taken { truck: truck.to_owned(), ..sitting() };
        for part in 0..count() {
            let begun = whole::begun(&sitting, part, "d".into(), "now").unwrap();
            let course = course_of(part, truck).unwrap();
            assert_eq!(begun.course.trim_end_matches("-mirrored"), course);
            assert_eq!(begun.truck, truck);
            assert_eq!(begun.place, Some(Place { sitting: "s".into(), part }));
            assert_eq!((begun.setup.started.as_str(), begun.simulation), ("now", SIMULATION));
        }
        assert_eq!(course_of(count(), truck), None);
        let none = whole::begun(&sitting, count(), "d".into(), "now").unwrap_err();
        assert!(none.to_string().contains("no such part"), "{none}");
    }
}

#[test]
fn a_run_tells_of_itself_whichever_simulation_made_it() {
    let text = run(0);
    let told = whole::told("a.run.json", &text).unwrap();
    assert_eq!((told.who.as_str(), told.simulation), ("Alder / B", SIMULATION));
    let (here, older) = (format!("\"simulation\":{SIMULATION}"), "\"simulation\":1");
    let old = whole::told("a.run.json", &text.replace(&here, older)).unwrap();
    assert_eq!((old.simulation, &old.course), (1, &told.course));
    for bad in ["", "{}", "[1, 2]", &text[..text.len() / 2]] {
        assert!(whole::told("odd.json", bad).unwrap_err().to_string().starts_with("odd.json"));
    }
}

#[test]
fn a_slow_computer_and_parts_that_are_left_leave_it_incomplete() {
    let mut all: Vec<Attempt> = (0..count()).map(|_| attempt("a")).collect();
    let result = |parts: &[Attempt]| whole::joined(&sitting(), parts).unwrap();
    assert_eq!(result(&all[..3]).result, Outcome::Incomplete);
    assert_eq!(result(&all[..3]).driven, 3);
    all[2].time_ratio = Some(0.9);
    let slow =
        result(&all[..3]).reasons.iter().filter(|r| format!("{r:?}").contains("TooSlow")).count();
    assert_eq!(slow, 1);
    (all[2].time_ratio, all[2].pace) = (Some(1.0), 0.5);
    let reasons = format!("{:?}", result(&all[..3]).reasons);
    assert!(reasons.contains("TooSlow { part: 2, ratio: 0.5"), "{reasons}");
    (all[2].time_ratio, all[2].pace) = (None, 1.0);
    let reasons = format!("{:?}", result(&all[..3]).reasons);
    assert!(reasons.contains("TooSlow { part: 2, ratio: 0.0"), "{reasons}");
    all[2].time_ratio = Some(1.0);
    let twice = whole::joined(&Taken { pauses: 2, ..sitting() }, &all[..3]).unwrap();
    assert_eq!(twice.result, Outcome::NotPassed);
}

#[test]
fn its_file_comes_back_as_it_was() {
    let runs: Vec<String> = (0..2).map(run).collect();
    let text = whole::file(&sitting(), &runs).unwrap();
    let is_one = |text: &str| crate::pretest::is_sitting(text.as_bytes());
    assert!(is_one(&text) && !is_one(&runs[0]) && !is_one("{"));
    let (back, again) = whole::read("a.sitting.json", &text, "s".into()).unwrap();
    assert_eq!(back, Taken { imported: true, ..sitting() });
    assert_eq!(again, runs);
    let swapped = [runs[1].clone(), runs[0].clone()];
    assert!(whole::file(&sitting(), &swapped).is_err(), "the parts have their order");
    let bad = whole::read("b.sitting.json", "{\"class_word\": 1}", "s".into()).unwrap_err();
    assert!(bad.to_string().starts_with("b.sitting.json"), "{bad}");
}

#[test]
fn a_pre_test_on_the_double_truck_goes_out_and_comes_back_as_one() {
    let double = Taken { truck: "double".to_owned(), ..sitting() };
    let text = whole::file(&double, &[]).unwrap();
    let (back, _) = whole::read("a.sitting.json", &text, "s".into()).unwrap();
    assert_eq!(back, Taken { imported: true, ..double.clone() });
    // What was driven with the other truck is none of its parts.
    let bad = whole::file(&double, &[run(0)]).unwrap_err();
    assert_eq!(bad.place, "truck", "{bad}");
    let odd = Taken { truck: "crane".to_owned(), ..double };
    let said = whole::file(&odd, &[]).unwrap_err().to_string();
    assert_eq!(
        said,
        "the pre-test, at truck: a pre-test is taken on one of these trucks: single, double"
    );
}

//! The pre-test in the whole simulation: draws are alike, what is driven on the mirror image is as
//! clean, a rider with a fault does not pass, and a sitting goes on where it was cut off.

use coneyard_core::course::mirror::mirrored;
use coneyard_core::debrief::{Debrief, Ending};
use coneyard_core::finding::{Severity, Skill};
use coneyard_core::pretest::{Joined, Outcome, Part, Reason, Sitting, TRUCKS, count, draw};
use coneyard_core::rider::MODEL;
use coneyard_core::rules::SHIPPED;
use coneyard_core::time::DT;
use coneyard_sim::{judge, ride, ride_as};
use coneyard_tests::drives::{offered, setup};

/// One person's hand in all parts.
const HAND: u64 = 1;

fn faults(debrief: &Debrief) -> Vec<&str> {
    let bad = debrief.findings.iter().filter(|f| f.severity != Severity::Good);
    bad.map(|f| f.code.as_str()).collect()
}

/// A sitting of which the first parts are driven by this rider.
fn sitting(class: &str, seat: u32, rider: &str, parts: usize) -> Sitting {
    sitting_on(TRUCKS[0], class, seat, rider, parts)
}

fn sitting_on(truck: &str, class: &str, seat: u32, rider: &str, parts: usize) -> Sitting {
    let began = "2026-01-05T08:00:00Z";
    let mut s = Sitting::new(class, seat, truck, "Alder", began, SHIPPED).expect("valid");
    go_on(&mut s, rider, parts);
    s
}

fn go_on(s: &mut Sitting, rider: &str, until: usize) {
    while s.runs().len() < until {
        let (i, _) = s.next_part().expect("a part is left");
        let setup = s.next_setup("2026-01-05T08:10:00Z").expect("a part is left");
        s.done(i, ride_as(&setup, rider, HAND).expect("valid")).expect("it is that part's run");
    }
}

fn opportunities(joined: &Joined) -> Vec<u32> {
    joined.skills.iter().map(|s| s.opportunities).collect()
}

/// `coneyard-workshop spread` measures the same over as many draws as one likes.
fn are_alike(truck: &str, minutes_from: f64, minutes_to: f64) {
    let mut taken = Vec::new();
    for class in ["1", "2", "3"] {
        for seat in 1..=4 {
            let s = sitting_on(truck, class, seat, MODEL, count());
            for (part, run) in s.parts().iter().zip(s.runs()) {
                assert_eq!(faults(&run.claimed), [""; 0], "{part:?}");
            }
            let joined = s.joined().expect("valid rules");
            assert_eq!((joined.result, &joined.reasons), (Outcome::Passed, &vec![]));
            taken.push(joined);
        }
    }
    let minutes: Vec<f64> = taken.iter().map(|j| f64::from(j.ticks) * DT / 60.0).collect();
    let least = minutes.iter().copied().fold(f64::INFINITY, f64::min);
    let most = minutes.iter().copied().fold(0.0, f64::max);
    println!("{truck}: {least:.2} to {most:.2} minutes, {:?}", opportunities(&taken[0]));
    assert!(least > minutes_from && most < minutes_to, "{minutes:?}");
    assert!((most - least) * 60.0 < 10.0, "{minutes:?}");
    for skill in 0..opportunities(&taken[0]).len() {
        let all: Vec<u32> = taken.iter().map(|j| opportunities(j)[skill]).collect();
        let (least, most) = (all.iter().min(), all.iter().max());
        // All within one of the number between.
        assert!(most.zip(least).is_some_and(|(m, l)| m - l <= 2), "skill {skill}: {all:?}");
    }
}

#[test]
fn draws_are_alike_in_time_and_in_what_they_give_to_show() {
    are_alike("single", 12.0, 13.0);
}

#[test]
fn draws_for_the_double_truck_are_alike_and_as_long_as_for_the_single_one() {
    are_alike("double", 12.0, 13.0);
    let opportunities = |truck| {
        opportunities(&sitting_on(truck, "1", 1, MODEL, count()).joined().expect("valid rules"))
    };
    let [single, double] = TRUCKS.map(opportunities);
    for (one, other) in single.into_iter().zip(double) {
        // Nobody meets a tenth more of anything with the other truck.
        assert!(one.abs_diff(other) * 10 <= one.max(other), "{one} and {other}");
    }
}

#[test]
fn every_part_is_driven_clean_on_both_sides_whatever_the_seed() {
    let mut courses: Vec<Part> = TRUCKS.into_iter().flat_map(|truck| draw("1", 1, truck)).collect();
    let of = |p: &Part| (p.truck.clone(), p.course.clone());
    courses.sort_by_key(of);
    courses.dedup_by_key(|p| of(p));
    for part in courses {
        for seed in 1..=50 {
            let part = Part { mirrored: seed % 2 == 0, seed, ..part.clone() };
            let setup = part.setup("", "", SHIPPED).expect("a part");
            let d = ride(&setup, MODEL).expect("valid").claimed;
            assert_eq!(faults(&d), [""; 0], "{part:?}");
            assert_eq!(d.ending, Ending::Done, "{part:?}");
        }
    }
}

#[test]
fn the_model_rider_is_clean_on_the_mirror_image_of_every_course() {
    let mut unclean = Vec::new();
    for (course, truck) in offered() {
        for seed in 1..=3 {
            let mut setup = setup(course, &truck, seed);
            setup.course = mirrored(course, &setup.course).expect("a course");
            let d = ride(&setup, MODEL).expect("valid").claimed;
            if d.ending != Ending::Done || !faults(&d).is_empty() {
                unclean.push((course, truck.clone(), seed, d.ending, faults(&d).join(" ")));
            }
        }
    }
    assert!(unclean.is_empty(), "{unclean:#?}");
}

/// A habit that comes out in many parts takes a skill below its mark; the cap keeps it from taking
/// more than forty.
#[test]
fn a_rider_with_a_fault_does_not_pass_and_the_skill_says_why() {
    for (rider, skill) in [
        ("forks-high", Skill::ForksAndLoad),
        ("no-horn", Skill::RightOfWay),
        ("snatch-throttle", Skill::StartingAndStopping),
    ] {
        let joined = sitting("1", 2, rider, count()).joined().expect("valid rules");
        assert_eq!(joined.result, Outcome::NotPassed, "{rider}");
        assert_eq!(joined.practise, Some(skill), "{rider}");
        let below = joined.reasons.iter().any(
            |r| matches!(r, Reason::SkillBelow { skill: s, points, .. } if *s == skill && *points < 70.0),
        );
        assert!(below, "{rider}: {:?}", joined.reasons);
    }
    // Twice too late in an emergency: thirty points less, and still enough.
    let joined = sitting("1", 2, "late-emergency", count()).joined().expect("valid rules");
    assert_eq!(joined.practise, Some(Skill::StartingAndStopping));
}

#[test]
fn a_sitting_that_was_cut_off_goes_on_from_its_file_and_is_judged_from_it() {
    let whole = sitting("heron", 3, MODEL, count());
    let half = sitting("heron", 3, MODEL, 6);
    assert_eq!(half.joined().expect("valid").result, Outcome::Incomplete);
    let mut again = Sitting::parse("s.sitting.json", half.to_text().as_bytes()).expect("valid");
    assert_eq!(again, half);
    go_on(&mut again, MODEL, count());
    assert_eq!(again.to_text(), whole.to_text());
    for run in again.runs() {
        assert!(judge(run).expect("valid").reproduces);
    }
}

#[test]
fn a_neighbours_run_is_refused() {
    let mut mine = sitting("heron", 3, MODEL, 0);
    let theirs = sitting("heron", 4, MODEL, 1);
    let bad = mine.done(0, theirs.runs()[0].clone()).expect_err("another seat");
    assert_eq!(bad.place, "course");
    assert!(mine.runs().is_empty());
}

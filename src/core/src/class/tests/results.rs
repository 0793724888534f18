//! What attempts come to, and which part of a pre-test is due.

use super::*;

fn on(id: &str, course: &str, ending: Ending, total: f64, ticks: u32) -> Attempt {
    let mut a = Attempt { course: course.into(), simulation: None, ..attempt(id) };
    a.verdict.debrief.ending = ending;
    a.verdict.debrief.total = Some(total);
    a.verdict.debrief.ticks = ticks;
    a
}

fn shown(skill: Skill, clean: u32, opportunities: u32) -> SkillResult {
    let points = (opportunities > 0).then_some(90.0);
    SkillResult { skill, points, opportunities, clean, weight: 1.0 }
}

#[test]
fn the_best_is_done_to_the_end_and_the_quicker_of_equals() {
    let attempts = [
        on("a", "straight", Ending::Done, 90.0, 900),
        on("b", "straight", Ending::Broken, 100.0, 10),
        on("c", "straight", Ending::Done, 90.0, 800),
        on("d", "straight", Ending::Done, 60.0, 700),
        on("e", "slalom", Ending::Done, 99.0, 700),
    ];
    let s = standing(&attempts, "straight", "Alder");
    assert_eq!(s.tries, 4);
    assert_eq!(s.best.map(|a| a.id), Some("c".into()));
    assert_eq!(s.last.map(|a| a.id), Some("d".into()));
    assert_eq!(standing(&attempts, "straight", "Birch"), Standing::default());
}

#[test]
fn next_comes_the_first_that_is_not_good_enough_else_the_weakest() {
    let attempts = [
        on("a", "straight", Ending::Done, 90.0, 900),
        on("b", "slalom", Ending::Done, 70.0, 900),
        on("c", "dock", Ending::Done, 75.0, 900),
    ];
    let next = |total| next_course(&["straight", "slalom", "dock"], total, &attempts, "Alder");
    assert_eq!(next(80.0).as_deref(), Some("slalom"));
    assert_eq!(next(95.0).as_deref(), Some("straight"));
    assert_eq!(next(60.0).as_deref(), Some("slalom"), "all are good enough");
    assert_eq!(next_course(&["straight"], 80.0, &attempts, "Birch").as_deref(), Some("straight"));
    assert_eq!(next_course(&[], 80.0, &attempts, "Alder"), None);
}

#[test]
fn the_first_drive_comes_first_until_something_else_was_driven() {
    let courses = ["first-drive", "straight"];
    let next = |attempts: &[Attempt]| next_course(&courses, 80.0, attempts, "Alder");
    assert_eq!(next(&[]).as_deref(), Some("first-drive"));
    let poorly = on("a", "first-drive", Ending::Done, 70.0, 900);
    assert_eq!(next(std::slice::from_ref(&poorly)).as_deref(), Some("first-drive"));
    let done = on("a", "first-drive", Ending::Done, 90.0, 900);
    assert_eq!(next(&[done]).as_deref(), Some("straight"));
    // Who went straight to something else has skipped it.
    let skipped = on("b", "straight", Ending::Done, 60.0, 900);
    assert_eq!(next(&[skipped]).as_deref(), Some("straight"));
}

#[test]
fn a_part_of_a_pre_test_is_no_try_at_the_exercise() {
    let mut part = on("a", "straight", Ending::Done, 100.0, 1);
    part.place = Some(Place { sitting: "s".into(), part: 0 });
    assert_eq!(standing(&[part], "straight", "Alder"), Standing::default());
}

#[test]
fn a_name_is_the_same_however_it_is_typed() {
    assert!(same_person("Álamo", " álamo ") && same_person("ALDER", "alder"));
    assert!(same_person("", " ") && !same_person("Alder", "Alder B") && !same_person("", "a"));
    let mut typed = on("a", "straight", Ending::Done, 90.0, 64);
    typed.who = "ALDER ".to_owned();
    assert_eq!(standing(&[typed], "straight", "Alder").tries, 1);
}

#[test]
fn slowed_practice_is_nobodys_best_and_shows_no_skill() {
    let at = |pace| {
        let mut a = on("a", "straight", Ending::Done, 100.0, 1);
        a.verdict.debrief.skills = vec![shown(Skill::Steering, 1, 1)];
        a.pace = pace;
        [a]
    };
    let slowed = standing(&at(0.999), "straight", "Alder");
    assert_eq!((slowed.best, slowed.tries), (None, 1));
    let lately = |all: &[Attempt]| board::lately(&[&Brief::of(&all[0])]);
    assert!(lately(&at(0.999)).is_empty());
    assert!(standing(&at(1.0), "straight", "Alder").best.is_some());
    assert_eq!(lately(&at(1.0))[0].skill, Skill::Steering);
}

#[test]
fn a_run_that_does_not_reproduce_is_nobodys_best() {
    let mut forged = on("a", "straight", Ending::Done, 100.0, 1);
    forged.verdict.reproduces = false;
    let s = standing(&[forged], "straight", "Alder");
    assert_eq!((s.best, s.tries), (None, 1));
}

#[test]
fn a_run_that_comes_in_again_is_the_same_run() {
    let one = on("a", "straight", Ending::Done, 100.0, 1);
    assert!(one.is_same_run(&Attempt { id: "b".into(), imported: true, ..one.clone() }));
    let other = |change: fn(&mut Attempt)| {
        let mut other = one.clone();
        change(&mut other);
        !one.is_same_run(&other)
    };
    assert!(other(|a| a.who = "Birch".into()));
    assert!(other(|a| a.started = "2026-01-06".into()));
    assert!(other(|a| a.verdict.final_digest = "f".into()));
    assert!(other(|a| a.verdict.reproduces = false));
}

#[test]
fn file_names_hold_who_drove_what_and_when_and_nothing_odd() {
    let attempt = Attempt {
        course: "figure-eight".into(),
        who: "Alder / B".into(),
        started: "2026-01-02T03:04:05Z".into(),
        ..attempt("a")
    };
    assert_eq!(run_file_name(&attempt), "figure-eight-alder---b-2026-01-02.run.json");
    let nameless = Attempt { who: String::new(), ..attempt };
    assert_eq!(run_file_name(&nameless), "figure-eight-nobody-2026-01-02.run.json");
    assert_eq!(
        sitting_file_name(&taken("s")),
        "pre-test-single-grey-heron-4-alder---b-2026-01-05.sitting.json"
    );
}

fn part_of(id: &str, sitting: &str, part: usize) -> Attempt {
    Attempt { place: Some(Place { sitting: sitting.into(), part }), ..attempt(id) }
}

#[test]
fn the_part_that_is_due_comes_after_those_without_a_gap() {
    let attempts =
        [part_of("c", "s", 1), part_of("a", "s", 0), part_of("x", "t", 2), part_of("d", "s", 1)];
    let ids =
        |sitting| -> Vec<String> { driven(&attempts, sitting).into_iter().map(|a| a.id).collect() };
    assert_eq!(ids("s"), ["a", "c"], "a part that is there twice counts once");
    assert!(ids("t").is_empty(), "a part cannot count before the one before it");
    assert!(is_open(&taken("s"), count() - 1) && !is_open(&taken("s"), count()));
    assert!(!is_open(&Taken { given_up: true, ..taken("s") }, 0));
}

#[test]
fn parts_of_another_simulation_are_not_joined_with_new_ones() {
    let mut all: Vec<Attempt> = (0..3).map(|part| part_of("a", "s", part)).collect();
    assert_eq!(other_simulation(&all), None);
    assert_eq!(other_simulation(&[]), None);
    all[1].simulation = Some(SIMULATION - 1);
    assert_eq!(other_simulation(&all), Some(SIMULATION - 1));
}

#[test]
fn the_helps_rest_every_second_time_once_an_exercise_was_driven_clean() {
    let drive = |clean: bool| {
        let mut drive = attempt("a");
        if !clean {
            drive.verdict.debrief.findings.push(crate::finding::Finding {
                code: "contact-cone".to_owned(),
                severity: crate::finding::Severity::Minor,
                from: 1,
                to: 1,
                measured: 1.0,
                limit: 0.0,
                unit: crate::finding::Unit::Count,
                at: crate::math::vec2(0.0, 0.0),
                before: None,
                cause: None,
                point: None,
            });
        }
        drive
    };
    let rests = |drives: &[bool]| {
        let all: Vec<Attempt> = drives.iter().map(|clean| drive(*clean)).collect();
        helps_rest(&all, "straight", "Alder")
    };
    assert!(!rests(&[]) && !rests(&[false, false, false]), "never before it was clean");
    assert!(rests(&[false, true]) && !rests(&[true, false]) && rests(&[true, true, true]));
    // Of another person, another course or another's file they know nothing.
    let all = [drive(true)];
    assert!(helps_rest(&all, "straight", " alder "));
    assert!(!helps_rest(&all, "straight", "Birch") && !helps_rest(&all, "slalom", "Alder"));
    assert!(!helps_rest(&[Attempt { imported: true, ..drive(true) }], "straight", "Alder"));
}

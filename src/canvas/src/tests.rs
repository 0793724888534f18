//! Drives and replays as the canvas holds them, without a canvas.

use coneyard_core::acts::{Act, Done};
use coneyard_core::checks::Inspected;
use coneyard_core::controls::{ArmAsk, Controls, Side, TillerAsk};
use coneyard_core::course::{StepKind, shipped};
use coneyard_core::desk::Mode;
use coneyard_core::math::{Pose, vec2};
use coneyard_core::moment::{DockMoment, Moment};
use coneyard_core::rules::{Edit, SHIPPED, SiteRules};
use coneyard_core::run::Run;
use coneyard_core::run::{DriveSetup, Timing};
use coneyard_core::run::{Driven, JudgedBy};
use coneyard_core::truck::spec::shipped::{DOUBLE, SINGLE};
use coneyard_core::yard::frame::CaseFrame;

use crate::dashboard;
use crate::headless;
use crate::live::Live;
use crate::mix::between;
use crate::picture::{Scene, v};
use crate::playback::Playback;
use crate::unseen::unseen;

/// Real time from one picture to the next, s.
const PICTURE_S: f64 = 1.0 / 60.0;

pub(crate) fn setup(course: &str) -> DriveSetup {
    let course = shipped::text(course).unwrap();
    DriveSetup {
        course: course.into(),
        truck: SINGLE.into(),
        rules: SHIPPED.into(),
        checks: shipped::checks_of(course),
        seed: 3,
        who: "Alder".into(),
        started: "2026-11-25T08:00:00Z".into(),
    }
}

fn pictures(live: &mut Live, count: u32) {
    for _ in 0..count {
        live.advance(PICTURE_S);
    }
}

/// A drive of a few seconds with several changes of the controls.
fn driven() -> Live {
    let mut live = Live::new(&setup("straight")).unwrap();
    live.controls = Controls { horn: true, ..live.controls };
    pictures(&mut live, 30);
    live.controls = Controls { throttle: 60, horn: false, ..live.controls };
    pictures(&mut live, 120);
    live.controls = Controls { tiller: TillerAsk::To(12), ..live.controls };
    pictures(&mut live, 60);
    live
}

#[test]
fn controls_are_taken_once_and_add_up_to_the_drive() {
    let mut live = Live::new(&setup("straight")).unwrap();
    let mut driven = Driven::default();
    for throttle in [0, 40, 40, -20] {
        live.controls = Controls { throttle, ..live.controls };
        pictures(&mut live, 45);
        driven.extend(live.take_driven());
    }
    assert!(live.take_driven().is_empty());
    let ticks = driven.ticks();
    assert_eq!(ticks, live.status().tick);
    assert!(ticks > 150, "{ticks}");
}

#[test]
fn an_act_is_done_in_the_next_tick_taken_once_and_driven_again() {
    let mut live = Live::new(&setup("dock")).unwrap();
    pictures(&mut live, 10);
    let before = live.status().tick;
    live.acts.push(Act::Report);
    pictures(&mut live, 10);
    let driven = live.take_driven();
    assert_eq!(driven.acts, [Done { tick: before + 1, act: Act::Report }]);
    assert!(live.take_driven().acts.is_empty());
    let mut again = Live::resume(&setup("dock"), &driven, &live.clock.timing()).unwrap();
    assert!(again.take_driven().is_empty());
    let run = again.finish();
    assert_eq!(run.acts, driven.acts);
    assert!(coneyard_sim::judge(&run).unwrap().reproduces);
    let moved = vec![Done { tick: before + 2, act: Act::Report }];
    let moved = coneyard_sim::judge(&Run { acts: moved, ..run }).unwrap();
    assert!(!moved.reproduces, "an act a tick later is another drive");
}

/// Held in the same moment, and left: what was done is among what is stored.
#[test]
fn an_act_just_before_a_pause_is_done() {
    let mut live = Live::new(&setup("dock")).unwrap();
    pictures(&mut live, 10);
    live.acts.push(Act::Report);
    live.set_paused(true);
    assert_eq!(live.take_driven().acts.len(), 1);
    let tick = live.status().tick;
    live.acts.push(Act::Report);
    live.set_paused(true);
    assert_eq!(live.status().tick, tick, "held once, no time passes");
}

#[test]
fn a_drive_that_was_cut_off_goes_on_where_it_was() {
    let mut live = driven();
    let driven = live.take_driven();
    let mut again = Live::resume(&setup("straight"), &driven, &live.clock.timing()).unwrap();
    assert_eq!(again.status().truck.speed, live.status().truck.speed);
    assert_eq!(again.status().tick, live.status().tick);
    assert!(again.take_driven().is_empty(), "what was stored is not given again");

    assert!(again.status().paused);
    pictures(&mut again, 60);
    assert_eq!(again.status().tick, live.status().tick);
    again.clock.paused = false;
    pictures(&mut again, 60);
    assert!(again.status().tick > live.status().tick);
}

#[test]
fn the_key_stays_off_in_a_drive_that_was_cut_off() {
    for key_on in [false, true] {
        let mut live = driven();
        live.controls = Controls { key_on, throttle: 0, ..live.controls };
        pictures(&mut live, 30);
        let driven = live.take_driven();
        let again = Live::resume(&setup("straight"), &driven, &live.clock.timing()).unwrap();
        assert_eq!(again.controls.key_on, key_on);
        assert_eq!(again.status().truck.key_on, key_on);
    }
}

#[test]
fn a_drive_that_was_cut_off_stays_as_slow_as_it_was() {
    let mut live = Live::new(&setup("straight")).unwrap();
    live.clock.set_pace(0.5);
    pictures(&mut live, 60);
    // A picture that took four seconds: most of it is lost.
    live.advance(4.0);
    let before = live.status().time_ratio;
    assert!(before < 0.5, "{before}");
    let driven = live.take_driven();
    let mut again = Live::resume(&setup("straight"), &driven, &live.clock.timing()).unwrap();
    assert!((again.status().time_ratio - before).abs() < 1e-12);
    again.clock.paused = false;
    pictures(&mut again, 120);
    let after = again.status().time_ratio;
    assert!(before < after && after < 0.95, "{after}");
    let run = again.finish();
    assert_eq!((run.time_ratio, run.pace), (after, 0.5));
    assert!(coneyard_sim::judge(&run).unwrap().reproduces);
    assert!(!coneyard_sim::judge(&Run { pace: 1.0, ..run }).unwrap().reproduces);
}

#[test]
fn a_drive_at_full_pace_is_no_slowed_practice() {
    assert_eq!(driven().finish().pace, 1.0);
}

fn refused(pairs: &[u32]) -> String {
    let driven = Driven { pairs: pairs.to_vec(), acts: Vec::new() };
    Live::resume(&setup("straight"), &driven, &Timing::START).err().unwrap()
}

#[test]
fn damaged_controls_are_refused_with_a_sentence() {
    let late = Timing { simulated_s: 2.0, asked_s: 1.0, pace: 1.0 };
    let late = Live::resume(&setup("straight"), &Driven::default(), &late).err().unwrap();
    assert!(late.contains("times"), "{late}");
    let odd = refused(&[1, 2, 3]);
    assert!(odd.contains("middle of a pair"), "{odd}");
    let wrong = refused(&[u32::MAX, 2]);
    assert!(wrong.contains("pair 0"), "{wrong}");
    let bits = Controls::default().to_bits();
    let endless = refused(&[bits, u32::MAX]);
    assert!(endless.contains("longer"), "{endless}");
}

#[test]
fn a_finished_drive_replays_tick_by_tick() {
    let live = driven();
    let status = live.status();
    let (mut playback, opened) = Playback::open(&live.finish().to_text()).unwrap();
    assert!(opened.verdict.reproduces);
    assert_eq!(opened.last_tick, status.tick);
    assert_eq!(opened.who, "Alder");
    assert_eq!(opened.course, "straight");
    let values = opened.traces.speed.len() as u32;
    assert_eq!(values, opened.last_tick / opened.traces.every + 1);

    playback.show(status.tick + 1_000);
    let end = playback.status();
    assert_eq!((end.mode, end.tick), (Mode::Replay, status.tick));
    assert_eq!(end.truck, status.truck);
    assert_eq!(end.task, status.task);
}

#[test]
fn a_replay_plays_to_its_end_stops_and_plays_again_from_the_start() {
    let (mut playback, opened) = Playback::open(&driven().finish().to_text()).unwrap();
    playback.play(true, 2.0);
    for _ in 0..60 {
        playback.advance(PICTURE_S);
    }
    let after_a_second = playback.status().tick;
    assert!((126..=128).contains(&after_a_second), "{after_a_second}");
    for _ in 0..600 {
        playback.advance(PICTURE_S);
    }
    assert_eq!(playback.status().tick, opened.last_tick);
    assert!(!playback.moving());
    playback.play(true, 1.0);
    assert_eq!(playback.status().tick, 0);
    assert!(playback.moving());
}

#[test]
fn a_replay_shows_findings_only_once_they_have_begun() {
    let text = headless::ride(&setup("straight"), "no-horn").unwrap();
    let (mut playback, opened) = Playback::open(&text).unwrap();
    let findings = &opened.verdict.debrief.findings;
    let first = findings.iter().map(|f| f.from).min().unwrap();
    playback.show(first - 1);
    assert!(playback.status().findings.is_empty());
    playback.show(opened.last_tick);
    assert_eq!(&playback.status().findings, findings);
}

#[test]
fn a_companion_must_have_driven_the_same_course() {
    let own = driven().finish().to_text();
    let other = headless::random_run(&setup("slalom"), 64).unwrap();
    let (mut playback, _) = Playback::open(&own).unwrap();
    let refused = playback.open_companion(&other).unwrap_err();
    assert!(refused.contains("another course"), "{refused}");
    assert!(playback.picture().companion.is_none());
    playback.open_companion(&own).unwrap();
    playback.show(100);
    let picture = playback.picture();
    assert_eq!(picture.companion, Some(picture.frame));
}

#[test]
fn an_unknown_rider_is_answered_with_the_names() {
    let sentence = headless::ride(&setup("straight"), "nobody").unwrap_err();
    assert!(sentence.contains("model"), "{sentence}");
}

#[test]
fn contacts_count_hands_and_feet() {
    let mut live = Live::new(&setup("straight")).unwrap();
    let mut contacts = |controls: Controls| {
        live.controls = controls;
        pictures(&mut live, 4);
        live.status().truck.contacts
    };
    let standing = Controls::default();
    assert_eq!(contacts(standing), 4);
    assert_eq!(contacts(Controls { arm: ArmAsk::LetGo, ..standing }), 2);
    assert_eq!(contacts(Controls { stance: Side::Right, ..standing }), 3);
    assert_eq!(contacts(Controls { aboard: false, ..standing }), 0);
}

#[test]
fn a_picture_between_two_ticks_turns_the_short_way() {
    let (playback, _) = Playback::open(&driven().finish().to_text()).unwrap();
    let mut a = playback.picture().frame;
    let mut b = a.clone();
    a.truck = Pose { at: vec2(1.0, 2.0), heading: 3.1 };
    b.truck = Pose { at: vec2(3.0, 2.0), heading: -3.1 };
    let half = between(&a, &b, 0.5);
    assert_eq!(half.truck.at, vec2(2.0, 2.0));
    assert!((half.truck.heading.abs() - core::f64::consts::PI).abs() < 1e-9);
    assert!(std::sync::Arc::ptr_eq(&half.cones, &b.cones), "nothing was moved, nothing is copied");
}

#[test]
fn what_is_seen_and_what_is_dimmed_make_up_the_floor_of_every_course() {
    for (name, _) in shipped::ALL {
        let double = DriveSetup { truck: DOUBLE.into(), ..setup(name) };
        let live = Live::new(&setup(name)).or_else(|_| Live::new(&double)).unwrap();
        let (frame, course) = (live.picture().frame, live.scene().course);
        let floor = (v(course.floor_min), v(course.floor_max));
        let area = |corners: &[bevy::math::Vec2]| {
            let next = corners.iter().cycle().skip(1);
            0.5 * corners.iter().zip(next).map(|(a, b)| a.perp_dot(*b)).sum::<f32>()
        };
        let boundary: Vec<bevy::math::Vec2> = frame.view.iter().map(|p| (*p).into()).collect();
        let dimmed: f32 = unseen(v(frame.eye), &boundary, floor).iter().map(|p| area(p)).sum();
        let mut polygon = vec![v(frame.eye)];
        polygon.extend(boundary);
        let (seen, whole) = (area(&polygon), (floor.1 - floor.0).element_product());
        assert!(seen > 1.0 && dimmed > 1.0, "{name}: {seen} and {dimmed}");
        assert!(
            (seen + dimmed - whole).abs() < 0.01 * whole,
            "{name}: {seen} + {dimmed} of {whole}"
        );
    }
}

#[test]
fn between_two_ticks_people_walk_and_a_case_that_just_fell_lies_where_it_fell() {
    let live = Live::new(&setup("cross-aisles")).unwrap();
    let a = live.picture().frame;
    let mut b = a.clone();
    let mut people = a.people.to_vec();
    assert!(!people.is_empty(), "people are about in this course");
    people[0].at = a.people[0].at + vec2(0.02, 0.0);
    people[0].seen = !a.people[0].seen;
    b.people = people.into();
    let case = CaseFrame { pose: Pose::default(), size: vec2(0.4, 0.3) };
    b.cases = [case].into();
    let half = between(&a, &b, 0.5);
    assert!((half.people[0].at - a.people[0].at - vec2(0.01, 0.0)).length() < 1e-9);
    assert_eq!(between(&a, &b, 0.4).people[0].seen, a.people[0].seen);
    assert_eq!(half.people[0].seen, b.people[0].seen);
    assert_eq!(*half.cases, [case]);
}

#[test]
fn stepping_off_and_the_load_are_told() {
    let mut live = Live::new(&setup("tight-corner-load")).unwrap();
    pictures(&mut live, 4);
    let truck = live.status().truck;
    assert!(truck.aboard && truck.pallets == 1);
    assert!(truck.load > 100.0 && truck.load < truck.capacity, "{}", truck.load);
    live.controls = Controls { aboard: false, ..live.controls };
    pictures(&mut live, 4);
    assert!(!live.status().truck.aboard);
    let (driven, timing) = (live.take_driven(), live.clock.timing());
    let resumed = Live::resume(&setup("tight-corner-load"), &driven, &timing).unwrap();
    assert!(!resumed.controls.aboard, "who went away while off the platform is still off it");
}

#[test]
fn a_dock_shows_no_check_before_it_is_looked_at() {
    let Scene { course, truck, .. } = Live::new(&setup("dock")).unwrap().scene();
    let step = course.steps.iter().position(|s| matches!(s.what, StepKind::CheckDock { .. }));
    let mut moment = Moment::at_rest();
    moment.task.step = step.unwrap() as u32;
    let dock = DockMoment {
        dock: 0,
        truck_on: false,
        inspected: Inspected {
            points: course.warehouse.docks[0].checks.len() as u32,
            looked_at: 0b01,
            wrong: 0b01,
            reported: false,
        },
    };
    moment.docks = vec![dock];
    let told = dashboard::task(&moment, &[], &course, &truck).dock;
    assert_eq!(told.len(), course.warehouse.docks[0].checks.len());
    assert_eq!(told[0].is_fine, Some(false));
    assert!(told[1..].iter().all(|c| c.is_fine.is_none()));
    moment.docks[0].inspected.looked_at = 0b11;
    assert_eq!(dashboard::task(&moment, &[], &course, &truck).dock[1].is_fine, Some(true));
}

#[test]
fn a_run_is_judged_by_other_rules_in_pieces() {
    let run = headless::ride(&setup("straight"), "run-back").unwrap();
    let own = Run::parse("a", run.as_bytes()).unwrap().claimed;
    let by = |rules: &str| {
        let mut judging = headless::judge_by(&run, rules).unwrap();
        loop {
            match judging.go_on(500) {
                JudgedBy::Working(share) => assert!(share < 1.0),
                JudgedBy::Done(debrief) => return debrief,
                JudgedBy::Cannot(why) => panic!("{why:?}"),
            }
        }
    };
    assert_eq!(by(SHIPPED), own);
    let lenient = SiteRules::shipped()
        .edited("own", &Edit::Number("rules.plugging-ran-back.limits.distance".into(), 5.0))
        .unwrap();
    assert_ne!(by(&lenient.to_text()).findings, own.findings);
    assert!(headless::judge_by(&run, "{}").err().unwrap().starts_with("the rules"));
    assert!(headless::judge_by("{}", SHIPPED).err().unwrap().starts_with("the run"));
}

//! What is heard, from Frames alone: of drives, and of moments made by hand.

use coneyard_core::checks::list::Noise;
use coneyard_core::controls::Controls;
use coneyard_core::math::{Pose, vec2};
use coneyard_core::time::TICK_RATE;
use coneyard_core::yard::frame::{CaseFrame, Frame, OtherFrame};
use coneyard_sim::Session;

use super::ear::hear;
use super::{Heard, Once, Voices};
use crate::headless;
use crate::live::Live;
use crate::playback::Playback;
use crate::tests::setup;

/// The yard before anything was driven.
fn still(course: &str) -> Frame {
    Session::new(&setup(course)).unwrap().frame()
}

/// A tick after `before`, changed in this way.
fn next(before: &Frame, change: impl FnOnce(&mut Frame)) -> Frame {
    let mut now = Frame { tick: before.tick + 1, ..before.clone() };
    change(&mut now);
    now
}

/// What begins in the tick after `before` that is changed in this way.
fn once(before: &Frame, change: impl FnOnce(&mut Frame)) -> Vec<Once> {
    hear(Some(before), &next(before, change)).once
}

fn is_silent(voices: &Voices) -> bool {
    let all =
        [voices.motor.gain, voices.brake.gain, voices.slip, voices.horn, voices.pump, voices.valve];
    all == [0.0; 6] && voices.others.is_empty()
}

/// The Frames of a ride by the model rider.
fn ridden(course: &str) -> Playback {
    let run = headless::ride(&setup(course), "model").unwrap();
    Playback::open(&run).unwrap().0
}

fn heard_of(frames: &[Frame]) -> Vec<Heard> {
    frames.windows(2).map(|pair| hear(Some(&pair[0]), &pair[1])).collect()
}

#[test]
fn a_replay_sounds_as_the_drive_did() {
    let mut live = Live::new(&setup("straight")).unwrap();
    let mut driven = Vec::new();
    for (throttle, horn) in [(0, true), (70, false), (-60, false), (0, false)] {
        live.controls = Controls { throttle, horn, ..live.controls };
        for _ in 0..60 {
            live.advance(1.0 / 60.0);
            driven.extend(live.take_heard());
        }
    }
    let run = live.finish().to_text();
    let (mut playback, _) = Playback::open(&run).unwrap();
    let mut replayed = Vec::new();
    playback.play(true, 1.0);
    while playback.moving() {
        // Other pictures than those of the drive.
        playback.advance(1.0 / 23.0);
        replayed.extend(playback.take_heard());
    }
    assert!(driven.len() > 200, "{}", driven.len());
    assert_eq!(driven, replayed);
    assert!(driven.iter().any(|h| h.voices.horn > 0.0));
    assert!(driven.iter().any(|h| h.voices.motor.wobble > 0.0), "it was plugged");
}

#[test]
fn a_replay_that_jumps_plays_nothing_of_what_lies_between() {
    let mut playback = ridden("straight");
    playback.show(900);
    assert!(playback.take_heard().is_empty());
    playback.play(true, 1.0);
    playback.advance(0.1);
    let heard = playback.take_heard();
    assert_eq!(heard.first().map(|h| h.tick), Some(901));
    let far = Frame { tick: 900, key_on: false, ..still("straight") };
    assert!(hear(Some(&still("straight")), &far).once.is_empty());
}

#[test]
fn what_is_tried_on_the_walk_round_is_heard_once() {
    let before = still("straight");
    let tries = Frame { tick: before.tick + 1, tried: Some(Noise::Squeal), ..before.clone() };
    assert_eq!(hear(Some(&before), &tries).once, [Once::Tried(Noise::Squeal)]);
    let after = Frame { tick: tries.tick + 1, tried: None, ..tries.clone() };
    assert_eq!(hear(Some(&tries), &after).once, []);
}

#[test]
fn the_motor_is_as_high_as_the_truck_is_fast_and_silent_at_rest() {
    let playback = ridden("straight");
    let frames = playback.frames();
    let (mut moving, mut resting) = (0, 0);
    for (heard, frame) in heard_of(frames).iter().zip(&frames[1..]) {
        let motor = heard.voices.motor;
        assert!((f64::from(motor.pitch) - 60.0 - 180.0 * frame.speed.abs()).abs() < 0.01);
        assert_eq!(motor.gain > 0.0, frame.speed.abs() >= 0.02, "tick {}", heard.tick);
        moving += u32::from(motor.gain > 0.0);
        if frame.speed == 0.0 && !frame.horn && heard.voices.pump + heard.voices.valve == 0.0 {
            assert!(is_silent(&heard.voices), "{heard:?}");
            resting += 1;
        }
    }
    assert!(moving > 500 && resting > 50, "{moving} moving, {resting} resting");
}

#[test]
fn the_horn_is_heard_in_the_ticks_in_which_it_sounds() {
    let playback = ridden("straight");
    let frames = playback.frames();
    for (heard, frame) in heard_of(frames).iter().zip(&frames[1..]) {
        assert_eq!(heard.voices.horn > 0.0, frame.horn);
    }
    assert!(frames.iter().any(|f| f.horn));
}

#[test]
fn harder_braking_is_louder_and_higher_and_begins_with_a_click() {
    let rolls = next(&still("straight"), |f| f.speed = 1.5);
    let brakes =
        |deceleration: f64| next(&rolls, |f| (f.braking, f.deceleration) = (true, deceleration));
    let (gentle, hard) = (hear(Some(&rolls), &brakes(0.8)), hear(Some(&rolls), &brakes(3.0)));
    assert!(hard.voices.brake.gain > gentle.voices.brake.gain);
    assert!(hard.voices.brake.middle > gentle.voices.brake.middle);
    assert!((300.0..=900.0).contains(&hard.voices.brake.middle));
    assert_eq!(hard.once, [Once::BrakeOn]);
    assert_eq!(once(&brakes(3.0), |_| ()), [], "it goes on without another");
    assert_eq!(once(&still("straight"), |f| f.braking = true), [], "nor at rest");
}

#[test]
fn sliding_wheels_lifting_and_sinking_forks_are_heard() {
    let rest = still("straight");
    let voices = |change: fn(&mut Frame)| hear(Some(&rest), &next(&rest, change)).voices;
    let spins = voices(|f| f.drive_wheel_slips = true).slip;
    let slides = voices(|f| (f.drive_wheel_slips, f.speed) = (true, 1.0)).slip;
    assert!(0.0 < spins && spins < slides);
    let lifts = voices(|f| f.fork_height += 0.001);
    assert_eq!((lifts.pump, lifts.valve), (1.0, 0.0));
    let high = next(&rest, |f| f.fork_height = 0.1);
    let sinks = hear(Some(&high), &next(&high, |f| f.fork_height -= 0.001)).voices;
    assert_eq!((sinks.pump, sinks.valve), (0.0, 1.0));
}

#[test]
fn what_happens_once_is_heard_once() {
    let rest = still("straight");
    assert_eq!(hear(None, &rest).once, [Once::StartUp], "a drive begins");
    assert!(once(&rest, |_| ()).is_empty());
    let off = next(&rest, |f| f.key_on = false);
    assert_eq!(once(&off, |f| f.key_on = true), [Once::StartUp]);

    let joint = next(&rest, |f| (f.truck.at, f.speed) = (vec2(1.2, 5.0), 2.0));
    assert_eq!(once(&joint, |f| f.truck.at.x = 1.26), [Once::Joint(1.0)]);
    assert_eq!(once(&joint, |f| f.truck.at.x = 1.24), []);

    let knock = |before: &Frame| once(before, |f| f.knock = 0.75);
    assert_eq!(knock(&rest), [Once::Knock(0.5)]);
    assert_eq!(knock(&next(&rest, |f| f.knock = 0.75)), [], "it leans there");
    assert_eq!(once(&rest, |f| f.knock = 0.01), [], "it only comes to rest there");

    let case = CaseFrame { pose: rest.truck, size: vec2(0.4, 0.3) };
    let fallen = once(&rest, |f| f.cases = [case; 3].into());
    assert_eq!(fallen, [Once::Case(3), Once::Case(4), Once::Case(5)]);
}

#[test]
fn a_cone_is_heard_when_it_falls() {
    let stands = still("figure-eight");
    let fall = |f: &mut Frame| {
        let mut cones = f.cones.to_vec();
        cones[1].fallen_towards = Some(1.0);
        f.cones = cones.into();
    };
    assert_eq!(once(&stands, fall), [Once::Cone]);
    assert_eq!(once(&next(&stands, fall), |_| ()), [], "and not while it lies");
}

#[test]
fn another_horn_comes_from_its_side_and_is_dull_when_it_is_hidden() {
    let rest = still("straight");
    let at = |bearing: f64, away: f64, seen: bool, head: f64| {
        let way = rest.truck.heading + bearing;
        let pose =
            Pose { at: rest.eye + coneyard_core::math::Vec2::from_angle(way) * away, heading: 0.0 };
        let far = OtherFrame { other: 0, pose, seen, horn: true };
        let now = next(&rest, |f| (f.others, f.head) = ([far].into(), head));
        hear(Some(&rest), &now).voices.others[0]
    };
    let quarter = core::f64::consts::FRAC_PI_2;
    assert!((at(quarter, 5.0, true, 0.0).pan + 1.0).abs() < 1e-6, "on the left");
    assert!((at(-quarter, 5.0, true, 0.0).pan - 1.0).abs() < 1e-6, "on the right");
    assert!(at(quarter, 5.0, true, quarter).pan.abs() < 1e-6, "the head is turned to it");
    assert!(at(0.0, 5.0, true, 0.0).gain > 2.0 * at(0.0, 40.0, true, 0.0).gain);
    assert!(at(0.0, 5.0, true, 0.0).cutoff > 4.0 * at(0.0, 5.0, false, 0.0).cutoff);
}

#[test]
fn other_trucks_sound_their_horns_when_they_set_off() {
    let playback = ridden("head-on");
    let frames = playback.frames();
    let horns: Vec<u32> =
        frames.iter().filter(|f| f.others.iter().any(|o| o.horn)).map(|f| f.tick).collect();
    let first = frames.iter().position(|f| f.others.iter().any(|o| o.horn)).unwrap();
    let at = |i: usize| frames[i].others[0].pose.at;
    assert_eq!(at(first - 1), at(0), "it stands until then");
    assert!((at(first + TICK_RATE as usize) - at(0)).length() > 0.1, "and then it drives");
    assert!(horns.len() as u32 >= TICK_RATE / 2, "{horns:?}");
    assert!(horns.len() * 3 < frames.len(), "no horn goes on and on");
}

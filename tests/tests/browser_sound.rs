//! A recorded drive as a wave, rendered by Chromium: it is as high as the truck is fast, the horn sounds when
//! it was sounded, and at rest there is nothing. The waves are kept in `sounds/` of cargo's target folder, for
//! a person to listen to.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use coneyard_core::run::Run;
use coneyard_core::time::DT;
use coneyard_core::yard::frame::Frame;
use coneyard_sim::drive_again;
use coneyard_tests::browser::{Size, Yard, places, target_folder};
use coneyard_tests::drives::ridden;
use coneyard_tests::wave::{Wave, to_file};
use serde_json::json;

/// Samples a second.
const RATE: u32 = 16_000;

/// Renders the run that is given, and hands it over as 16-bit samples, left and right in turn.
const RENDER: &str = "
    const address = document.querySelector('meta[name=\"coneyard-canvas\"]').content;
    const module = await import(new URL(address, document.baseURI));
    await module.default();
    const wave = await module.render_sound(args[0], args[1]);
    const sides = [wave.getChannelData(0), wave.getChannelData(1)];
    const samples = new Int16Array(2 * wave.length);
    for (let i = 0; i < samples.length; i += 1) {
        samples[i] = Math.round(32767 * Math.max(-1, Math.min(1, sides[i % 2][i >> 1])));
    }
    const bytes = new Uint8Array(samples.buffer);
    let text = '';
    for (let i = 0; i < bytes.length; i += 8192) {
        text += String.fromCharCode(...bytes.subarray(i, i + 8192));
    }
    return btoa(text);";

/// The Frames of a recorded run, from its start.
fn frames(run: &str) -> Vec<Frame> {
    let run = Run::parse("the run", run.as_bytes()).unwrap();
    let mut frames = Vec::new();
    drive_again(&run, |session| frames.push(session.frame())).unwrap();
    frames
}

/// The wave of a run, also kept as a file.
async fn rendered(yard: &Yard, name: &str, run: &str) -> Wave {
    yard.open("#/").await;
    yard.wait_for("main h1").await;
    let given = vec![json!(run), json!(RATE)];
    let text = yard.script(RENDER, given).await.unwrap();
    let bytes = BASE64_STANDARD.decode(text.as_str().unwrap()).unwrap();
    let folder = target_folder().join("sounds");
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join(format!("{name}.wav")), to_file(&bytes, RATE)).unwrap();
    Wave::of(&bytes, RATE)
}

/// Runs of ticks in which something is so, as times of their begin and end, s.
fn spells(frames: &[Frame], is: impl Fn(&Frame) -> bool) -> Vec<(f64, f64)> {
    let mut spells: Vec<(f64, f64)> = Vec::new();
    for frame in frames.iter().filter(|f| is(f)) {
        let at = f64::from(frame.tick) * DT;
        match spells.last_mut() {
            Some((_, end)) if at - *end < 1.5 * DT => *end = at + DT,
            _ => spells.push((at, at + DT)),
        }
    }
    spells
}

/// All Frames of these seconds are so.
fn all(frames: &[Frame], from: f64, to: f64, is: impl Fn(&Frame) -> bool) -> bool {
    let tick = |s: f64| ((s / DT).max(0.0) as usize).min(frames.len());
    frames[tick(from)..tick(to)].iter().all(is)
}

fn nothing_else_sounds(f: &Frame) -> bool {
    !f.horn && !f.braking && !f.plugging && !f.drive_wheel_slips && !f.load_wheels_slip
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_motor_is_as_high_as_the_truck_is_fast() {
    let yard = Yard::start(Size::SMALL, "en").await;
    let run = ridden("figure-eight", "single", "model", 1);
    let (wave, frames) = (rendered(&yard, "figure-eight", &run).await, frames(&run));
    let long = 0.1;
    let mut heard: Vec<(f64, f64)> = Vec::new();
    for i in 1..(frames.len() as f64 * DT / long) as usize - 1 {
        let from = i as f64 * long;
        let speed = frames[((from + 0.5 * long) / DT) as usize].speed.abs();
        let steady = |f: &Frame| {
            (f.speed.abs() - speed).abs() < 0.06 && speed > 0.3 && nothing_else_sounds(f)
        };
        if all(&frames, from - 0.05, from + long, steady) {
            heard.push((60.0 + 180.0 * speed, wave.loudest(from, from + long, 50.0..700.0)));
        }
    }
    assert!(heard.len() >= 20, "{heard:?}");
    for (wanted, is) in &heard {
        assert!((is / wanted - 1.0).abs() < 0.04, "{is} Hz instead of {wanted}: {heard:?}");
    }
    let pitches = heard.iter().map(|(_, is)| *is);
    let (low, high) = pitches.fold((f64::MAX, 0.0_f64), |(l, h), p| (l.min(p), h.max(p)));
    println!("{} places, {low:.0} to {high:.0} Hz", heard.len());
    assert!(high > 2.0 * low, "it was driven at one speed only: {low} to {high} Hz");
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_horn_sounds_when_it_was_sounded() {
    let yard = Yard::start(Size::SMALL, "en").await;
    let run = ridden("straight", "single", "model", 1);
    let (wave, frames) = (rendered(&yard, "straight", &run).await, frames(&run));
    let sounded = spells(&frames, |f| f.horn);
    assert!(!sounded.is_empty());
    // Both of its tones are there, and neither the motor nor a cone has the two.
    let step = 0.01;
    let is_horn =
        |from: f64| [410.0, 515.0].iter().all(|pitch| wave.level(from, from + 0.04, *pitch) > 0.08);
    let count = (wave.lasts() / step) as usize;
    let mut heard: Vec<(f64, f64)> = Vec::new();
    for from in (0..count).map(|i| i as f64 * step).filter(|from| is_horn(*from)) {
        match heard.last_mut() {
            Some((_, end)) if from - *end < 0.06 => *end = from + 0.04,
            _ => heard.push((from, from + 0.04)),
        }
    }
    println!("sounded {sounded:?}, heard {heard:?}");
    assert_eq!(heard.len(), sounded.len(), "sounded {sounded:?}, heard {heard:?}");
    for (was, is) in sounded.iter().zip(&heard) {
        assert!((was.0 - is.0).abs() < 0.06 && (was.1 - is.1).abs() < 0.06, "{was:?}, {is:?}");
    }
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn at_rest_there_is_nothing_and_braking_is_heard() {
    let yard = Yard::start(Size::SMALL, "en").await;
    let run = ridden("emergency-stops", "single", "model", 1);
    let (wave, frames) = (rendered(&yard, "emergency-stops", &run).await, frames(&run));
    // What begins once has rung out after half a second.
    let height = |tick: u32| frames[tick.saturating_sub(1) as usize].fork_height;
    let forks_stand = |f: &Frame| f.fork_height == height(f.tick);
    let rests =
        spells(&frames, |f| f.speed == 0.0 && forks_stand(f) && nothing_else_sounds_at_rest(f));
    let long: Vec<_> = rests.iter().filter(|(from, to)| to - from > 0.8).collect();
    assert!(!long.is_empty(), "{rests:?}");
    for (from, to) in long {
        let left = wave.strength(from + 0.6, *to);
        assert!(left < 1e-4, "{left} from {from} s to {to} s");
    }
    let moves = frames.iter().find(|f| f.speed.abs() > 1.0).unwrap();
    let from = f64::from(moves.tick) * DT;
    assert!(wave.strength(from, from + 0.2) > 0.02, "the truck is heard");
    let braked = spells(&frames, |f| f.braking && f.speed.abs() > 0.5);
    let (from, to) = braked[0];
    let noise = wave.noise(from, to, 300.0..900.0);
    let before = wave.noise(from - (to - from), from, 300.0..900.0);
    assert!(noise > 3.0 * before, "{noise} while braking, {before} before");
}

fn nothing_else_sounds_at_rest(f: &Frame) -> bool {
    !f.horn && !f.drive_wheel_slips && !f.load_wheels_slip && f.others.iter().all(|o| !o.horn)
}

/// Has the page remember every loudspeaker that it opens.
const REMEMBER: &str = "
    globalThis.speakers = [];
    globalThis.AudioContext = class extends AudioContext {
        constructor(...given) {
            super(...given);
            globalThis.speakers.push(this);
        }
    };";

/// A page whose loudspeakers are remembered, at a drive that has begun.
async fn at_a_drive() -> Yard {
    let yard = Yard::start(Size::SMALL, "en").await;
    let source = json!({ "source": REMEMBER });
    yard.devtools("Page.addScriptToEvaluateOnNewDocument", source).await;
    yard.open("#/drive/straight/single").await;
    yard.wait_for(places::DRIVING).await;
    yard
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn it_is_off_until_asked_for_and_one_key_switches_it() {
    let yard = at_a_drive().await;
    yard.wait_for("#first-sound[aria-pressed=false]").await;
    yard.settle().await;
    assert!(yard.is("speakers.length === 0").await, "nothing sounds unasked");
    yard.client.active_element().await.unwrap().send_keys("m").await.unwrap();
    yard.wait_for("#first-sound[aria-pressed=true]").await;
    yard.wait_until("speakers.length === 1 && speakers[0].state === 'running'").await;
    yard.client.active_element().await.unwrap().send_keys("m").await.unwrap();
    yard.wait_for("#first-sound[aria-pressed=false]").await;
    yard.wait_until("speakers[0].state === 'closed'").await;
    yard.click("#first-sound").await;
    yard.wait_until("speakers.length === 2 && speakers[1].state === 'running'").await;
    assert!(yard.console_errors().await.is_empty());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn what_is_held_still_is_silent() {
    let yard = at_a_drive().await;
    // An ear beside the loudspeaker: the same graph, read instead of played.
    let listen = "
        const speaker = speakers.at(-1);
        const ear = speaker.createAnalyser();
        ear.fftSize = 2048;
        const connect = AudioNode.prototype.connect;
        globalThis.loud = () => {
            const wave = new Float32Array(ear.fftSize);
            ear.getFloatTimeDomainData(wave);
            return Math.max(...wave.map(Math.abs));
        };
        connect.call(globalThis.into_speaker, ear);";
    let remember = "
        const connect = AudioNode.prototype.connect;
        AudioNode.prototype.connect = function (to, ...more) {
            if (to === this.context.destination) globalThis.into_speaker = this;
            return connect.call(this, to, ...more);
        };";
    yard.script(remember, Vec::new()).await.unwrap();
    yard.client.active_element().await.unwrap().send_keys("m").await.unwrap();
    yard.wait_until("globalThis.into_speaker !== undefined").await;
    yard.script(listen, Vec::new()).await.unwrap();
    let hold =
        "document.dispatchEvent(new KeyboardEvent(args[0], { code: args[1], bubbles: true }));";
    let key = async |kind: &str, code: &str| {
        yard.script(hold, vec![json!(kind), json!(code)]).await.unwrap();
    };
    key("keydown", "KeyW").await;
    yard.wait_until("loud() > 0.01").await;
    key("keydown", "KeyP").await;
    yard.wait_until("loud() < 0.0005").await;
    key("keyup", "KeyW").await;
    key("keydown", "KeyP").await;
    key("keydown", "KeyH").await;
    yard.wait_until("loud() > 0.05").await;
}

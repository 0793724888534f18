//! The pre-test in a real browser: begun, driven by key events, killed half-way through a part, gone
//! on with where it was, saved, and judged natively. Nothing is lost and nothing is driven twice.
//!
//! Simulated time never runs faster than real time, so a whole sitting takes a quarter of an hour.
//! With the variable CONEYARD_WHOLE_SITTING set it is taken whole; otherwise it is given up after
//! its second part, in which the tab is killed.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use coneyard_core::desk::{Mode, Status};
use coneyard_core::pretest::{Outcome, Part, Reason, Sitting, count, draw};
use coneyard_core::rules::SHIPPED;
use coneyard_tests::browser::keyboard::{Keyboard, tap};
use coneyard_tests::browser::mirror::Mirror;
use coneyard_tests::browser::{Size, Yard, coneyard, places};
use coneyard_tests::key_hands::KeyHands;
use coneyard_tests::key_rider::Held;
use serde_json::Value;

const STATUS: &str = "JSON.parse(coneyard.status())";
/// The class as it is typed, and as it is drawn from.
const TYPED: &str = "Grey  Heron";
const WORD: &str = "grey-heron";
const SEAT: u32 = 4;
/// Not the one that is chosen when nobody chooses.
const TRUCK: &str = "double";
/// One person's hand in all parts.
const HAND: u64 = 1;
/// The part, from 0, in which the tab is killed, and when, ticks.
const KILLED_IN: usize = 1;
const KILLED_AT: u32 = 10 * 64;
/// A part that lasts longer is ended there: what counts here is that it counts.
const LONGEST_PART: Duration = Duration::from_secs(900);

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_pre_test_is_driven_with_keys_killed_gone_on_with_and_judged_natively() {
    let whole = std::env::var_os("CONEYARD_WHOLE_SITTING").is_some();
    let parts = draw(WORD, SEAT, TRUCK);
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/settings").await;
    Mirror::listen(&yard).await;

    yard.go("#/pre-test").await;
    yard.wait_for(places::BEGIN_PRE_TEST).await;
    yard.wait_for(places::CLASS_WORD).await.send_keys(TYPED).await.unwrap();
    yard.wait_for(places::SEAT).await.send_keys(&SEAT.to_string()).await.unwrap();
    yard.click(places::PRE_TEST_DOUBLE).await;
    yard.click(places::BEGIN_PRE_TEST).await;
    begun(&yard).await;
    yard.open_more().await;
    // Sound and how near one looks are no help; whatever else can be switched would be one.
    let helps = "#again, #menu [aria-pressed]:not(#sound, #menu-overview)";
    assert!(!yard.is(&format!("document.querySelector('{helps}')")).await);
    yard.click(places::MORE).await;
    the_one_pause(&yard).await;
    drive(&yard, &parts[0], |_| false).await;
    until_driven(&yard, 1).await;

    yard.click(places::NEXT_PART).await;
    begun(&yard).await;
    let killed = drive(&yard, &parts[KILLED_IN], |status| status.tick >= KILLED_AT).await;
    yard.crash_tab().await;

    yard.open("#/").await;
    yard.click(places::GO_ON_PRE_TEST).await;
    until_driven(&yard, KILLED_IN).await;
    Mirror::listen(&yard).await;
    yard.click(places::NEXT_PART).await;
    begun(&yard).await;
    yard.wait_until(&format!("{STATUS}.paused")).await;
    let again = yard.script(&format!("return {STATUS}.tick;"), Vec::new()).await.unwrap();
    let again = u32::try_from(again.as_u64().unwrap()).unwrap();
    // The last half second may be missing, and what a slow machine was late with.
    assert!(again + 96 >= killed, "driven up to {killed}, gone on with from {again}");
    tap(&yard, 'p').await;
    drive(&yard, &parts[KILLED_IN], |_| false).await;

    let until = if whole { count() } else { KILLED_IN + 1 };
    for (n, part) in parts.iter().enumerate().take(until).skip(KILLED_IN + 1) {
        until_driven(&yard, n).await;
        yard.click(places::NEXT_PART).await;
        begun(&yard).await;
        drive(&yard, part, |_| false).await;
    }
    if !whole {
        until_driven(&yard, until).await;
        yard.click(places::GIVE_UP).await;
        yard.click(places::GIVE_UP_SURE).await;
    }
    yard.wait_for(places::PRE_TEST_RESULT).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());

    yard.click(places::SAVE_PRE_TEST).await;
    let file = saved(&yard.downloads).await;
    let sitting = Sitting::parse("the saved pre-test", &std::fs::read(&file).unwrap()).unwrap();
    assert_eq!((sitting.class_word.as_str(), sitting.seat, sitting.pauses), (WORD, SEAT, 1));
    assert_eq!(sitting.truck, TRUCK);
    assert_eq!(sitting.runs().len(), until);
    let gone_on = &sitting.runs()[KILLED_IN];
    assert!(gone_on.ticks() >= again, "what was driven before the tab was killed is in the run");

    let judged = judge(&file);
    for (n, part) in judged["parts"].as_array().unwrap().iter().enumerate() {
        assert_eq!(part["verdict"]["reproduces"], true, "part {}", n + 1);
    }
    let joined = sitting.joined().unwrap();
    assert_eq!(judged["joined"], serde_json::to_value(&joined).unwrap());
    assert_eq!(joined.driven, until);
    if !whole {
        assert_ne!(joined.result, Outcome::Passed);
        assert!(joined.reasons.contains(&Reason::Missing { part: until }), "{joined:?}");
    }
    let shown = "return document.querySelector(args[0]).dataset.result;";
    let shown = yard.script(shown, vec![places::PRE_TEST_RESULT.into()]).await.unwrap();
    assert_eq!(shown, format!("{:?}", joined.result), "{:?}", joined.reasons);
    println!("{:?}, {} parts: {:?}", joined.result, joined.driven, joined.reasons);
}

/// Waits until a part can be driven.
async fn begun(yard: &Yard) {
    yard.wait_for(places::DRIVING).await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive'")).await;
    yard.script("document.getElementById('yard').focus();", Vec::new()).await.unwrap();
}

/// Takes the pause, and asks for another one in vain. A hidden or left page holds still as well,
/// but is not counted.
async fn the_one_pause(yard: &Yard) {
    let paused = format!("{STATUS}.paused");
    let running = format!("!{STATUS}.paused");
    yard.script("window.dispatchEvent(new Event('blur'));", Vec::new()).await.unwrap();
    yard.wait_until(&paused).await;
    tap(yard, 'p').await;
    yard.wait_until(&running).await;
    assert!(!yard.has(places::NO_PAUSE).await, "leaving the page is not counted");
    tap(yard, 'p').await;
    yard.wait_until(&paused).await;
    tap(yard, 'p').await;
    yard.wait_until(&running).await;
    yard.wait_for(places::NO_PAUSE).await;
    tap(yard, 'p').await;
    assert!(!yard.is(&paused).await, "a second pause was given");
}

/// Drives on until the part is over, or until the test has seen enough of it; returns the ticks
/// driven.
async fn drive(yard: &Yard, part: &Part, enough: impl Fn(&Status) -> bool) -> u32 {
    let setup = part.setup("", "2026-01-05T08:00:00Z", SHIPPED).unwrap();
    let mut mirror = Mirror::new(&setup);
    let mut hands = KeyHands::new(&setup, HAND);
    let mut keyboard = Keyboard::default();
    hands.see(mirror.moment());
    if mirror.moment().walk.is_some() {
        yard.take_the_truck().await;
    }
    let begun = Instant::now();
    loop {
        let status = mirror.catch_up_seeing(yard, |moment| hands.see(moment)).await;
        if status.mode != Mode::Drive || status.ending.is_some() {
            break;
        }
        if enough(&status) {
            // The driver would take a key that is down in a dead tab for a repeated one later.
            keyboard.hold(yard, &Held::new()).await;
            return status.tick;
        }
        if begun.elapsed() > LONGEST_PART {
            yard.ask_to_leave().await;
            yard.click(places::END_PART).await;
            break;
        }
        keyboard.hold(yard, &hands.keys(mirror.moment())).await;
    }
    keyboard.hold(yard, &Held::new()).await;
    yard.wait_until("!location.hash.match(/pre-test\\/.*\\//)").await;
    // What is left of this drive must not be taken for the next one's.
    mirror.catch_up(yard).await;
    mirror.moment().tick
}

/// Waits until the page of the pre-test shows exactly so many parts as driven.
async fn until_driven(yard: &Yard, parts: usize) {
    yard.wait_for(places::NEXT_PART).await;
    let driven = format!("document.querySelectorAll('{}').length", places::PART_DRIVEN);
    yard.wait_until(&format!("{driven} === {parts}")).await;
}

/// The file that the browser has saved.
async fn saved(downloads: &Path) -> PathBuf {
    for _ in 0..300 {
        let saved = std::fs::read_dir(downloads)
            .unwrap()
            .flatten()
            .map(|entry| entry.path())
            .find(|path| path.to_string_lossy().ends_with(".sitting.json"));
        if let Some(path) = saved {
            return path;
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    panic!("no pre-test was saved into {}", downloads.display());
}

/// What the native program says of the file; it must not refuse it.
fn judge(file: &Path) -> Value {
    let output = coneyard().arg("judge").arg(file).arg("--json").output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(0), "{said}");
    serde_json::from_slice(&output.stdout).unwrap()
}

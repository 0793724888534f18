//! The whole way in a real browser: the figure-eight driven with the keyboard, its debrief, its
//! replay, the exported file, and the native judge's word on it.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use coneyard_core::course::shipped;
use coneyard_core::debrief::Ending;
use coneyard_core::desk::Mode;
use coneyard_core::run::Run;
use coneyard_core::run::Verdict;
use coneyard_core::truck::spec;
use coneyard_tests::browser::keyboard::{Keyboard, tap};
use coneyard_tests::browser::mirror::Mirror;
use coneyard_tests::browser::{Size, Yard, coneyard, places};
use coneyard_tests::drives::setup;
use coneyard_tests::key_rider::{Held, KeyRider};
use fantoccini::key::Key;

/// Far longer than the drive takes on a slow machine.
const LONGEST_DRIVE: Duration = Duration::from_secs(1500);

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_figure_eight_is_driven_with_the_keyboard_and_judged_natively() {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/settings").await;
    Mirror::listen(&yard).await;

    yard.go("#/drive/figure-eight/single").await;
    yard.wait_until("JSON.parse(coneyard.status()).mode === 'drive'").await;
    // Half of real time, so that a slow picture costs little.
    yard.wait_for(places::DRIVING).await;
    yard.halve_pace().await;
    yard.script("document.getElementById('yard').focus();", Vec::new()).await.unwrap();

    let mirror = drive(&yard).await;
    assert!(mirror.moment().task.done, "{:?}", mirror.moment().task);

    yard.debrief_opens().await;
    yard.wait_for(places::ENDING).await;
    yard.wait_for(places::REPRODUCES).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());

    // What still moves could take the button from under the pointer.
    yard.settle().await;
    yard.click(places::EXPORT).await;
    let file = exported(&yard).await;
    let run = std::fs::read(&file).unwrap();
    let run = Run::parse("the exported run", &run).unwrap();
    assert_eq!(run.ticks(), mirror.moment().tick, "the twin saw the same drive");
    assert_eq!(run.claimed.ending, Ending::Done);
    let verdict = judge(&file);
    assert!(verdict.reproduces, "{verdict:?}");
    assert_eq!(verdict.debrief, run.claimed);

    replay(&yard, &run).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

/// Drives until the page has left the drive.
async fn drive(yard: &Yard) -> Mirror {
    let mut mirror = Mirror::new(&setup("figure-eight", "single", 1));
    let mut rider = KeyRider::new(&shipped::parse("figure-eight"), &spec::shipped::single());
    let mut keyboard = Keyboard::default();
    let begun = Instant::now();
    loop {
        let status = mirror.catch_up(yard).await;
        if status.mode != Mode::Drive || status.ending.is_some() {
            break;
        }
        assert!(!status.task.failed, "the task failed: {status:?}");
        assert!(begun.elapsed() < LONGEST_DRIVE, "still driving: {status:?}");
        let keys = rider.keys(mirror.moment());
        keyboard.hold(yard, &keys).await;
    }
    keyboard.hold(yard, &Held::new()).await;
    mirror.catch_up(yard).await;
    mirror
}

/// The file that the browser has saved.
async fn exported(yard: &Yard) -> PathBuf {
    for _ in 0..300 {
        let saved = std::fs::read_dir(&yard.downloads)
            .unwrap()
            .flatten()
            .map(|entry| entry.path())
            .find(|path| path.to_string_lossy().ends_with(".run.json"));
        if let Some(path) = saved {
            return path;
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    panic!("no run was saved; {}", yard.what_is_shown().await);
}

/// What the native program says of the run; it must not refuse it.
fn judge(file: &Path) -> Verdict {
    let output = coneyard().arg("judge").arg(file).arg("--json").output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(0), "{said}");
    serde_json::from_slice(&output.stdout).unwrap()
}

/// Opens the replay from the debrief, plays it a little and jumps to its end.
async fn replay(yard: &Yard, run: &Run) {
    yard.click(places::TO_REPLAY).await;
    yard.wait_until("JSON.parse(coneyard.status()).mode === 'replay'").await;
    yard.wait_for(places::PLAY).await;
    let last = run.ticks();
    yard.wait_until(&format!("JSON.parse(coneyard.status()).last_tick === {last}")).await;
    yard.script("document.getElementById('yard').focus();", Vec::new()).await.unwrap();
    tap(yard, ' ').await;
    yard.wait_until("JSON.parse(coneyard.status()).tick > 64").await;
    tap(yard, char::from(Key::End)).await;
    yard.wait_until(&format!("JSON.parse(coneyard.status()).tick === {last}")).await;
}

//! Someone struck ends the drive in the browser too: it stops, says so before anything else is shown, and
//! offers to start again.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::debrief::Ending;
use coneyard_core::run::{Driven, Run, Timing};
use coneyard_sim::ride;
use coneyard_tests::browser::keyboard::tap;
use coneyard_tests::browser::{Size, Yard, places, target_folder};
use coneyard_tests::drives::setup;
use serde_json::json;

const STATUS: &str = "JSON.parse(coneyard.status())";

/// A drive in which somebody is struck, by a rider who never brakes for people.
fn struck() -> Run {
    let runs = (1..200).map(|seed| {
        ride(&setup("person-ahead", "single", seed), "never-brakes-for-people").unwrap()
    });
    let mut struck = runs.filter(|run| run.claimed.ending == Ending::Struck);
    struck.next().expect("somebody is struck sooner or later")
}

/// What was driven up to shortly before its end.
fn almost_all(run: &Run) -> Driven {
    let mut left = run.ticks() - 6;
    let mut pairs = Vec::new();
    for span in &run.controls {
        let ticks = span.ticks.min(left);
        left -= ticks;
        if ticks > 0 {
            pairs.extend([span.controls.to_bits(), ticks]);
        }
    }
    Driven { pairs, acts: Vec::new() }
}

/// Whatever drive the page opens, it is this one, as far as it was driven.
const INSTEAD: &str = "
    const { setup, driven, timing } = args[0];
    const on = coneyard.drive_on;
    coneyard.drive = () => on(...[setup, driven, timing].map((what) => JSON.stringify(what)));";

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_person_struck_stops_the_drive_and_it_says_so() {
    let run = struck();
    let driven = almost_all(&run);
    let timing = Timing::unknown(driven.ticks());
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/path").await;
    yard.wait_for(places::EXERCISE).await;
    let given = json!({ "setup": run.setup, "driven": driven, "timing": timing });
    yard.script(INSTEAD, vec![given]).await.unwrap();
    yard.go("#/drive/slalom/single").await;
    yard.wait_for(places::DRIVING).await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive' && {STATUS}.paused")).await;
    assert!(!yard.has(places::STRUCK).await);
    tap(&yard, 'p').await;

    yard.wait_for(places::STRUCK).await;
    assert!(yard.is(&format!("{STATUS}.ending === 'struck'")).await);
    assert!(yard.is("document.activeElement.getAttribute('role') === 'alertdialog'").await);
    let then = yard.script(&format!("return {STATUS}.tick;"), Vec::new()).await.unwrap();
    yard.settle().await;
    assert!(yard.is(&format!("{STATUS}.tick === {then}")).await, "nothing goes on meanwhile");
    assert!(yard.is("location.hash.startsWith('#/drive/')").await);

    // For a person to look at.
    let folder = target_folder().join("screens");
    std::fs::create_dir_all(&folder).unwrap();
    let picture = yard.client.screenshot().await.unwrap();
    std::fs::write(folder.join("struck.png"), picture).unwrap();

    yard.click(places::STRUCK).await;
    yard.wait_until(&format!("!document.querySelector('{}')", places::STRUCK)).await;
    yard.wait_for(places::DRIVING).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

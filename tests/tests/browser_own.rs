//! One's own word before the debrief: asked after a drive that shows something, never of a part of a pre-test or of a
//! file, kept with the attempt over a reload, and shown beside what was found.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_tests::browser::keyboard::{Keyboard, enter, tab_to, tap};
use coneyard_tests::browser::{Size, Yard, places};
use coneyard_tests::drives::ridden;
use coneyard_tests::key_rider::Held;

const STATUS: &str = "JSON.parse(coneyard.status())";

/// Drives straight on over all marks, farther than what shows nothing, and breaks it off.
async fn drives_on(yard: &Yard) {
    yard.open("#/drive/straight/single").await;
    yard.wait_for(places::DRIVING).await;
    assert!(yard.has(".first-keys .welcome").await, "errors are welcome, and it is said");
    let mut keyboard = Keyboard::default();
    keyboard.hold(yard, &Held::from(['w'])).await;
    // The nose of a truck that began at 1 m: thirty metres are behind it.
    yard.wait_until(&format!("{STATUS}.tick > 64 * 21")).await;
    keyboard.hold(yard, &Held::from([])).await;
    yard.ask_to_leave().await;
    yard.click(places::LEAVE_TO_DEBRIEF).await;
    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_own_word_comes_before_the_debrief_and_stands_beside_it() {
    let yard = Yard::start(Size::SMALL, "en").await;
    drives_on(&yard).await;
    yard.wait_for("#own-open").await;
    assert!(!yard.has(".verdict").await, "nothing is told yet");
    // A reload is no way round it.
    yard.reload().await;
    yard.wait_for("#own-open").await;
    assert!(!yard.has(".verdict").await);
    assert!(
        yard.is("document.querySelector('#own-open').disabled").await,
        "not before all is said"
    );
    // By keys alone: each question is one group of two; the first answer of each is "fine".
    let groups = "document.querySelectorAll('.own-questions fieldset').length";
    assert!(yard.is(&format!("{groups} >= 1 && {groups} <= 4")).await);
    tab_to(&yard, ".own-questions li:first-child input").await;
    tap(&yard, ' ').await;
    yard.script(
        "for (const e of document.querySelectorAll('.own-questions li:not(:first-child) label:first-of-type input')) e.click();",
        vec![],
    )
    .await
    .unwrap();
    yard.wait_until("!document.querySelector('#own-open').disabled").await;
    tab_to(&yard, "#own-open").await;
    enter(&yard).await;
    yard.wait_for(".verdict").await;
    yard.wait_for("#own-beside").await;
    let rows = "document.querySelectorAll('#own-beside tbody tr').length";
    assert!(yard.is(&format!("{rows} >= 1")).await);
    // What drove over every mark was not fine, and it is said who did not notice.
    assert!(yard.has("#own-beside tr.missed").await, "{}", yard.what_is_shown().await);
    // It is kept, and asked once.
    yard.settle().await;
    yard.reload().await;
    yard.wait_for("#own-beside").await;
    assert!(!yard.has("#own-open").await);
    // And it counts in what one knows of oneself.
    yard.go("#/progress").await;
    yard.wait_for("#own-progress-title").await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn nobody_has_to_say_anything_and_files_are_not_asked_about() {
    let yard = Yard::start(Size::SMALL, "es").await;
    drives_on(&yard).await;
    yard.click("#own-skip").await;
    yard.wait_for(".verdict").await;
    assert!(!yard.has("#own-beside").await);
    yard.settle().await;
    yard.reload().await;
    yard.wait_for(".verdict").await;
    assert!(!yard.has("#own-skip").await, "it is asked once");

    let path = yard.downloads.join("a.run.json");
    std::fs::write(&path, ridden("figure-eight", "single", "step-across-moving", 3)).unwrap();
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&path.to_string_lossy()).await.unwrap();
    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    yard.wait_for(".verdict").await;
    assert!(!yard.has("#own-skip").await);
}

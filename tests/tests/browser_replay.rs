//! The replay on a projector: the yard has the screen, marks never lie on each other, and the finding that is clicked
//! is the one that is told.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_tests::browser::{Size, Yard, places};
use coneyard_tests::drives::ridden;

const PROJECTOR: Size = Size { width: 1920, height: 1080 };

/// Opens the replay of a drive in which things are found at the same tick.
async fn open(yard: &Yard) {
    let path = yard.downloads.join("figure-eight.run.json");
    std::fs::write(&path, ridden("figure-eight", "single", "step-across-moving", 3)).unwrap();
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&path.to_string_lossy()).await.unwrap();
    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    yard.script("location.hash = location.hash.replace('debrief', 'replay');", Vec::new())
        .await
        .unwrap();
    yard.wait_for(places::PLAY).await;
    yard.wait_for(".mark-button").await;
    yard.settle().await;
}

const OVERLAPS: &str = "(() => {
    const boxes = [...document.querySelectorAll('.mark-button')].map((b) => b.getBoundingClientRect());
    return boxes.some((a, n) => boxes.slice(0, n).some((b) => a.left < b.right - 0.5
        && b.left < a.right - 0.5 && a.top < b.bottom - 0.5 && b.top < a.bottom - 0.5));
})()";

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn in_full_screen_the_yard_has_three_quarters_of_a_projector() {
    let yard = Yard::start(PROJECTOR, "en").await;
    open(&yard).await;
    assert!(!yard.is(OVERLAPS).await, "no mark lies on another");
    yard.click("#full-screen").await;
    yard.wait_until("document.fullscreenElement !== null").await;
    yard.settle().await;
    let share = yard
        .script(
            "const box = document.querySelector('.stage').getBoundingClientRect();
             return box.width * box.height / (innerWidth * innerHeight);",
            Vec::new(),
        )
        .await
        .unwrap();
    assert!(share.as_f64().unwrap() >= 0.75, "the yard has {share} of the screen");
    assert!(!yard.is(OVERLAPS).await, "no mark lies on another");
    let seen = "document.querySelector('.axis').getBoundingClientRect().bottom <= innerHeight + 1";
    assert!(yard.is(seen).await, "the timeline is on the screen");
    yard.resize(Size { width: 390, height: 844 }).await;
    yard.settle().await;
    assert!(!yard.is(OVERLAPS).await, "nor on a phone");
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_finding_that_is_clicked_is_told_and_no_other() {
    let yard = Yard::start(Size { width: 1280, height: 800 }, "en").await;
    open(&yard).await;
    let names = "[...document.querySelectorAll('.jumps .jump > span:last-child')].map((s) => s.textContent)";
    let count = yard.script(&format!("return ({names}).length;"), Vec::new()).await.unwrap();
    for n in 1..=count.as_u64().unwrap() {
        yard.click(&format!(".jumps li:nth-of-type({n}) .jump")).await;
        let told =
            "[...document.querySelectorAll('.messages .message strong')].map((s) => s.textContent)";
        let expected = format!("JSON.stringify({told}) === JSON.stringify([({names})[{}]])", n - 1);
        yard.wait_until(&expected).await;
    }
    // Horn and gentle start begin at the same tick: the test would be none without.
    let same =
        "(() => { const t = [...document.querySelectorAll('.jumps time')].map((t) => t.dateTime);
        return t.some((a, n) => t.indexOf(a) !== n); })()";
    assert!(yard.is(same).await, "two findings begin at the same tick");
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

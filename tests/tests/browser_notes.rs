//! Notes pinned to moments of a drive, and every moment of one kind: pinned in the replay, kept over a reload, told in
//! the debrief and on paper, each with an address of its own.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_tests::browser::{Size, Yard, places};
use coneyard_tests::drives::ridden;

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_note_stays_at_its_moment_and_a_kind_leads_to_all_of_its_moments() {
    let yard = Yard::start(Size { width: 1280, height: 800 }, "en").await;
    let path = yard.downloads.join("a.run.json");
    std::fs::write(&path, ridden("figure-eight", "single", "step-across-moving", 3)).unwrap();
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&path.to_string_lossy()).await.unwrap();
    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    yard.wait_for(".verdict").await;
    let debrief = yard.script("return location.hash;", vec![]).await.unwrap();
    let debrief = debrief.as_str().unwrap().to_owned();
    let replay = debrief.replace("debrief", "replay");

    // Ten seconds in, the space bar is a space in a note and plays nothing.
    yard.open(&format!("{replay}/640")).await;
    yard.wait_for(places::PLAY).await;
    yard.wait_until("JSON.parse(coneyard.status()).tick >= 640").await;
    yard.wait_for("#note-text").await.send_keys("Look left first.").await.unwrap();
    assert!(
        yard.is("JSON.parse(coneyard.status()).paused").await,
        "it stands while somebody writes"
    );
    yard.click("#note-pin").await;
    yard.wait_for(".note-list li").await;
    assert!(yard.is("document.querySelector('#note-text').value === ''").await);
    yard.settle().await;

    // It is kept, and leads to its moment.
    yard.open(&debrief).await;
    yard.wait_for(".noted li").await;
    let text = "document.querySelector('.noted li').textContent.includes('Look left first.')";
    assert!(yard.is(text).await);
    let link =
        yard.script("return document.querySelector('.noted a').hash;", vec![]).await.unwrap();
    let at: u32 = link.as_str().unwrap().rsplit('/').next().unwrap().parse().unwrap();
    assert!(at >= 640, "{link}");
    yard.go(&debrief.replace("debrief", "print")).await;
    yard.wait_for(".sheet .noted li").await;

    // Every stride across at speed, one after the other.
    yard.go("#/moments").await;
    yard.click("a[href='#/moments/stepped-across-moving']").await;
    yard.wait_until("document.querySelectorAll('.moment-list li').length === 3").await;
    yard.click(".moment-list li:nth-child(2) a").await;
    yard.wait_until("location.hash.startsWith('#/replay/')").await;
    yard.wait_for(places::PLAY).await;

    // A note that is deleted is gone.
    yard.open(&format!("{replay}/640")).await;
    yard.wait_for(".note-list li").await;
    yard.click(".note-list .actions > button").await;
    yard.click(".note-list .answers button:last-of-type").await;
    yard.wait_until("!document.querySelector('.note-list li')").await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

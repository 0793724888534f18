//! A drive whose tab is closed in the middle is not lost: it is offered again, goes on from where
//! it was, and ends as a run that reproduces.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_tests::browser::keyboard::Keyboard;
use coneyard_tests::browser::{Size, Yard, places};
use coneyard_tests::key_rider::Held;
use serde_json::Value;

const STATUS: &str = "JSON.parse(coneyard.status())";

async fn tick(yard: &Yard) -> u64 {
    let tick = yard.script(&format!("return {STATUS}.tick;"), Vec::new()).await;
    tick.as_ref().ok().and_then(Value::as_u64).expect("the yard tells its tick")
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_drive_cut_off_by_closing_the_tab_is_offered_and_driven_on() {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/drive/slalom/single").await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive'")).await;
    let mut keyboard = Keyboard::default();
    keyboard.hold(&yard, &Held::from(['w'])).await;
    yard.wait_until(&format!("{STATUS}.tick > 192 && {STATUS}.truck.speed > 0.5")).await;
    let driven = tick(&yard).await;

    // Without a word of farewell: another tab is there, and this one is closed.
    let closing = yard.client.window().await.unwrap();
    let other = yard.client.new_window(true).await.unwrap().handle;
    yard.client.switch_to_window(closing).await.unwrap();
    yard.client.close_window().await.unwrap();
    yard.client.switch_to_window(other).await.unwrap();

    yard.open("#/path").await;
    let href = yard.wait_for(places::GO_ON).await;
    let href = href.attr("href").await.unwrap().unwrap();
    yard.click(places::GO_ON).await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive'")).await;
    yard.wait_until(&format!("{STATUS}.paused")).await;
    let again = tick(&yard).await;
    // The last half second may be missing, and what a slow machine was late with.
    assert!(again + 96 >= driven, "driven up to {driven}, offered from {again}");

    let mut keyboard = Keyboard::default();
    keyboard.hold(&yard, &Held::from(['p'])).await;
    keyboard.hold(&yard, &Held::from([' '])).await;
    yard.wait_until(&format!("{STATUS}.tick > {again} + 64")).await;
    keyboard.hold(&yard, &Held::new()).await;
    yard.click(places::LEAVE).await;
    yard.click(places::LEAVE_TO_DEBRIEF).await;
    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    yard.wait_for(places::REPRODUCES).await;
    assert!(href.ends_with(&id(&yard).await), "it is the same drive");

    yard.open("#/path").await;
    yard.wait_for(places::EXERCISE).await;
    assert!(!yard.has(places::GO_ON).await, "it is offered once");
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

async fn id(yard: &Yard) -> String {
    let id = yard.script("return location.hash.split('/').pop();", Vec::new()).await.unwrap();
    id.as_str().unwrap_or_default().to_owned()
}

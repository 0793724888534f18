//! A drive whose tab is closed in the middle is not lost: it is offered again, goes on from where
//! it was, and ends as a run that reproduces.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::run::Run;
use coneyard_tests::browser::keyboard::{Keyboard, tap};
use coneyard_tests::browser::stored::{dump, records};
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
    yard.ask_to_leave().await;
    yard.click(places::LEAVE_TO_DEBRIEF).await;
    yard.debrief_opens().await;
    yard.wait_for(places::REPRODUCES).await;
    assert!(href.ends_with(&id(&yard).await), "it is the same drive");

    yard.open("#/path").await;
    yard.wait_for(places::EXERCISE).await;
    assert!(!yard.has(places::GO_ON).await, "it is offered once");
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

/// A drive goes on as it was: with the key off, as slow as it was, and in one tab alone.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_drive_goes_on_as_it_was_and_in_one_tab_only() {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/drive/slalom/single").await;
    yard.wait_for(places::DRIVING).await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive'")).await;
    yard.halve_pace().await;
    yard.wait_until(&format!("{STATUS}.pace === 0.5 && {STATUS}.tick > 64")).await;
    // Pictures that come far too late: most of their time is lost for good.
    let late = "for (let i = 0; i < 4; i += 1) {
        const begun = performance.now();
        while (performance.now() - begun < 1500);
        await new Promise((drawn) => requestAnimationFrame(drawn));
    }";
    yard.script(late, Vec::new()).await.unwrap();
    yard.script("document.getElementById('yard').focus();", Vec::new()).await.unwrap();
    tap(&yard, KEY).await;
    yard.wait_until(&format!("!{STATUS}.truck.key_on")).await;
    let then = tick(&yard).await;
    yard.wait_until(&format!("{STATUS}.tick > {then} + 64")).await;
    let slow = number(&yard, "time_ratio").await;
    assert!(slow < 0.9, "{slow}");
    yard.crash_tab().await;

    yard.open("#/path").await;
    yard.click(places::GO_ON).await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive' && {STATUS}.paused")).await;
    assert!(yard.is(&format!("!{STATUS}.truck.key_on")).await, "the key is off");
    let gone_on = number(&yard, "time_ratio").await;
    // What went by after the last piece was kept is not known.
    assert!((gone_on - slow).abs() < 0.1, "{slow} before, {gone_on} after");
    let again = tick(&yard).await;
    let href = yard.script("return location.hash;", Vec::new()).await.unwrap();
    let href = href.as_str().unwrap();

    // Another tab is told so, and changes nothing.
    let first = yard.client.window().await.unwrap();
    let other = yard.client.new_window(true).await.unwrap().handle;
    yard.client.switch_to_window(other.clone()).await.unwrap();
    yard.open(href).await;
    yard.wait_for(places::WHY_NOT).await;
    assert!(yard.is(&format!("{STATUS}.mode === 'idle'")).await || !yard.is(STATUS).await);
    yard.client.close_window().await.unwrap();
    yard.client.switch_to_window(first).await.unwrap();

    tap(&yard, 'p').await;
    yard.wait_until(&format!("{STATUS}.tick > {again} + 64")).await;
    assert!(yard.is(&format!("!{STATUS}.truck.key_on")).await, "and stays off");
    // Left, it can be gone on with at once.
    yard.ask_to_leave().await;
    yard.click(places::LEAVE_FOR_LATER).await;
    yard.click(places::GO_ON).await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive' && {STATUS}.tick > {again} + 32")).await;
    yard.ask_to_leave().await;
    yard.click(places::LEAVE_TO_DEBRIEF).await;
    yard.debrief_opens().await;
    yard.wait_for(places::REPRODUCES).await;
    yard.wait_for(places::SLOWED).await;

    yard.open_bare().await;
    let database = dump(&yard).await;
    let [(_, run)] = records(&database, "runs")[..] else { panic!("one run is kept") };
    let run = Run::parse("the run", run.as_str().unwrap().as_bytes()).unwrap();
    assert_eq!(run.pace, 0.5, "it went on at full pace, and was slowed all the same");
    assert!(run.time_ratio < 0.95, "{}", run.time_ratio);
    assert!(records(&database, "drives").is_empty());
}

/// Where the browser has no locks, two tabs can go on with a drive: neither writes over the other.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn without_locks_no_tab_writes_over_what_another_has_kept() {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/drive/slalom/single").await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive' && {STATUS}.tick > 64")).await;
    // What was only looked at would leave nothing.
    tap(&yard, 'h').await;
    let then = tick(&yard).await;
    yard.wait_until(&format!("{STATUS}.tick > {then} + 96")).await;
    yard.crash_tab().await;

    let first = yard.client.window().await.unwrap();
    let href = on_without_locks(&yard, None).await;
    let other = yard.client.new_window(true).await.unwrap().handle;
    yard.client.switch_to_window(other).await.unwrap();
    on_without_locks(&yard, Some(&href)).await;
    let before = dump(&yard).await;
    drive_on(&yard).await;
    let kept = dump(&yard).await;
    let fresh = records(&kept, "controls").len() - records(&before, "controls").len();
    assert!(fresh > 0, "{fresh}");

    yard.client.switch_to_window(first).await.unwrap();
    drive_on(&yard).await;
    yard.wait_for(places::NOT_BEING_KEPT).await;
    let after = dump(&yard).await;
    for record in records(&kept, "controls") {
        assert!(records(&after, "controls").contains(&record), "{} is as it was", record.0);
    }
}

/// Goes on with the drive that was cut off, in a tab without locks; returns its address.
async fn on_without_locks(yard: &Yard, href: Option<&str>) -> String {
    let source = "Object.defineProperty(navigator, 'locks', { value: undefined });";
    let script = serde_json::json!({ "source": source });
    yard.devtools("Page.addScriptToEvaluateOnNewDocument", script).await;
    match href {
        Some(href) => yard.open(href).await,
        None => {
            yard.open("#/path").await;
            yard.click(places::GO_ON).await;
        }
    }
    yard.wait_until(&format!("{STATUS}.mode === 'drive' && {STATUS}.paused")).await;
    let hash = yard.script("return location.hash;", Vec::new()).await.unwrap();
    hash.as_str().unwrap().to_owned()
}

/// Drives on for some pieces of the record.
async fn drive_on(yard: &Yard) {
    let now = tick(yard).await;
    yard.script(
        &format!("if ({STATUS}.paused) document.getElementById('pause').click();"),
        Vec::new(),
    )
    .await
    .unwrap();
    yard.wait_until(&format!("{STATUS}.tick > {now} + 128")).await;
}

/// Turns the truck's key.
const KEY: char = 'o';

async fn number(yard: &Yard, name: &str) -> f64 {
    let value = yard.script(&format!("return {STATUS}.{name};"), Vec::new()).await.unwrap();
    value.as_f64().unwrap()
}

async fn id(yard: &Yard) -> String {
    let id = yard.script("return location.hash.split('/').pop();", Vec::new()).await.unwrap();
    id.as_str().unwrap_or_default().to_owned()
}

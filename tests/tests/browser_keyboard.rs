//! Everything with keys alone: from the first page through a drive to its replay, without once
//! touching the pointer.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_tests::browser::keyboard::{Keyboard, enter, tab_to, tap};
use coneyard_tests::browser::{Size, Yard, places};
use coneyard_tests::key_rider::Held;
use fantoccini::key::Key;

const STATUS: &str = "JSON.parse(coneyard.status())";

/// Writes down where the head is turned, picture by picture.
const WATCH_HEAD: &str = "
    globalThis.heads = [];
    const watch = () => {
        if (JSON.parse(coneyard.status()).mode !== 'drive') return;
        heads.push(JSON.parse(coneyard.status()).truck.head);
        requestAnimationFrame(watch);
    };
    watch();";

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_drive_its_debrief_and_its_replay_need_no_pointer() {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/").await;
    yard.wait_for(places::DRIVE_NOW_TITLE).await;
    tab_to(&yard, places::DRIVE_NOW).await;
    enter(&yard).await;

    yard.wait_until(&format!("{STATUS}.mode === 'drive'")).await;
    yard.wait_until("document.activeElement.id === 'yard'").await;
    let mut keyboard = Keyboard::default();
    keyboard.hold(&yard, &Held::from(['w'])).await;
    yard.wait_until(&format!("{STATUS}.truck.speed > 0.5")).await;
    keyboard.hold(&yard, &Held::from([' '])).await;
    yard.wait_until(&format!("{STATUS}.truck.braking && {STATUS}.truck.speed < 0.01")).await;
    keyboard.hold(&yard, &Held::new()).await;

    // A tap on a look key glances there and comes back by itself.
    yard.script(WATCH_HEAD, Vec::new()).await.unwrap();
    tap(&yard, 'j').await;
    yard.wait_until("heads.some((head) => head > 1.5) && heads.at(-1) === 0").await;
    tap(&yard, 'l').await;
    yard.wait_until("heads.some((head) => head < -1.5) && heads.at(-1) === 0").await;

    // Letting go brakes from wherever the focus is, and presses nothing there.
    tab_to(&yard, places::MORE).await;
    keyboard.hold(&yard, &Held::from(['w'])).await;
    yard.wait_until(&format!("{STATUS}.truck.speed > 0.5")).await;
    keyboard.hold(&yard, &Held::from([' '])).await;
    yard.wait_until(&format!("{STATUS}.truck.braking && {STATUS}.truck.speed < 0.01")).await;
    keyboard.hold(&yard, &Held::new()).await;
    assert!(!yard.has(places::MENU).await);

    tap(&yard, 'p').await;
    yard.wait_until(&format!("{STATUS}.paused")).await;
    tap(&yard, 'p').await;
    yard.wait_until(&format!("!{STATUS}.paused")).await;

    // Tab leaves the canvas: it is no trap. The last button behind the one asks how to leave.
    tab_to(&yard, places::MORE).await;
    enter(&yard).await;
    tab_to(&yard, places::LEAVE).await;
    enter(&yard).await;
    yard.wait_for("dialog[open]").await;
    tap(&yard, char::from(Key::Escape)).await;
    yard.wait_until("!document.querySelector('dialog[open]')").await;
    yard.wait_until(&format!("{STATUS}.paused")).await;
    tab_to(&yard, places::MORE).await;
    enter(&yard).await;
    tab_to(&yard, places::LEAVE).await;
    enter(&yard).await;
    yard.wait_for("dialog[open]").await;
    tab_to(&yard, places::LEAVE_TO_DEBRIEF).await;
    enter(&yard).await;

    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    yard.wait_for("#own-skip, .verdict").await;
    if yard.has("#own-skip").await {
        tab_to(&yard, "#own-skip").await;
        enter(&yard).await;
    }
    yard.wait_for(places::REPRODUCES).await;
    tab_to(&yard, places::TO_REPLAY).await;
    enter(&yard).await;

    yard.wait_until(&format!("{STATUS}.mode === 'replay'")).await;
    yard.wait_for(places::PLAY).await;
    tab_to(&yard, places::PLAY).await;
    tap(&yard, ' ').await;
    yard.wait_until(&format!("{STATUS}.tick > 32")).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

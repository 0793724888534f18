//! Without network: what was loaded once is driven, debriefed and replayed with the server gone; a newer version
//! is offered and never forced; a browser that keeps nothing drives all the same.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::fs;
use std::path::Path;

use coneyard_tests::browser::keyboard::{Keyboard, tap};
use coneyard_tests::browser::{Size, Yard, places, site};
use coneyard_tests::key_rider::Held;
use serde_json::json;
use tempfile::TempDir;

/// Opens the first page and waits until all that a drive takes is kept.
async fn visit(yard: &Yard) {
    yard.open("#/").await;
    yard.wait_for(places::WORKS_OFFLINE).await;
}

/// Moves off: what was only looked at leaves nothing to go on with.
async fn moves_off(yard: &Yard) {
    yard.wait_for(places::DRIVING).await;
    let mut keyboard = Keyboard::default();
    keyboard.hold(yard, &Held::from(['w'])).await;
    yard.wait_until("JSON.parse(coneyard.status()).truck.speed > 0.2").await;
    keyboard.hold(yard, &Held::new()).await;
}

/// Drives a little and goes to the debrief.
async fn drive_a_little(yard: &Yard) {
    moves_off(yard).await;
    yard.ask_to_leave().await;
    yard.click(places::LEAVE_TO_DEBRIEF).await;
    yard.debrief_opens().await;
    yard.wait_for(places::ENDING).await;
    yard.wait_for(places::REPRODUCES).await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn with_the_server_gone_the_yard_is_loaded_driven_debriefed_and_replayed() {
    let mut yard = Yard::start(Size::SMALL, "en").await;
    visit(&yard).await;
    yard.close_server();

    yard.reload().await;
    yard.wait_for(places::WORKS_OFFLINE).await;
    yard.click(places::DRIVE_NOW).await;
    drive_a_little(&yard).await;
    yard.reload().await;
    // Who has said nothing is asked again.
    yard.debrief_opens().await;
    yard.wait_for(places::REPRODUCES).await;
    yard.click(places::TO_REPLAY).await;
    yard.wait_for(places::PLAY).await;
    tap(&yard, ' ').await;
    yard.wait_until("JSON.parse(coneyard.status()).tick > 32").await;
    yard.reload().await;
    yard.wait_for(places::PLAY).await;

    // Pages that were never opened while there was a server, and the other language.
    for (page, there) in [
        ("#/settings", places::SWITCH),
        ("#/controls", "svg.drawing"),
        ("#/pre-test", places::CLASS_WORD),
        ("#/progress", "main h2"),
    ] {
        yard.open(page).await;
        yard.wait_for(there).await;
    }
    yard.open("#/settings").await;
    yard.wait_for(places::SWITCH).await;
    let other = "document.querySelector('input[name=language]:not(:checked)').click();";
    yard.script(other, Vec::new()).await.unwrap();
    yard.wait_until("document.documentElement.lang === 'es'").await;
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let to = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &to);
        } else {
            fs::copy(entry.path(), to).unwrap();
        }
    }
}

/// Makes another version of a site: another digest, and the page's colour, by which it is known.
fn make_newer(site: &Path) {
    let page = fs::read_to_string(site.join("index.html")).unwrap();
    let version = version_in(&page);
    let newer: String = version.chars().rev().collect();
    assert_ne!(version, newer);
    for file in ["index.html", "service-worker.js"] {
        let text = fs::read_to_string(site.join(file)).unwrap();
        assert!(text.contains(&version), "{file}");
        fs::write(site.join(file), text.replace(&version, &newer)).unwrap();
        for packed in ["br", "gz"] {
            // A file that was not worth packing has none.
            let _ = fs::remove_file(site.join(format!("{file}.{packed}")));
        }
    }
}

fn version_in(page: &str) -> String {
    let after = page.split("coneyard-version\" content=\"").nth(1).unwrap();
    after.split('"').next().unwrap().to_owned()
}

/// Looks for a newer version, as the browser does by itself now and then, and waits until it is there.
const LOOK: &str = "
    const registration = await navigator.serviceWorker.getRegistration();
    await registration.update();
    while (!registration.waiting) await new Promise((done) => setTimeout(done, 100));";

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_newer_version_is_offered_never_forced_and_the_older_one_is_cleared_away() {
    let folder = TempDir::new().unwrap();
    copy(&site(), folder.path());
    let mut yard = Yard::start_serving(Size::SMALL, "en", folder.path()).await;
    visit(&yard).await;
    yard.go("#/drive/straight/single").await;
    moves_off(&yard).await;
    yard.script("globalThis.same_page = true;", Vec::new()).await.unwrap();

    make_newer(folder.path());
    yard.script(LOOK, Vec::new()).await.unwrap();
    yard.wait_until("coneyard.is_newer()").await;
    assert!(!yard.has(places::TAKE_NEWER).await, "nobody who drives is asked");
    let taken = yard.script("return await coneyard.take_newer();", Vec::new()).await.unwrap();
    assert_eq!(taken, json!(false), "a drive is under way");
    assert!(yard.is("globalThis.same_page && coneyard.ticks() >= 0").await);

    yard.ask_to_leave().await;
    yard.click(places::LEAVE_FOR_LATER).await;
    yard.wait_for(places::GO_ON).await;
    yard.wait_for(places::TAKE_NEWER).await;
    assert!(yard.is("globalThis.same_page").await, "nothing is loaded unasked");
    yard.click(places::TAKE_NEWER).await;
    yard.wait_until("!globalThis.same_page && document.querySelector('main')").await;
    yard.wait_for(places::GO_ON).await;

    let page = fs::read_to_string(folder.path().join("index.html")).unwrap();
    let only = format!(
        "document.querySelector('meta[name=coneyard-version]').content === '{0}' &&
         (await caches.keys()).join() === 'coneyard-{0}'",
        version_in(&page)
    );
    let begun = std::time::Instant::now();
    while yard.script(&format!("return {only};"), Vec::new()).await.unwrap() != json!(true) {
        assert!(begun.elapsed().as_secs() < 60, "{}", yard.what_is_shown().await);
    }
    // Whoever could drive without network still can.
    yard.close_server();
    yard.open("#/drive/straight/single").await;
    yard.wait_for(places::DRIVING).await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn where_there_is_no_room_to_keep_it_one_drives_all_the_same() {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open_bare().await;
    let little = json!({ "origin": yard.address, "quotaSize": 2_000_000 });
    yard.devtools("Storage.overrideQuotaForOrigin", little).await;
    yard.open("#/").await;
    yard.wait_for(places::DRIVE_NOW_TITLE).await;
    // Long enough for the worker to have tried.
    yard.wait_until("performance.now() > 8000").await;
    yard.click(places::DRIVE_NOW).await;
    drive_a_little(&yard).await;
    assert!(!yard.has(places::WORKS_OFFLINE).await, "nothing is promised");
    let mut errors = yard.console_errors().await;
    // A bare file has no icon, and the browser may look for one late; that is no news.
    errors.retain(|error| !error.contains("/favicon.ico "));
    assert_eq!(errors, Vec::<String>::new());
}

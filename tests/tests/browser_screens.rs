//! Pictures of the main pages for a person to look at, in `screens/` of cargo's target folder:
//! desktop, tablet and phone, in both languages. Each must also be free of sideways scrolling and
//! of complaints on the console.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::path::Path;

use coneyard_tests::browser::{Size, Yard, places, target_folder};
use coneyard_tests::drives::ridden;
use serde_json::json;

const SIZES: [(&str, Size, bool); 3] = [
    ("desktop", Size { width: 1280, height: 800 }, false),
    ("tablet", Size { width: 820, height: 1180 }, true),
    ("phone", Size { width: 390, height: 844 }, true),
];

/// A drive with a fault in it, so that a debrief has something to say.
fn run_with_a_fault(folder: &Path) -> String {
    let fault = coneyard_core::rider::faults::ALL[0].name;
    let path = folder.join("figure-eight.run.json");
    std::fs::write(&path, ridden("figure-eight", "single", fault, 3)).unwrap();
    path.to_string_lossy().into_owned()
}

async fn pictures(lang: &str) {
    let yard = Yard::start(SIZES[0].1, lang).await;
    let run = run_with_a_fault(&yard.downloads);
    let folder = target_folder().join("screens");
    std::fs::create_dir_all(&folder).unwrap();

    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&run).await.unwrap();
    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    let debrief = yard.script("return location.hash;", Vec::new()).await.unwrap();
    let debrief = debrief.as_str().unwrap().to_owned();
    let replay = format!("{}/640", debrief.replace("debrief", "replay"));
    let print = debrief.replace("debrief", "print");

    let mut wide = Vec::new();
    for (device, size, touch) in SIZES {
        yard.resize(size).await;
        let touching = json!({ "enabled": touch, "maxTouchPoints": 5 });
        yard.devtools("Emulation.setTouchEmulationEnabled", touching).await;
        for (page, hash, ready) in [
            ("home", "#/", places::DRIVE_NOW_TITLE),
            ("path", "#/path", places::EXERCISE),
            ("drive", "#/drive/figure-eight/single", places::DRIVING),
            ("debrief", debrief.as_str(), places::REPRODUCES),
            ("print", print.as_str(), places::PRINT),
            ("replay", replay.as_str(), places::PLAY),
            ("settings", "#/settings", places::SWITCH),
        ] {
            yard.open(hash).await;
            yard.wait_for(ready).await;
            yard.settle().await;
            let picture = yard.client.screenshot().await.unwrap();
            std::fs::write(folder.join(format!("{page}-{device}-{lang}.png")), picture).unwrap();
            let errors = yard.console_errors().await;
            assert!(errors.is_empty(), "{page} on a {device} in {lang}: {errors:#?}");
            if yard.is("document.documentElement.scrollWidth > innerWidth").await {
                wide.push(format!("{page} on a {device} in {lang}"));
            }
        }
    }
    assert!(wide.is_empty(), "these pages scroll sideways: {wide:?}");
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn pictures_in_english() {
    pictures("en").await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn pictures_in_spanish() {
    pictures("es").await;
}

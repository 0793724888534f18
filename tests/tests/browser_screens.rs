//! Pictures of the main pages for a person to look at, in `screens/` of cargo's target folder:
//! desktop, tablet and phone, in both languages. Each must also be free of sideways scrolling and
//! of complaints on the console.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::path::Path;

use coneyard_tests::browser::{Size, Yard, places, target_folder};
use coneyard_tests::drives::ridden;
use coneyard_tests::mishaps::{blind_corner, near_miss, spilled_load};
use serde_json::json;

const SIZES: [(&str, Size, bool); 4] = [
    ("desktop", Size { width: 1280, height: 800 }, false),
    ("tablet", Size { width: 820, height: 1180 }, true),
    ("phone", Size { width: 390, height: 844 }, true),
    (ASIDE, Size { width: 844, height: 390 }, true),
];

/// A phone on its side is for driving.
const ASIDE: &str = "phone-aside";

/// A drive with a fault in it, so that a debrief has something to say.
fn run_with_a_fault(folder: &Path) -> String {
    let path = folder.join("figure-eight.run.json");
    std::fs::write(&path, ridden("figure-eight", "single", "step-across-moving", 3)).unwrap();
    path.to_string_lossy().into_owned()
}

/// A page, its address, and what is there when it is ready.
type Scene = (&'static str, String, &'static str);

/// Takes in a run file as a person would; returns the address of its debrief.
async fn take_in(yard: &Yard, run: &str) -> String {
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(run).await.unwrap();
    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    let debrief = yard.script("return location.hash;", Vec::new()).await.unwrap();
    debrief.as_str().unwrap().to_owned()
}

/// Pictures of these pages at every size.
async fn take_pictures(yard: &Yard, lang: &str, scenes: &[Scene]) {
    let folder = target_folder().join("screens");
    std::fs::create_dir_all(&folder).unwrap();
    let mut wide = Vec::new();
    for (device, size, touch) in SIZES {
        yard.resize(size).await;
        let touching = json!({ "enabled": touch, "maxTouchPoints": 5 });
        yard.devtools("Emulation.setTouchEmulationEnabled", touching).await;
        let shown = |(page, ..): &&Scene| device != ASIDE || *page == "drive";
        for (page, hash, ready) in scenes.iter().filter(shown) {
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

async fn pictures(lang: &str) {
    let yard = Yard::start(SIZES[0].1, lang).await;
    let run = run_with_a_fault(&yard.downloads);
    let debrief = take_in(&yard, &run).await;
    let replay = format!("{}/640", debrief.replace("debrief", "replay"));
    let scenes = [
        ("home", "#/".to_owned(), places::DRIVE_NOW_TITLE),
        ("path", "#/path".to_owned(), places::EXERCISE),
        ("drive", "#/drive/figure-eight/single".to_owned(), places::DRIVING),
        ("print", debrief.replace("debrief", "print"), places::PRINT),
        ("debrief", debrief, places::REPRODUCES),
        ("replay", replay, places::PLAY),
        ("settings", "#/settings".to_owned(), places::SWITCH),
    ];
    take_pictures(&yard, lang, &scenes).await;
}

/// A spilled load, a blind corner and a near miss in the replay, and what is said about them.
async fn pictures_of_mishaps(lang: &str) {
    let yard = Yard::start(SIZES[0].1, lang).await;
    let mut scenes = Vec::new();
    for (page, said, mishap) in [
        ("spill", "spill-debrief", spilled_load()),
        ("blind-corner", "blind-corner-debrief", blind_corner()),
        ("near-miss", "near-miss-debrief", near_miss()),
    ] {
        let path = yard.downloads.join(format!("{page}.run.json"));
        std::fs::write(&path, mishap.run.to_text()).unwrap();
        let debrief = take_in(&yard, &path.to_string_lossy()).await;
        scenes.push((
            page,
            format!("{}/{}", debrief.replace("debrief", "replay"), mishap.at),
            places::PLAY,
        ));
        scenes.push((said, debrief, places::REPRODUCES));
    }
    take_pictures(&yard, lang, &scenes).await;
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

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn pictures_of_mishaps_in_english() {
    pictures_of_mishaps("en").await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn pictures_of_mishaps_in_spanish() {
    pictures_of_mishaps("es").await;
}

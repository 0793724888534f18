//! What a browser loads, and when: the pages carry no reader, no judge and no texts; the reader and
//! the other languages come when they are first wanted, and what does not come is said.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::fs;
use std::path::{Path, PathBuf};

use coneyard_core::course::shipped;
use coneyard_core::rules;
use coneyard_core::truck::spec;
use coneyard_core::words::{self, LANGUAGES};
use coneyard_tests::browser::{Size, Yard, places, site};
use coneyard_tests::drives::ridden;
use serde_json::json;

/// The file of the site whose name begins and ends so.
fn file(begins: &str, ends: &str) -> PathBuf {
    let named = |path: &PathBuf| {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        name.starts_with(begins) && name.ends_with(ends)
    };
    let mut found = fs::read_dir(site()).unwrap().map(|entry| entry.unwrap().path()).filter(named);
    found.next().unwrap_or_else(|| panic!("the site has a file {begins}...{ends}"))
}

fn module(name: &str) -> Vec<u8> {
    fs::read(file(&format!("{name}_bg-"), ".wasm")).unwrap()
}

/// Pages that were cut out of the pages' module, and what several of them share.
fn parts() -> Vec<PathBuf> {
    let all = fs::read_dir(site()).unwrap().map(|entry| entry.unwrap().path());
    let is_part = |path: &PathBuf| {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        name.ends_with(".wasm") && (name.starts_with("split_") || name.starts_with("chunk_"))
    };
    let parts: Vec<PathBuf> = all.filter(is_part).collect();
    assert!(parts.len() >= 4, "{parts:?}");
    parts
}

fn holds(module: &[u8], text: &str) -> bool {
    module.windows(text.len()).any(|window| window == text.as_bytes())
}

/// A piece out of the middle of a text, by which a module that carries the text is known.
fn piece(text: &str) -> &str {
    let from = text.char_indices().nth(text.chars().count() / 2).unwrap().0;
    let to = text[from..].char_indices().nth(60).unwrap().0;
    &text[from..from + to]
}

/// What only the reader carries, and what nobody does.
#[tokio::test]
#[ignore = "needs the built site: ./check runs it"]
async fn the_pages_carry_no_files_no_reader_and_no_texts() {
    let (mut pages, reader, canvas) = (module("shell"), module("reader"), module("canvas"));
    for part in parts() {
        pages.extend(fs::read(part).unwrap());
    }
    let part = coneyard_core::pretest::course_of(1, "single").unwrap();
    let course = shipped::ALL.iter().find(|(name, _)| *name == part).unwrap().1;
    let in_the_reader = [
        piece(rules::SHIPPED),
        piece(course),
        piece(spec::shipped::SINGLE),
        // Sentences of those who read runs, rules and pre-tests.
        "holds controls that no rider can give",
        "this is not the digest of the text beside it",
        "this is not what is drawn for this class and seat",
    ];
    for text in in_the_reader {
        assert!(holds(&reader, text), "the reader carries {text:?}");
        assert!(!holds(&pages, text), "the pages carry {text:?}");
    }
    assert!(holds(&pages, "coneyard-settings"), "what a module carries is found in it");
    for language in LANGUAGES {
        let table = words::shipped(language).unwrap().to_text();
        let file = fs::read_to_string(file(&format!("words-{language}-"), ".txt")).unwrap();
        assert_eq!(file, table);
        let longest = table.lines().max_by_key(|line| line.len()).unwrap();
        let said = piece(longest.split_once('\t').unwrap().1);
        for (name, module) in [("pages", &pages), ("reader", &reader), ("canvas", &canvas)] {
            assert!(!holds(module, said), "the {name} carry {said:?}");
        }
    }
}

/// Pages that grow are noticed before people wait for them. A quick build is larger than what people
/// load, which `coneyard build` prints and `coneyard bench` holds against its limits.
#[tokio::test]
#[ignore = "needs the built site: ./check runs it"]
async fn the_pages_are_light() {
    let packed = |path: PathBuf| {
        let brotli = PathBuf::from(format!("{}.br", path.display()));
        fs::metadata(brotli).unwrap().len()
    };
    let pages = packed(file("shell_bg-", ".wasm")) + packed(file("shell-", ".js"));
    assert!(pages > 50_000, "{pages}");
    assert!(pages < PAGES_MOST, "the pages weigh {pages} bytes as brotli");
}

/// Most that the pages may weigh as a quick build, bytes as brotli.
const PAGES_MOST: u64 = 600_000;

/// Names of the files that the page has fetched.
async fn fetched(yard: &Yard) -> Vec<String> {
    let body = "return performance.getEntriesByType('resource').map((e) => e.name);";
    let names = yard.script(body, Vec::new()).await.unwrap();
    let names = names.as_array().unwrap().iter().map(|name| name.as_str().unwrap().to_owned());
    names.filter_map(|name| Path::new(&name).file_name()?.to_str().map(str::to_owned)).collect()
}

async fn has_fetched(yard: &Yard, what: &str) -> bool {
    fetched(yard).await.iter().any(|name| name.starts_with(what))
}

/// Lets the browser find nothing under addresses like these.
async fn cut_off(yard: &Yard, addresses: &[&str]) {
    yard.devtools("Network.enable", json!({})).await;
    yard.devtools("Network.setBlockedURLs", json!({ "urls": addresses })).await;
}

const OTHER_LANGUAGE: &str = "input[name=language]:not(:checked)";

async fn heading(yard: &Yard) -> String {
    yard.wait_for("h1").await.text().await.unwrap()
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn only_the_language_in_use_is_fetched_and_another_one_when_it_is_chosen() {
    let yard = Yard::start(Size::SMALL, "es").await;
    yard.open("#/settings").await;
    assert_eq!(heading(&yard).await, "Ajustes");
    assert!(has_fetched(&yard, "words-es-").await && !has_fetched(&yard, "words-en-").await);
    assert!(!has_fetched(&yard, "reader").await, "nothing was asked of the reader");

    cut_off(&yard, &["*words-en-*"]).await;
    choose_other(&yard).await;
    yard.wait_for(places::UNDONE).await;
    assert_eq!(heading(&yard).await, "Ajustes", "the language stays");
    yard.wait_until("document.querySelector('input[name=language]:checked').matches('label:last-of-type input')").await;

    cut_off(&yard, &[]).await;
    choose_other(&yard).await;
    yard.wait_until("document.querySelector('h1').textContent === 'Settings'").await;
    assert!(has_fetched(&yard, "words-en-").await);
    assert!(yard.is("document.documentElement.lang === 'en'").await);
    yard.open("#/settings").await;
    assert_eq!(heading(&yard).await, "Settings");
    assert!(!has_fetched(&yard, "words-es-").await, "it begins with the language that was chosen");
}

async fn choose_other(yard: &Yard) {
    yard.wait_for(OTHER_LANGUAGE).await;
    let body = format!("document.querySelector({OTHER_LANGUAGE:?}).click();");
    yard.script(&body, Vec::new()).await.unwrap();
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn texts_that_cannot_be_fetched_are_said_to_be_missing() {
    let yard = Yard::start(Size::SMALL, "en").await;
    cut_off(&yard, &["*words-*"]).await;
    yard.open("#/").await;
    yard.wait_until("!document.getElementById('trouble').hidden").await;
    let said = yard.wait_for("#trouble").await.text().await.unwrap();
    assert!(said.contains("could not be loaded") && said.contains("No se pudo"), "{said}");
    assert!(!yard.has("main").await);
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_reader_that_cannot_be_fetched_is_said_to_be_missing_and_tried_again() {
    let yard = Yard::start(Size::SMALL, "en").await;
    let given = yard.downloads.join("given.json");
    fs::write(&given, ridden("straight", "single", "run-back", 3)).unwrap();
    yard.open("#/path").await;
    yard.wait_for(places::EXERCISE).await;
    assert!(!has_fetched(&yard, "reader").await, "nothing was asked of the reader");
    cut_off(&yard, &["*reader*"]).await;
    let bring_in = async || {
        let field = yard.wait_for(places::IMPORT).await;
        field.send_keys(&given.to_string_lossy()).await.unwrap();
    };
    bring_in().await;
    let said = "document.querySelector('[aria-labelledby=import-title] [role=status]').textContent";
    yard.wait_until(&format!("{said}.includes('Check the connection and try again')")).await;
    cut_off(&yard, &[]).await;
    bring_in().await;
    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    yard.wait_for(places::REPRODUCES).await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn pages_that_nobody_opens_are_not_fetched_and_one_that_does_not_come_is_tried_again() {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/").await;
    yard.wait_for(places::DRIVE_NOW).await;
    cut_off(&yard, &["*split_setting*"]).await;
    yard.go("#/settings").await;
    let said = "document.querySelector('main p.note[role=alert]')?.textContent ?? ''";
    yard.wait_until(&format!("({said}).includes('Check the connection and try again')")).await;
    cut_off(&yard, &[]).await;
    yard.go("#/controls").await;
    yard.wait_for("svg.drawing").await;
    yard.go("#/settings").await;
    yard.wait_for(places::SWITCH).await;
    for other in ["split_papers", "split_looking", "reader"] {
        assert!(!has_fetched(&yard, other).await, "nobody asked for {other}");
    }
}

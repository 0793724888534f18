//! How long one waits on a slow line: 400 kbit/s, and 400 ms there and back. A table for a person, and limits
//! with room for slow machines. A site built quickly is larger than what people load: it is held only against
//! what does not hang on its size. `CONEYARD_SITE=$PWD/dist cargo test --release --test browser_network -- --ignored
//! --nocapture` measures the small one.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::time::Duration;

use coneyard_tests::browser::line::Line;
use coneyard_tests::browser::{Size, Yard, places, target_folder};
use serde_json::{Value, json};

const BITS_A_SECOND: f64 = 400_000.0;
const THERE_AND_BACK: Duration = Duration::from_millis(400);

/// Notes when each thing is first there, milliseconds since the address was opened.
const NOTE: &str = "
    const there = {
        words: () => document.querySelector('#door:not([hidden]) > div:not([hidden])') ?? there.pages(),
        pages: () => document.querySelector('main h1')?.textContent,
        exercise: () => document.querySelector('a.button.primary.huge small:not(:empty)'),
        driving: () => document.querySelector('#more[data-driving]'),
    };
    globalThis.noted = {};
    setInterval(() => {
        for (const name in there) {
            if (noted[name] === undefined && document.body && there[name]()) {
                noted[name] = performance.now();
            }
        }
    }, 10);";

/// Seconds until this was there; it is waited for.
async fn seconds_until(yard: &Yard, what: &str) -> f64 {
    yard.wait_until(&format!("noted.{what} !== undefined")).await;
    let at = yard.script(&format!("return noted.{what};"), Vec::new()).await.unwrap();
    at.as_f64().unwrap() / 1000.0
}

/// A browser at the far end of the line.
async fn far_away() -> (Yard, Line) {
    let mut yard = Yard::start(Size::SMALL, "en").await;
    let line = Line::open(&yard.address, BITS_A_SECOND, THERE_AND_BACK).await;
    yard.address.clone_from(&line.address);
    yard.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": NOTE })).await;
    (yard, line)
}

/// What was measured, and the most that it may come to here, s.
struct Row(&'static str, f64, f64);

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_slow_line_is_waited_for_only_so_long() {
    let mut rows = Vec::new();
    let (mut yard, line) = far_away().await;
    yard.open("#/").await;
    rows.push(Row(
        "cold: first words, and Drive now can be pressed",
        seconds_until(&yard, "words").await,
        8.0,
    ));
    let small =
        yard.is("document.querySelector('meta[name=coneyard-made]').content === 'small'").await;
    let most = |small_most: f64| if small { small_most } else { f64::INFINITY };
    rows.push(Row("cold: the pages", seconds_until(&yard, "pages").await, most(12.0)));
    rows.push(Row(
        "cold: the next exercise is known",
        seconds_until(&yard, "exercise").await,
        most(15.0),
    ));
    if small {
        let (other, _line) = far_away().await;
        other.open("#/drive/straight/single").await;
        rows.push(Row(
            "cold: driving, opened by its address",
            seconds_until(&other, "driving").await,
            most(150.0),
        ));
    }

    line.set_slow(false);
    yard.wait_for(places::WORKS_OFFLINE).await;
    line.set_slow(true);
    yard.open("#/").await;
    rows.push(Row("kept: first words", seconds_until(&yard, "words").await, 8.0));
    rows.push(Row(
        "kept: the next exercise is known",
        seconds_until(&yard, "exercise").await,
        10.0,
    ));
    yard.open("#/drive/straight/single").await;
    rows.push(Row(
        "kept: driving, opened by its address",
        seconds_until(&yard, "driving").await,
        20.0,
    ));
    yard.close_server();
    drop(line);
    yard.open("#/").await;
    rows.push(Row(
        "no network: the next exercise is known",
        seconds_until(&yard, "exercise").await,
        10.0,
    ));
    yard.open("#/drive/straight/single").await;
    rows.push(Row("no network: driving", seconds_until(&yard, "driving").await, 20.0));

    let mut table = format!(
        "a {} site, 400 kbit/s, 400 ms there and back\n",
        if small { "small" } else { "quick" }
    );
    for Row(what, measured, _) in &rows {
        table.push_str(&format!("{what:<50}{measured:>7.1} s\n"));
    }
    print!("{table}");
    std::fs::write(target_folder().join("network.txt"), &table).unwrap();
    let slow: Vec<_> = rows.iter().filter(|row| row.1 > row.2).map(|row| row.0).collect();
    assert!(slow.is_empty(), "too long: {slow:?}\n{table}");
}

/// What is fetched before the pages are there, as it travels.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_exercises_come_as_one_file() {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/path").await;
    yard.wait_for(places::EXERCISE).await;
    let body = "return performance.getEntriesByType('resource').map((e) => e.name);";
    let fetched = yard.script(body, Vec::new()).await.unwrap();
    let fetched: Vec<&str> = fetched.as_array().unwrap().iter().filter_map(Value::as_str).collect();
    let of = |what: &str| fetched.iter().filter(|name| name.contains(what)).count();
    assert_eq!((of("exercises-"), of("/levels/")), (1, 0), "{fetched:?}");
}

//! The lesson as a trainer gives it: with the keys of a remote, ticks, a record that outlives the page, on a
//! projector, a tablet and a phone, in both languages.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::class::{Taught, read_record};
use coneyard_core::lesson::{Show, shipped};
use coneyard_tests::browser::keyboard::tap;
use coneyard_tests::browser::{Size, Yard, places};
use serde_json::{Value, json};

const PROJECTOR: Size = Size { width: 1920, height: 1080 };
const LAPTOP: Size = Size { width: 1280, height: 800 };
const TABLET: Size = Size { width: 820, height: 1180 };
const PHONE: Size = Size { width: 390, height: 844 };

/// Keys by the numbers of the WebDriver standard.
const PAGE_UP: char = '\u{e00e}';
const PAGE_DOWN: char = '\u{e00f}';
const LEFT: char = '\u{e012}';
const RIGHT: char = '\u{e014}';

async fn value(yard: &Yard, expression: &str) -> Value {
    yard.script(&format!("return {expression};"), Vec::new()).await.unwrap()
}

async fn at(yard: &Yard, topic: &str) {
    let css = format!("{}[data-topic={topic:?}]", places::LESSON_TOPIC);
    yard.wait_until(&format!("document.querySelector({css:?})")).await;
}

/// Opens a topic with somebody who wants less motion, so that it stands where its fault shows.
async fn still(yard: &Yard) {
    let features = json!([{ "name": "prefers-reduced-motion", "value": "reduce" }]);
    yard.devtools("Emulation.setEmulatedMedia", json!({ "features": features })).await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_remote_goes_through_all_topics_and_ticks_outlive_the_page() {
    let lesson = shipped();
    let ids: Vec<&str> = lesson.topics.iter().map(|t| t.id.as_str()).collect();
    let yard = Yard::start(LAPTOP, "en").await;
    yard.open("#/path").await;
    yard.click(places::TO_LESSON).await;
    yard.click(places::LESSON_BEGIN).await;
    at(&yard, ids[0]).await;
    // On by the remote's key, back by its other one, and the same by the arrows.
    tap(&yard, PAGE_DOWN).await;
    at(&yard, ids[1]).await;
    tap(&yard, PAGE_UP).await;
    at(&yard, ids[0]).await;
    tap(&yard, RIGHT).await;
    at(&yard, ids[1]).await;
    tap(&yard, LEFT).await;
    at(&yard, ids[0]).await;
    for id in &ids[1..] {
        tap(&yard, PAGE_DOWN).await;
        at(&yard, id).await;
        // Whatever is shown of it is there.
        yard.wait_for(places::LESSON_SHOWN).await;
        assert_eq!(value(&yard, "document.querySelectorAll('.lesson-say li').length").await, 3);
    }
    // After the last one come all of them.
    tap(&yard, PAGE_DOWN).await;
    yard.wait_for(places::LESSON_TOPICS).await;

    // A tick on a topic's page, and one in the list.
    yard.go("#/lesson/horn").await;
    at(&yard, "horn").await;
    yard.click(places::LESSON_COVERED).await;
    yard.wait_for("#covered[aria-pressed=true]").await;
    yard.go("#/lesson").await;
    yard.wait_for("input[data-topic=horn]").await;
    yard.wait_until("document.querySelector('input[data-topic=horn]').checked").await;
    yard.click("input[data-topic=signs]").await;
    yard.wait_for("#lesson-trainer").await.send_keys("Elm").await.unwrap();
    yard.wait_for("#lesson-present").await.send_keys("Alder\nBirch\nalder\n").await.unwrap();
    yard.wait_for("#lesson-note").await.send_keys("By the dock.").await.unwrap();
    // What was written is kept when the field is left.
    tap(&yard, char::from(fantoccini::key::Key::Tab)).await;
    yard.wait_until("document.querySelector('.lesson-past li')").await;
    yard.settle().await;

    yard.reload().await;
    yard.wait_until("document.querySelector('input[data-topic=horn]')?.checked").await;
    assert_eq!(
        value(&yard, "document.querySelector('input[data-topic=signs]').checked").await,
        true
    );
    assert_eq!(
        value(&yard, "document.querySelector('input[data-topic=truck]').checked").await,
        false
    );
    assert_eq!(
        value(&yard, "document.querySelector('#lesson-present').value").await,
        "Alder\nBirch"
    );

    // It goes out as a file that says what was covered and what was left out.
    yard.click("#lesson-save").await;
    let text = yard.downloaded(".taught.json").await;
    let taught: Taught = read_record(&text).unwrap();
    assert_eq!((taught.covered(), taught.left_out().count()), (2, ids.len() - 2));
    assert!(taught.is_covered("horn") && taught.is_covered("signs"));
    assert_eq!((taught.trainer.as_str(), taught.note.as_str()), ("Elm", "By the dock."));
    assert_eq!(taught.present, ["Alder", "Birch"]);

    // And on paper.
    yard.click("#lesson-print").await;
    yard.wait_for(".lesson-sheet").await;
    let rows = "document.querySelectorAll('.lesson-sheet tr.reported').length";
    assert_eq!(value(&yard, rows).await, ids.len() - 2, "what was left out is marked");

    // A lesson that is ended is in the list; the next tick begins another.
    yard.go("#/lesson").await;
    yard.click("#lesson-end").await;
    yard.wait_until("!document.querySelector('input[data-topic=horn]').checked").await;
    yard.click("input[data-topic=truck]").await;
    yard.wait_until("document.querySelectorAll('.lesson-past li').length === 2").await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn both_ways_play_and_the_fault_shows_where_it_is() {
    let yard = Yard::start(LAPTOP, "en").await;
    still(&yard).await;
    yard.open("#/lesson/gentle-starts").await;
    yard.wait_for(".way-side.wrong .playing").await;
    // Still, half a second after the fault: it is marked in the yard and told beside its limit.
    let marks = "document.querySelectorAll('.way-side.wrong .playing .marker:not(.gone)').length";
    assert_eq!(value(&yard, marks).await, 1);
    let right = "document.querySelectorAll('.way-side.right .playing .marker:not(.gone)').length";
    assert_eq!(value(&yard, right).await, 0);
    let told = value(
        &yard,
        "document.querySelector('.way-side.wrong .way-found li:not(.gone)').textContent",
    )
    .await;
    assert!(told.as_str().unwrap().contains("0.25\u{a0}s"), "measured and limit: {told}");
    // From the start it plays: both trucks move, by the same clock.
    let place = |side: &str| {
        format!(
            "document.querySelector('.way-side.{side} .playing .truck').getAttribute('transform')"
        )
    };
    yard.click("#again").await;
    yard.wait_until("Number(document.querySelector('#seek').value) >= 40").await;
    yard.click("#play").await;
    let before = value(&yard, &place("right")).await;
    yard.script("const s = document.querySelector('#seek'); s.value = 2; s.dispatchEvent(new Event('input'));", vec![])
        .await
        .unwrap();
    yard.settle().await;
    assert_ne!(value(&yard, &place("right")).await, before);
    assert_eq!(value(&yard, marks).await, 0, "before it was made it is not shown");
    // The space bar plays where nothing has the focus that it would press.
    yard.script("document.activeElement.blur();", vec![]).await.unwrap();
    tap(&yard, ' ').await;
    yard.wait_until("Number(document.querySelector('#seek').value) > 6").await;
    assert!(!yard.has("canvas[data-loaded]").await);
    let fetched =
        value(&yard, "performance.getEntriesByType('resource').map((e) => e.name).join(' ')").await;
    assert!(!fetched.as_str().unwrap().contains("canvas_bg"), "no engine was loaded for it");
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

/// Nothing is wider than the page, nothing that is pressed is too small, and on a projector all of a topic with its
/// pictures is on the screen.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn every_topic_fits_every_screen_in_both_languages() {
    let lesson = shipped();
    let mut wrong = Vec::new();
    for lang in ["en", "es"] {
        let yard = Yard::start(PROJECTOR, lang).await;
        still(&yard).await;
        for size in [PROJECTOR, LAPTOP, TABLET, PHONE] {
            yard.resize(size).await;
            yard.open("#/lesson").await;
            yard.wait_for(places::LESSON_TOPICS).await;
            for topic in &lesson.topics {
                yard.go(&format!("#/lesson/{}", topic.id)).await;
                at(&yard, &topic.id).await;
                yard.wait_for(places::LESSON_SHOWN).await;
                let body = "
                    const bad = [];
                    if (document.documentElement.scrollWidth > innerWidth) bad.push('wider than the page');
                    for (const e of document.querySelectorAll('main button, main a.button, main summary, main input')) {
                        const box = e.getBoundingClientRect();
                        if (box.height < 43.5 || box.width < 43.5) bad.push(`small: ${e.id || e.textContent} ${box.width}x${box.height}`);
                    }
                    const lowest = (css) => Math.max(...[...document.querySelectorAll(css)].map((e) => e.getBoundingClientRect().bottom));
                    if (args[0] && lowest(args[0]) > innerHeight) bad.push(`the pictures end at ${lowest(args[0])}`);
                    return bad;";
                // On a laptop what was found may be scrolled to; both yards and what is watched may not.
                let whole = match size.width {
                    1920.. => ".ways",
                    1280.. => ".yard-box, .gauges",
                    _ => "",
                };
                let found = yard.script(body, vec![json!(whole)]).await.unwrap();
                for what in found.as_array().unwrap() {
                    wrong.push(format!(
                        "{lang} {}x{} {}: {what}",
                        size.width, size.height, topic.id
                    ));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Every picture of every topic can be chosen, and a part of the truck is drawn in both states.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn every_picture_is_there() {
    let lesson = shipped();
    let yard = Yard::start(LAPTOP, "es").await;
    still(&yard).await;
    yard.open("#/lesson").await;
    yard.wait_for(places::LESSON_TOPICS).await;
    for topic in &lesson.topics {
        yard.go(&format!("#/lesson/{}", topic.id)).await;
        at(&yard, &topic.id).await;
        for (n, show) in topic.shows.iter().enumerate() {
            if topic.shows.len() > 1 {
                yard.click(&format!(".show-choice:nth-child({})", n + 1)).await;
            }
            let css =
                if matches!(show, Show::Part { .. }) { ".check-picture svg" } else { ".playing" };
            yard.wait_until(&format!("document.querySelectorAll('.way-side {css}').length === 2"))
                .await;
        }
    }
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

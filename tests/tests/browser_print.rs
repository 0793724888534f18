//! The debrief on paper: the numbers on the plan are those of the list, each mark lies on the
//! drawing, and the pages come out in the size that was chosen, in both languages.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_tests::browser::paper::{PAPERS, page_sizes};
use coneyard_tests::browser::{Size, Yard, places, target_folder};
use coneyard_tests::drives::ridden;
use serde_json::{Value, json};

/// Seconds of an ISO 8601 duration of minutes and seconds.
fn seconds(iso: &str) -> f64 {
    let (minutes, seconds) = iso.strip_prefix("PT").unwrap().split_once('M').unwrap();
    let seconds = seconds.strip_suffix('S').map_or(0.0, |s| s.parse().unwrap());
    60.0 * minutes.parse::<f64>().unwrap() + seconds
}

/// The numbers that elements of this kind carry, in order.
async fn numbers(yard: &Yard, css: &str) -> Vec<u32> {
    let body = "return [...document.querySelectorAll(args[0])]
        .map((e) => Number(e.dataset.number)).sort((a, b) => a - b);";
    serde_json::from_value(yard.script(body, vec![json!(css)]).await.unwrap()).unwrap()
}

async fn the_debrief_prints(lang: &str) {
    let yard = Yard::start(Size { width: 1280, height: 800 }, lang).await;
    let run = yard.downloads.join("slalom.run.json");
    let text = ridden("slalom", "single", "hit-a-cone", 3);
    std::fs::write(&run, &text).unwrap();

    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&run.to_string_lossy()).await.unwrap();
    yard.click(places::TO_PRINT).await;
    yard.wait_for(places::PRINT).await;

    let listed = numbers(&yard, places::IN_LIST).await;
    let findings = u32::try_from(listed.len()).unwrap();
    assert!(findings > 1, "the drive has a fault and a good deed, but the list has {listed:?}");
    assert_eq!(listed, (1..=findings).collect::<Vec<u32>>());
    assert_eq!(numbers(&yard, places::ON_PLAN).await, listed);
    assert!(yard.has(".times li .marker.minor").await, "the fault is not in the list");
    assert!(yard.has(".times li .marker.good").await, "no good deed is in the list");

    let off = "const plan = document.querySelector('svg.plan').getBoundingClientRect();
        return [...document.querySelectorAll(args[0])].filter((mark) => {
            const m = mark.getBoundingClientRect();
            const [x, y] = [(m.left + m.right) / 2, (m.top + m.bottom) / 2];
            return x < plan.left || x > plan.right || y < plan.top || y > plan.bottom;
        }).length;";
    let off = yard.script(off, vec![json!(places::ON_PLAN)]).await;
    assert_eq!(off, Ok(Value::from(0)), "marks lie beside the plan");
    let way = "document.querySelector('svg.plan .way').getTotalLength()";
    assert!(yard.is(&format!("{way} > 1000")).await, "the path driven is not on the plan");
    let dates = "return [...document.querySelectorAll('.facts time')].map((t) => t.dateTime);";
    let dates = yard.script(dates, Vec::new()).await.unwrap();
    assert_eq!(dates[0], "2026-01-05T08:00:00Z");
    let ticks = serde_json::from_str::<Value>(&text).unwrap()["ticks"].as_f64().unwrap();
    let shown = seconds(dates[1].as_str().unwrap());
    assert!((shown - ticks / 64.0).abs() < 0.001, "{dates} for {ticks} ticks");

    let folder = target_folder().join("screens");
    std::fs::create_dir_all(&folder).unwrap();
    for (n, (paper, width, height)) in PAPERS.into_iter().enumerate() {
        let choose = "document.querySelectorAll(args[0])[args[1]].click();";
        yard.script(choose, vec![json!(places::PAPERS), json!(n)]).await.unwrap();
        yard.settle().await;
        let pdf = yard.print().await;
        std::fs::write(folder.join(format!("print-{paper}-{lang}.pdf")), &pdf).unwrap();
        let sizes = page_sizes(&pdf);
        assert!(!sizes.is_empty(), "{paper} in {lang}: the PDF has no page");
        for (w, h) in sizes {
            let fits = (w - width).abs() < 1.0 && (h - height).abs() < 1.0;
            assert!(fits, "{paper} in {lang}: a page has {w} by {h} points");
        }
    }
    let errors = yard.console_errors().await;
    assert!(errors.is_empty(), "{lang}: {errors:#?}");
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_debrief_prints_in_english() {
    the_debrief_prints("en").await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_debrief_prints_in_spanish() {
    the_debrief_prints("es").await;
}

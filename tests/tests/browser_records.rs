//! Records in a browser: many files at once, a name typed in another way, a run without a date, and a deletion that
//! no double click does.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_tests::browser::{Size, Yard, places};
use coneyard_tests::drives::ridden;
use serde_json::json;

async fn text_of(yard: &Yard, css: &str) -> String {
    yard.wait_for(css).await.text().await.unwrap()
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn many_files_come_in_at_once_with_a_summary() {
    let yard = Yard::start(Size::SMALL, "en").await;
    let write = |name: &str, text: &str| {
        let path = yard.downloads.join(name);
        std::fs::write(&path, text).unwrap();
        path.to_string_lossy().into_owned()
    };
    let first = ridden("straight", "single", "run-back", 3);
    // A scripted ride may have no date, as here.
    let undated = first.replace("2026-01-05T08:00:00Z", "");
    let files = [
        write("a.run.json", &first),
        write("b.run.json", &undated),
        write("c.json", "{}"),
        write("d.run.json", &first),
    ];
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&files.join("\n")).await.unwrap();
    let said = text_of(&yard, "#import-summary").await;
    yard.wait_until("document.querySelectorAll('.import li').length === 4").await;
    assert!(
        text_of(&yard, "#import-summary").await.starts_with("2 taken, 1 already here, 1 not"),
        "{said}"
    );
    assert!(yard.is("location.hash === '#/path'").await, "the summary stays");
    // The same person in other letters; the run without a date can be opened.
    let settings = "localStorage.setItem('coneyard-settings', JSON.stringify({
        ...JSON.parse(localStorage.getItem('coneyard-settings')), who: ' aLDER ' }));";
    yard.script(settings, Vec::new()).await.unwrap();
    yard.open("#/progress").await;
    yard.wait_for("tbody tr:nth-of-type(2)").await;
    let links = "[...document.querySelectorAll('tbody a')].map((a) => a.textContent.trim())";
    assert!(yard.is(&format!("{links}.every((t) => t.length > 4)")).await, "each has a name");
    yard.click("tbody tr:last-of-type a").await;
    yard.debrief_opens().await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_double_click_deletes_nothing() {
    let yard = Yard::start(Size::SMALL, "en").await;
    let path = yard.downloads.join("a.run.json");
    std::fs::write(&path, ridden("straight", "single", "run-back", 3)).unwrap();
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&path.to_string_lossy()).await.unwrap();
    yard.debrief_opens().await;
    yard.wait_for(places::REPRODUCES).await;
    let place = "const button = [...document.querySelectorAll('.actions > button')].at(-1);
        button.scrollIntoView({ block: 'center' });
        const box = button.getBoundingClientRect();
        return [box.left + box.width / 2, box.top + box.height / 2];";
    let at = yard.script(place, Vec::new()).await.unwrap();
    for (clicks, kind) in
        [(1, "mousePressed"), (1, "mouseReleased"), (2, "mousePressed"), (2, "mouseReleased")]
    {
        let event = json!({
            "type": kind, "x": at[0], "y": at[1], "button": "left", "clickCount": clicks,
        });
        yard.devtools("Input.dispatchMouseEvent", event).await;
    }
    yard.settle().await;
    // It is still there, and asks no more; two clicks with a thought in between delete it.
    assert!(yard.is("location.hash.startsWith('#/debrief/')").await);
    assert!(!yard.has(".answers").await);
    yard.click(places::DELETE).await;
    yard.click(places::DELETE).await;
    yard.wait_until("location.hash === '#/path'").await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

//! A run file that was taken in goes out again as it came.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::run::Run;
use coneyard_tests::browser::{Size, Yard, places};
use coneyard_tests::drives::ridden;

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_run_goes_in_and_comes_out_the_same() {
    let yard = Yard::start(Size::SMALL, "en").await;
    let given = yard.downloads.join("given.json");
    let text = ridden("straight", "single", "run-back", 3);
    std::fs::write(&given, &text).unwrap();
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&given.to_string_lossy()).await.unwrap();
    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    yard.wait_for(places::REPRODUCES).await;
    yard.click(places::EXPORT).await;
    let saved = yard.downloaded(".run.json").await;
    let saved = Run::parse("the saved run", saved.as_bytes()).unwrap();
    let given = Run::parse("the given run", text.as_bytes()).unwrap();
    assert_eq!(saved.to_text(), given.to_text());
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

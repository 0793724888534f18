//! A run file that was taken in goes out again as it came.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::time::Duration;

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
    let saved = async {
        loop {
            let files = std::fs::read_dir(&yard.downloads).unwrap().flatten();
            let mut paths = files.map(|entry| entry.path());
            if let Some(path) = paths.find(|p| p.to_string_lossy().ends_with(".run.json")) {
                return path;
            }
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
    };
    let path = tokio::time::timeout(Duration::from_secs(30), saved).await;
    let path = path.unwrap_or_else(|_| panic!("no run was saved"));
    let saved = Run::parse("the saved run", &std::fs::read(path).unwrap()).unwrap();
    let given = Run::parse("the given run", text.as_bytes()).unwrap();
    assert_eq!(saved.to_text(), given.to_text());
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

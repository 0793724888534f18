//! The first page: "Drive now" leads to a drive, whenever it is pressed.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_tests::browser::{Size, Yard, places};
use serde_json::json;

/// Holds back the files of the exercises until they are let go.
const HOLD: &str = "
    const real = globalThis.fetch;
    let go;
    const gone = new Promise((done) => { go = done; });
    globalThis.let_exercises_go = go;
    globalThis.fetch = async (what, ...rest) => {
        if (String(what?.url ?? what).includes('exercises-')) await gone;
        return real(what, ...rest);
    };";

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn drive_now_leads_to_a_drive_before_the_exercises_are_there() {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": HOLD })).await;
    yard.open("#/").await;
    yard.click(places::DRIVE_NOW).await;
    yard.wait_until("location.hash !== '#/'").await;
    assert!(!yard.is("location.hash.startsWith('#/drive/')").await, "it cannot be known yet");
    yard.script("let_exercises_go();", Vec::new()).await.unwrap();
    yard.wait_until("location.hash.startsWith('#/drive/')").await;
    yard.wait_for(places::DRIVING).await;
    yard.wait_until("JSON.parse(coneyard.status()).mode === 'drive'").await;
    // The way back is the first page, not the waiting.
    yard.client.back().await.unwrap();
    yard.wait_for(places::DRIVE_NOW).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

//! What is seen before there are pages: first words in the likely language, and why there are no pages when
//! there are none. Nothing of it needs what is being waited for.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_tests::browser::{Size, Yard, places};
use serde_json::json;

async fn cut_off(yard: &Yard, addresses: &[&str]) {
    yard.devtools("Network.enable", json!({})).await;
    yard.devtools("Network.setBlockedURLs", json!({ "urls": addresses })).await;
}

/// Runs before anything of the page does.
async fn before_all(yard: &Yard, script: &str) {
    yard.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script })).await;
}

/// What is said when there are no pages.
async fn said(yard: &Yard) -> String {
    yard.wait_until("!document.getElementById('trouble').hidden").await;
    yard.wait_for(places::TROUBLE).await.text().await.unwrap()
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn what_does_not_come_is_said_in_words_in_both_languages() {
    for missing in
        ["*glue-*", "*/shell-*.js", "*shell_bg-*", "*words-*", "*shell_link-*", "*styles-*"]
    {
        let yard = Yard::start(Size::SMALL, "en").await;
        cut_off(&yard, &[missing]).await;
        yard.open("#/").await;
        let said = said(&yard).await;
        assert!(said.contains("a part of it was not fetched"), "{missing}: {said}");
        assert!(said.contains("una parte no llegó"), "{missing}: {said}");
        assert!(!said.contains("failed at its start"), "{missing}: {said}");
        assert!(!yard.has("#door").await, "{missing}: nothing is promised any more");
    }
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_browser_without_webassembly_and_a_failure_at_the_start_are_told_apart() {
    let yard = Yard::start(Size::SMALL, "es").await;
    before_all(&yard, "delete globalThis.WebAssembly;").await;
    yard.open("#/").await;
    let told = said(&yard).await;
    assert!(told.contains("WebAssembly desactivado") && told.contains("too old"), "{told}");

    let yard = Yard::start(Size::SMALL, "en").await;
    let fails = "WebAssembly.instantiateStreaming = WebAssembly.instantiate = () => {
                     throw new Error('the engine is out of order');
                 };";
    before_all(&yard, fails).await;
    yard.open("#/").await;
    let told = said(&yard).await;
    assert!(told.contains("failed at its start") && told.contains("falló al empezar"), "{told}");
    assert!(told.contains("the engine is out of order"), "{told}");
}

/// Not one program comes: then the words stand there by themselves.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn without_any_program_the_page_still_says_something() {
    let yard = Yard::start(Size::SMALL, "en").await;
    cut_off(&yard, &["*.js", "*.wasm"]).await;
    yard.open("#/").await;
    yard.wait_until("getComputedStyle(document.getElementById('late')).visibility === 'visible'")
        .await;
    let said = yard.wait_for("#late").await.text().await.unwrap();
    assert!(said.contains("has not come yet") && said.contains("todavía no ha llegado"), "{said}");
}

/// Holds back the pages' module until it is let go.
const HOLD: &str = "
    const real = globalThis.fetch;
    const gone = new Promise((done) => { globalThis.let_pages_go = done; });
    globalThis.fetch = async (what, ...rest) => {
        if (String(what?.url ?? what).includes('shell_bg-')) await gone;
        return real(what, ...rest);
    };";

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn drive_now_can_be_pressed_before_there_are_pages() {
    for (lang, word) in [("en", "Drive now"), ("es", "Conducir ya")] {
        let yard = Yard::start(Size::SMALL, lang).await;
        before_all(&yard, HOLD).await;
        yard.open("#/").await;
        let door = yard.wait_for(places::DOOR).await;
        assert_eq!(door.text().await.unwrap(), word);
        assert!(!yard.has("main").await, "there are no pages yet");
        yard.click(places::DOOR).await;
        yard.wait_until(
            "document.querySelector('#door > div:not([hidden]) .way').checkVisibility()",
        )
        .await;
        yard.script("let_pages_go();", Vec::new()).await.unwrap();
        yard.wait_for(places::DRIVING).await;
        assert!(!yard.has("#door").await && !yard.has("#late").await);
        assert_eq!(yard.console_errors().await, Vec::<String>::new());
    }
}

/// Hands out the yard's module in pieces, the second half when it is let go.
const HALF: &str = "
    const real = globalThis.fetch;
    const gone = new Promise((done) => { globalThis.let_yard_go = done; });
    globalThis.fetch = async (what, ...rest) => {
        const answer = await real(what, ...rest);
        if (!String(what?.url ?? what).includes('canvas_bg-')) return answer;
        const whole = new Uint8Array(await answer.arrayBuffer());
        const half = whole.length >> 1;
        const body = new ReadableStream({
            async start(out) {
                out.enqueue(whole.slice(0, half));
                await gone;
                out.enqueue(whole.slice(half));
                out.close();
            },
        });
        return new Response(body, { headers: { 'content-type': 'application/wasm' } });
    };";

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn while_the_yard_comes_its_bytes_are_told() {
    let yard = Yard::start(Size::SMALL, "es").await;
    before_all(&yard, HALF).await;
    yard.open("#/drive/straight/single").await;
    let bar = "document.querySelector('.veil .arriving progress')";
    yard.wait_until(&format!("{bar}?.value > 0.4")).await;
    let share = yard.script(&format!("return {bar}.value;"), Vec::new()).await.unwrap();
    let share = share.as_f64().unwrap();
    assert!((share - 0.5).abs() < 0.01, "{share}");
    let said = yard.wait_for(".veil .arriving").await.text().await.unwrap();
    assert!(said.contains(" de ") && said.contains(" MB") && said.contains(','), "{said}");
    yard.script("let_yard_go();", Vec::new()).await.unwrap();
    yard.wait_for(places::DRIVING).await;
    assert!(!yard.has(".arriving").await);
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

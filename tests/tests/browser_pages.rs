//! Every page opens in a real browser, in both languages, without a complaint on the console.

use coneyard_tests::browser::{Size, Yard};

/// Every page that needs no earlier drive.
const PAGES: [&str; 7] = [
    "#/",
    "#/path",
    "#/drive/figure-eight/single",
    "#/progress",
    "#/controls",
    "#/settings",
    "#/nowhere",
];

async fn every_page_opens(lang: &str) {
    let yard = Yard::start(Size::SMALL, lang).await;
    for page in PAGES {
        yard.open(page).await;
        yard.wait_for("main h1").await;
        yard.wait_until(&format!("document.documentElement.lang === '{lang}'")).await;
        let errors = yard.console_errors().await;
        assert!(errors.is_empty(), "{page} in {lang}: {errors:#?}");
    }
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn every_page_opens_in_english() {
    every_page_opens("en").await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn every_page_opens_in_spanish() {
    every_page_opens("es").await;
}

//! What only a browser can tell: the same drive in WebAssembly, and opening a long replay.
//!
//! The site is served to a Chromium without a window, with one page more, which drives what it is
//! given and sends its times back.

use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::time::Duration;

use axum::Json;
use axum::response::Html;
use axum::routing::get;
use serde::{Deserialize, Serialize};
use tokio::sync::mpsc;

use super::native::{Native, five_minutes, judging_s};
use super::table::Row;
use coneyard::site::site;

/// The page that measures.
const PAGE: &str = include_str!("browser.html");
/// Longest wait for its times.
const PATIENCE: Duration = Duration::from_secs(180);
/// Names that Chromium goes by.
const NAMES: [&str; 2] = ["chromium", "chromium-browser"];

/// What the page is given.
#[derive(Serialize)]
struct Given {
    /// The run to be judged again and again.
    judge: String,
    /// The run to be opened for replay.
    open: String,
}

/// What it sends back.
#[derive(Deserialize)]
struct Times {
    /// Judging once, the best of a few after warming up, s.
    judging_s: f64,
    /// The very first judging after loading, s.
    first_judging_s: f64,
    /// Opening the replay until it can be scrubbed, s.
    opening_s: f64,
}

/// What was measured in the browser.
pub(super) struct InBrowser {
    /// Speed in the browser over native speed.
    share_of_native: f64,
    /// The same for the first drive after loading.
    share_when_cold: f64,
    /// Opening five minutes, s.
    opening_s: f64,
    /// Course that was driven.
    course: &'static str,
}

/// Measures in Chromium; otherwise why it could not be measured.
pub(super) fn measure(dist: &Path, native: &Native) -> Result<InBrowser, String> {
    let run = &native.slowest;
    let given =
        Given { judge: run.to_text(), open: five_minutes().map_err(|e| e.to_string())?.to_text() };
    let natively = judging_s(run).map_err(|e| e.to_string())?;
    let times = tokio::runtime::Runtime::new()
        .map_err(|e| e.to_string())?
        .block_on(times_of(dist, given))?;
    Ok(InBrowser {
        share_of_native: natively / times.judging_s,
        share_when_cold: natively / times.first_judging_s,
        opening_s: times.opening_s,
        course: native.course,
    })
}

/// The lines about the browser, measured or not.
pub(super) fn rows(measured: &Result<InBrowser, String>) -> Vec<Row> {
    let of_native =
        |m: &InBrowser| format!("{}, judged once; cold {:.2}", m.course, m.share_when_cold);
    let row = |what, unit, must_reach, aim, value: fn(&InBrowser) -> f64, note: String| Row {
        what,
        measured: measured.as_ref().ok().map(value),
        unit,
        must_reach: Some(must_reach),
        aim: Some(aim),
        note: measured.as_ref().map_or_else(|why| format!("not measured: {why}"), |_| note),
    };
    let note = measured.as_ref().map(of_native).unwrap_or_default();
    vec![
        row("headless session, wasm", "of native", 0.5, 0.7, |m| m.share_of_native, note),
        row(
            "opening a 5-minute run in the browser",
            "s",
            3.0,
            1.0,
            |m| m.opening_s,
            "until it can be scrubbed".to_owned(),
        ),
    ]
}

/// Serves the page to a browser and waits for what it sends back.
async fn times_of(dist: &Path, given: Given) -> Result<Times, String> {
    let (send, mut received) = mpsc::channel::<Result<Times, String>>(1);
    let given = Arc::new(given);
    let result = move |Json(answer): Json<serde_json::Value>| async move {
        let times = match answer.get("trouble").and_then(|trouble| trouble.as_str()) {
            Some(trouble) => Err(format!("the page said: {trouble}")),
            None => serde_json::from_value(answer).map_err(|e| e.to_string()),
        };
        // Nobody listens any more when the time is over.
        let _ = send.send(times).await;
    };
    let pages = axum::Router::new()
        .route("/bench/", get(|| async { Html(PAGE) }))
        .route("/bench/runs", get(move || async move { Json(serde_json::json!(&*given)) }))
        .route("/bench/result", axum::routing::post(result))
        .merge(site(dist));
    let listener =
        tokio::net::TcpListener::bind(("127.0.0.1", 0)).await.map_err(|e| e.to_string())?;
    let address = listener.local_addr().map_err(|e| e.to_string())?;
    let serving = tokio::spawn(async move { axum::serve(listener, pages).await });
    let browser = Browser::open(&format!("http://{address}/bench/"))?;
    let times = tokio::time::timeout(PATIENCE, received.recv()).await;
    drop(browser);
    serving.abort();
    match times {
        Ok(Some(times)) => times,
        Ok(None) => Err("the server stopped".to_owned()),
        Err(_) => Err(format!("the browser sent nothing within {} s", PATIENCE.as_secs())),
    }
}

/// A Chromium without a window and with a profile of its own, ended with this value.
struct Browser {
    child: Child,
    _profile: tempfile::TempDir,
}

impl Browser {
    fn open(page: &str) -> Result<Self, String> {
        let profile = tempfile::tempdir().map_err(|e| e.to_string())?;
        for name in NAMES {
            let started = Command::new(name)
                .args(["--headless=new", "--no-sandbox", "--disable-dev-shm-usage"])
                .args(["--use-angle=swiftshader", "--enable-unsafe-swiftshader"])
                .args(["--ignore-gpu-blocklist", "--no-first-run", "--disable-sync"])
                .args(["--disable-background-networking", "--disable-component-update"])
                .arg(format!("--user-data-dir={}", profile.path().display()))
                .args(["--window-size=960,600", page])
                .stdin(Stdio::null())
                .stdout(Stdio::null())
                .stderr(Stdio::null())
                .spawn();
            if let Ok(child) = started {
                return Ok(Self { child, _profile: profile });
            }
        }
        Err("there is no Chromium; install it (Debian: apt-get install chromium)".to_owned())
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        // It may have ended by itself already.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

//! What a picture costs the browser's main thread, by the browser's own account.
//!
//! A run is played in a Chromium without a window. What its main thread worked, without waiting, is
//! divided by the pictures. Drawing without a graphics card goes on in another process and is not in it.

use std::io::{BufRead, BufReader, Read};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use axum::response::Html;
use axum::routing::get;
use coneyard::riding::{NewRide, ride};
use coneyard::site::site;
use fantoccini::wd::WebDriverCompatibleCommand;
use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};
use url::{ParseError, Url};

use super::native::Native;
use super::table::Row;

/// The page that plays.
const PAGE: &str = include_str!("drawn.html");
/// Played before anything is counted, and then counted, s.
const WARMING: Duration = Duration::from_secs(4);
const COUNTED: Duration = Duration::from_secs(10);
/// Longest wait for the page.
const PATIENCE: Duration = Duration::from_secs(120);

/// A course like most.
const USUAL: &str = "figure-eight";

/// Milliseconds of the main thread for each picture.
pub(super) struct Drawn {
    /// Everything that it did.
    whole: f64,
    /// The scripts' share: our module and what it calls.
    script: f64,
    /// How many pictures were counted.
    pictures: f64,
}

/// The heaviest course and a usual one; otherwise why they could not be measured.
pub(super) fn measure(dist: &Path, native: &Native) -> Result<[Drawn; 2], String> {
    let new = NewRide { course: USUAL, rider: "model", seed: 1, truck: None, who: "" };
    let usual = ride(&new).map_err(|e| e.to_string())?.to_text();
    let heaviest = native.heaviest.to_text();
    let runtime = tokio::runtime::Runtime::new().map_err(|e| e.to_string())?;
    runtime.block_on(both(dist, heaviest, usual))
}

/// The lines about pictures, measured or not.
pub(super) fn rows(drawn: &Result<[Drawn; 2], String>) -> Vec<Row> {
    ["the heaviest course", USUAL]
        .into_iter()
        .enumerate()
        .map(|(i, course)| {
            let measured = drawn.as_ref().map(|both| &both[i]);
            Row {
                what: "CPU of a drawn picture",
                measured: measured.ok().map(|d| d.whole),
                unit: "ms",
                must_reach: Some(6.0),
                aim: Some(3.0),
                note: match measured {
                    Ok(d) => format!(
                        "{course}: the main thread, {:.2} ms of it scripts; {} pictures",
                        d.script, d.pictures
                    ),
                    Err(why) => format!("not measured: {why}"),
                },
            }
        })
        .collect()
}

async fn both(dist: &Path, heaviest: String, usual: String) -> Result<[Drawn; 2], String> {
    let pages = axum::Router::new()
        .route("/bench/", get(|| async { Html(PAGE) }))
        .route("/bench/heaviest", get(|| async { heaviest }))
        .route("/bench/usual", get(|| async { usual }))
        .merge(site(dist));
    let listener =
        tokio::net::TcpListener::bind(("127.0.0.1", 0)).await.map_err(|e| e.to_string())?;
    let address = listener.local_addr().map_err(|e| e.to_string())?;
    let serving = tokio::spawn(async move { axum::serve(listener, pages).await });
    let driver = Driver::start()?;
    let profile = tempfile::tempdir().map_err(|e| e.to_string())?;
    let client = client(&driver, profile.path()).await?;
    let page = format!("http://{address}/bench/");
    let measured = async {
        Ok([played(&client, &page, "heaviest").await?, played(&client, &page, "usual").await?])
    };
    let measured = measured.await;
    // A browser that does not close is ended with its driver.
    let _ = client.close().await;
    serving.abort();
    measured
}

async fn client(driver: &Driver, profile: &Path) -> Result<Client, String> {
    let wanted = json!({
        "browserName": "chrome",
        "goog:chromeOptions": { "args": [
            "--headless=new", "--no-sandbox", "--disable-dev-shm-usage",
            "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--ignore-gpu-blocklist",
            "--no-first-run", "--disable-sync", "--disable-background-networking",
            "--disable-component-update", "--disable-renderer-backgrounding",
            "--window-size=1300,900", format!("--user-data-dir={}", profile.display()),
        ] },
    });
    let capabilities = wanted.as_object().cloned().unwrap_or_default();
    ClientBuilder::new(HttpConnector::new())
        .capabilities(capabilities)
        .connect(&format!("http://localhost:{}", driver.port))
        .await
        .map_err(|e| format!("Chromium does not start: {e}"))
}

/// Plays one run in a fresh page.
async fn played(client: &Client, page: &str, run: &str) -> Result<Drawn, String> {
    let said = |e: fantoccini::error::CmdError| e.to_string();
    client.goto(page).await.map_err(said)?;
    let loaded = async {
        while client.execute("return window.ready === true", vec![]).await.map_err(said)? != true {
            tokio::time::sleep(Duration::from_millis(200)).await;
        }
        Ok::<(), String>(())
    };
    tokio::time::timeout(PATIENCE, loaded)
        .await
        .map_err(|_| format!("the page was not ready within {} s", PATIENCE.as_secs()))??;
    // Time in which the thread worked, not time on the wall: other programs are not in it.
    let of_threads = json!({ "timeDomain": "threadTicks" });
    client.issue_cmd(DevTools("Performance.enable", of_threads)).await.map_err(said)?;
    let play = format!("await window.play('/bench/{run}')");
    client.execute(&format!("return (async () => {{ {play} }})()"), vec![]).await.map_err(said)?;
    tokio::time::sleep(WARMING).await;
    let before = Counted::now(client).await?;
    tokio::time::sleep(COUNTED).await;
    let after = Counted::now(client).await?;
    let pictures = after.pictures - before.pictures;
    if pictures < 10.0 {
        return Err(format!("only {pictures} pictures were drawn"));
    }
    let each = |from: f64, to: f64| (to - from) / pictures * 1e3;
    Ok(Drawn {
        whole: each(before.task_s, after.task_s),
        script: each(before.script_s, after.script_s),
        pictures,
    })
}

/// What the browser has counted since the page was opened.
struct Counted {
    task_s: f64,
    script_s: f64,
    pictures: f64,
}

impl Counted {
    async fn now(client: &Client) -> Result<Self, String> {
        let said = |e: fantoccini::error::CmdError| e.to_string();
        let pictures = client.execute("return window.pictures", vec![]).await.map_err(said)?;
        let metrics =
            client.issue_cmd(DevTools("Performance.getMetrics", json!({}))).await.map_err(said)?;
        let metric = |name: &str| {
            let list = metrics["metrics"].as_array()?;
            list.iter().find(|m| m["name"] == name)?["value"].as_f64()
        };
        let named = |name: &str| metric(name).ok_or(format!("the browser does not count {name}"));
        Ok(Self {
            task_s: named("TaskDuration")?,
            script_s: named("ScriptDuration")?,
            pictures: pictures.as_f64().ok_or("the page counts no pictures")?,
        })
    }
}

/// A command of the browser's developer tools, by way of its driver.
#[derive(Debug)]
struct DevTools(&'static str, Value);

impl WebDriverCompatibleCommand for DevTools {
    fn endpoint(&self, base_url: &Url, session_id: Option<&str>) -> Result<Url, ParseError> {
        base_url.join(&format!("session/{}/goog/cdp/execute", session_id.unwrap_or_default()))
    }

    fn method_and_body(&self, _: &Url) -> (http::Method, Option<String>) {
        let body = json!({ "cmd": self.0, "params": self.1 });
        (http::Method::POST, Some(body.to_string()))
    }
}

/// Chromium's driver on a free port, ended with this value.
struct Driver {
    child: Child,
    port: u16,
}

impl Driver {
    fn start() -> Result<Self, String> {
        let none =
            "there is no driver of Chromium; install it (Debian: apt-get install chromium-driver)";
        let mut child = Command::new("chromedriver")
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .spawn()
            .map_err(|_| none.to_owned())?;
        let mut lines = BufReader::new(child.stdout.take().ok_or("the driver says nothing")?);
        let mut driver = Self { child, port: 0 };
        let mut line = String::new();
        while driver.port == 0 {
            line.clear();
            if lines.read_line(&mut line).map_err(|e| e.to_string())? == 0 {
                return Err("the driver of Chromium ended before it named its port".to_owned());
            }
            let port = line.trim().split("started successfully on port ").nth(1);
            let port = port.and_then(|port| port.trim_end_matches('.').parse().ok());
            driver.port = port.unwrap_or(0);
        }
        // Read on, or a full pipe would stop it one day.
        std::thread::spawn(move || std::io::copy(&mut lines.take(u64::MAX), &mut std::io::sink()));
        Ok(driver)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // It may have ended by itself already.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

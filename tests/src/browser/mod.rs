//! A real browser on the real site: one call starts the native server and Chromium, each on a free
//! port, and dropping the result ends exactly these two.
//!
//! Chromium draws without a graphics card here, a few frames a second: no test may count frames or
//! depend on how long something takes. Tests wait for what they need to see.

pub mod delivered;
pub mod keyboard;
pub mod line;
pub mod mirror;
pub mod paper;
pub mod places;
mod processes;
pub mod stored;
pub mod thumbs;
mod vendor;

use std::time::{Duration, Instant};

use fantoccini::wd::PrintConfiguration;
use fantoccini::{Client, ClientBuilder, Locator};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};
use tempfile::TempDir;

use processes::{Driver, Process};
use vendor::Vendor;

pub use processes::{Class, coneyard, project_folder, site, target_folder};

/// Longest wait for something that must come: far more than a slow machine needs.
const PATIENCE: Duration = Duration::from_secs(120);

/// Size of the page, CSS pixels.
#[derive(Clone, Copy, Debug)]
pub struct Size {
    /// Width.
    pub width: u32,
    /// Height.
    pub height: u32,
}

impl Size {
    /// Small, so that drawing without a graphics card keeps up.
    pub const SMALL: Self = Self { width: 640, height: 480 };
}

/// The site in a browser.
pub struct Yard {
    /// The WebDriver session, for whatever this struct has no word for.
    pub client: Client,
    /// Address of the server, like `http://localhost:40001`.
    pub address: String,
    /// Folder that the browser saves files into.
    pub downloads: std::path::PathBuf,
    // Ended in this order when dropped: the driver takes its browser with it.
    _driver: Driver,
    server: Option<Process>,
    _profile: TempDir,
}

impl Yard {
    /// Starts the server and the browser; opens no page yet. `lang` is what the browser asks for.
    pub async fn start(size: Size, lang: &str) -> Self {
        Self::start_serving(size, lang, &site()).await
    }

    /// The same with the site in this folder.
    pub async fn start_serving(size: Size, lang: &str, site: &std::path::Path) -> Self {
        let (server, address) = processes::start_server(site);
        Self::start_at(size, lang, address, Some(server)).await
    }

    /// The same with what somebody else serves.
    pub async fn start_for(size: Size, lang: &str, class: &processes::Class) -> Self {
        Self::start_at(size, lang, class.address.clone(), None).await
    }

    async fn start_at(size: Size, lang: &str, address: String, server: Option<Process>) -> Self {
        let driver = processes::start_driver();
        let profile = TempDir::new().expect("a folder for temporary files can be made");
        let downloads = profile.path().join("downloads");
        std::fs::create_dir_all(&downloads).expect("a folder for downloads can be made");
        let args = [
            "--headless=new".to_owned(),
            "--no-sandbox".to_owned(),
            "--use-angle=swiftshader".to_owned(),
            "--enable-unsafe-swiftshader".to_owned(),
            "--ignore-gpu-blocklist".to_owned(),
            "--disable-quic".to_owned(),
            "--no-first-run".to_owned(),
            "--disable-background-networking".to_owned(),
            "--disable-component-update".to_owned(),
            "--disable-sync".to_owned(),
            // A small /dev/shm, as containers have it, would crash the pages.
            "--disable-dev-shm-usage".to_owned(),
            // A tab behind another one must not be slowed down while a test works in it.
            "--disable-renderer-backgrounding".to_owned(),
            format!("--user-data-dir={}", profile.path().join("user").display()),
            format!("--lang={lang}"),
            format!("--window-size={},{}", size.width, size.height),
        ];
        let wanted = json!({
            "browserName": "chrome",
            "goog:chromeOptions": {
                "args": args,
                "prefs": {
                    "intl.accept_languages": lang,
                    "download.default_directory": downloads,
                    "download.prompt_for_download": false,
                },
            },
            "goog:loggingPrefs": { "browser": "ALL" },
            "timeouts": { "script": 600_000 },
        });
        let Value::Object(capabilities) = wanted else {
            unreachable!("the literal above is an object");
        };
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(capabilities)
            .connect(&driver.address())
            .await
            .expect("Chromium starts; see the driver's message");
        let yard = Self { client, address, downloads, _driver: driver, server, _profile: profile };
        yard.resize(size).await;
        yard
    }

    /// Opens the page behind this address, like `#/path`, in a fresh document.
    pub async fn open(&self, hash: &str) {
        // Only the part behind the # would change otherwise, which loads nothing.
        self.goto("about:blank").await;
        self.goto(&format!("{}/{hash}", self.address)).await;
    }

    /// Ends the server: from now on there is no network.
    pub fn close_server(&mut self) {
        self.server = None;
    }

    /// Loads the page again, as a person does.
    pub async fn reload(&self) {
        self.client.refresh().await.expect("the page loads");
    }

    /// Opens a file of the site in which none of its programs run.
    pub async fn open_bare(&self) {
        self.goto("about:blank").await;
        self.goto(&format!("{}/service-worker.js", self.address)).await;
    }

    /// Goes to another page in the same document, as a link does.
    pub async fn go(&self, hash: &str) {
        let body = "location.hash = args[0];";
        self.script(body, vec![json!(hash)]).await.expect("the address can be changed");
    }

    /// Joins the class that is served here.
    pub async fn joins(&self, class: &Class, name: &str) {
        self.open("#/class").await;
        self.writes("#class-code", &class.code).await;
        self.writes("#class-who", name).await;
        self.click("#join-class").await;
        self.wait_for("#class-you").await;
    }

    /// Enters the class that is served here as its trainer.
    pub async fn enters(&self, class: &Class) {
        self.open("#/class").await;
        self.writes("#passphrase", &class.passphrase).await;
        self.click("#enter-class").await;
        self.wait_for("#live-title").await;
    }

    /// Writes into a field in place of what stands there.
    pub async fn writes(&self, css: &str, words: &str) {
        let field = self.wait_for(css).await;
        field.clear().await.expect("the field can be emptied");
        field.send_keys(words).await.expect("the field takes words");
    }

    /// Opens what is behind the one button of a drive.
    pub async fn open_more(&self) {
        self.wait_for(places::MORE).await;
        if !self.has(places::MENU).await {
            self.click(places::MORE).await;
        }
        self.wait_for(places::MENU).await;
    }

    /// Waits for the debrief of what was just driven, and opens it without a word of one's own where one is asked for.
    pub async fn debrief_opens(&self) {
        self.wait_until("location.hash.startsWith('#/debrief/')").await;
        self.wait_for("#own-skip, .verdict, main > .note").await;
        if self.has("#own-skip").await {
            self.click("#own-skip").await;
        }
    }

    /// Asks how to leave a drive, by the button for it.
    pub async fn ask_to_leave(&self) {
        self.open_more().await;
        self.click(places::LEAVE).await;
    }

    /// Takes the truck without a walk-round: how one is made by keys is tried in `browser_walk.rs`.
    pub async fn take_the_truck(&self) {
        self.script("coneyard.act(JSON.stringify('take'))", vec![]).await.expect("a walk-round");
    }

    /// Has the drive go at half of real time.
    pub async fn halve_pace(&self) {
        self.open_more().await;
        self.click(places::HALF_PACE).await;
        self.click(places::MORE).await;
    }

    /// A file that the page hands out, by how its name ends.
    pub async fn downloaded(&self, ending: &str) -> String {
        for _ in 0..600 {
            let files = std::fs::read_dir(&self.downloads).expect("the folder is there");
            let files = files.flatten().map(|e| e.path());
            let mut whole = files.filter(|p| p.to_string_lossy().ends_with(ending));
            if let Some(path) = whole.next() {
                return std::fs::read_to_string(path).expect("the file is text");
            }
            tokio::time::sleep(std::time::Duration::from_millis(100)).await;
        }
        panic!("no file was saved whose name ends with {ending}")
    }

    /// Waits for an element and clicks it with the pointer.
    pub async fn click(&self, css: &str) {
        let clicked = self.wait_for(css).await.click().await;
        if let Err(e) = clicked {
            panic!("{css} cannot be clicked: {e}; {}", self.what_is_shown().await);
        }
    }

    async fn goto(&self, url: &str) {
        self.client.goto(url).await.expect("the page loads");
    }

    /// Gives the page exactly this size, whatever the window's least size is.
    pub async fn resize(&self, size: Size) {
        let metrics = json!({
            "width": size.width, "height": size.height, "deviceScaleFactor": 1, "mobile": false,
        });
        self.devtools("Emulation.setDeviceMetricsOverride", metrics).await;
    }

    /// One command of the browser's own protocol.
    pub async fn devtools(&self, command: &str, params: Value) -> Value {
        let body = json!({ "cmd": command, "params": params });
        self.client
            .issue_cmd(Vendor::new("goog/cdp/execute", body))
            .await
            .expect("the browser knows the command")
    }

    /// Kills the tab as a crash does, without a word of farewell; goes on in another one.
    pub async fn crash_tab(&self) {
        let crashing = self.client.window().await.expect("the tab is there");
        let other = self.client.new_window(true).await.expect("a tab can be opened").handle;
        self.client.switch_to_window(crashing).await.expect("the tab is there");
        let body = json!({ "cmd": "Page.crash", "params": {} });
        let said = self.client.issue_cmd(Vendor::new("goog/cdp/execute", body)).await;
        let said = said.expect_err("a tab that crashes answers nothing").to_string();
        assert!(said.contains("tab crashed"), "{said}");
        self.client.switch_to_window(other).await.expect("the other tab is there");
    }

    /// The page as it would come out of a printer, a PDF; the page itself says on what paper.
    pub async fn print(&self) -> Vec<u8> {
        let as_the_page_says = PrintConfiguration::builder().shrink_to_fit(false);
        let configuration = as_the_page_says.build().expect("the defaults are valid");
        self.client.print(configuration).await.expect("the browser prints")
    }

    /// Errors that the page wrote to the console since the last call: exceptions, refused files.
    pub async fn console_errors(&self) -> Vec<String> {
        let entries = self
            .client
            .issue_cmd(Vendor::new("se/log", json!({ "type": "browser" })))
            .await
            .expect("the driver hands out the console");
        let entries = entries.as_array().cloned().unwrap_or_default();
        entries
            .iter()
            .filter(|entry| entry["level"] == "SEVERE")
            .map(|entry| entry["message"].as_str().unwrap_or_default().to_owned())
            .collect()
    }

    /// Runs a script in the page; it may `await`, and gives back what it returns.
    pub async fn script(&self, body: &str, args: Vec<Value>) -> Result<Value, String> {
        let whole = format!(
            "const given = Array.from(arguments); const done = given.pop();
             (async (...args) => {{ {body} }})(...given)
               .then((value) => done({{ value: value ?? null }}))
               .catch((error) => done({{ error: String(error?.message ?? error) }}));"
        );
        let answer = self.client.execute_async(&whole, args).await.map_err(|e| e.to_string())?;
        match answer.get("error") {
            Some(error) => Err(error.as_str().unwrap_or_default().to_owned()),
            None => Ok(answer["value"].clone()),
        }
    }

    /// Waits until there is an element of this kind and returns it.
    pub async fn wait_for(&self, css: &str) -> fantoccini::elements::Element {
        let found = self.client.wait().at_most(PATIENCE).for_element(Locator::Css(css)).await;
        match found {
            Ok(element) => element,
            Err(e) => panic!("{css} did not appear: {e}; {}", self.what_is_shown().await),
        }
    }

    /// Whether there is an element of this kind now.
    pub async fn has(&self, css: &str) -> bool {
        self.client.find(Locator::Css(css)).await.is_ok()
    }

    /// Whether an expression is true in the page now.
    pub async fn is(&self, expression: &str) -> bool {
        let body = format!("return Boolean({expression});");
        self.script(&body, Vec::new()).await == Ok(Value::Bool(true))
    }

    /// Waits until the script, an expression, is true.
    pub async fn wait_until(&self, expression: &str) {
        let begun = Instant::now();
        while !self.is(expression).await {
            if begun.elapsed() > PATIENCE {
                panic!("waited in vain for {expression}; {}", self.what_is_shown().await);
            }
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
    }

    /// Waits until the page has drawn what it has to show: the yard's engine draws its first
    /// pictures a while after the page says that it is there.
    pub async fn settle(&self) {
        let body = "for (let i = 0; i < 20; i += 1) {
            await new Promise((drawn) => requestAnimationFrame(drawn));
        }";
        self.script(body, Vec::new()).await.expect("the page draws");
    }

    /// Address, text and console of the page, for the message of a failed test.
    pub async fn what_is_shown(&self) -> String {
        let shown = self
            .script(
                "const text = document.body.innerText;
                 const shown = text.length > 4000
                     ? `${text.slice(0, 2000)}\\n...\\n${text.slice(-2000)}` : text;
                 return location.href + '\\n' + shown;",
                Vec::new(),
            )
            .await;
        let errors = self.console_errors().await;
        format!("the page shows {shown:?}; its console says {errors:#?}")
    }
}

//! Commands of the driver that are not in the WebDriver standard.

use fantoccini::wd::WebDriverCompatibleCommand;
use serde_json::Value;
use url::{ParseError, Url};

/// One such command: its place below the session, and what it is given.
#[derive(Debug)]
pub(crate) struct Vendor {
    path: &'static str,
    body: Value,
}

impl Vendor {
    pub(crate) fn new(path: &'static str, body: Value) -> Self {
        Self { path, body }
    }
}

impl WebDriverCompatibleCommand for Vendor {
    fn endpoint(&self, base_url: &Url, session_id: Option<&str>) -> Result<Url, ParseError> {
        let session = session_id.unwrap_or_default();
        base_url.join(&format!("session/{session}/{}", self.path))
    }

    fn method_and_body(&self, _: &Url) -> (http::Method, Option<String>) {
        (http::Method::POST, Some(self.body.to_string()))
    }
}

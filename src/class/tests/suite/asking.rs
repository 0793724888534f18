//! A host in this program, asked as a browser asks.

use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::body::{Body, to_bytes};
use axum::extract::{ConnectInfo, Extension};
use axum::http::{HeaderMap, Method, Request};
use coneyard_class::http::api_with;
use coneyard_class::records::Class;
use coneyard_class::roles::{Host, new_owner_passphrase};
use coneyard_class::store::Store;
use serde_json::{Value, json};
use tokio::sync::watch;
use tower::ServiceExt;

use super::stores::class;

/// A host with two classes.
pub(crate) struct Asked {
    pub(crate) store: Arc<dyn Store>,
    pub(crate) class: Class,
    pub(crate) passphrase: String,
    pub(crate) other: Class,
    pub(crate) others_passphrase: String,
    pub(crate) owner: String,
    pub(crate) ends: watch::Sender<bool>,
    routes: Router,
}

/// What is answered.
#[derive(Debug)]
pub(crate) struct Answer {
    pub(crate) status: u16,
    pub(crate) headers: HeaderMap,
    pub(crate) bytes: Vec<u8>,
}

impl Answer {
    pub(crate) fn json(&self) -> Value {
        serde_json::from_slice(&self.bytes).unwrap_or(Value::Null)
    }

    /// The one sentence of a refusal.
    pub(crate) fn sentence(&self) -> String {
        let sentence = self.json()["error"].as_str().unwrap_or_default().to_owned();
        assert!(!sentence.is_empty() && sentence.lines().count() == 1, "{self:?}");
        assert!(sentence.len() < 400, "{sentence}");
        sentence
    }

    /// The cookie as the next request has it.
    pub(crate) fn cookie(&self) -> String {
        let set = self.headers.get("set-cookie").unwrap().to_str().unwrap();
        assert!(set.contains("HttpOnly") && set.contains("SameSite=Strict"), "{set}");
        set.split(';').next().unwrap().to_owned()
    }
}

impl Asked {
    pub(crate) async fn host(store: Arc<dyn Store>) -> Self {
        Self::patient(store, Duration::from_secs(60)).await
    }

    pub(crate) async fn patient(store: Arc<dyn Store>, patience: Duration) -> Self {
        let (other, others_passphrase) = class(&store, "Birch").await;
        let (class, passphrase) = class(&store, "Cedar").await;
        let owner = new_owner_passphrase(&*store).await.unwrap();
        let (ends, ending) = watch::channel(false);
        let host = Host::new(store.clone(), &class.id, ending, false);
        let from: SocketAddr = "192.0.2.7:5000".parse().unwrap();
        let routes = api_with(host, patience).layer(Extension(ConnectInfo(from)));
        Self { store, class, passphrase, other, others_passphrase, owner, ends, routes }
    }

    pub(crate) async fn send(&self, request: Request<Body>) -> Answer {
        let response = self.open(request).await;
        let (head, body) = response.into_parts();
        let bytes = to_bytes(body, 1 << 30).await.unwrap().to_vec();
        Answer { status: head.status.as_u16(), headers: head.headers, bytes }
    }

    pub(crate) async fn open(&self, request: Request<Body>) -> axum::response::Response {
        self.routes.clone().oneshot(request).await.unwrap()
    }

    /// A request with JSON, as the site's own page sends it.
    pub(crate) async fn ask(
        &self,
        method: &str,
        path: &str,
        cookie: &str,
        body: impl Into<Body>,
    ) -> Answer {
        self.send(request(method, path, cookie).body(body.into()).unwrap()).await
    }

    pub(crate) async fn get(&self, path: &str, cookie: &str) -> Answer {
        self.ask("GET", path, cookie, Body::empty()).await
    }

    /// Joins; the cookie.
    pub(crate) async fn join(&self, code: &str, name: &str) -> String {
        let body = json!({ "code": code, "name": name }).to_string();
        let answer = self.ask("POST", "/api/join", "", body).await;
        assert_eq!(answer.status, 200, "{answer:?}");
        answer.cookie()
    }

    /// Enters; the cookie.
    pub(crate) async fn enter(&self, passphrase: &str) -> String {
        let answer = self
            .ask("POST", "/api/enter", "", json!({ "passphrase": passphrase }).to_string())
            .await;
        assert_eq!(answer.status, 200, "{answer:?}");
        answer.cookie()
    }

    pub(crate) async fn deliver(&self, cookie: &str, file: &[u8]) -> Answer {
        self.ask("PUT", &format!("/api/runs/{}", super::stores::id(file)), cookie, file.to_vec())
            .await
    }
}

/// The head of such a request.
pub(crate) fn request(method: &str, path: &str, cookie: &str) -> axum::http::request::Builder {
    let mut request = Request::builder()
        .method(Method::from_bytes(method.as_bytes()).unwrap())
        .uri(path)
        .header("host", "localhost:8137")
        .header("origin", "http://localhost:8137")
        .header("sec-fetch-site", "same-origin")
        .header("content-type", "application/json");
    if !cookie.is_empty() {
        request = request.header("cookie", cookie);
    }
    request
}

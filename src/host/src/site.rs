//! The built site as browsers get it.
//!
//! Files whose name carries a digest of their content never change, so a browser may keep them
//! for ever; everything else is asked for again each time, so that a rebuilt site is seen at once.

use std::path::Path;

use axum::Router;
use axum::extract::Request;
use axum::http::header::{CACHE_CONTROL, HeaderValue, X_CONTENT_TYPE_OPTIONS};
use axum::middleware::{self, Next};
use axum::response::Response;
use tower_http::services::ServeDir;

use crate::names::carries_digest;

/// The built site as a browser sees it.
pub fn site(dist: &Path) -> Router {
    let files = ServeDir::new(dist).precompressed_br().precompressed_gzip();
    Router::new().fallback_service(files).layer(middleware::from_fn(headers))
}

async fn headers(request: Request, next: Next) -> Response {
    let keep = carries_digest(request.uri().path());
    let mut response = next.run(request).await;
    let keep = keep && (response.status().is_success() || response.status().as_u16() == 304);
    let caching = if keep { "public, max-age=31536000, immutable" } else { "no-cache" };
    let headers = response.headers_mut();
    headers.insert(CACHE_CONTROL, HeaderValue::from_static(caching));
    headers.insert(X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    response
}

//! The built site as browsers get it.
//!
//! Files whose name carries a digest of their content never change, so a browser may keep them
//! for ever; everything else is asked for again each time, so that a rebuilt site is seen at once.

use std::path::Path;

use axum::Router;
use axum::extract::Request;
use axum::http::header::{self, CACHE_CONTROL, HeaderName, HeaderValue};
use axum::middleware::{self, Next};
use axum::response::Response;
use tower_http::services::ServeDir;

use crate::names::carries_digest;

/// What a page of the site may do, which every answer says. Everything comes from the site itself; nothing
/// stands in the page that would run or style it; no page of another site may have it in a frame.
pub const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
                          img-src 'self'; font-src 'self'; connect-src 'self'; media-src 'self'; \
                          worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; \
                          frame-ancestors 'none'";

/// What the yard has no use for. What it uses (gamepad, full screen, keeping the screen on) is left as it is.
const UNUSED: &str = "accelerometer=(), camera=(), display-capture=(), geolocation=(), gyroscope=(), \
                      hid=(), magnetometer=(), microphone=(), midi=(), payment=(), serial=(), usb=()";

/// The same for every answer.
const ALWAYS: [(HeaderName, &str); 7] = [
    (header::CONTENT_SECURITY_POLICY, POLICY),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (header::REFERRER_POLICY, "no-referrer"),
    (HeaderName::from_static("permissions-policy"), UNUSED),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

/// The built site as a browser sees it.
pub fn site(dist: &Path) -> Router {
    site_with(dist, Router::new())
}

/// The same with other routes beside the files.
pub fn site_with(dist: &Path, routes: Router) -> Router {
    let files = ServeDir::new(dist).precompressed_br().precompressed_gzip();
    routes.fallback_service(files).layer(middleware::from_fn(headers))
}

async fn headers(request: Request, next: Next) -> Response {
    let keep = carries_digest(request.uri().path());
    let mut response = next.run(request).await;
    let keep = keep && (response.status().is_success() || response.status().as_u16() == 304);
    let caching = if keep { "public, max-age=31536000, immutable" } else { "no-cache" };
    let headers = response.headers_mut();
    // Routes beside the files say it themselves.
    headers.entry(CACHE_CONTROL).or_insert(HeaderValue::from_static(caching));
    for (name, value) in ALWAYS {
        headers.insert(name, HeaderValue::from_static(value));
    }
    response
}

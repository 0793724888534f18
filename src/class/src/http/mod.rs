//! The routes, each handed the object of a role; `openapi` is their description, made of the same functions, and the
//! table of who may call what.
//!
//! Whatever is refused is refused in one sentence, as `{"error": "..."}` (`refused`).

mod asked;
mod board;
mod class;
mod figures;
mod file;
pub mod limits;
mod live;
pub mod openapi;
mod owner;
mod people;
mod refused;
mod remarks;
mod rules;
mod runs;
mod session;
mod sittings;
mod training;

use std::time::Duration;

use axum::Router;
use axum::extract::{DefaultBodyLimit, Request};
use axum::http::header::{CACHE_CONTROL, HeaderValue};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use coneyard_core::run::file::MAX_BYTES;
use tower_http::csrf::{CsrfLayer, ProtectionError};
use utoipa_axum::router::{OpenApiRouter, UtoipaMethodRouterExt};
use utoipa_axum::routes;

use crate::roles::{Host, Refusal};

/// Largest request but for runs and class files, bytes.
const SMALL: usize = 16 * 1024;
/// Largest training record, bytes: what core reads of one, and what is around it.
const RECORD_MOST: usize = 2 * 1024 * 1024 + SMALL;
/// Largest file of rules as a request, bytes: core reads a quarter of it.
const RULES_MOST: usize = 1024 * 1024;
/// Most that is said of a run, bytes.
const REMARKS_MOST: usize = 256 * 1024;
/// Largest class file, bytes: some thousand runs.
const FILE_MOST: usize = 256 * 1024 * 1024;
/// Longest time from a request's head to the head of its answer.
const PATIENCE: Duration = Duration::from_secs(60);

/// All routes with their descriptions, without what is around them.
fn routes() -> OpenApiRouter<Host> {
    OpenApiRouter::with_openapi(openapi::head())
        .routes(routes!(class::class))
        .routes(routes!(rules::rules, rules::set).layer(DefaultBodyLimit::max(RULES_MOST)))
        .routes(routes!(class::join))
        .routes(routes!(class::enter))
        .routes(routes!(class::leave))
        .routes(routes!(runs::deliver, runs::run).layer(DefaultBodyLimit::max(MAX_BYTES)))
        .routes(routes!(runs::runs))
        .routes(routes!(runs::attempt))
        .routes(routes!(runs::attempts))
        .routes(routes!(sittings::begin))
        .routes(routes!(live::note, live::watch))
        .routes(routes!(board::board))
        .routes(routes!(board::found))
        .routes(routes!(figures::figures))
        .routes(routes!(figures::due))
        .routes(routes!(remarks::all))
        .routes(routes!(remarks::remarks, remarks::say).layer(DefaultBodyLimit::max(REMARKS_MOST)))
        .routes(
            routes!(training::training, training::keep).layer(DefaultBodyLimit::max(RECORD_MOST)),
        )
        .routes(routes!(training::trainings))
        .routes(routes!(people::people))
        .routes(routes!(people::forget))
        .routes(routes!(file::out, file::take).layer(DefaultBodyLimit::max(FILE_MOST)))
        .routes(routes!(owner::classes, owner::open))
        .routes(routes!(openapi::described))
}

/// Everything below `/api`, with an end to each request that takes too long.
pub fn api(host: Host) -> Router {
    api_with(host, PATIENCE)
}

/// The same with other patience, for tests.
pub fn api_with(host: Host, patience: Duration) -> Router {
    let (router, _) = routes().split_for_parts();
    let elsewhere = || async {
        Refusal::NotThere("there is nothing at this address: see /api/openapi.json".to_owned())
    };
    let otherwise = || async { refused::otherwise() };
    let in_time = move |request: Request, next: Next| async move {
        let late = || Refusal::TooSlow("this took too long: try again".to_owned()).into_response();
        tokio::time::timeout(patience, next.run(request)).await.unwrap_or_else(|_| late())
    };
    let foreign = |_: ProtectionError| refused::foreign();
    router
        .method_not_allowed_fallback(otherwise)
        .route("/api/{*elsewhere}", axum::routing::any(elsewhere))
        .layer(DefaultBodyLimit::max(SMALL))
        .layer(middleware::from_fn(in_time))
        .layer(CsrfLayer::new().with_rejection_response(foreign))
        .layer(middleware::from_fn(unkept))
        .with_state(host)
}

/// What a class says is for whoever asked, and for now.
async fn unkept(request: Request, next: Next) -> Response {
    let mut response = next.run(request).await;
    response.headers_mut().insert(CACHE_CONTROL, HeaderValue::from_static("no-store"));
    response
}

//! The class as one file, out and in.

use axum::Json;
use axum::body::{Body, Bytes};
use axum::extract::rejection::BytesRejection;
use axum::http::HeaderMap;
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use futures_util::stream;

use super::asked::sent;
use super::refused::Sentence;
use super::session::ForTrainer;
use crate::file::{In, Out, Taken};
use crate::roles::{Done, Refusal};

/// The class as one file, with all runs
#[utoipa::path(get, path = "/api/class/file",
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = String, content_type = "application/json", description = "the class file"),
        (status = 401, body = Sentence), (status = 403, body = Sentence),
        (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn out(ForTrainer(trainer): ForTrainer) -> Done<Response> {
    let out = Out::of(&*trainer).await?;
    // A piece that cannot be had ends the connection, so that half a file is not taken for a whole one.
    let pieces = stream::try_unfold(out, |mut out| async move {
        let piece = out.next().await.map_err(|_| std::io::Error::other("the records are away"))?;
        Ok::<_, std::io::Error>(piece.map(|piece| (piece, out)))
    });
    let headers = [
        (CONTENT_TYPE, "application/json"),
        (CONTENT_DISPOSITION, "attachment; filename=\"class.coneyard.json\""),
    ];
    Ok((headers, Body::from_stream(pieces)).into_response())
}

/// Take a class file in: what is here already stays as it is
#[utoipa::path(put, path = "/api/class/file",
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    request_body(content = String, content_type = "application/json", description = "the class file"),
    responses((status = 200, body = Taken), (status = 401, body = Sentence), (status = 403, body = Sentence),
        (status = 413, body = Sentence), (status = 415, body = Sentence), (status = 422, body = Sentence),
        (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn take(
    ForTrainer(trainer): ForTrainer,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Done<Json<Taken>> {
    let bytes = sent(&headers, body)?;
    let read = tokio::task::spawn_blocking(move || In::read(&bytes)).await;
    let read = read.map_err(|_| Refusal::Wrong("this class file cannot be read".to_owned()))?;
    Ok(Json(read.map_err(Refusal::Wrong)?.take(&*trainer).await?))
}

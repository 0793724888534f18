//! Training records of people.

use axum::Json;
use axum::body::Bytes;
use axum::extract::Path;
use axum::extract::rejection::BytesRejection;
use axum::http::HeaderMap;
use coneyard_core::class::Record;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::asked::{edited, sent};
use super::refused::Sentence;
use super::session::ForTrainer;
use crate::roles::{Done, Seen};

/// Which edition it is now.
#[derive(Serialize, Deserialize, ToSchema)]
pub(super) struct Edition {
    /// Counts what was written, from 1.
    pub(super) edition: i64,
}

/// Somebody's training record with its edition; edition 0 is a new one
#[utoipa::path(get, path = "/api/people/{person}/training",
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    params(("person" = String, Path, description = "the person's id")),
    responses((status = 200, body = String, content_type = "application/json",
            description = "`edition` and the record, as `is`"),
        (status = 401, body = Sentence), (status = 403, body = Sentence), (status = 404, body = Sentence),
        (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn training(
    ForTrainer(trainer): ForTrainer,
    Path(person): Path<String>,
) -> Done<Json<Seen<Record>>> {
    Ok(Json(trainer.training(&person).await?))
}

/// Keep somebody's training record in place of the edition that was seen
#[utoipa::path(put, path = "/api/people/{person}/training",
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    params(("person" = String, Path, description = "the person's id")),
    request_body(content = String, content_type = "application/json", description = "as it is handed out"),
    responses((status = 200, body = Edition), (status = 401, body = Sentence), (status = 403, body = Sentence),
        (status = 404, body = Sentence), (status = 409, body = Sentence), (status = 413, body = Sentence),
        (status = 415, body = Sentence), (status = 422, body = Sentence), (status = 429, body = Sentence),
        (status = 503, body = Sentence)))]
pub(super) async fn keep(
    ForTrainer(trainer): ForTrainer,
    Path(person): Path<String>,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Done<Json<Edition>> {
    let record = edited::<Record>(&sent(&headers, body)?)?;
    Ok(Json(Edition { edition: trainer.keep_training(&person, record).await? }))
}

/// All training records of the class, each with the person's id
#[utoipa::path(get, path = "/api/trainings",
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = String, content_type = "application/json", description = "by the people's names"),
        (status = 401, body = Sentence), (status = 403, body = Sentence), (status = 429, body = Sentence),
        (status = 503, body = Sentence)))]
pub(super) async fn trainings(
    ForTrainer(trainer): ForTrainer,
) -> Done<Json<Vec<(String, Seen<Record>)>>> {
    Ok(Json(trainer.trainings().await?))
}

//! Runs: they are delivered once, listed, and handed out as they came.

use axum::Json;
use axum::body::Bytes;
use axum::extract::rejection::{BytesRejection, QueryRejection};
use axum::extract::{Path, Query};
use axum::http::header::{CONTENT_TYPE, HeaderName};
use axum::http::{HeaderMap, StatusCode};
use coneyard_core::class::Attempt;
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};

use super::asked::{run_id, sent};
use super::refused::Sentence;
use super::session::{ForReading, ForTrainee};
use crate::records::{Delivered, Listed, State};
use crate::roles::{Done, Refusal};

/// What came of delivering a run.
#[derive(Serialize, Deserialize, ToSchema)]
pub(super) struct Kept {
    /// Its id.
    run: String,
    /// How far it has come.
    state: State,
}

/// Deliver a run; the id is the BLAKE3 of its bytes. It is on the disk when this is answered
#[utoipa::path(put, path = "/api/runs/{run}", security(("session" = ["trainee"])),
    params(("run" = String, Path, description = "BLAKE3 of the file, 64 small hexadecimal digits")),
    request_body(content = String, content_type = "application/json", description = "the run file"),
    responses((status = 201, body = Kept, description = "kept"),
        (status = 200, body = Kept, description = "was there already"),
        (status = 401, body = Sentence), (status = 403, body = Sentence),
        (status = 413, body = Sentence), (status = 415, body = Sentence),
        (status = 422, body = Sentence, description = "not the bytes of this id"),
        (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn deliver(
    ForTrainee(trainee): ForTrainee,
    Path(run): Path<String>,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Done<(StatusCode, Json<Kept>)> {
    run_id(&run)?;
    let bytes = sent(&headers, body)?;
    let Delivered { new, state } = trainee.deliver(&run, bytes.into()).await?;
    let status = if new { StatusCode::CREATED } else { StatusCode::OK };
    Ok((status, Json(Kept { run, state })))
}

/// Which of all there are.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
#[serde(deny_unknown_fields)]
pub(super) struct Which {
    /// So many of the newest; all when it is left out.
    newest: Option<u32>,
}

/// Whose.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
#[serde(deny_unknown_fields)]
pub(super) struct Whose {
    /// A person's id; everybody's when it is left out. Trainees get their own, whoever is named.
    person: Option<String>,
}

/// The runs: a trainee's own, or for a trainer those of the class
#[utoipa::path(get, path = "/api/runs", params(Which),
    security(("session" = ["trainee"]), ("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = Vec<Listed>), (status = 401, body = Sentence),
        (status = 422, body = Sentence), (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn runs(
    ForReading(reads): ForReading,
    which: Result<Query<Which>, QueryRejection>,
) -> Done<Json<Vec<Listed>>> {
    let Query(which) = which.map_err(|e| Refusal::Wrong(e.body_text()))?;
    Ok(Json(reads.runs(which.newest).await?))
}

/// The file of a run, byte by byte as it came
#[utoipa::path(get, path = "/api/runs/{run}",
    security(("session" = ["trainee"]), ("session" = ["trainer"]), ("session" = ["owner"])),
    params(("run" = String, Path, description = "the run's id")),
    responses((status = 200, body = String, content_type = "application/json", description = "the run file"),
        (status = 401, body = Sentence), (status = 404, body = Sentence), (status = 422, body = Sentence),
        (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn run(
    ForReading(reads): ForReading,
    Path(run): Path<String>,
) -> Done<([(HeaderName, &'static str); 1], Vec<u8>)> {
    let file = reads.run(run_id(&run)?).await?;
    Ok(([(CONTENT_TYPE, "application/json")], file))
}

/// The record of a run that was driven again, with its debrief
#[utoipa::path(get, path = "/api/runs/{run}/attempt",
    security(("session" = ["trainee"]), ("session" = ["trainer"]), ("session" = ["owner"])),
    params(("run" = String, Path, description = "the run's id")),
    responses((status = 200, body = String, content_type = "application/json", description = "the record"),
        (status = 401, body = Sentence), (status = 404, body = Sentence), (status = 422, body = Sentence),
        (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn attempt(
    ForReading(reads): ForReading,
    Path(run): Path<String>,
) -> Done<([(HeaderName, &'static str); 1], String)> {
    let record = reads.attempt(run_id(&run)?).await?;
    Ok(([(CONTENT_TYPE, "application/json")], record))
}

/// The records of all runs that were driven again: a trainee's own, or for a trainer those of the class
#[utoipa::path(get, path = "/api/attempts", params(Whose),
    security(("session" = ["trainee"]), ("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = String, content_type = "application/json", description = "the records"),
        (status = 401, body = Sentence), (status = 422, body = Sentence), (status = 429, body = Sentence),
        (status = 503, body = Sentence)))]
pub(super) async fn attempts(
    ForReading(reads): ForReading,
    whose: Result<Query<Whose>, QueryRejection>,
) -> Done<Json<Vec<Attempt>>> {
    let Query(whose) = whose.map_err(|e| Refusal::Wrong(e.body_text()))?;
    Ok(Json(reads.attempts(whose.person.as_deref()).await?))
}

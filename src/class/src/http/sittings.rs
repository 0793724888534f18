//! Pre-tests: the host hands out who drives which draw, so that nobody can sign another's drives with their own name.

use axum::Json;
use axum::http::StatusCode;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::asked::Sent;
use super::refused::Sentence;
use super::session::ForTrainee;
use crate::roles::Done;

/// What it is taken on.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Beginning {
    /// Truck id.
    truck: String,
}

/// A pre-test that is handed out. Its parts are what core draws for this word, this seat and this truck; the host knows
/// them again by their seeds.
#[derive(Serialize, Deserialize, ToSchema)]
pub(super) struct Out {
    /// Name of the attempt.
    attempt: String,
    /// Number of the seat, 0 to 9999: what seeds are drawn for.
    seed: u32,
    /// Word that the parts are drawn from.
    class_word: String,
    /// Truck id.
    truck: String,
}

/// Begin a pre-test
#[utoipa::path(post, path = "/api/sittings", security(("session" = ["trainee"])),
    request_body = Beginning, responses(
    (status = 201, body = Out), (status = 401, body = Sentence), (status = 403, body = Sentence),
    (status = 415, body = Sentence), (status = 422, body = Sentence),
    (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn begin(
    ForTrainee(trainee): ForTrainee,
    Sent(Beginning { truck }): Sent<Beginning>,
) -> Done<(StatusCode, Json<Out>)> {
    let handed = trainee.begin_sitting(&truck).await?;
    let out =
        Out { attempt: handed.id, seed: handed.seat, class_word: handed.word, truck: handed.truck };
    Ok((StatusCode::CREATED, Json(out)))
}

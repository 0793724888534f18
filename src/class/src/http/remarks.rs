//! What is said of a run: its rider's own word, and notes on moments.

use axum::Json;
use axum::body::Bytes;
use axum::extract::Path;
use axum::extract::rejection::BytesRejection;
use axum::http::HeaderMap;
use coneyard_core::class::Remarks;

use super::asked::{edited, run_id, sent};
use super::refused::Sentence;
use super::session::ForReading;
use super::training::Edition;
use crate::roles::{Done, Seen};

/// What was said of a run, with its edition
#[utoipa::path(get, path = "/api/runs/{run}/remarks",
    params(("run" = String, Path, description = "BLAKE3 of the file, 64 small hexadecimal digits")),
    security(("session" = ["trainee"]), ("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = String, content_type = "application/json",
            description = "`edition` and what is said, as `is`"),
        (status = 401, body = Sentence), (status = 404, body = Sentence), (status = 422, body = Sentence),
        (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn remarks(
    ForReading(reads): ForReading,
    Path(run): Path<String>,
) -> Done<Json<Seen<Remarks>>> {
    Ok(Json(reads.remarks(run_id(&run)?).await?))
}

/// What was said of all runs, by their names: of a trainee's own, or for a trainer of those of the class. Runs of which
/// nothing was said are left out
#[utoipa::path(get, path = "/api/remarks",
    security(("session" = ["trainee"]), ("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = String, content_type = "application/json",
            description = "pairs of a run and what is said of it"),
        (status = 401, body = Sentence), (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn all(ForReading(reads): ForReading) -> Done<Json<Vec<(String, Remarks)>>> {
    Ok(Json(reads.all_remarks().await?))
}

/// Say something of a run, in place of the edition that was seen. A trainee's notes are theirs alone, and their own word
/// stands once the debrief was open; a trainer's leave it as it is
#[utoipa::path(put, path = "/api/runs/{run}/remarks",
    params(("run" = String, Path, description = "BLAKE3 of the file, 64 small hexadecimal digits")),
    security(("session" = ["trainee"]), ("session" = ["trainer"]), ("session" = ["owner"])),
    request_body(content = String, content_type = "application/json", description = "as it is handed out"),
    responses((status = 200, body = Edition), (status = 401, body = Sentence), (status = 404, body = Sentence),
        (status = 409, body = Sentence), (status = 413, body = Sentence), (status = 415, body = Sentence),
        (status = 422, body = Sentence), (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn say(
    ForReading(reads): ForReading,
    Path(run): Path<String>,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Done<Json<Edition>> {
    let said = edited::<Remarks>(&sent(&headers, body)?)?;
    Ok(Json(Edition { edition: reads.say(run_id(&run)?, said).await? }))
}

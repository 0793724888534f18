//! The people of the class.

use axum::Json;
use axum::extract::Path;
use axum::http::StatusCode;

use super::refused::Sentence;
use super::session::ForTrainer;
use crate::records::Member;
use crate::roles::Done;

/// The people of the class, by their names
#[utoipa::path(get, path = "/api/people",
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = Vec<Member>), (status = 401, body = Sentence),
        (status = 403, body = Sentence), (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn people(ForTrainer(trainer): ForTrainer) -> Done<Json<Vec<Member>>> {
    Ok(Json(trainer.people().await?))
}

/// Delete a person with all that is theirs here: runs, records, pre-tests, sessions. What was handed out as a file
/// cannot be called back
#[utoipa::path(delete, path = "/api/people/{person}",
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    params(("person" = String, Path, description = "the person's id")),
    responses((status = 204), (status = 401, body = Sentence), (status = 403, body = Sentence),
        (status = 404, body = Sentence), (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn forget(
    ForTrainer(trainer): ForTrainer,
    Path(person): Path<String>,
) -> Done<StatusCode> {
    trainer.forget(&person).await?;
    Ok(StatusCode::NO_CONTENT)
}

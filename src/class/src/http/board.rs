//! What a trainer sees of the class at a glance.

use axum::Json;
use axum::extract::Path;
use coneyard_core::class::board::Board;
use coneyard_core::class::found::Found;

use super::refused::Sentence;
use super::session::ForTrainer;
use crate::roles::Done;

/// What people have shown lately, and what the class misses
#[utoipa::path(get, path = "/api/board",
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = String, content_type = "application/json", description = "the board"),
        (status = 401, body = Sentence), (status = 403, body = Sentence), (status = 429, body = Sentence),
        (status = 503, body = Sentence)))]
pub(super) async fn board(ForTrainer(trainer): ForTrainer) -> Done<Json<Board>> {
    Ok(Json(trainer.board().await?))
}

/// The newest drives in which this was found, at most thirty
#[utoipa::path(get, path = "/api/found/{code}",
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    params(("code" = String, Path, description = "the fault's code")),
    responses((status = 200, body = String, content_type = "application/json", description = "runs, newest first"),
        (status = 401, body = Sentence), (status = 403, body = Sentence), (status = 429, body = Sentence),
        (status = 503, body = Sentence)))]
pub(super) async fn found(
    ForTrainer(trainer): ForTrainer,
    Path(code): Path<String>,
) -> Done<Json<Vec<Found>>> {
    Ok(Json(trainer.found(&code).await?))
}

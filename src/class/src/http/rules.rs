//! By which rules a class's drives are judged.

use axum::Json;
use axum::http::StatusCode;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::asked::Sent;
use super::refused::Sentence;
use super::session::{ForReading, ForTrainer};
use crate::records::ClassRules;
use crate::roles::Done;

/// The rules by which drives of this class are judged, and whether a trainer has set them
#[utoipa::path(get, path = "/api/class/rules",
    security(("session" = ["trainee"]), ("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = ClassRules), (status = 401, body = Sentence), (status = 429, body = Sentence),
        (status = 503, body = Sentence)))]
pub(super) async fn rules(ForReading(reads): ForReading) -> Done<Json<ClassRules>> {
    Ok(Json(reads.rules().await?))
}

/// What is set.
#[derive(Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Setting {
    /// Text of a file of site rules; null for those of the site.
    rules: Option<String>,
}

/// Set the rules by which drives of this class are judged from now on
#[utoipa::path(put, path = "/api/class/rules", request_body = Setting,
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 204), (status = 401, body = Sentence), (status = 403, body = Sentence),
        (status = 413, body = Sentence), (status = 415, body = Sentence), (status = 422, body = Sentence),
        (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn set(
    ForTrainer(trainer): ForTrainer,
    Sent(Setting { rules }): Sent<Setting>,
) -> Done<StatusCode> {
    trainer.set_rules(rules).await?;
    Ok(StatusCode::NO_CONTENT)
}

//! The class in figures, and what is due of its people.

use axum::Json;
use axum::extract::Query;
use axum::extract::rejection::QueryRejection;
use coneyard_core::class::due::OfPerson;
use coneyard_core::class::figures::Figures;
use serde::Deserialize;
use utoipa::IntoParams;

use super::refused::Sentence;
use super::session::ForTrainer;
use crate::roles::{Done, Refusal};

/// What counts as right.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
#[serde(deny_unknown_fields)]
pub(super) struct Right {
    /// An item of the pre-test is right from this share of clean opportunities on, 0 to 1.
    clean: f64,
}

/// The class in figures: looking, what to teach again, shares seen together, learning, items
#[utoipa::path(get, path = "/api/figures", params(Right),
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = String, content_type = "application/json", description = "the figures"),
        (status = 401, body = Sentence), (status = 403, body = Sentence), (status = 422, body = Sentence),
        (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn figures(
    ForTrainer(trainer): ForTrainer,
    right: Result<Query<Right>, QueryRejection>,
) -> Done<Json<Figures>> {
    let wrong =
        || Refusal::Wrong("say from which share on an item is right: ?clean=0.8".to_owned());
    let Query(Right { clean }) = right.map_err(|_| wrong())?;
    if !(0.0..=1.0).contains(&clean) {
        return Err(wrong());
    }
    Ok(Json(trainer.figures(clean).await?))
}

/// What is due of everybody, and why
#[utoipa::path(get, path = "/api/due",
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = String, content_type = "application/json", description = "by person and truck"),
        (status = 401, body = Sentence), (status = 403, body = Sentence), (status = 429, body = Sentence),
        (status = 503, body = Sentence)))]
pub(super) async fn due(ForTrainer(trainer): ForTrainer) -> Done<Json<Vec<OfPerson>>> {
    Ok(Json(trainer.due().await?))
}

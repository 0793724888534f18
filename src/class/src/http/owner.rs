//! The classes of a store, for its owner.

use axum::Json;
use axum::http::StatusCode;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::asked::Sent;
use super::refused::Sentence;
use super::session::ForOwner;
use crate::clock;
use crate::records::Class;
use crate::roles::Done;

/// A class.
#[derive(Serialize, Deserialize, ToSchema)]
pub(super) struct OneClass {
    /// Name.
    name: String,
    /// What trainees join with.
    code: String,
    /// When it was opened, RFC 3339.
    opened: String,
    /// The trainer's passphrase: told once, when it is opened.
    #[serde(skip_serializing_if = "Option::is_none")]
    passphrase: Option<String>,
}

fn told(class: Class, passphrase: Option<String>) -> OneClass {
    OneClass { name: class.name, code: class.code, opened: clock::text(class.opened), passphrase }
}

/// All classes, the last opened one first
#[utoipa::path(get, path = "/api/classes", security(("session" = ["owner"])), responses(
    (status = 200, body = Vec<OneClass>), (status = 401, body = Sentence), (status = 403, body = Sentence),
    (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn classes(ForOwner(owner): ForOwner) -> Done<Json<Vec<OneClass>>> {
    Ok(Json(owner.classes().await?.into_iter().map(|class| told(class, None)).collect()))
}

/// What a class is to be called.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Opening {
    /// Name.
    name: String,
}

/// Open a class
#[utoipa::path(post, path = "/api/classes", security(("session" = ["owner"])), request_body = Opening,
    responses((status = 201, body = OneClass), (status = 401, body = Sentence), (status = 403, body = Sentence),
    (status = 415, body = Sentence), (status = 422, body = Sentence),
    (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn open(
    ForOwner(owner): ForOwner,
    Sent(Opening { name }): Sent<Opening>,
) -> Done<(StatusCode, Json<OneClass>)> {
    let (class, said) = owner.open(&name).await?;
    Ok((StatusCode::CREATED, Json(told(class, Some(said)))))
}

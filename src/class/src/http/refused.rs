//! A refusal as it is answered: a status and one sentence.

use axum::Json;
use axum::extract::rejection::BytesRejection;
use axum::http::StatusCode;
use axum::http::header::{HeaderValue, RETRY_AFTER};
use axum::response::{IntoResponse, Response};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::roles::Refusal;

/// Why something was not done.
#[derive(Serialize, Deserialize, ToSchema)]
pub(super) struct Sentence {
    /// One sentence.
    pub(super) error: String,
}

/// A store that is away is looked for again after so many seconds.
const AGAIN: u64 = 2;

fn answer(status: StatusCode, error: String) -> Response {
    (status, Json(Sentence { error })).into_response()
}

impl IntoResponse for Refusal {
    fn into_response(self) -> Response {
        let mut again = None;
        let (status, sentence) = match self {
            Self::Away(sentence) => {
                again = Some(AGAIN);
                (StatusCode::SERVICE_UNAVAILABLE, sentence)
            }
            Self::NotIn(sentence) => (StatusCode::UNAUTHORIZED, sentence),
            Self::NotAllowed(sentence) => (StatusCode::FORBIDDEN, sentence),
            Self::NotThere(sentence) => (StatusCode::NOT_FOUND, sentence),
            Self::Wrong(sentence) => (StatusCode::UNPROCESSABLE_ENTITY, sentence),
            Self::TooLarge(sentence) => (StatusCode::PAYLOAD_TOO_LARGE, sentence),
            Self::OtherKind(sentence) => (StatusCode::UNSUPPORTED_MEDIA_TYPE, sentence),
            Self::TooSlow(sentence) => (StatusCode::REQUEST_TIMEOUT, sentence),
            Self::Since(sentence) => (StatusCode::CONFLICT, sentence),
            Self::TooOften(seconds) => {
                again = Some(seconds);
                let sentence = format!("this was tried too often: try again in {seconds} s");
                (StatusCode::TOO_MANY_REQUESTS, sentence)
            }
        };
        let mut response = answer(status, sentence);
        if let Some(seconds) = again {
            response.headers_mut().insert(RETRY_AFTER, HeaderValue::from(seconds));
        }
        response
    }
}

impl From<BytesRejection> for Refusal {
    fn from(rejection: BytesRejection) -> Self {
        match rejection.status() {
            StatusCode::PAYLOAD_TOO_LARGE => Self::TooLarge(
                "this is larger than what is read here: is it the right file?".to_owned(),
            ),
            _ => Self::Wrong("what was sent ended before its end: send it again".to_owned()),
        }
    }
}

/// The address is right and the method is not.
pub(super) fn otherwise() -> Response {
    let sentence = "this address is not asked for in this way: see /api/openapi.json".to_owned();
    answer(StatusCode::METHOD_NOT_ALLOWED, sentence)
}

/// A page of another site asks for something to be done.
pub(super) fn foreign() -> Response {
    let sentence = "this was asked for by a page of another site: open the yard itself".to_owned();
    answer(StatusCode::FORBIDDEN, sentence)
}

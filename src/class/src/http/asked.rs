//! What is asked, read from a request: JSON within bounds, a run's id, where it comes from.

use std::net::{IpAddr, Ipv4Addr, SocketAddr};

use axum::body::Bytes;
use axum::extract::rejection::BytesRejection;
use axum::extract::{ConnectInfo, FromRequest, FromRequestParts, Request};
use axum::http::HeaderMap;
use axum::http::header::CONTENT_TYPE;
use axum::http::request::Parts;
use coneyard_core::class::{Form, read_record};
use serde::de::DeserializeOwned;
use serde_json::value::RawValue;

use crate::roles::{Done, Refusal, Seen};

/// JSON that was sent.
pub(super) struct Sent<T>(pub(super) T);

impl<S: Send + Sync, T: DeserializeOwned> FromRequest<S> for Sent<T> {
    type Rejection = Refusal;

    async fn from_request(request: Request, state: &S) -> Done<Self> {
        is_json(request.headers())?;
        let bytes = Bytes::from_request(request, state).await?;
        let read = serde_json::from_slice(&bytes);
        read.map(Self)
            .map_err(|e| Refusal::Wrong(format!("this is not what is asked for here: {e}")))
    }
}

/// The bytes of a JSON file that was sent.
pub(super) fn sent(headers: &HeaderMap, body: Result<Bytes, BytesRejection>) -> Done<Bytes> {
    is_json(headers)?;
    Ok(body?)
}

fn is_json(headers: &HeaderMap) -> Done<()> {
    let kind = headers.get(CONTENT_TYPE).and_then(|kind| kind.to_str().ok()).unwrap_or_default();
    let kind = kind.split(';').next().unwrap_or_default().trim();
    if kind.eq_ignore_ascii_case("application/json") {
        return Ok(());
    }
    Err(Refusal::OtherKind("send this as application/json".to_owned()))
}

/// A record with the edition that was seen of it.
pub(super) fn edited<T: DeserializeOwned + Form>(bytes: &[u8]) -> Done<Seen<T>> {
    let wrong = |why: String| Refusal::Wrong(format!("this is not what is asked for here: {why}"));
    let Seen { edition, is } =
        serde_json::from_slice::<Seen<Box<RawValue>>>(bytes).map_err(|e| wrong(e.to_string()))?;
    Ok(Seen { edition, is: read_record(is.get()).map_err(wrong)? })
}

/// A run's id in its one form.
pub(super) fn run_id(given: &str) -> Done<&str> {
    let digit = |b: u8| b.is_ascii_digit() || (b'a'..=b'f').contains(&b);
    if given.len() == 64 && given.bytes().all(digit) {
        return Ok(given);
    }
    Err(Refusal::Wrong("a run's id has 64 small hexadecimal digits".to_owned()))
}

/// The address that a request comes from.
pub(super) struct From(pub(super) IpAddr);

impl<S: Send + Sync> FromRequestParts<S> for From {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Done<Self> {
        let from = parts.extensions.get::<ConnectInfo<SocketAddr>>();
        Ok(Self(from.map_or(IpAddr::V4(Ipv4Addr::UNSPECIFIED), |from| from.0.ip().to_canonical())))
    }
}

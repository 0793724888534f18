//! The class, and how one comes in and goes out.

use axum::Json;
use axum::extract::State;
use axum::http::header::{HeaderName, HeaderValue, SET_COOKIE};
use axum::http::{HeaderMap, StatusCode};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::asked::{From, Sent};
use super::limits::{CODES, CODES_WITHIN, PASSPHRASES, PASSPHRASES_WITHIN};
use super::refused::Sentence;
use super::session::{Maybe, cookie, token};
use crate::records::{Role, Session};
use crate::roles::{Done, Host, LetIn, Refusal, You};
use crate::secret::{self, Whose};

/// The class and who asks.
#[derive(Serialize, Deserialize, ToSchema)]
pub(super) struct Here {
    class: Named,
    you: Option<YouAre>,
}

#[derive(Serialize, Deserialize, ToSchema)]
struct Named {
    /// Name of the class.
    name: String,
    /// What trainees join with; for trainers, who tell it.
    #[serde(skip_serializing_if = "Option::is_none")]
    code: Option<String>,
}

/// Who asks.
#[derive(Serialize, Deserialize, ToSchema)]
pub(super) struct YouAre {
    /// What they may do.
    role: Role,
    /// Their name; empty for trainers and the owner.
    name: String,
    /// Their id; null for trainers and the owner.
    person: Option<String>,
}

impl core::convert::From<You> for YouAre {
    fn from(You { role, person }: You) -> Self {
        match person {
            Some(person) => Self { role, name: person.name, person: Some(person.id) },
            None => Self { role, name: String::new(), person: None },
        }
    }
}

/// Whoever was let in.
#[derive(Serialize, Deserialize, ToSchema)]
pub(super) struct Inside {
    you: YouAre,
}

/// The class that is served here, and who asks
#[utoipa::path(get, path = "/api/class", security(()), responses(
    (status = 200, body = Here), (status = 503, body = Sentence)))]
pub(super) async fn class(State(host): State<Host>, Maybe(session): Maybe) -> Done<Json<Here>> {
    let name = host.door().class_name(session.as_ref()).await?;
    let code = match session.as_ref().and_then(|session| host.teaches(session)) {
        Some(trainer) => Some(trainer.class().await?.code),
        None => None,
    };
    let you = session.map(|Session { role, person, .. }| You { role, person }.into());
    Ok(Json(Here { class: Named { name, code }, you }))
}

/// What one joins with.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Joining {
    /// The class's code.
    code: String,
    /// What one wants to be called.
    name: String,
}

type Let = (StatusCode, [(HeaderName, HeaderValue); 1], Json<Inside>);

fn inside(let_in: LetIn, secure: bool) -> Let {
    let header = (SET_COOKIE, cookie(&let_in.token, let_in.seconds, secure));
    (StatusCode::OK, [header], Json(Inside { you: let_in.you.into() }))
}

/// Join the class as a trainee
#[utoipa::path(post, path = "/api/join", security(()), request_body = Joining, responses(
    (status = 200, body = Inside, description = "with the session's cookie"),
    (status = 403, body = Sentence, description = "no such code"),
    (status = 422, body = Sentence), (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn join(
    State(host): State<Host>,
    From(address): From,
    Sent(Joining { code, name }): Sent<Joining>,
) -> Done<Let> {
    let key = format!("code {address}");
    host.tries.allow(&key, CODES)?;
    let let_in = host.door().join(&code, &name).await;
    if let Err(Refusal::NotAllowed(_)) = let_in {
        host.tries.add(&key, CODES_WITHIN);
    }
    Ok(inside(let_in?, host.secure))
}

/// What a trainer enters with.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Entering {
    /// The trainer's or the owner's passphrase.
    passphrase: String,
}

/// Enter as a trainer or as the owner
#[utoipa::path(post, path = "/api/enter", security(()), request_body = Entering, responses(
    (status = 200, body = Inside, description = "with the session's cookie"),
    (status = 403, body = Sentence, description = "not the passphrase"),
    (status = 422, body = Sentence), (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn enter(
    State(host): State<Host>,
    From(address): From,
    Sent(Entering { passphrase }): Sent<Entering>,
) -> Done<Let> {
    // A code that there is none of is as good as any other.
    let code = match secret::whose(&passphrase) {
        Some(Whose::Trainer(code)) => code,
        Some(Whose::Owner) | None => String::new(),
    };
    let keys = [
        (format!("passphrase {code} {address}"), PASSPHRASES),
        (format!("passphrases {address}"), CODES),
    ];
    for (key, most) in &keys {
        host.tries.allow(key, *most)?;
    }
    let let_in = host.door().enter(&passphrase).await;
    if let Err(Refusal::NotAllowed(_)) = let_in {
        keys.iter().for_each(|(key, _)| host.tries.add(key, PASSPHRASES_WITHIN));
    }
    Ok(inside(let_in?, host.secure))
}

/// Leave: the session is over
#[utoipa::path(post, path = "/api/leave", security(()), responses(
    (status = 204), (status = 503, body = Sentence)))]
pub(super) async fn leave(
    State(host): State<Host>,
    headers: HeaderMap,
) -> Done<(StatusCode, [(HeaderName, HeaderValue); 1])> {
    if let Some(token) = token(&headers, host.secure) {
        host.door().leave(token).await?;
    }
    Ok((StatusCode::NO_CONTENT, [(SET_COOKIE, cookie("", 0, host.secure))]))
}

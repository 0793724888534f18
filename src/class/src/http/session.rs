//! Who asks, by the cookie; and the object of their role, which is all that a handler gets.

use axum::extract::FromRequestParts;
use axum::http::HeaderMap;
use axum::http::header::{COOKIE, HeaderValue};
use axum::http::request::Parts;

use crate::records::{Role, Session};
use crate::roles::{Done, Drives, Host, Opens, Reads, Refusal, Teaches};

/// The cookie's name. `__Host-` makes browsers hold it to this host and to https; over plain http, which is what a
/// class in one room has, they refuse such a name and `Secure` alike, so there it has neither.
fn cookie_name(secure: bool) -> &'static str {
    if secure { "__Host-coneyard" } else { "coneyard" }
}

/// The token in the cookie.
pub(super) fn token(headers: &HeaderMap, secure: bool) -> Option<&str> {
    let cookies = headers.get_all(COOKIE).iter().filter_map(|cookies| cookies.to_str().ok());
    let mut pairs =
        cookies.flat_map(|cookies| cookies.split(';')).filter_map(|c| c.split_once('='));
    let found = pairs.find(|(name, _)| name.trim() == cookie_name(secure));
    found.map(|(_, token)| token.trim()).filter(|token| token.len() == 64)
}

/// The cookie that holds a token for so many seconds; 0 takes it away.
pub(super) fn cookie(token: &str, seconds: i64, secure: bool) -> HeaderValue {
    let name = cookie_name(secure);
    let only = if secure { "; Secure" } else { "" };
    let text =
        format!("{name}={token}; Path=/; Max-Age={seconds}; HttpOnly; SameSite=Strict{only}");
    // Digits and letters of our own.
    HeaderValue::from_str(&text).unwrap_or_else(|_| HeaderValue::from_static(""))
}

/// The session of a request, if it has one.
pub(super) struct Maybe(pub(super) Option<Session>);

impl FromRequestParts<Host> for Maybe {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut Parts, host: &Host) -> Done<Self> {
        Ok(Self(host.session(token(&parts.headers, host.secure)).await?))
    }
}

/// Requests of one session in ten seconds: a browser that has been offline for days delivers fast.
const BUSY: u32 = 600;

async fn session(parts: &mut Parts, host: &Host) -> Done<Session> {
    let Maybe(session) = Maybe::from_request_parts(parts, host).await?;
    let session = session.ok_or_else(|| {
        Refusal::NotIn("nobody is known here yet: join the class first".to_owned())
    })?;
    if let Some(token) = token(&parts.headers, host.secure) {
        host.tries.count(&format!("session {token}"), BUSY, 10)?;
    }
    Ok(session)
}

fn not_for(role: Role) -> Refusal {
    Refusal::NotAllowed(match role {
        Role::Trainee => "this is for the trainer".to_owned(),
        _ => "this is for others: see /api/openapi.json".to_owned(),
    })
}

/// What trainees and trainers may see.
pub(super) struct ForReading(pub(super) Box<dyn Reads>);

impl FromRequestParts<Host> for ForReading {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut Parts, host: &Host) -> Done<Self> {
        let session = session(parts, host).await?;
        Ok(Self(host.reads(&session)))
    }
}

macro_rules! for_role {
    ($name:ident, $object:ident, $get:ident, $what:literal) => {
        #[doc = $what]
        pub(super) struct $name(pub(super) Box<dyn $object>);

        impl FromRequestParts<Host> for $name {
            type Rejection = Refusal;

            async fn from_request_parts(parts: &mut Parts, host: &Host) -> Done<Self> {
                let session = session(parts, host).await?;
                host.$get(&session).map(Self).ok_or_else(|| not_for(session.role))
            }
        }
    };
}

for_role!(ForTrainee, Drives, drives, "What a trainee may do.");
for_role!(ForTrainer, Teaches, teaches, "What a trainer may do.");
for_role!(ForOwner, Opens, opens, "What the owner may do.");

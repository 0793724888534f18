//! The description of the routes (OpenAPI), and the table of who may call which, made of it.

use axum::Json;
use utoipa::OpenApi as _;
use utoipa::openapi::security::{ApiKey, ApiKeyValue, SecurityScheme};
use utoipa::openapi::{ComponentsBuilder, OpenApi, RefOr};

use super::routes;
use crate::records::Role;

/// What stands before the routes.
#[derive(utoipa::OpenApi)]
#[openapi(info(
    title = "Coneyard, the class",
    description = "Runs arrive, are kept before they are acknowledged, and are driven again. Whatever is refused is \
                   refused in one sentence."
))]
struct Head;

pub(super) fn head() -> OpenApi {
    let mut head = Head::openapi();
    // Roles stand beside the scheme's name in each route.
    let cookie = SecurityScheme::ApiKey(ApiKey::Cookie(ApiKeyValue::new("coneyard")));
    head.components = Some(ComponentsBuilder::new().security_scheme("session", cookie).build());
    head
}

/// The description of all routes.
pub fn description() -> OpenApi {
    let mut description = routes().into_openapi();
    for path in description.paths.paths.values_mut() {
        let methods = [&mut path.get, &mut path.put, &mut path.post, &mut path.delete];
        for route in methods.into_iter().flatten() {
            for (status, answer) in &mut route.responses.responses {
                if let RefOr::T(answer) = answer
                    && answer.description.is_empty()
                {
                    answer.description = usual(status).to_owned();
                }
            }
        }
    }
    description
}

/// What a status means on any route. The standard asks for words beside each.
fn usual(status: &str) -> &'static str {
    match status {
        "200" => "what was asked for",
        "201" => "made",
        "204" => "done; there is nothing to say",
        "401" => "nobody is known here yet",
        "403" => "not for whoever asks",
        "404" => "there is no such thing, or it is not for whoever asks",
        "409" => "somebody else has written since: look again",
        "413" => "more than is read",
        "415" => "of another kind than is read",
        "422" => "not what it should be",
        "429" => "tried too often: again after the seconds of Retry-After",
        "503" => "the records cannot be reached now: again after the seconds of Retry-After",
        _ => "",
    }
}

/// This description
#[utoipa::path(get, path = "/api/openapi.json", security(()), responses(
    (status = 200, body = String, content_type = "application/json", description = "OpenAPI 3.1")))]
pub(super) async fn described() -> Json<OpenApi> {
    Json(description())
}

/// A route and who may call it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Access {
    /// In capitals.
    pub method: String,
    /// With names for its parts.
    pub path: String,
    /// Whoever comes may call it.
    pub anybody: bool,
    /// The roles that may call it.
    pub roles: Vec<Role>,
}

/// Who may call what, by the description.
pub fn access() -> Vec<Access> {
    let description = serde_json::to_value(description()).unwrap_or_default();
    let mut table = Vec::new();
    for (path, methods) in description["paths"].as_object().into_iter().flatten() {
        for (method, route) in methods.as_object().into_iter().flatten() {
            let asked = route["security"].as_array().cloned().unwrap_or_default();
            let named = asked.iter().filter_map(|one| one["session"].as_array()).flatten();
            table.push(Access {
                method: method.to_uppercase(),
                path: path.clone(),
                anybody: asked.iter().any(|one| one.as_object().is_some_and(|one| one.is_empty())),
                roles: named.filter_map(|role| Role::named(role.as_str()?)).collect(),
            });
        }
    }
    table
}

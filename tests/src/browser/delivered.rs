//! Drives that reach a class from somebody else's browser.

use coneyard_core::run::file::name_of;
use serde_json::json;

use super::{Class, Size, Yard};

/// Joins the class under this name in a browser of their own, and delivers these drives.
pub async fn delivered(class: &Class, who: &str, runs: &[String]) {
    let yard = Yard::start_for(Size::SMALL, "en", class).await;
    yard.open_bare().await;
    let ask = "const [method, path, body] = args;
        const headers = { 'content-type': 'application/json' };
        const answer = await fetch(`/api/${path}`, { method, body, headers });
        return answer.status;";
    let joins = json!({ "code": class.code, "name": who }).to_string();
    let body = vec![json!("POST"), json!("join"), json!(joins)];
    assert_eq!(yard.script(ask, body).await, Ok(json!(200)));
    for run in runs {
        let path = format!("runs/{}", name_of(run.as_bytes()));
        let body = vec![json!("PUT"), json!(path), json!(run)];
        assert_eq!(yard.script(ask, body).await, Ok(json!(201)));
    }
}

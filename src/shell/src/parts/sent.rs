//! What has not arrived at the class yet, in words.

use leptos::prelude::*;

use crate::host::use_host;
use crate::words::{k, number, say_with};

/// How many drives are on this device only, and what is in the way; nothing when all have arrived.
#[component]
pub(crate) fn Waiting() -> impl IntoView {
    let host = use_host();
    move || {
        let waiting = host.waiting.get();
        let why = host.trouble.get();
        let said = (waiting > 0)
            .then(|| say_with(k("class-waiting"), vec![("count", number(waiting as f64))]));
        let line = match (said, why) {
            (None, None) => return None,
            (Some(said), None) => said,
            (None, Some(why)) => why,
            (Some(said), Some(why)) => format!("{said} {why}"),
        };
        Some(view! { <p id="not-sent">{line}</p> })
    }
}

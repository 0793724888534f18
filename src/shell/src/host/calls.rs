//! Questions to the host.

// The binding macro writes the unsafe calls across the border between wasm and JavaScript.
#![allow(unsafe_code)]

use leptos::prelude::*;
use serde::Deserialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::prelude::*;

use crate::canvas::sentence;
use crate::words::{k, say_with, text};

mod js {
    use wasm_bindgen::prelude::*;

    #[wasm_bindgen(js_namespace = coneyard)]
    extern "C" {
        #[wasm_bindgen(catch)]
        pub(super) async fn call_host(
            method: &str,
            path: &str,
            body: Option<String>,
        ) -> Result<JsValue, JsValue>;
        pub(super) fn hear_host(
            path: &str,
            kinds: Vec<String>,
            heard: &Closure<dyn Fn(String, String)>,
        ) -> js_sys::Function;
    }
}

/// Hears the host's news of these kinds, each with its data, as long as the page is there that asked.
pub(crate) fn hear(path: &str, kinds: &[&str], heard: impl Fn(String, String) + 'static) {
    let heard = Closure::<dyn Fn(String, String)>::new(heard);
    let kinds = kinds.iter().map(|kind| (*kind).to_owned()).collect();
    let end = js::hear_host(path, kinds, &heard);
    let kept = StoredValue::new_local((end, heard));
    on_cleanup(move || {
        kept.with_value(|(end, _)| {
            // Closing what is closed is no trouble.
            let _ = end.call0(&JsValue::NULL);
        });
    });
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Trouble {
    /// This site has no host.
    NoHost,
    /// It cannot be reached, or its store is away: it is worth trying again.
    Away(String),
    /// It says no: the status, and its sentence.
    Refused(u16, String),
}

impl Trouble {
    /// In words.
    pub(crate) fn sentence(self) -> String {
        match self {
            Self::NoHost => crate::words::say(k("host-none")),
            Self::Away(why) => say_with(k("host-away"), vec![("why", text(why))]),
            // The host's sentences are in English, as the programs'.
            Self::Refused(_, why) => crate::reader::in_english(why),
        }
    }
}

/// An answer as `web/glue.js` hands it on; without a text it is none of a host.
#[derive(Deserialize)]
struct Answer {
    status: u16,
    text: Option<String>,
}

#[derive(Deserialize)]
struct Why {
    error: String,
}

/// What an answer means.
fn read<T: DeserializeOwned>(answer: &str) -> Result<T, Trouble> {
    let away = |e: serde_json::Error| Trouble::Away(e.to_string());
    let Answer { status, text } = serde_json::from_str(answer).map_err(away)?;
    let Some(text) = text else {
        return Err(match status {
            // Done, and nothing to be said of it.
            204 => return serde_json::from_str("null").map_err(away),
            // Whatever stands between here and the host.
            500.. => Trouble::Away(status.to_string()),
            _ => Trouble::NoHost,
        });
    };
    if (200..300).contains(&status) {
        return serde_json::from_str(&text).map_err(away);
    }
    let why = serde_json::from_str::<Why>(&text).map_or_else(|_| status.to_string(), |w| w.error);
    Err(if status == 503 { Trouble::Away(why) } else { Trouble::Refused(status, why) })
}

/// Asks for something to be done; `path` is what follows `api/`.
///
/// # Errors
/// Why there is no answer of this type.
pub(crate) async fn call<T: DeserializeOwned>(
    method: &str,
    path: &str,
    body: Option<String>,
) -> Result<T, Trouble> {
    match js::call_host(method, path, body).await {
        Ok(answer) => read(&answer.as_string().unwrap_or_default()),
        Err(thrown) => Err(Trouble::Away(sentence(thrown))),
    }
}

/// Asks for what is there.
///
/// # Errors
/// As [`call`] has them.
pub(crate) async fn get<T: DeserializeOwned>(path: &str) -> Result<T, Trouble> {
    call("GET", path, None).await
}

#[cfg(test)]
mod tests {
    use super::*;

    fn number(answer: &str) -> Result<u8, Trouble> {
        read(answer)
    }

    #[test]
    fn a_site_of_plain_files_is_no_host_and_a_refusal_is_its_sentence() {
        assert_eq!(number(r#"{"status":200,"text":"7"}"#), Ok(7));
        assert_eq!(number(r#"{"status":404,"text":null}"#), Err(Trouble::NoHost));
        assert_eq!(read::<()>(r#"{"status":204,"text":null}"#), Ok(()));
        assert_eq!(number(r#"{"status":200,"text":null}"#), Err(Trouble::NoHost));
        let refused = r#"{"status":422,"text":"{\"error\":\"it is another file\"}"}"#;
        assert_eq!(number(refused), Err(Trouble::Refused(422, "it is another file".to_owned())));
    }

    #[test]
    fn what_is_away_may_come_back() {
        let away = |answer| matches!(number(answer), Err(Trouble::Away(_)));
        assert!(away(r#"{"status":503,"text":"{\"error\":\"the store is away\"}"}"#));
        assert!(away(r#"{"status":502,"text":null}"#));
        assert!(away(r#"{"status":200,"text":"[]"}"#));
        assert!(away("nonsense"));
    }
}

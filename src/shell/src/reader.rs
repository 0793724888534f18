//! The reader of whole files: a module of its own, loaded when something is first asked.

// The binding macro writes the unsafe calls across the border between wasm and JavaScript.
#![allow(unsafe_code)]

use coneyard_core::outside::to_json;
use coneyard_core::reading::{Question, Terms};
use leptos::prelude::*;
use serde::de::DeserializeOwned;

use crate::canvas::sentence;
use crate::words::{k, say_with, text};

mod js {
    use wasm_bindgen::prelude::*;

    #[wasm_bindgen(js_namespace = coneyard)]
    extern "C" {
        #[wasm_bindgen(catch)]
        pub(super) async fn load_reader() -> Result<JsValue, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn ask(question: &str) -> Result<String, JsValue>;
    }
}

/// Asks the reader.
///
/// # Errors
/// One sentence when it cannot be loaded, or when the file that it is about cannot be read.
pub(crate) async fn ask<T: DeserializeOwned>(question: &Question) -> Result<T, String> {
    if let Err(thrown) = js::load_reader().await {
        return Err(say_with(k("reader-trouble"), vec![("why", text(sentence(thrown)))]));
    }
    let question = to_json(question)?;
    let answer = js::ask(&question).map_err(sentence).map_err(in_english)?;
    serde_json::from_str(&answer).map_err(|e| e.to_string())
}

/// What is wrong with a file is told in English only, as the programs tell it: so it is called what it is.
pub(crate) fn in_english(why: String) -> String {
    say_with(k("said-in-english"), vec![("why", text(why))])
}

/// What a text of site rules asks for. The reader is asked only where the text does not say it.
///
/// # Errors
/// As [`ask`] has them.
pub(crate) async fn terms(rules: &str) -> Result<Terms, String> {
    match Terms::stated(rules) {
        Some(terms) => Ok(terms),
        None => ask(&Question::Terms(rules.to_owned())).await,
    }
}

/// The same for a page: None as long as it is not known.
pub(crate) fn terms_signal(rules: String) -> RwSignal<Option<Terms>> {
    let known = RwSignal::new(Terms::stated(&rules));
    if known.with_untracked(Option::is_none) {
        leptos::task::spawn_local(async move {
            // Whoever drives or judges by these rules is told why they cannot be read.
            known.try_set(terms(&rules).await.ok());
        });
    }
    known
}

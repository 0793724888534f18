//! The reader: what the pages want to know of whole files. It is core alone in a module of its own,
//! so that a page that only lists and shows carries no reader of runs and no judge; the pages load it
//! when they first ask something.
//!
//! What is asked and answered is the plain data of `coneyard_core::reading`, as JSON.

mod answers;
mod rules;
mod rules_text;

pub use answers::answer;

/// What the pages may call.
#[cfg(target_arch = "wasm32")]
pub mod exports {
    use wasm_bindgen::prelude::*;

    /// Runs when the module is loaded: a panic writes its message and place to the console.
    #[wasm_bindgen(start)]
    pub fn begin() {
        console_error_panic_hook::set_once();
    }

    /// Answers a question (`coneyard_core::reading::Question`).
    #[wasm_bindgen]
    pub fn ask(question: &str) -> Result<String, JsError> {
        crate::answer(question).map_err(|sentence| JsError::new(&sentence))
    }
}

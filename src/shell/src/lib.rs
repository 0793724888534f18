//! Every page around the canvas: who drives, the path, driving with its dashboard, debrief,
//! replay, progress and settings. Client side only.
//!
//! The pages know nothing of the engine: they call the canvas by the few functions in [`yard`],
//! and what crosses is the plain data of `coneyard_core::desk`. Devices are read here and nowhere
//! else. No text a person reads stands in this crate: it is a Fluent key, see [`words`].

// Leptos' component macro makes its property structs `pub`, which nothing outside can reach.
#![allow(unreachable_pub)]

mod app;
mod browser;
mod courses;
mod devices;
mod files;
mod host;
mod later;
mod looking;
mod pages;
mod parts;
mod plan;
mod reader;
mod route;
mod settings;
mod site;
mod sound;
mod store;
#[cfg(test)]
mod test_support;
#[cfg(test)]
mod text_keys;
mod timeline;

mod canvas;
mod words;

/// Starts the pages; called once by the browser when the module has loaded. Nothing is shown before
/// there are texts to show.
#[wasm_bindgen::prelude::wasm_bindgen(start)]
pub fn start() {
    console_error_panic_hook::set_once();
    wasm_bindgen_futures::spawn_local(async {
        let settings = settings::Settings::recall();
        let lang = settings.language();
        match words::fetch(lang).await {
            Ok(texts) => {
                words::set_lang(lang, texts);
                app::mount(settings);
            }
            Err(why) => canvas::trouble(&why),
        }
    });
}

//! Binding a compiled module to JavaScript, with the binding generator as a library: its version
//! is the lock file's, so it always fits the module.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use serde::{Deserialize, Serialize};
use wasm_bindgen_cli_support::Bindgen;

use super::SiteFile;
use super::store::Store;
use coneyard::names::with_digest;
use coneyard::trouble::Trouble;

/// What the generator made, kept as one result in the store.
#[derive(Serialize, Deserialize)]
struct Made {
    /// The JavaScript that loads the module.
    script: String,
    /// The module, ready for the browser.
    module: Vec<u8>,
    /// Small pieces of JavaScript that crates bring along, by path.
    pieces: BTreeMap<String, String>,
}

/// Binds one module. Returns `NAME-DIGEST.js`, `NAME_bg-DIGEST.wasm` and the pieces; the script
/// names the module by its final name.
///
/// # Errors
/// One sentence when the module cannot be read or bound.
pub(crate) fn bind(name: &str, module: &Path, store: &Store) -> Result<Vec<SiteFile>, Trouble> {
    let compiled = fs::read(module).map_err(|e| Trouble::with_path("cannot read", module, &e))?;
    // Another version of the generator is another program, hence another key.
    let key = Store::key(&format!("bind {name} {}", wasm_bindgen_shared::version()), &compiled);
    let kept = store.get(&key).and_then(|bytes| postcard::from_bytes::<Made>(&bytes).ok());
    let made = match kept {
        Some(made) => made,
        None => {
            let made = generate(name, compiled).map_err(|e| {
                Trouble::Here(format!("{name} could not be bound to JavaScript: {e:#}"))
            })?;
            if let Ok(bytes) = postcard::to_allocvec(&made) {
                store.put(&key, &bytes);
            }
            made
        }
    };
    Ok(named(name, made))
}

fn generate(name: &str, compiled: Vec<u8>) -> anyhow::Result<Made> {
    let mut output = Bindgen::new()
        .web(true)?
        .typescript(false)
        // The script finds the module beside itself.
        .omit_default_module_path(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        .input_bytes(name, compiled)
        .generate_output()?;
    let mut pieces = BTreeMap::new();
    for (folder, list) in output.snippets() {
        for (i, text) in list.iter().enumerate() {
            pieces.insert(format!("snippets/{folder}/inline{i}.js"), text.clone());
        }
    }
    for (path, text) in output.local_modules() {
        pieces.insert(format!("snippets/{path}"), text.clone());
    }
    Ok(Made { script: output.js().to_owned(), module: output.wasm_mut().emit_wasm(), pieces })
}

fn named(name: &str, made: Made) -> Vec<SiteFile> {
    let plain = format!("{name}_bg.wasm");
    let path = with_digest(&plain, &made.module);
    let script = made.script.replace(&plain, &path).into_bytes();
    let mut files = vec![
        SiteFile { path: with_digest(&format!("{name}.js"), &script), content: script },
        SiteFile { path, content: made.module },
    ];
    files.extend(
        made.pieces.into_iter().map(|(path, text)| SiteFile { path, content: text.into_bytes() }),
    );
    files
}

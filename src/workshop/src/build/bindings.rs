//! Binding a compiled module to JavaScript, with the binding generator as a library: its version
//! is the lock file's, so it always fits the module.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use serde::{Deserialize, Serialize};
use wasm_bindgen_cli_support::Bindgen;

use super::SiteFile;
use super::cut::{self, Cut};
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
    /// What was cut out of the module, by the names that stand in `link`.
    parts: BTreeMap<String, Vec<u8>>,
    /// The JavaScript that fetches it; empty when nothing was cut out.
    link: String,
}

/// Binds one module, which is first cut where its sources ask for it. Returns `NAME-DIGEST.js`,
/// `NAME_bg-DIGEST.wasm` and the pieces; whoever names another of them names it by its final name.
///
/// # Errors
/// One sentence when the module cannot be read or bound.
pub(crate) fn bind(
    name: &str,
    module: &Path,
    is_cut: bool,
    store: &Store,
) -> Result<Vec<SiteFile>, Trouble> {
    let compiled = fs::read(module).map_err(|e| Trouble::with_path("cannot read", module, &e))?;
    // Another version of the generator is another program, hence another key.
    // So is another way of calling it.
    let work = format!("bind 2 {name} {} cut {is_cut}", wasm_bindgen_shared::version());
    let key = Store::key(&work, &compiled);
    let kept = store.get(&key).and_then(|bytes| postcard::from_bytes::<Made>(&bytes).ok());
    let made = match kept {
        Some(made) => made,
        None => {
            let made = generate(name, compiled, is_cut).map_err(|e| {
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

fn generate(name: &str, compiled: Vec<u8>, is_cut: bool) -> anyhow::Result<Made> {
    let whole = |main| Cut { main, link: String::new(), parts: BTreeMap::new() };
    let Cut { main, link, parts } =
        if is_cut { cut::cut(name, &compiled)? } else { whole(compiled) };
    let mut output = Bindgen::new()
        .web(true)?
        .typescript(false)
        // The script finds the module beside itself.
        .omit_default_module_path(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        // What was cut out finds the table of functions by its export.
        .keep_lld_exports(is_cut)
        .input_bytes(name, main)
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
    let (script, module) = (output.js().to_owned(), output.wasm_mut().emit_wasm());
    Ok(Made { script, module, pieces, parts, link })
}

fn named(name: &str, made: Made) -> Vec<SiteFile> {
    let (plain, plain_link) = (format!("{name}_bg.wasm"), cut::link_name(name));
    let path = with_digest(&plain, &made.module);
    let script = made.script.replace(&plain, &path);
    let mut files = vec![SiteFile { path, content: made.module }];
    let mut link = made.link;
    for (part, content) in made.parts {
        let path = with_digest(&part, &content);
        link = link.replace(&format!("./{part}"), &format!("./{path}"));
        files.push(SiteFile { path, content });
    }
    // These two name each other: their names are made of what both are but for that.
    let both = format!("{script}{link}");
    let [plain_script, link_path, script_path] = [
        format!("{name}.js"),
        with_digest(&plain_link, both.as_bytes()),
        with_digest(&format!("{name}.js"), both.as_bytes()),
    ];
    if !link.is_empty() {
        let link = link.replace(&format!("./{plain_script}"), &format!("./{script_path}"));
        files.push(SiteFile { path: link_path.clone(), content: link.into_bytes() });
    }
    // Only where it is imported: the module itself goes on asking for it by the plain name.
    let script =
        script.replace(&format!("from \"./{plain_link}\""), &format!("from \"./{link_path}\""));
    files.push(SiteFile { path: script_path, content: script.into_bytes() });
    files.extend(
        made.pieces.into_iter().map(|(path, text)| SiteFile { path, content: text.into_bytes() }),
    );
    files
}

#[cfg(test)]
mod tests {
    use super::*;

    fn made(module: &[u8], part: &[u8]) -> Vec<SiteFile> {
        let script = "import * as l from \"./pages_link.js\"; new URL('pages_bg.wasm'); \
                      ({ \"./pages_link.js\": l })"
            .to_owned();
        let link = "import { initSync } from \"./pages.js\"; fetch(\"./split_a.wasm\")".to_owned();
        let parts = BTreeMap::from([("split_a.wasm".to_owned(), part.to_vec())]);
        let module = module.to_vec();
        named("pages", Made { script, module, pieces: BTreeMap::new(), parts, link })
    }

    fn find<'a>(files: &'a [SiteFile], begins: &str, ends: &str) -> (&'a str, String) {
        let found = files.iter().find(|f| f.path.starts_with(begins) && f.path.ends_with(ends));
        let file = found.unwrap();
        (&file.path, String::from_utf8_lossy(&file.content).into_owned())
    }

    #[test]
    fn every_file_names_the_others_by_their_final_names() {
        let files = made(b"main", b"part");
        let (script, in_script) = find(&files, "pages-", ".js");
        let (link, in_link) = find(&files, "pages_link-", ".js");
        let (module, _) = find(&files, "pages_bg-", ".wasm");
        let (part, _) = find(&files, "split_a-", ".wasm");
        let imported = "({ \"./pages_link.js\": l })";
        assert_eq!(
            in_script,
            format!("import * as l from \"./{link}\"; new URL('{module}'); {imported}")
        );
        assert_eq!(
            in_link,
            format!("import {{ initSync }} from \"./{script}\"; fetch(\"./{part}\")")
        );
        // Whatever changes in one of them gives the script that names it another name.
        for other in [made(b"other", b"part"), made(b"main", b"other")] {
            assert_ne!(find(&other, "pages-", ".js").0, script);
            assert_ne!(find(&other, "pages_link-", ".js").0, link);
        }
    }

    #[test]
    fn a_module_that_is_whole_has_no_link() {
        let script = "new URL('canvas_bg.wasm')".to_owned();
        let (pieces, parts) = (BTreeMap::new(), BTreeMap::new());
        let made = Made { script, module: vec![1], pieces, parts, link: String::new() };
        assert_eq!(named("canvas", made).len(), 2);
    }
}

//! Cutting a module where its sources ask for it: what nobody needs at once becomes a module of its
//! own, which the first one fetches.

use std::collections::BTreeMap;
use std::fs;

use anyhow::{Context, anyhow};
use wasm_split_cli_support::{Options, transform};

/// A module in pieces.
pub(super) struct Cut {
    /// What is loaded at once, yet to be bound to JavaScript.
    pub(super) main: Vec<u8>,
    /// JavaScript that fetches the rest.
    pub(super) link: String,
    /// The rest, by the names that stand in `link`.
    pub(super) parts: BTreeMap<String, Vec<u8>>,
}

/// Name of the JavaScript that fetches the rest of a module.
pub(super) fn link_name(name: &str) -> String {
    format!("{name}_link.js")
}

/// Cuts a module that was linked with `--emit-relocs`.
///
/// # Errors
/// Why it cannot be cut.
pub(super) fn cut(name: &str, compiled: &[u8]) -> anyhow::Result<Cut> {
    let folder = tempfile::tempdir()?;
    let main = folder.path().join("main.wasm");
    let (link, script) = (format!("./{}", link_name(name)), format!("./{name}.js"));
    let mut options = Options::new(compiled);
    options.output_dir = folder.path();
    options.main_out_path = &main;
    options.link_name = &link;
    options.main_module = &script;
    let made = transform(options).map_err(|e| anyhow!("{e:#}"))?;
    let mut parts = BTreeMap::new();
    for path in made.split_modules {
        let file = path.file_name().and_then(|n| n.to_str()).context("a part without a name")?;
        parts.insert(file.to_owned(), without_notes(&fs::read(&path)?)?);
    }
    let link = fs::read_to_string(folder.path().join(link_name(name)))?;
    Ok(Cut { main: fs::read(&main)?, link, parts })
}

/// Magic number and version of a WebAssembly module, bytes.
const HEAD: usize = 8;

/// The module without its custom sections: names of functions and the like, which no browser needs.
fn without_notes(module: &[u8]) -> anyhow::Result<Vec<u8>> {
    let mut kept = module.get(..HEAD).context("a part that is no module")?.to_vec();
    let mut at = HEAD;
    while at < module.len() {
        let (length, begin) = number(module, at + 1).context("a part that is cut off")?;
        let end = begin.checked_add(length).filter(|end| *end <= module.len());
        let section = module.get(at..end.context("a part that is cut off")?);
        let section = section.context("a part that is cut off")?;
        if section.first() != Some(&0) {
            kept.extend_from_slice(section);
        }
        at += section.len();
    }
    Ok(kept)
}

/// A whole number in the variable-length form of WebAssembly (LEB128), and where it ends.
fn number(bytes: &[u8], from: usize) -> Option<(usize, usize)> {
    let mut value = 0usize;
    for n in 0..5 {
        let byte = usize::from(*bytes.get(from + n)?);
        value |= (byte & 0x7f).checked_shl(7 * u32::try_from(n).ok()?)?;
        if byte & 0x80 == 0 {
            return Some((value, from + n + 1));
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_are_left_out_and_everything_else_stays() {
        let head = b"\0asm\x01\0\0\0";
        let types = [1, 4, 1, 0x60, 0, 0];
        let mut long = vec![0, 0x81, 0x01];
        long.extend([7; 129]);
        let module = [head.as_slice(), &types, &long, &[3, 2, 1, 0], &[0, 1, 0]].concat();
        let kept = without_notes(&module).unwrap();
        assert_eq!(kept, [head.as_slice(), &types, &[3, 2, 1, 0]].concat());
        assert!(without_notes(&module[..module.len() - 1]).is_err());
        assert!(without_notes(b"abc").is_err());
    }
}

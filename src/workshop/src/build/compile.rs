//! Compiling a browser crate to WebAssembly with the project's own cargo.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use coneyard::trouble::Trouble;

/// What browsers run.
const TARGET: &str = "wasm32-unknown-unknown";

/// Makes sure that the compiler can build for browsers.
///
/// # Errors
/// One sentence saying what to install.
pub(crate) fn wasm_target_is_there(project: &Path) -> Result<(), Trouble> {
    let output = Command::new("rustc")
        .current_dir(project)
        .args(["--print", "target-libdir", "--target", TARGET])
        .output()
        .map_err(|e| {
            Trouble::Here(format!(
                "the Rust compiler could not be started ({e}): install rustup, then run ./start"
            ))
        })?;
    let folder = String::from_utf8_lossy(&output.stdout);
    if output.status.success() && Path::new(folder.trim()).is_dir() {
        return Ok(());
    }
    Err(Trouble::Here(format!(
        "the Rust compiler cannot build for browsers yet: run `rustup target add {TARGET}`"
    )))
}

/// Has Leptos put every piece of a page behind one type: without it, each page is a type of its own,
/// with all code that a type takes (pages as brotli: 639 kB without it, 548 kB with it).
pub(crate) const ERASED: &str =
    "target.wasm32-unknown-unknown.rustflags=['--cfg=erase_components']";

/// Compiles these packages in one go, with these settings of cargo's beside the project's own, and
/// returns the modules that came out. Cargo writes its progress and whatever the compiler says to
/// standard error as usual.
///
/// # Errors
/// One sentence when cargo cannot be started or a package does not compile.
pub(crate) fn compile(
    project: &Path,
    modules: &[&str],
    profile: &str,
    settings: &[&str],
) -> Result<Vec<PathBuf>, Trouble> {
    let packages: Vec<String> = modules.iter().map(|name| format!("coneyard-{name}")).collect();
    let output = Command::new("cargo")
        .current_dir(project)
        .args(["build", "--target", TARGET, "--profile", profile])
        .args(packages.iter().flat_map(|package| ["--package", package]))
        .args(settings.iter().flat_map(|setting| ["--config", setting]))
        .arg("--message-format=json-render-diagnostics")
        .stderr(Stdio::inherit())
        .output()
        .map_err(|e| {
            Trouble::Here(format!(
                "cargo could not be started ({e}): install rustup, then run ./start"
            ))
        })?;
    if !output.status.success() {
        return Err(Trouble::Here(format!(
            "{} cannot be compiled; what the compiler says about it stands above",
            packages.join(", ")
        )));
    }
    let messages = String::from_utf8_lossy(&output.stdout);
    let module = |package: &String| {
        module_named_in(&messages, package).ok_or_else(|| {
            Trouble::Here(format!(
                "cargo built {package} but named no WebAssembly module: its Cargo.toml needs \
                 crate-type = [\"cdylib\"]"
            ))
        })
    };
    packages.iter().map(module).collect()
}

/// The last `.wasm` file that cargo's messages, one JSON object a line, name for this package.
fn module_named_in(messages: &str, package: &str) -> Option<PathBuf> {
    let target = package.replace('-', "_");
    messages
        .lines()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
        .filter(|message| {
            message["reason"] == "compiler-artifact" && message["target"]["name"] == target.as_str()
        })
        .filter_map(|message| {
            let files = message["filenames"].as_array()?.clone();
            files
                .iter()
                .filter_map(|file| file.as_str())
                .find(|file| file.ends_with(".wasm"))
                .map(PathBuf::from)
        })
        .next_back()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_module_is_found_among_the_messages() {
        let messages = concat!(
            r#"{"reason":"compiler-artifact","target":{"name":"coneyard_core"},"filenames":["a/core.rlib"]}"#,
            "\nnot json\n",
            r#"{"reason":"compiler-artifact","target":{"name":"coneyard_canvas"},"filenames":["a/canvas.d","a/canvas.wasm"]}"#,
        );
        assert_eq!(
            module_named_in(messages, "coneyard-canvas"),
            Some(PathBuf::from("a/canvas.wasm"))
        );
        assert_eq!(module_named_in(messages, "coneyard-shell"), None);
    }
}

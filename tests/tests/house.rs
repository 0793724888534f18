//! The house rules that a machine can check: who may depend on whom.

use std::process::Command;

/// The packages that a crate of the workspace depends on, by `cargo tree`, without its tests'.
fn dependencies(package: &str, target: &str) -> Vec<String> {
    let out = Command::new(env!("CARGO"))
        .args(["tree", "--edges", "normal", "--prefix", "none", "--format", "{p}"])
        .args(["--package", package, "--target", target, "--offline"])
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
        .output()
        .expect("cargo runs");
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8_lossy(&out.stdout)
        .lines()
        .filter_map(|line| line.split_whitespace().next())
        .map(str::to_owned)
        .collect()
}

fn no_one_of(package: &str, target: &str, forbidden: &[&str]) {
    let found = dependencies(package, target);
    assert!(found.iter().any(|d| d == package), "cargo tree listed {package} itself");
    for name in found {
        assert!(
            !forbidden.iter().any(|f| name == *f || name.starts_with(&format!("{f}_"))),
            "{package} depends on {name}"
        );
    }
}

const HERE: &str = "x86_64-unknown-linux-gnu";
const WEB: &str = "wasm32-unknown-unknown";

#[test]
fn core_knows_no_engine_no_web_and_no_runtime() {
    no_one_of("coneyard-core", HERE, &["bevy", "rapier2d", "web-sys", "wasm-bindgen", "tokio"]);
}

#[test]
fn the_pages_know_no_engine() {
    no_one_of("coneyard-shell", WEB, &["bevy", "rapier2d", "coneyard-sim", "coneyard-yard"]);
}

#[test]
fn the_simulation_has_no_renderer() {
    no_one_of("coneyard-sim", HERE, &["bevy_render", "bevy_window", "bevy_winit", "wgpu"]);
}

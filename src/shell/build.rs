//! Asks the linker to leave in the module where everything in it comes from: by that the pages that
//! nobody needs at once are cut out of it when a site is built.

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    if std::env::var("CARGO_CFG_TARGET_ARCH").is_ok_and(|arch| arch == "wasm32") {
        println!("cargo::rustc-link-arg-cdylib=--emit-relocs");
    }
}

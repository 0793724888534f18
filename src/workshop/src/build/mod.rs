//! `coneyard-workshop build`: makes the site that browsers load, in `dist/`.
//!
//! Compile the browser crates, bind them to JavaScript, put them together with the texts and what
//! lies in `web/`, `levels/` and `assets/`, compress everything, and only then swap the new folder in: a
//! build that fails leaves the old site as it was. What did not change is not done again: cargo
//! sees to that for the compiling, a store of results by content for the rest.

mod bindings;
mod compile;
mod cut;
mod pack;
mod pages;
pub(crate) mod sizes;
mod store;
mod swap;
mod texts;

use std::path::PathBuf;
use std::time::Instant;

use coneyard::files::{project_folder, say};
use coneyard::trouble::Trouble;

/// Options of `coneyard-workshop build`.
#[derive(clap::Args)]
#[command(after_help = "Example: coneyard-workshop build --dev")]
pub(crate) struct Args {
    /// Build quickly, for working on it: larger and slower than what people should load
    #[arg(long)]
    dev: bool,
    /// Folder of the built site [default: dist in the project]
    #[arg(long, value_name = "DIR")]
    dist: Option<PathBuf>,
}

/// One file of the site: its path below the site's root with forward slashes, and what is in it.
pub(crate) struct SiteFile {
    /// Path below the root, like `levels/figure-eight.json`.
    pub(crate) path: String,
    /// The bytes.
    pub(crate) content: Vec<u8>,
}

/// A module that browsers load.
struct Module {
    /// Its package is called so after "coneyard-".
    name: &'static str,
    /// What people call it.
    called: &'static str,
    /// Profile for what people should load.
    profile: &'static str,
    /// Settings of cargo's.
    settings: &'static [&'static str],
    /// Its sources say where it is cut.
    is_cut: bool,
}

/// All of them, in the order in which a browser loads them.
const MODULES: [Module; 3] = [
    Module {
        name: "shell",
        called: "pages",
        profile: "pages",
        settings: &[compile::ERASED],
        is_cut: true,
    },
    Module {
        name: "reader",
        called: "reader",
        profile: "pages",
        // As the pages', so that what both are made of is compiled once.
        settings: &[compile::ERASED],
        is_cut: false,
    },
    Module { name: "canvas", called: "canvas", profile: "web", settings: &[], is_cut: false },
];

/// Builds the site and prints what it weighs.
///
/// # Errors
/// One sentence naming the step that failed. The old site is untouched then.
pub(crate) fn build(args: &Args) -> Result<(), Trouble> {
    let project = project_folder()?;
    let dist = args.dist.clone().unwrap_or_else(|| project.join("dist"));
    let profile = if args.dev { "web-dev" } else { "web" };
    let mut steps = Steps::new(MODULES.len() + 4);

    compile::wasm_target_is_there(&project)?;
    let mut compiled = Vec::new();
    for module in &MODULES {
        // Only the size of what is loaded before anything is seen counts; it has a profile of its own.
        let profile = if args.dev { profile } else { module.profile };
        let package = format!("coneyard-{}", module.name);
        compiled.push(steps.take(&format!("compile the {}", module.called), || {
            compile::compile(&project, &package, profile, module.settings)
        })?);
    }
    let [.., canvas] = compiled.as_slice() else {
        return Err(Trouble::Here("there is no module to build".to_owned()));
    };
    let store = store::Store::open(canvas, profile)?;
    let bound = steps.take("bind them to JavaScript", || {
        let mut bound = texts::tables()?;
        for (module, file) in MODULES.iter().zip(&compiled) {
            bound.extend(bindings::bind(module.name, file, module.is_cut, &store)?);
        }
        Ok(bound)
    })?;
    let site = steps.take("put the pages together", || pages::gather(&project, bound))?;
    let packed = steps.take("compress", || pack::pack(site, args.dev, &store))?;
    steps.take("swap the new site in", || swap::swap_in(&packed, &dist))?;
    store.sweep();

    say(sizes::table(&sizes::weigh(&packed)));
    say(format_args!("The site is in {}.", dist.display()));
    Ok(())
}

/// Announces each step with its number, and says how long it took.
struct Steps {
    next: usize,
    count: usize,
}

impl Steps {
    fn new(count: usize) -> Self {
        Self { next: 1, count }
    }

    fn take<T>(
        &mut self,
        name: &str,
        work: impl FnOnce() -> Result<T, Trouble>,
    ) -> Result<T, Trouble> {
        let (step, count) = (self.next, self.count);
        self.next += 1;
        say(format_args!("step {step} of {count}: {name} ..."));
        let begun = Instant::now();
        let made = work()?;
        let seconds = begun.elapsed().as_secs_f64();
        say(format_args!("step {step} of {count}: {name}, {seconds:.1} s"));
        Ok(made)
    }
}

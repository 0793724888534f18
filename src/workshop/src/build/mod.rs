//! `coneyard-workshop build`: makes the site that browsers load, in `dist/`.
//!
//! Compile the two browser crates, bind them to JavaScript, put them together with what lies in
//! `web/`, `levels/` and `assets/`, compress everything, and only then swap the new folder in: a
//! build that fails leaves the old site as it was. What did not change is not done again: cargo
//! sees to that for the compiling, a store of results by content for the rest.

mod bindings;
mod compile;
mod pack;
mod pages;
pub(crate) mod sizes;
mod store;
mod swap;

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

/// Builds the site and prints what it weighs.
///
/// # Errors
/// One sentence naming the step that failed. The old site is untouched then.
pub(crate) fn build(args: &Args) -> Result<(), Trouble> {
    let project = project_folder()?;
    let dist = args.dist.clone().unwrap_or_else(|| project.join("dist"));
    let profile = if args.dev { "web-dev" } else { "web" };
    let mut steps = Steps::new(6);

    compile::wasm_target_is_there(&project)?;
    let shell = steps
        .take("compile the pages", || compile::compile(&project, "coneyard-shell", profile))?;
    let canvas = steps
        .take("compile the canvas", || compile::compile(&project, "coneyard-canvas", profile))?;
    let store = store::Store::open(&canvas, profile)?;
    let bound = steps.take("bind both to JavaScript", || {
        let mut bound = bindings::bind("shell", &shell, &store)?;
        bound.extend(bindings::bind("canvas", &canvas, &store)?);
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
    next: u32,
    count: u32,
}

impl Steps {
    fn new(count: u32) -> Self {
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

//! `coneyard-workshop build`: makes the site that browsers load, in `dist/`.
//!
//! Compile the browser crates, bind them to JavaScript, put them together with the texts, the exercises and
//! what lies in `web/` and `assets/`, compress everything, and only then swap the new folder in: a
//! build that fails leaves the old site as it was. What did not change is not done again: cargo
//! sees to that for the compiling, a store of results by content for the rest.

mod bindings;
mod compile;
mod cut;
mod drawings;
mod exercises;
mod lesson;
mod pack;
mod pages;
pub(crate) mod sizes;
mod store;
mod swap;
mod texts;
mod worker;

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
    /// Path below the root, like `assets/corpus.md`.
    pub(crate) path: String,
    /// The bytes.
    pub(crate) content: Vec<u8>,
}

/// The modules that browsers load, in the order in which they do; packages are called so after
/// "coneyard-".
const MODULES: [&str; 3] = ["shell", "reader", "canvas"];

/// The module whose sources say where it is cut.
const CUT: &str = "shell";

/// Modules that one call of cargo compiles.
struct Batch {
    /// The modules, as in [`MODULES`].
    modules: &'static [&'static str],
    /// What people call them.
    called: &'static str,
    profile: &'static str,
    /// Settings of cargo's.
    settings: &'static [&'static str],
}

/// What people should load. Only the size of what is loaded before anything is seen counts; it has
/// a profile of its own. The reader goes with it, so that what both are made of is compiled once.
const SMALL: &[Batch] = &[
    Batch {
        modules: &["shell", "reader"],
        called: "pages and reader",
        profile: "pages",
        settings: &[compile::ERASED],
    },
    Batch { modules: &["canvas"], called: "canvas", profile: "web", settings: &[] },
];

/// What is built quickly: all at once and alike, so that nothing is compiled twice.
const QUICK: &[Batch] = &[Batch {
    modules: &MODULES,
    called: "pages, reader and canvas",
    profile: "web-dev",
    settings: &[compile::ERASED],
}];

/// Builds the site and prints what it weighs.
///
/// # Errors
/// One sentence naming the step that failed. The old site is untouched then.
pub(crate) fn build(args: &Args) -> Result<(), Trouble> {
    let project = project_folder()?;
    let dist = args.dist.clone().unwrap_or_else(|| project.join("dist"));
    let batches = if args.dev { QUICK } else { SMALL };
    let mut steps = Steps::new(batches.len() + 4);

    compile::wasm_target_is_there(&project)?;
    let mut compiled = Vec::new();
    for batch in batches {
        compiled.extend(steps.take(&format!("compile {}", batch.called), || {
            compile::compile(&project, batch.modules, batch.profile, batch.settings)
        })?);
    }
    let (Some(canvas), Some(last)) = (compiled.last(), batches.last()) else {
        return Err(Trouble::Here("there is no module to build".to_owned()));
    };
    let store = store::Store::open(canvas, last.profile)?;
    let bound = steps.take("bind them to JavaScript", || {
        let mut bound = texts::tables()?;
        bound.push(exercises::bundle(&project.join("levels"))?);
        bound.push(lesson::bundle(&project.join("levels"))?);
        bound.push(drawings::bundle(&project.join("levels/checks/drawings"))?);
        for (module, file) in MODULES.iter().zip(&compiled) {
            bound.extend(bindings::bind(module, file, *module == CUT, &store)?);
        }
        Ok(bound)
    })?;
    let made = if args.dev { pages::QUICK } else { pages::SMALL };
    let site = steps.take("put the pages together", || pages::gather(&project, bound, made))?;
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

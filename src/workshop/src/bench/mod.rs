//! `coneyard-workshop bench`: the speed table of the project, measured now on this computer.
//!
//! What can be measured here is measured; what cannot is said to be so. Nothing is asserted: a slow
//! computer is no fault of the program.

mod bare;
mod browser;
mod drawn;
mod heavy;
mod native;
mod site;
mod table;
mod watched;

use std::path::PathBuf;

use coneyard::files::{project_folder, say};
use coneyard::trouble::Trouble;

/// Options of `coneyard-workshop bench`.
#[derive(clap::Args)]
#[command(after_help = "Example: coneyard-workshop bench --json")]
pub(crate) struct Args {
    /// Print the table as JSON
    #[arg(long)]
    json: bool,
    /// Folder of the built site, to weigh it and to measure in a browser [default: dist in the
    /// project]
    #[arg(long, value_name = "DIR")]
    dist: Option<PathBuf>,
    /// Leave out what needs Chromium
    #[arg(long)]
    without_browser: bool,
}

/// Measures and prints the table.
///
/// # Errors
/// One sentence when a shipped course cannot be driven.
pub(crate) fn bench(args: &Args) -> Result<(), Trouble> {
    let dist = match &args.dist {
        Some(dist) => Some(dist.clone()),
        None => project_folder().ok().map(|project| project.join("dist")),
    };
    let dist = dist.filter(|dist| dist.join("index.html").is_file());
    let native = native::measure()?;
    let in_browser = match (&dist, args.without_browser) {
        (_, true) => Err("left out, as was asked".to_owned()),
        (None, _) => Err("there is no built site; run `coneyard-workshop build`".to_owned()),
        (Some(dist), _) => browser::measure(dist, &native),
    };
    let drawn = match (&dist, args.without_browser) {
        (Some(dist), false) => drawn::measure(dist, &native),
        _ => Err(in_browser.as_ref().err().cloned().unwrap_or_default()),
    };
    let mut rows = native.rows;
    rows.extend(browser::rows(&in_browser));
    rows.extend(drawn::rows(&drawn));
    rows.extend(site::rows(dist.as_deref()));
    if args.json {
        let json = serde_json::to_string_pretty(&rows)
            .map_err(|e| Trouble::Here(format!("the table cannot be written as JSON: {e}")))?;
        say(json);
    } else {
        say(table::text(&rows));
    }
    Ok(())
}

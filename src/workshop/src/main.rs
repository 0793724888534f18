//! The program `coneyard-workshop`, what builds and measures: the site, the speed table, the labelled
//! corpus, the spread of pre-tests. What a site runs is the other program, `coneyard`.
//!
//! Every command is a file of its own. This one only reads the command line.

mod bench;
mod build;
mod corpus;
mod progress;
mod spread;

use std::process::ExitCode;

use clap::{Parser, Subcommand};
use coneyard::trouble::exit;

/// The workshop of Coneyard: build its site, measure it, judge riders whose faults are known.
#[derive(Parser)]
#[command(
    name = "coneyard-workshop",
    version,
    after_help = "The yard is served, and runs are judged, by coneyard.\n\n\
                  Example: coneyard-workshop build"
)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Build the site from source
    Build(build::Args),
    /// Measure the speed table on this computer
    Bench(bench::Args),
    /// Drive and judge the labelled corpus: every fault, its near side, and the model rider
    Corpus(corpus::Args),
    /// Let the model rider take many pre-tests, and print how alike they are
    Spread(spread::Args),
}

fn main() -> ExitCode {
    exit(
        "coneyard-workshop",
        match Cli::parse().command {
            Command::Build(args) => build::build(&args),
            Command::Bench(args) => bench::bench(&args),
            Command::Corpus(args) => corpus::corpus(&args),
            Command::Spread(args) => spread::spread(&args),
        },
    )
}

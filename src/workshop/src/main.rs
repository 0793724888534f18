//! The program `coneyard-workshop`, what builds and measures: the site, the speed table, the labelled
//! corpus, attacks on the judge, how points fall, the spread of pre-tests. What a site runs is the other
//! program, `coneyard`.
//!
//! Every command is a file of its own. This one only reads the command line.

#[cfg(feature = "measures")]
mod attack;
#[cfg(feature = "measures")]
mod bench;
mod build;
#[cfg(feature = "measures")]
mod corpus;
#[cfg(feature = "measures")]
mod curves;
#[cfg(feature = "measures")]
mod lesson;
#[cfg(feature = "measures")]
mod living;
#[cfg(feature = "measures")]
mod progress;
#[cfg(feature = "measures")]
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
    #[cfg(feature = "measures")]
    /// Measure the speed table on this computer
    Bench(bench::Args),
    #[cfg(feature = "measures")]
    /// Drive and judge the labelled corpus: every fault, its near side, attackers, and the model rider
    Corpus(corpus::Args),
    #[cfg(feature = "measures")]
    /// Drive every course and the pre-test late and in a hurry, and draw how the points fall
    Curves(curves::Args),
    #[cfg(feature = "measures")]
    /// Drive what the lesson shows anew
    Lesson(lesson::Args),
    #[cfg(feature = "measures")]
    /// Make the yard at the top of the first page anew, from a model rider's drive
    Living(living::Args),
    #[cfg(feature = "measures")]
    /// Let hands of all kinds drive, and hold what is found against what an oracle sees
    Attack(attack::Args),
    #[cfg(feature = "measures")]
    /// Let the model rider take many pre-tests, and print how alike they are
    Spread(spread::Args),
    /// What this program was built without
    #[cfg(not(feature = "measures"))]
    #[command(external_subcommand)]
    Other(Vec<String>),
}

fn main() -> ExitCode {
    exit(
        "coneyard-workshop",
        match Cli::parse().command {
            Command::Build(args) => build::build(&args),
            #[cfg(feature = "measures")]
            Command::Bench(args) => bench::bench(&args),
            #[cfg(feature = "measures")]
            Command::Corpus(args) => corpus::corpus(&args),
            #[cfg(feature = "measures")]
            Command::Curves(args) => curves::curves(&args),
            #[cfg(feature = "measures")]
            Command::Attack(args) => attack::attack(&args),
            #[cfg(feature = "measures")]
            Command::Lesson(args) => lesson::lesson(&args),
            #[cfg(feature = "measures")]
            Command::Living(args) => living::living(&args),
            #[cfg(feature = "measures")]
            Command::Spread(args) => spread::spread(&args),
            #[cfg(not(feature = "measures"))]
            Command::Other(asked) => Err(coneyard::trouble::Trouble::Input(format!(
                "{}: this program was built by ./start, to build the site: build all of it with \
                 `cargo build --release`",
                asked.join(" ")
            ))),
        },
    )
}

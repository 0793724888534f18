//! The native program `coneyard`: builds and serves the yard, rides, judges, checks and measures.
//!
//! Every command is a file of its own. This one only reads the command line and turns the outcome
//! into an exit code: 0 done, 1 something on this computer went wrong, 2 bad input, 3 a run that
//! does not reproduce.

mod bench;
mod build;
mod corpus;
mod course;
mod debrief_text;
mod difference;
mod files;
mod judge;
mod pretest;
mod ride;
mod serve;
mod texts;
mod trouble;

use std::process::ExitCode;

use clap::{Parser, Subcommand};

/// A training yard for tiller-steered rider pallet trucks: serve it, build it, ride it, judge runs.
#[derive(Parser)]
#[command(
    name = "coneyard",
    version,
    args_conflicts_with_subcommands = true,
    after_help = "Without a command, the yard is served.\n\nExample: coneyard --open"
)]
struct Cli {
    #[command(subcommand)]
    command: Option<Command>,
    #[command(flatten)]
    serve: serve::Args,
}

#[derive(Subcommand)]
enum Command {
    /// Serve the built site to browsers on this computer
    Serve(serve::Args),
    /// Build the site from source
    Build(build::Args),
    /// Let a scripted rider drive a course, and write the run
    Ride(ride::Args),
    /// Drive a recorded run or sitting again, from its file alone, and print what came of it
    Judge(judge::Args),
    /// Draw and drive pre-tests, and measure how alike they are
    Pretest(pretest::Args),
    /// Check a course file
    Course(course::Args),
    /// Drive and judge the labelled corpus: every fault, its near side, and the model rider
    Corpus(corpus::Args),
    /// Measure the speed table on this computer
    Bench(bench::Args),
}

fn main() -> ExitCode {
    let cli = Cli::parse();
    let outcome = match cli.command.unwrap_or(Command::Serve(cli.serve)) {
        Command::Serve(args) => serve::serve(&args),
        Command::Build(args) => build::build(&args),
        Command::Ride(args) => ride::ride_and_write(&args),
        Command::Judge(args) => judge::judge(&args),
        Command::Pretest(args) => pretest::pretest(&args),
        Command::Course(args) => course::course(&args),
        Command::Corpus(args) => corpus::corpus(&args),
        Command::Bench(args) => bench::bench(&args),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(trouble) => {
            eprintln!("coneyard: {trouble}");
            ExitCode::from(trouble.exit_code())
        }
    }
}

//! The program `coneyard`, what a site runs: serves the yard, rides, judges, takes pre-tests, checks
//! courses. What builds and measures is the other program, `coneyard-workshop`.
//!
//! Every command is a file of its own. This one only reads the command line.

mod course;
mod debrief_text;
mod difference;
mod judge;
mod pretest;
mod ride;
mod serve;

use std::process::ExitCode;

use clap::{Parser, Subcommand};
use coneyard::trouble::exit;

/// A training yard for tiller-steered rider pallet trucks: serve it, ride it, judge runs.
#[derive(Parser)]
#[command(
    name = "coneyard",
    version,
    args_conflicts_with_subcommands = true,
    after_help = "Without a command, the yard is served. The site is built, and all is measured, \
                  by coneyard-workshop.\n\nExample: coneyard --open"
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
    /// Let a scripted rider drive a course, and write the run
    Ride(ride::Args),
    /// Drive a recorded run or sitting again, from its file alone, and print what came of it
    Judge(judge::Args),
    /// Draw and drive pre-tests
    Pretest(pretest::Args),
    /// Check a course file
    Course(course::Args),
}

fn main() -> ExitCode {
    let cli = Cli::parse();
    exit(
        "coneyard",
        match cli.command.unwrap_or(Command::Serve(cli.serve)) {
            Command::Serve(args) => serve::serve(&args),
            Command::Ride(args) => ride::ride_and_write(&args),
            Command::Judge(args) => judge::judge(&args),
            Command::Pretest(args) => pretest::pretest(&args),
            Command::Course(args) => course::course(&args),
        },
    )
}

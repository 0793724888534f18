//! The program `coneyard`, what a site runs: serves the yard, rides, judges, takes pre-tests, checks
//! courses. What builds and measures is the other program, `coneyard-workshop`.
//!
//! Every command is a file of its own. This one only reads the command line.

#[cfg(feature = "class")]
mod class;
mod course;
#[cfg(feature = "drives")]
mod debrief_text;
#[cfg(feature = "drives")]
mod difference;
#[cfg(feature = "drives")]
mod judge;
#[cfg(feature = "drives")]
mod pretest;
#[cfg(feature = "drives")]
mod ride;
mod serve;
#[cfg(feature = "class")]
mod work;

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
    #[cfg(feature = "drives")]
    /// Let a scripted rider drive a course, and write the run
    Ride(ride::Args),
    #[cfg(feature = "drives")]
    /// Drive a recorded run or sitting again, from its file alone, and print what came of it
    Judge(judge::Args),
    #[cfg(feature = "drives")]
    /// Draw and drive pre-tests
    Pretest(pretest::Args),
    /// Check a course file
    Course(course::Args),
    #[cfg(feature = "class")]
    /// Look after the records of classes: copies, passphrases, a simulated class
    Class(class::Args),
    #[cfg(feature = "class")]
    /// Drive delivered runs again, beside a host, on one database
    Work(work::Args),
    /// What this program was built without
    #[cfg(not(feature = "drives"))]
    #[command(external_subcommand)]
    Other(Vec<String>),
}

fn main() -> ExitCode {
    let cli = Cli::parse();
    exit(
        "coneyard",
        match cli.command.unwrap_or(Command::Serve(cli.serve)) {
            Command::Serve(args) => serve::serve(&args),
            #[cfg(feature = "drives")]
            Command::Ride(args) => ride::ride_and_write(&args),
            #[cfg(feature = "drives")]
            Command::Judge(args) => judge::judge(&args),
            #[cfg(feature = "drives")]
            Command::Pretest(args) => pretest::pretest(&args),
            Command::Course(args) => course::course(&args),
            #[cfg(feature = "class")]
            Command::Class(args) => class::class(&args),
            #[cfg(feature = "class")]
            Command::Work(args) => work::work(&args),
            #[cfg(not(feature = "drives"))]
            Command::Other(asked) => Err(coneyard::trouble::Trouble::Input(format!(
                "{}: this program was built by ./start, to serve and to check courses: build all of it \
                 with `cargo build --release`",
                asked.join(" ")
            ))),
        },
    )
}

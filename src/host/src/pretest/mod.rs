//! `coneyard pretest`: draws the parts of a pre-test, and lets a scripted rider take one.

mod drive;
pub(crate) mod sitting;

use std::path::PathBuf;

use coneyard_core::pretest::{TRUCKS, class_word, draw};

use coneyard::files::say;
use coneyard::trouble::Trouble;

/// Options of `coneyard pretest`.
#[derive(clap::Args)]
pub(crate) struct Args {
    #[command(subcommand)]
    command: Command,
}

#[derive(clap::Subcommand)]
enum Command {
    /// Print the parts that a seat gets
    Draw(Seat),
    /// Let a scripted rider take the whole sitting, and write it
    Drive(Drive),
}

/// Who sits where.
#[derive(clap::Args)]
struct Seat {
    /// The class's word or number
    #[arg(long, value_name = "WORD")]
    class: String,
    /// Number of the seat
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(0..=9999))]
    seat: u32,
    /// Truck that it is taken on
    #[arg(long, value_name = "TRUCK", default_value = TRUCKS[0], value_parser = TRUCKS)]
    truck: String,
}

#[derive(clap::Args)]
#[command(after_help = "The same command writes the same file again: a scripted sitting has no \
                        date.\n\nExample: coneyard pretest drive --class heron --seat 4 --rider \
                        model --out alder.sitting.json")]
struct Drive {
    #[command(flatten)]
    seat: Seat,
    /// Who drives: `model`, or one of the riders with a fault
    #[arg(long, value_name = "NAME")]
    rider: String,
    /// Where the sitting is written
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Name of the rider in the sitting [default: the rider's]
    #[arg(long, value_name = "NAME")]
    who: Option<String>,
}

/// Does what is asked for.
///
/// # Errors
/// One sentence when an argument cannot be used or a file cannot be written.
pub(crate) fn pretest(args: &Args) -> Result<(), Trouble> {
    match &args.command {
        Command::Draw(seat) => print_draw(seat),
        Command::Drive(drive) => drive::drive(drive),
    }
}

fn print_draw(seat: &Seat) -> Result<(), Trouble> {
    let word = class_word(&seat.class)?;
    for (i, part) in draw(&word, seat.seat, &seat.truck).iter().enumerate() {
        let side = if part.mirrored { "mirrored" } else { "as it is" };
        say(format_args!(
            "{:>2}  {:<22}{side:<10}{:<8}seed {}",
            i + 1,
            part.course,
            part.truck,
            part.seed
        ));
    }
    Ok(())
}

//! `coneyard course`: reads a course file and says what is wrong with it.

use coneyard_core::course::Course;
use coneyard_core::course::check::check;
use coneyard_core::truck::spec::{TruckSpec, shipped};

use coneyard::files::say;
use coneyard::texts;
use coneyard::trouble::Trouble;

/// Options of `coneyard course`.
#[derive(clap::Args)]
#[command(after_help = "Example: coneyard course levels/slalom.json")]
pub(crate) struct Args {
    /// Course file, or the name of a shipped course
    #[arg(value_name = "FILE")]
    course: String,
}

/// Says OK, or every problem in a sentence of its own.
///
/// # Errors
/// When there is any: the number of problems, or the one that kept the file from being read.
pub(crate) fn course(args: &Args) -> Result<(), Trouble> {
    let file = texts::course(&args.course)?;
    let course = Course::parse(&file.name, file.text.as_bytes())?;
    let mut problems: Vec<String> = Vec::new();
    let mut checked = Vec::new();
    for name in &course.trucks {
        let Some(text) = shipped::text(name) else {
            say(format_args!(
                "The truck {name} is not a shipped one; nothing was checked with it."
            ));
            continue;
        };
        let truck = TruckSpec::parse(name, text.as_bytes())?;
        checked.push(name.as_str());
        for mut problem in check(&course, &truck) {
            problem.file.clone_from(&file.name);
            let with = problem.to_string();
            if !problems.contains(&with) {
                problems.push(with);
            }
        }
    }
    if checked.is_empty() {
        return Err(Trouble::Input(format!(
            "{}, at trucks: none of them is shipped, so it cannot be checked; name one of {}",
            file.name,
            shipped::ALL.map(|(name, _)| name).join(", ")
        )));
    }
    match problems.as_slice() {
        [] => {
            say(format_args!("{}: OK, checked with the truck {}.", file.name, checked.join(", ")));
            Ok(())
        }
        [one] => Err(Trouble::Input(one.clone())),
        many => {
            for problem in many {
                eprintln!("coneyard: {problem}");
            }
            Err(Trouble::Input(format!("{}: {} problems, named above", file.name, many.len())))
        }
    }
}

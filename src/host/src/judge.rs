//! `coneyard judge`: drives a recorded run again, from its file alone, and says what came of it.
//! A sitting is judged part by part, and then as a whole.

use std::path::PathBuf;

use coneyard_core::course::Course;
use coneyard_core::pretest::{MAX_BYTES, is_sitting};
use coneyard_core::run::Run;
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::words::{LANGUAGES, Units, Words};

use crate::debrief_text;
use crate::difference::difference;
use crate::pretest::sitting;
use coneyard::files::{read_bounded, say};
use coneyard::trouble::Trouble;

/// Options of `coneyard judge`.
#[derive(clap::Args)]
#[command(after_help = "Exit code: 0 judged, 2 bad input, 3 the run does not reproduce.\n\n\
                        Example: coneyard judge r.run.json --json")]
pub(crate) struct Args {
    /// Run file, or sitting file
    run: PathBuf,
    /// Print the verdict as JSON
    #[arg(long)]
    json: bool,
    /// Language of the debrief
    #[arg(long, default_value = "en", value_parser = LANGUAGES)]
    lang: String,
}

/// Judges a run and prints the debrief.
///
/// # Errors
/// Bad input when the file cannot be used; a difference when its drive does not come out again.
pub(crate) fn judge(args: &Args) -> Result<(), Trouble> {
    let name = args.run.display().to_string();
    let text = read_bounded(&args.run, MAX_BYTES)?;
    if is_sitting(&text) {
        return sitting::judge(&name, &text, args.json, &args.lang);
    }
    let run = Run::parse(&name, &text)?;
    let verdict = coneyard_sim::judge(&run).map_err(|mut bad| {
        bad.file = format!("{name}, {} in it", bad.file);
        bad
    })?;
    if args.json {
        let json = serde_json::to_string_pretty(&verdict)
            .map_err(|e| Trouble::Here(format!("the verdict cannot be written as JSON: {e}")))?;
        say(json);
    } else {
        let course = Course::parse("the course", run.setup.course.as_bytes())?;
        let truck = TruckSpec::parse("the truck", run.setup.truck.as_bytes())?;
        let words = Words::new(&args.lang);
        let heading = debrief_text::heading(&course, &truck, &args.lang, &run.setup.who);
        say(heading);
        if let Some(slowed) = debrief_text::slowed(run.pace, &words) {
            say(slowed);
        }
        say(debrief_text::debrief(&verdict.debrief, &words, Units::Metric));
    }
    difference(&name, &verdict).map_or(Ok(()), |sentence| Err(Trouble::Differs(sentence)))
}

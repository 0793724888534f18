//! `coneyard work`: drives delivered runs again, beside a host, on one database.

use std::sync::Arc;
use std::time::Duration;

use coneyard::files::say;
use coneyard::trouble::Trouble;
use coneyard_class::store::JUDGES;
use coneyard_class::work::{Progress, cores, work as judge};
use tokio::sync::watch;

use crate::class::{Place, opened, running};

/// How often progress is told, if there was any.
const TELLS: Duration = Duration::from_secs(5);

/// Options of `coneyard work`.
#[derive(clap::Args)]
#[command(after_help = "Example: coneyard work --store postgres://coneyard@db.example/coneyard")]
pub(crate) struct Args {
    #[command(flatten)]
    place: Place,
    /// How many runs at a time [default: one for each core but one]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=i64::from(JUDGES)))]
    judges: Option<u32>,
}

/// Judges until the program is interrupted.
///
/// # Errors
/// One sentence when the database cannot be reached at the start.
pub(crate) fn work(args: &Args) -> Result<(), Trouble> {
    let judges = args.judges.map_or_else(cores, |judges| judges as usize);
    running(async {
        let opened = opened(&args.place).await?;
        if opened.file.is_some() {
            return Err(Trouble::Input(
                "records in a file are judged by the program that serves them: name a database with --store \
                 postgres://..."
                    .to_owned(),
            ));
        }
        let (ends, ending) = watch::channel(false);
        let progress = Arc::new(Progress::default());
        let judging = judge(opened.store.clone(), judges, progress.clone(), ending);
        say(format_args!("Driving runs again, {judges} at a time (Ctrl-C ends it)."));
        let telling = async {
            let mut last = 0;
            loop {
                tokio::time::sleep(TELLS).await;
                let so_far = progress.so_far();
                if so_far.judged != last {
                    last = so_far.judged;
                    say(format_args!(
                        "{} judged, {} of them not as they say; {:.0} times real time on a core.",
                        so_far.judged, so_far.not_as_said, so_far.times_real_time
                    ));
                }
            }
        };
        tokio::select! {
            () = judging => {}
            () = telling => {}
            _ = tokio::signal::ctrl_c() => {}
        }
        let _ = ends.send(true);
        opened.store.close().await;
        Ok(())
    })
}

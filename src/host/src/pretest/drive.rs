//! `coneyard pretest drive`: a scripted rider takes a whole sitting.

use coneyard_core::pretest::Sitting;
use coneyard_core::rules::SHIPPED;
use coneyard_core::time::DT;
use coneyard_core::words::Words;
use coneyard_core::words::pretest::outcome_key;
use coneyard_sim::ride_as;

use super::{Drive, Seat};
use coneyard::files::say;
use coneyard::trouble::Trouble;

/// Drives all parts, writes the sitting and says in short how it went.
///
/// # Errors
/// One sentence when an argument cannot be used or the file cannot be written.
pub(super) fn drive(args: &Drive) -> Result<(), Trouble> {
    let who = args.who.as_deref().unwrap_or(&args.rider);
    let Seat { class, seat, truck } = &args.seat;
    let mut sitting = Sitting::new(class, *seat, truck, who, "", SHIPPED)?;
    take(&mut sitting, &args.rider)?;
    std::fs::write(&args.out, sitting.to_text())
        .map_err(|e| Trouble::with_path("cannot write the sitting to", &args.out, &e))?;
    let joined = sitting.joined()?;
    let words = Words::new("en");
    say(format_args!(
        "{}: {} parts in {:.1} s.",
        words.say(outcome_key(joined.result), &[]),
        joined.driven,
        f64::from(joined.ticks) * DT
    ));
    for reason in &joined.reasons {
        say(format_args!("  {}", words.reason(reason)));
    }
    say(format_args!("The sitting is in {}.", args.out.display()));
    Ok(())
}

/// Drives every part that is left, one person's hand in all of them.
fn take(sitting: &mut Sitting, rider: &str) -> Result<(), Trouble> {
    let hand = sitting.parts().first().map_or(0, |part| u64::from(part.seed));
    while let (Some((i, _)), Some(setup)) = (sitting.next_part(), sitting.next_setup("")) {
        sitting.done(i, ride_as(&setup, rider, hand)?)?;
    }
    Ok(())
}

//! What the watchers cost: all of them see the moments of a drive once more, without the drive.

use std::time::{Duration, Instant};

use coneyard_core::moment::Moment;
use coneyard_core::run::Run;
use coneyard_core::score::Judge;
use coneyard_sim::Session;

use coneyard::trouble::Trouble;

/// They look on for at least this long.
const AT_LEAST: Duration = Duration::from_millis(1500);

/// Microseconds that all watchers together take for a tick of a run.
///
/// # Errors
/// One sentence when the run cannot be driven.
pub(super) fn tick_us(run: &Run) -> Result<f64, Trouble> {
    let mut session = Session::new(&run.setup)?;
    let mut moments: Vec<Moment> = Vec::new();
    for input in run.each_tick() {
        session.step(input);
        moments.push(session.moment().clone());
    }
    let setting = session.setting();
    let look_on = || {
        let mut judge = Judge::new(&setting.course, &setting.rules, &setting.truck);
        let begun = Instant::now();
        moments.iter().for_each(|m| judge.see(m));
        let took = begun.elapsed();
        std::hint::black_box(judge);
        took
    };
    // The first time warms the caches and is not counted.
    look_on();
    let (mut looked, mut ticks) = (Duration::ZERO, 0);
    while looked < AT_LEAST {
        looked += look_on();
        ticks += moments.len();
    }
    Ok(looked.as_secs_f64() / ticks as f64 * 1e6)
}

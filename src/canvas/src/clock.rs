//! From real time to ticks.
//!
//! Simulated time never runs faster than real time. After a slow picture only a few ticks are made
//! up; the rest is dropped, so that the yard slows instead of skipping, and the share that was
//! kept is recorded: a slow computer must not make a test easier.

use coneyard_core::run::Timing;
use coneyard_core::time::DT;

/// So many ticks at most are made up after one picture: 94 ms, a screen at eleven pictures a
/// second.
const MOST_TICKS: f64 = 6.0;

/// A clock that owes ticks.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Clock {
    /// Stands still.
    pub(crate) paused: bool,
    /// Simulated seconds for one second on the wall.
    pace: f64,
    /// Part of the next tick that has gone by, 0 to 1.
    owed: f64,
    /// Ticks that real time asked for.
    wanted: f64,
    /// Ticks given out.
    given: f64,
    /// Slowest pace at which a tick was given out.
    slowest: f64,
}

impl Clock {
    /// At zero, at full pace.
    pub(crate) fn new(paused: bool) -> Self {
        Self { paused, pace: 1.0, owed: 0.0, wanted: 0.0, given: 0.0, slowest: 1.0 }
    }

    /// Standing still, after a drive in which real time went by like this.
    pub(crate) fn after(timing: &Timing) -> Self {
        Self {
            wanted: timing.asked_s / DT,
            given: timing.simulated_s / DT,
            slowest: timing.pace,
            ..Self::new(true)
        }
    }

    /// Simulated seconds for one second on the wall.
    pub(crate) fn pace(&self) -> f64 {
        self.pace
    }

    /// Sets the pace; never more than real time, and never backwards.
    pub(crate) fn set_pace(&mut self, pace: f64) {
        self.pace = if pace.is_finite() { pace.clamp(0.05, 1.0) } else { 1.0 };
    }

    /// The number of ticks due after so much real time, s.
    pub(crate) fn ticks_after(&mut self, elapsed_s: f64) -> u32 {
        if self.paused || !elapsed_s.is_finite() || elapsed_s <= 0.0 {
            return 0;
        }
        let wanted = elapsed_s * self.pace / DT;
        self.wanted += wanted;
        self.owed = (self.owed + wanted).min(MOST_TICKS + 1.0 - f64::EPSILON * 8.0);
        let ticks = self.owed.floor().min(MOST_TICKS);
        self.owed -= ticks;
        self.given += ticks;
        if ticks > 0.0 {
            self.slowest = self.slowest.min(self.pace);
        }
        // What is more than a tick behind by now is dropped for good.
        self.owed = self.owed.min(1.0 - f64::EPSILON);
        ticks as u32
    }

    /// How far the present picture is between the last two ticks, 0 to 1.
    pub(crate) fn share(&self) -> f64 {
        self.owed
    }

    /// How real time went by so far.
    pub(crate) fn timing(&self) -> Timing {
        // A fraction of a tick is always still owed; that is not slowness.
        let simulated_s = ((self.given + self.owed) * DT).min(self.wanted * DT);
        Timing { simulated_s, asked_s: self.wanted * DT, pace: self.slowest }
    }

    /// Simulated time over the time that should have been simulated, 0 to 1.
    pub(crate) fn ratio(&self) -> f64 {
        self.timing().ratio()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_second_in_even_pictures_gives_64_ticks() {
        let mut clock = Clock::new(false);
        let ticks: u32 = (0..60).map(|_| clock.ticks_after(1.0 / 60.0)).sum();
        assert!((63..=64).contains(&ticks), "{ticks}");
        assert!((clock.ratio() - 1.0).abs() < 1e-9);
    }

    #[test]
    fn simulated_time_never_overtakes_real_time() {
        let mut clock = Clock::new(false);
        let (mut ticks, mut real) = (0, 0.0);
        for i in 0..2_000 {
            let elapsed = 0.001 * f64::from(i % 173);
            real += elapsed;
            ticks += clock.ticks_after(elapsed);
            assert!(f64::from(ticks) * DT <= real + 1e-9);
        }
    }

    #[test]
    fn a_slow_picture_slows_the_yard_and_shows_in_the_ratio() {
        let mut clock = Clock::new(false);
        assert_eq!(clock.ticks_after(1.0), 6);
        assert!(clock.ticks_after(0.001) <= 1, "nothing is made up later");
        assert!(clock.ratio() < 0.12, "{}", clock.ratio());
    }

    #[test]
    fn half_pace_gives_half_the_ticks_and_is_not_slowness() {
        let mut clock = Clock::new(false);
        clock.set_pace(0.5);
        let ticks: u32 = (0..64).map(|_| clock.ticks_after(DT)).sum();
        assert_eq!(ticks, 32);
        assert_eq!(clock.ratio(), 1.0);
    }

    #[test]
    fn the_slowest_pace_at_which_a_tick_was_driven_stays() {
        let mut clock = Clock::new(false);
        clock.set_pace(0.25);
        clock.set_pace(1.0);
        clock.ticks_after(DT);
        assert_eq!(clock.timing().pace, 1.0, "nothing was driven at the slower one");
        clock.set_pace(0.5);
        clock.ticks_after(2.0 * DT);
        clock.set_pace(1.0);
        clock.ticks_after(1.0);
        assert_eq!(clock.timing().pace, 0.5);
    }

    #[test]
    fn what_went_by_before_counts_after_a_drive_was_cut_off() {
        let mut before = Clock::new(false);
        // Six of the 64 ticks of a second are made up.
        before.set_pace(0.5);
        before.ticks_after(2.0);
        let mut after = Clock::after(&before.timing());
        assert!(after.paused);
        assert_eq!(after.pace(), 1.0, "the pace is chosen anew");
        assert!((after.ratio() - before.ratio()).abs() < 1e-12);
        after.paused = false;
        let ticks: u32 = (0..64).map(|_| after.ticks_after(DT)).sum();
        assert_eq!(ticks, 64);
        assert_eq!(after.timing().pace, 0.5);
        let ratio = after.ratio();
        assert!((0.54..0.56).contains(&ratio), "7 of 64 and 64 of 64 ticks: {ratio}");
        assert!(!after.timing().is_impossible());
    }

    #[test]
    fn a_pause_gives_nothing_and_counts_for_nothing() {
        let mut clock = Clock::new(true);
        assert_eq!(clock.ticks_after(10.0), 0);
        clock.paused = false;
        assert_eq!(clock.ticks_after(DT), 1);
        assert_eq!(clock.ratio(), 1.0);
    }

    #[test]
    fn no_pace_is_faster_than_real_time() {
        let mut clock = Clock::new(false);
        for pace in [2.0, f64::INFINITY, f64::NAN] {
            clock.set_pace(pace);
            assert!(clock.pace() <= 1.0);
        }
    }
}

//! Ticks along the width.

use coneyard_core::time::{TICK_RATE, Tick};

/// From tick 0 at the left edge to the last at the right.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Scale {
    /// The last tick.
    pub(crate) last: Tick,
}

impl Scale {
    /// Share of the width at a tick, 0 to 1.
    pub(crate) fn share(self, tick: Tick) -> f64 {
        if self.last == 0 {
            return 0.0;
        }
        f64::from(tick.min(self.last)) / f64::from(self.last)
    }

    /// The tick at a share of the width.
    pub(crate) fn tick_at(self, share: f64) -> Tick {
        (share.clamp(0.0, 1.0) * f64::from(self.last)).round() as Tick
    }
}

/// Ticks from one label of the axis to the next: a round time, and eight labels at most.
pub(crate) fn tick_step(last: Tick) -> Tick {
    const SECONDS: [Tick; 8] = [1, 5, 10, 15, 30, 60, 120, 300];
    SECONDS
        .into_iter()
        .map(|s| s * TICK_RATE)
        .find(|step| last / step < 8)
        .unwrap_or(900 * TICK_RATE)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn place_and_tick_lead_to_each_other() {
        let scale = Scale { last: 6400 };
        for tick in [0, 1, 3200, 6399, 6400] {
            assert_eq!(scale.tick_at(scale.share(tick)), tick);
        }
        assert_eq!(scale.tick_at(-1.0), 0);
        assert_eq!(scale.tick_at(7.0), 6400);
        assert_eq!(Scale { last: 0 }.share(5), 0.0);
    }

    #[test]
    fn the_axis_has_round_and_few_labels() {
        assert_eq!(tick_step(7 * TICK_RATE), TICK_RATE);
        assert_eq!(tick_step(90 * TICK_RATE), 15 * TICK_RATE);
        for seconds in [1, 20, 100, 1_000, 7_200] {
            let last = seconds * TICK_RATE;
            assert!(last / tick_step(last) <= 8, "{seconds}");
        }
    }
}

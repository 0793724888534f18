//! The horn before moving off where others are about.

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::seconds;
use crate::time::Tick;
use crate::watch::rest::{Change, Rest};
use crate::watch::{Report, Watcher};

struct Horn {
    y: Yardstick,
    before: f64,
    deed: bool,
    last_horn: Option<Tick>,
    rest: Rest,
}

fn horn(y: Yardstick, deed: bool) -> Box<dyn Watcher> {
    let (before, rest) = (y.limit("before"), Rest::new(&y.common));
    Box::new(Horn { y, before, deed, last_horn: None, rest })
}

/// Moved off without it.
pub(super) fn missing(y: Yardstick) -> Box<dyn Watcher> {
    horn(y, false)
}

/// Moved off with it.
pub(super) fn sounded(y: Yardstick) -> Box<dyn Watcher> {
    horn(y, true)
}

impl Watcher for Horn {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        if m.truck.horn_sounds {
            self.last_horn = Some(m.tick);
        }
        if self.rest.see(m) != Change::MovedOff {
            return;
        }
        // Without any horn: all the time since the start was without it.
        let silence = seconds(m.tick - self.last_horn.unwrap_or(0));
        let in_time = self.last_horn.is_some() && silence <= self.before;
        if in_time == self.deed {
            out.open(self.y.finding(m, silence, self.before, Unit::Second));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::watch::test_support::{Drive, watch};

    fn both(d: &Drive) -> (usize, usize) {
        (watch("no-horn-moving-off", d).len(), watch("horn-before-moving", d).len())
    }

    fn horn_then(silent_ticks: u32) -> Drive {
        Drive::new()
            .still(3)
            .with(1, |m| m.truck.horn_sounds = true)
            .still(silent_ticks)
            .rolling(10, 0.5)
    }

    #[test]
    fn five_seconds_before_is_in_time() {
        // Horn in tick 3; motion in tick 323 is exactly 5 s later.
        assert_eq!(both(&horn_then(319)), (0, 1));
        assert_eq!(both(&horn_then(320)), (1, 0));
        assert_eq!(both(&Drive::new().still(10).rolling(5, 0.5)), (1, 0));
    }

    #[test]
    fn a_button_that_makes_no_sound_is_no_horn() {
        let pressed = horn_then(5).all(|m| m.controls.horn = m.truck.horn_sounds);
        assert_eq!(both(&pressed), (0, 1));
        assert_eq!(both(&pressed.all(|m| m.truck.horn_sounds = false)), (1, 0));
    }

    #[test]
    fn the_horn_in_the_very_tick_counts() {
        let d = Drive::new().still(10).with(1, |m| {
            m.truck.horn_sounds = true;
            m.truck.speed = 0.1;
        });
        assert_eq!(both(&d), (0, 1));
    }

    #[test]
    fn going_over_into_the_other_direction_is_not_moving_off() {
        let d = horn_then(5).still(20).rolling(400, -0.5);
        assert_eq!(both(&d), (0, 1));
        // After a second of rest it is.
        let d = horn_then(5).rolling(400, 0.5).still(65).rolling(5, 0.5);
        assert_eq!(both(&d), (1, 1));
    }

    #[test]
    fn who_never_moves_needs_no_horn() {
        assert_eq!(both(&Drive::new().still(500)), (0, 0));
    }
}

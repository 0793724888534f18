//! Slowing down on wet floor.

use crate::finding::Unit;
use crate::floor::Surface;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct Wet {
    y: Yardstick,
    speed: f64,
    spell: Spell,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let speed = y.limit("speed");
    Box::new(Wet { y, speed, spell: Spell::new(Unit::MetrePerSecond, 0.0) })
}

impl Watcher for Wet {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let speed = m.truck.speed.abs();
        let seen = (m.place.surface == Surface::Wet && speed > self.speed)
            .then(|| Seen::of(speed, self.speed, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch};

    #[test]
    fn a_metre_and_a_half_a_second_on_wet_floor() {
        let found = |surface, v| {
            watch("wet-not-slowed", &Drive::new().rolling(9, v).all(|m| m.place.surface = surface))
        };
        assert!(found(Surface::Wet, 1.5).is_empty());
        assert_eq!(found(Surface::Wet, -1.51)[0].measured, 1.51);
        assert!(found(Surface::Dusty, 2.5).is_empty());
        let twice = |apart: u32| {
            let d = Drive::new().rolling(5, 2.0).rolling(apart, 1.0).rolling(5, 2.0);
            watch("wet-not-slowed", &d.all(|m| m.place.surface = Surface::Wet)).len()
        };
        assert_eq!((twice(30), twice(32)), (1, 2));
    }
}

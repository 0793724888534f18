//! Staying in the lane.

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct Lane {
    y: Yardstick,
    may_last: f64,
    spell: Spell,
}

/// A wheel over the lane's edge, for longer than a brush.
pub(super) fn left(y: Yardstick) -> Box<dyn Watcher> {
    let may_last = y.limit("for");
    Box::new(Lane { y, may_last, spell: Spell::new(Unit::Second, may_last) })
}

impl Watcher for Lane {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let outside = self.spell.seconds_with_this();
        let seen = m.place.outside_lane.then(|| Seen::of(outside, self.may_last, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch};

    fn outside(m: &mut Moment) {
        m.place.outside_lane = true;
    }

    #[test]
    fn three_tenths_of_a_second_are_a_brush_and_no_fault() {
        // 19 ticks are 0.297 s, 20 are 0.3125 s.
        assert!(
            watch("left-the-lane", &Drive::new().still(5).with(19, outside).still(5)).is_empty()
        );
        let found = watch("left-the-lane", &Drive::new().still(5).with(20, outside).still(5));
        assert_eq!((found[0].from, found[0].to), (5, 24));
        assert_eq!(found[0].measured, 0.3125);
    }

    #[test]
    fn it_spans_the_start_and_the_end() {
        let found = watch("left-the-lane", &Drive::new().with(64, outside));
        assert_eq!((found[0].from, found[0].to), (0, 63));
        assert_eq!(found[0].measured, 1.0);
    }

    #[test]
    fn back_in_and_out_again_within_half_a_second_is_one() {
        let d = Drive::new().with(30, outside).still(31).with(5, outside);
        let found = watch("left-the-lane", &d);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].to, 65);
        let d = Drive::new().with(30, outside).still(32).with(30, outside);
        assert_eq!(watch("left-the-lane", &d).len(), 2);
    }

    #[test]
    fn many_brushes_are_not_added_up() {
        let mut d = Drive::new();
        for _ in 0..10 {
            d = d.with(15, outside).still(1);
        }
        assert!(watch("left-the-lane", &d).is_empty());
    }
}

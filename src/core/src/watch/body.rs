//! Room for the rider's own body: beside the platform and over it.

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct BodyGapCloses {
    y: Yardstick,
    gap: f64,
    closing: f64,
    spell: Spell,
}

/// Something solid comes near the platform, the limbs or the tiller.
pub(super) fn gap(y: Yardstick) -> Box<dyn Watcher> {
    let (gap, closing) = (y.limit("gap"), y.limit("closing"));
    let spell = Spell::new(Unit::Metre, y.limit("for"));
    Box::new(BodyGapCloses { y, gap, closing, spell })
}

impl Watcher for BodyGapCloses {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let near = m.rider.body_gap.filter(|b| b.gap < self.gap && b.closing > self.closing);
        let seen = near.filter(|_| m.rider.aboard).map(|b| Seen {
            measured: b.gap,
            limit: self.gap,
            badness: -b.gap,
            severity: self.y.severity_at(b.gap),
        });
        self.spell.see(m, &self.y, seen, out);
    }
}

struct Headroom {
    y: Yardstick,
    spell: Spell,
}

/// Under a beam that hangs lower than the rider reaches.
pub(super) fn headroom(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(Headroom { y, spell: Spell::new(Unit::Metre, 0.0) })
}

impl Watcher for Headroom {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let low = m.rider.headroom.filter(|room| *room < 0.0 && m.rider.aboard);
        let seen = low.map(|room| Seen::of(-room, 0.0, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use crate::finding::Severity;
    use crate::moment::BodyGap;
    use crate::watch::test_support::{Drive, watch};

    #[test]
    fn half_a_metre_that_closes_fast() {
        let near = |d: Drive, ticks, gap, closing| {
            d.with(ticks, move |m| m.rider.body_gap = Some(BodyGap { gap, closing }))
        };
        let found = |d: &Drive| watch("body-gap-closing", d);
        assert!(found(&near(Drive::new(), 20, 0.5, 1.0)).is_empty());
        assert!(found(&near(Drive::new(), 20, 0.3, 0.3)).is_empty());
        assert!(found(&near(Drive::new(), 6, 0.3, 1.0)).is_empty());
        let one = found(&near(Drive::new(), 7, 0.49, 0.31));
        assert_eq!((one[0].severity, one[0].measured), (Severity::Minor, 0.49));
        assert_eq!(found(&near(Drive::new(), 7, 0.2, 1.0))[0].severity, Severity::Minor);
        let close = near(Drive::new(), 7, 0.19, 1.0);
        assert_eq!(found(&close)[0].severity, Severity::Major);
        assert_eq!(found(&near(close.clone().still(30), 7, 0.19, 1.0)).len(), 1);
        assert_eq!(found(&near(close.clone().still(32), 7, 0.19, 1.0)).len(), 2);
        assert!(found(&close.all(|m| m.rider.aboard = false)).is_empty());
    }

    #[test]
    fn a_beam_below_the_rider() {
        let under = |room: Option<f64>| {
            watch("headroom", &Drive::new().rolling(9, 1.0).all(|m| m.rider.headroom = room))
        };
        assert!(under(None).is_empty());
        assert!(under(Some(0.0)).is_empty());
        let one = under(Some(-0.02));
        assert_eq!((one[0].severity, one[0].measured), (Severity::Critical, 0.02));
    }
}

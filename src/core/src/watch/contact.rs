//! Touching cones, racks and walls.

use std::collections::BTreeMap;

use crate::finding::Unit;
use crate::moment::{Moment, Touched};
use crate::rules::{Yardstick, over};
use crate::time::{DT, Tick};
use crate::watch::{Handle, Report, Watcher};

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Cone,
    Structure,
}

struct Touch {
    last: Tick,
    worst: f64,
    /// Metres along it while it is touched.
    along: f64,
    finding: Option<Handle>,
}

/// Speeds up to which a touch of something solid is none, m/s.
#[derive(Clone, Copy)]
struct Harmless {
    closing: f64,
    /// By the load alone, which is set down against things.
    by_load: f64,
    sliding: f64,
    /// Sliding along counts again every so many metres.
    every: f64,
}

/// Each thing counts by itself, and again only when the truck was clear of it for a while.
struct Contacts {
    y: Yardstick,
    kind: Kind,
    harmless: Option<Harmless>,
    touching: BTreeMap<Touched, Touch>,
}

/// A cone: any contact counts.
pub(super) fn cone(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(Contacts { y, kind: Kind::Cone, harmless: None, touching: BTreeMap::new() })
}

/// A rack, a wall or a parked load: only with some speed into it.
pub(super) fn structure(y: Yardstick) -> Box<dyn Watcher> {
    let harmless = Some(Harmless {
        closing: y.limit("closing-speed"),
        by_load: y.limit("load-closing-speed"),
        sliding: y.limit("sliding"),
        every: y.limit("again-every"),
    });
    Box::new(Contacts { y, kind: Kind::Structure, harmless, touching: BTreeMap::new() })
}

impl Watcher for Contacts {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        if m.contacts.is_empty() && self.touching.is_empty() {
            return;
        }
        let again_after = self.y.common.again_after;
        self.touching.retain(|_, t| m.tick.saturating_sub(t.last) <= again_after);
        for contact in &m.contacts {
            let kind = match contact.with {
                Touched::Cone(_) => Kind::Cone,
                Touched::Structure(_) | Touched::Other(_) => Kind::Structure,
                // Pushing a pallet is a finding of its own.
                Touched::Pallet(_) => continue,
            };
            let thing = contact.with;
            if kind != self.kind {
                continue;
            }
            let touch = self.touching.entry(thing).or_insert(Touch {
                last: m.tick,
                worst: 0.0,
                along: 0.0,
                finding: None,
            });
            let (speed, limit, counts) = match self.harmless {
                None => (contact.closing_speed, 0.0, true),
                Some(h) => {
                    let closing = if contact.by_load { h.by_load } else { h.closing };
                    let slides = m.truck.speed.abs();
                    if contact.closing_speed > closing || slides <= h.sliding {
                        (contact.closing_speed, closing, contact.closing_speed > closing)
                    } else {
                        (slides, h.sliding, true)
                    }
                }
            };
            touch.last = m.tick;
            touch.along += m.truck.speed.abs() * DT;
            let again = self.harmless.is_some_and(|h| over(touch.along, h.every));
            if again && touch.finding.is_some() && counts {
                (touch.finding, touch.along, touch.worst) = (None, 0.0, 0.0);
            }
            touch.worst = touch.worst.max(speed);
            // What only slides along is grave by what it ran into with.
            let into = contact.closing_speed;
            let severity = self.y.severity_at(into);
            match touch.finding {
                Some(h) if counts => out.worsen(h, m.tick, touch.worst, limit, severity),
                Some(h) => out.extend(h, m.tick),
                None if counts => {
                    let found = self.y.finding(m, touch.worst, limit, Unit::MetrePerSecond);
                    touch.finding = Some(out.open(crate::finding::Finding { severity, ..found }));
                }
                None => {}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Severity;
    use crate::moment::Contact;
    use crate::watch::test_support::{Drive, watch};

    fn touch(with: Touched, closing_speed: f64) -> impl Fn(&mut Moment) {
        move |m| m.contacts.push(Contact { with, closing_speed, by_load: false })
    }

    #[test]
    fn a_cone_counts_however_softly_and_once_while_it_is_pushed_along() {
        let d = Drive::new().still(10).with(20, touch(Touched::Cone(3), 0.0)).still(5);
        let found = watch("contact-cone", &d);
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].from, found[0].to), (10, 29));
        assert_eq!(found[0].severity, Severity::Minor);
    }

    #[test]
    fn the_same_cone_half_a_second_later_is_the_same_contact() {
        let hit = || touch(Touched::Cone(3), 0.4);
        // Last touched in tick 0, again in tick 32: exactly half a second.
        let d = Drive::new().with(1, hit()).still(31).with(1, hit());
        assert_eq!(watch("contact-cone", &d).len(), 1);
        let d = Drive::new().with(1, hit()).still(32).with(1, hit());
        assert_eq!(watch("contact-cone", &d).len(), 2);
    }

    #[test]
    fn two_cones_are_two_contacts_even_in_one_tick() {
        let d = Drive::new().with(1, |m| {
            touch(Touched::Cone(1), 0.4)(m);
            touch(Touched::Cone(2), 0.4)(m);
            touch(Touched::Structure(1), 0.4)(m);
        });
        assert_eq!(watch("contact-cone", &d).len(), 2);
        assert_eq!(watch("contact-structure", &d).len(), 1);
    }

    #[test]
    fn a_rack_counts_above_a_nudge_and_is_critical_above_one_metre_a_second() {
        let at = |v: f64| {
            watch("contact-structure", &Drive::new().with(4, touch(Touched::Structure(0), v)))
        };
        assert!(at(0.1).is_empty());
        assert_eq!(at(0.11)[0].severity, Severity::Major);
        assert_eq!(at(1.0)[0].severity, Severity::Major);
        assert_eq!(at(1.01)[0].severity, Severity::Critical);
    }

    #[test]
    fn a_load_may_be_set_against_something_a_little_faster() {
        let at = |v: f64, by_load: bool| {
            let d = Drive::new().with(4, move |m| {
                let with = Touched::Structure(0);
                m.contacts.push(Contact { with, closing_speed: v, by_load });
            });
            watch("contact-structure", &d).len()
        };
        assert_eq!((at(0.3, true), at(0.301, true)), (0, 1));
        assert_eq!((at(0.1, false), at(0.101, false)), (0, 1));
    }

    #[test]
    fn rubbing_along_counts_and_again_every_two_metres() {
        let along = |ticks, speed: f64| {
            let d = Drive::new().with(ticks, move |m| {
                m.truck.speed = speed;
                touch(Touched::Structure(0), 0.0)(m);
            });
            watch("contact-structure", &d).len()
        };
        assert_eq!((along(200, 0.3), along(1, 0.301)), (0, 1));
        // 128 ticks at 1 m/s are two metres.
        assert_eq!((along(128, 1.0), along(129, 1.0), along(257, 1.0)), (1, 2, 2));
        assert_eq!(along(258, 1.0), 3);
    }

    #[test]
    fn leaning_on_a_rack_and_then_driving_into_it_is_one_contact_with_the_worst_speed() {
        let d = Drive::new()
            .with(10, touch(Touched::Structure(0), 0.05))
            .with(1, touch(Touched::Structure(0), 0.3))
            .with(100, touch(Touched::Structure(0), 0.0))
            .with(1, touch(Touched::Structure(0), 1.2));
        let found = watch("contact-structure", &d);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].from, 10);
        assert_eq!(found[0].measured, 1.2);
        assert_eq!(found[0].severity, Severity::Critical);
    }
}

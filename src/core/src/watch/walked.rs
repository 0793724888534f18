//! Nobody moves the truck from the floor: it is driven from the platform.
//!
//! A truck that was left while it rolled rolls out; that is stepping off too soon, a rule of its
//! own. What counts here is motion after it has stood with nobody aboard. Another truck that
//! pushes it is not the rider's doing.

use crate::finding::{Finding, Unit};
use crate::math::Vec2;
use crate::moment::{Moment, Touched};
use crate::rules::Yardstick;
use crate::rules::over;
use crate::time::{DT, Tick};
use crate::watch::{Handle, Report, Watcher};

/// One time off the platform, from when the truck has stood.
#[derive(Default)]
struct Off {
    began: Option<(Tick, Vec2)>,
    metres: f64,
    finding: Option<Handle>,
}

struct Walked {
    y: Yardstick,
    limit: f64,
    /// None while someone is aboard, and while a truck that was just left rolls out.
    off: Option<Off>,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let limit = y.limit("distance");
    Box::new(Walked { y, limit, off: None })
}

impl Watcher for Walked {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        if m.rider.aboard {
            self.off = None;
            return;
        }
        let speed = m.truck.speed.abs();
        if speed <= self.y.common.rest_speed {
            self.off.get_or_insert_default();
            return;
        }
        let Some(off) = &mut self.off else { return };
        if m.contacts.iter().any(|c| matches!(c.with, Touched::Other(_))) {
            return;
        }
        let (from, at) = *off.began.get_or_insert((m.tick, m.truck.platform_in_yard));
        off.metres += speed * DT;
        if !over(off.metres, self.limit) {
            return;
        }
        match off.finding {
            Some(h) => out.worsen(h, m.tick, off.metres, self.limit, self.y.severity),
            None => {
                let found = self.y.finding(m, off.metres, self.limit, Unit::Metre);
                off.finding = Some(out.open(Finding { from, at, ..found }));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::moment::{Contact, Moment, Touched};
    use crate::watch::test_support::{Drive, watch};

    fn found(d: &Drive) -> Vec<crate::finding::Finding> {
        watch("walked-the-truck", d)
    }

    fn afoot(speed: f64) -> impl Fn(&mut Moment) {
        move |m| {
            m.rider.aboard = false;
            m.truck.speed = speed;
        }
    }

    #[test]
    fn a_hands_breadth_is_a_nudge_and_more_is_walking_it() {
        // 0.4 m/s for 16 ticks are exactly the 0.1 m of the site rules.
        let moved = |ticks| Drive::new().still(3).with(5, afoot(0.0)).with(ticks, afoot(0.4));
        assert!(found(&moved(16)).is_empty());
        let one = found(&moved(32));
        assert_eq!((one[0].from, one[0].to, one[0].measured), (8, 39, 0.2));
        // Stops in between do not begin it anew; boarding does.
        let in_parts = moved(16).with(90, afoot(0.0)).with(2, afoot(-0.4));
        assert_eq!(found(&in_parts).len(), 1);
        assert!(found(&moved(16).still(90).with(5, afoot(0.0)).with(16, afoot(0.4))).is_empty());
    }

    #[test]
    fn a_truck_that_rolls_out_or_is_pushed_is_not_walked() {
        let rolls_out = Drive::new().rolling(9, 1.0).with(64, afoot(0.9));
        assert!(found(&rolls_out).is_empty());
        assert_eq!(found(&rolls_out.with(2, afoot(0.0)).with(30, afoot(0.9))).len(), 1);
        let with = |thing| {
            Drive::new().still(3).with(5, afoot(0.0)).with(60, move |m| {
                afoot(0.5)(m);
                m.contacts.push(Contact { with: thing, closing_speed: 0.1, by_load: false });
            })
        };
        assert!(found(&with(Touched::Other(0))).is_empty());
        assert_eq!(found(&with(Touched::Cone(0))).len(), 1);
        assert!(found(&Drive::new().rolling(300, 2.0)).is_empty());
    }
}

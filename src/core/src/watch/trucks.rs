//! Other trucks: room behind one that goes the same way, and standing before one that comes.

use std::collections::{BTreeMap, BTreeSet};

use crate::finding::Unit;
use crate::math::Vec2;
use crate::moment::{Moment, OtherMoment};
use crate::rules::Yardstick;
use crate::watch::spell::Seen;
use crate::watch::spells::Spells;
use crate::watch::{Report, Watcher};

/// What is worst is the shortest way.
fn short(ahead: f64, limit: f64, y: &Yardstick) -> Seen {
    Seen { measured: ahead, limit, badness: -ahead, severity: y.severity_at(ahead) }
}

struct TooClose {
    y: Yardstick,
    limit: f64,
    speed: f64,
    spells: Spells,
}

/// Too close behind a truck that moves the same way.
pub(super) fn too_close(y: Yardstick) -> Box<dyn Watcher> {
    let (limit, speed) = (y.limit("distance"), y.limit("speed"));
    let spells = Spells::new(Unit::Metre, y.limit("for"));
    Box::new(TooClose { y, limit, speed, spells })
}

impl Watcher for TooClose {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let moves = m.truck.speed.abs() > self.y.common.rest_speed;
        let same_way = m.others.iter().filter(|o| goes_along(m, o) && o.speed > self.speed);
        let seen: BTreeMap<u32, Seen> = same_way
            .filter_map(|o| Some((o.other, o.ahead?)))
            .filter(|(_, ahead)| moves && *ahead < self.limit)
            .map(|(other, ahead)| (other, short(ahead, self.limit, &self.y)))
            .collect();
        self.spells.see(m, &self.y, &seen, out);
    }
}

/// It goes the way that the own truck goes, within 60 degrees.
fn goes_along(m: &Moment, other: &OtherMoment) -> bool {
    let way = Vec2::from_angle(m.truck.pose.heading) * m.truck.speed.signum();
    Vec2::from_angle(other.pose.heading).dot(way) > 0.5
}

struct Meeting {
    y: Yardstick,
    limit: f64,
    /// Trucks that are being met, both moving, until the own truck has stood in time.
    met: BTreeSet<u32>,
    spells: Spells,
}

/// Not standing a truck's length before one that comes head-on, whatever that one did then.
pub(super) fn meeting(y: Yardstick) -> Box<dyn Watcher> {
    let limit = y.limit("distance");
    Box::new(Meeting { y, limit, met: BTreeSet::new(), spells: Spells::new(Unit::Metre, 0.0) })
}

impl Watcher for Meeting {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let rest = self.y.common.rest_speed;
        let moves = m.truck.speed.abs() > rest;
        let ahead = |index: u32| {
            let o = m.others.iter().find(|o| o.other == index && o.oncoming)?;
            o.ahead
        };
        self.met.retain(|index| moves && ahead(*index).is_some());
        let comes = m.others.iter().filter(|o| o.oncoming && o.ahead.is_some());
        self.met.extend(comes.filter(|o| moves && o.speed.abs() > rest).map(|o| o.other));
        let seen: BTreeMap<u32, Seen> = self
            .met
            .iter()
            .filter_map(|index| Some((*index, ahead(*index)?)))
            .filter(|(_, ahead)| *ahead < self.limit)
            .map(|(index, ahead)| (index, short(ahead, self.limit, &self.y)))
            .collect();
        self.spells.see(m, &self.y, &seen, out);
    }
}

struct Passed {
    y: Yardstick,
    within: f64,
    /// Trucks that drive the same way and have not been passed yet.
    ahead: BTreeSet<u32>,
}

/// Another truck that goes the same way was passed near a hidden place.
pub(super) fn passed(y: Yardstick) -> Box<dyn Watcher> {
    let within = y.limit("distance");
    Box::new(Passed { y, within, ahead: BTreeSet::new() })
}

impl Watcher for Passed {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let rest = self.y.common.rest_speed;
        let way = Vec2::from_angle(m.truck.pose.heading) * m.truck.speed.signum();
        for o in &m.others {
            let moves = m.truck.speed.abs() > rest && o.speed > rest && goes_along(m, o);
            // Measured from the platform: abreast of the rider it has been passed.
            let is_ahead = way.dot(o.pose.at - m.truck.platform_in_yard) > 0.0;
            if !moves {
                self.ahead.remove(&o.other);
            } else if is_ahead {
                self.ahead.insert(o.other);
            } else if self.ahead.remove(&o.other)
                && let Some(away) = m.place.from_hidden.filter(|away| *away < self.within)
            {
                out.open(self.y.finding(m, away, self.within, Unit::Metre));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::moment::OtherMoment;
    use crate::watch::test_support::{Drive, other, watch};

    fn behind(d: Drive, ticks: u32, ahead: f64, speed: f64) -> Drive {
        d.with(ticks, move |m| {
            m.truck.speed = 1.0;
            m.others.push(OtherMoment { speed, ..other(ahead) });
        })
    }

    #[test]
    fn three_truck_lengths_behind_a_truck_that_moves() {
        let found = |d: &Drive| watch("too-close-behind", d);
        assert!(found(&behind(Drive::new(), 200, 9.0, 1.0)).is_empty());
        assert!(found(&behind(Drive::new(), 128, 8.9, 1.0)).is_empty());
        assert_eq!(found(&behind(Drive::new(), 129, 8.9, 1.0))[0].measured, 8.9);
        assert!(found(&behind(Drive::new(), 200, 2.0, 0.3)).is_empty());
        let still = behind(Drive::new(), 200, 2.0, 1.0).all(|m| m.truck.speed = 0.05);
        assert!(found(&still).is_empty());
        let again =
            |apart| behind(behind(Drive::new(), 140, 5.0, 1.0).rolling(apart, 1.0), 140, 5.0, 1.0);
        assert_eq!(found(&again(30)).len(), 1);
        assert_eq!(found(&again(32)).len(), 2);
    }

    fn meets(d: Drive, ticks: u32, ahead: f64, own: f64, its: f64) -> Drive {
        d.with(ticks, move |m| {
            m.truck.speed = own;
            m.others.push(OtherMoment { speed: its, oncoming: true, ..other(ahead) });
        })
    }

    #[test]
    fn the_own_truck_stands_before_they_are_a_length_apart() {
        let found = |d: &Drive| watch("meeting-not-stopped", d);
        let comes = |d: Drive| meets(d, 20, 6.0, 1.0, 1.0);
        assert!(found(&meets(comes(Drive::new()), 9, 3.0, 1.0, 1.0)).is_empty());
        let near = meets(comes(Drive::new()), 9, 2.9, 0.06, 1.0);
        assert_eq!(found(&near)[0].measured, 2.9);
        assert!(found(&meets(comes(Drive::new()), 9, 1.0, 0.05, 1.0)).is_empty());
        // It stopped first, and the own truck rolled on.
        assert_eq!(found(&meets(comes(Drive::new()), 9, 2.9, 0.5, 0.0)).len(), 1);
        // It turned off.
        assert!(found(&comes(Drive::new()).rolling(90, 1.0)).is_empty());
        // Stood in time; then on past one that stands.
        let stood = meets(comes(Drive::new()), 9, 4.0, 0.0, 0.0);
        assert!(found(&meets(stood, 9, 2.0, 0.5, 0.0)).is_empty());
        let again = |apart| meets(near.clone().still(apart), 9, 2.9, 0.5, 1.0);
        assert_eq!(found(&again(30)).len(), 1);
        assert_eq!(found(&again(32)).len(), 2);
    }

    #[test]
    fn nearer_is_graver() {
        use crate::finding::Severity;
        let graveness =
            |ahead| watch("too-close-behind", &behind(Drive::new(), 140, ahead, 1.0))[0].severity;
        assert_eq!((graveness(4.5), graveness(4.499)), (Severity::Minor, Severity::Major));
    }

    #[test]
    fn nobody_is_passed_at_a_hidden_place() {
        use crate::math::{Pose, vec2};
        let passes = |away: f64, its: f64| {
            let d = Drive::new().rolling(64, 2.0).all(|m| {
                m.place.from_hidden = Some(away);
                let x = m.truck.platform_in_yard.x + 0.5 - 1.0 / 64.0 * f64::from(m.tick);
                let pose = Pose { at: vec2(x, 1.5), heading: 0.0 };
                m.others.push(OtherMoment { pose, speed: its, ahead: None, ..other(1.0) });
            });
            watch("passed-truck-hidden", &d)
        };
        assert_eq!(passes(4.999, 1.0)[0].measured, 4.999);
        assert!(passes(5.0, 1.0).is_empty());
        // One that stands may be driven round.
        assert!(passes(1.0, 0.0).is_empty());
    }
}

//! Surprises: someone steps out, or another truck sets off, in sight of a truck that moves.

use std::collections::BTreeSet;

use crate::moment::Moment;
use crate::rules::Common;
use crate::time::Tick;
use crate::truck::arm::ArmZone;

/// What surprises.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Who {
    /// Someone on foot.
    Person(u32),
    /// Another truck.
    Other(u32),
}

/// One surprise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Surprise {
    /// What it is.
    pub(crate) who: Who,
    /// First tick in which the rider could see it.
    pub(crate) since: Tick,
    /// How far it is from truck and load, m.
    pub(crate) gap: f64,
    /// Whether the truck moves: one that stands has nothing to do.
    pub(crate) moving: bool,
}

/// Finds surprises, each once.
#[derive(Clone, Debug, Default)]
pub(crate) struct Surprises {
    known: BTreeSet<(Who, Tick)>,
}

impl Surprises {
    /// What surprises in this tick. Another truck does only when it set off no longer than
    /// `fresh` ticks ago: one that has driven for a while is traffic.
    pub(crate) fn see(&mut self, m: &Moment, common: &Common, fresh: Tick) -> Vec<Surprise> {
        let people = m.people.iter().filter_map(|p| {
            Some((Who::Person(p.person), p.stepped_out?, p.seen_since?, p.gap, true))
        });
        let others = m.others.iter().filter_map(|o| {
            let set_off = o.set_off?;
            let is_fresh = m.tick.saturating_sub(set_off) <= fresh;
            Some((Who::Other(o.other), set_off, o.seen_since?, o.gap, is_fresh))
        });
        let moving = m.truck.speed.abs() > common.rest_speed;
        people
            .chain(others)
            .filter(|(who, began, _, _, is_fresh)| self.known.insert((*who, *began)) && *is_fresh)
            .map(|(who, began, seen, gap, _)| Surprise { who, since: began.max(seen), gap, moving })
            .collect()
    }
}

/// The rider brakes, or has let the throttle go and the truck is getting slower.
pub(crate) fn slows(m: &Moment) -> bool {
    let coasts = m.controls.throttle == 0 && m.truck.accel_long * m.truck.speed < 0.0;
    brakes(m) || coasts
}

/// The rider brakes: with the arm, or by throttle against the motion.
pub(crate) fn brakes(m: &Moment) -> bool {
    m.truck.arm_zone != ArmZone::Driving || m.truck.plugging
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::moment::{OtherMoment, PersonMoment};
    use crate::rules::SiteRules;
    use crate::watch::test_support::{Drive, other, person};

    fn seen(d: &Drive) -> Vec<(Tick, Tick)> {
        let common = SiteRules::shipped().common(0.05);
        let mut s = Surprises::default();
        let ticks = d.0.iter().map(|m| (m.tick, s.see(m, &common, 192)));
        ticks.flat_map(|(t, all)| all.into_iter().map(move |s| (t, s.since))).collect()
    }

    #[test]
    fn someone_who_steps_out_counts_from_when_they_are_seen() {
        let out = |seen: Option<Tick>| {
            Drive::new().rolling(5, 1.0).with(9, move |m| {
                let seen_since = seen.filter(|t| *t <= m.tick);
                m.people.push(PersonMoment { stepped_out: Some(5), seen_since, ..person(5.0) });
            })
        };
        assert_eq!(seen(&out(Some(8))), [(8, 8)]);
        assert_eq!(seen(&out(Some(2))), [(5, 5)]);
        assert_eq!(seen(&out(None)), []);
    }

    #[test]
    fn a_truck_that_has_driven_for_long_is_no_surprise() {
        let off = |since: Tick| {
            Drive::new().rolling(300, 1.0).with(9, move |m| {
                m.others.push(OtherMoment { set_off: Some(since), ..other(5.0) });
            })
        };
        assert_eq!(seen(&off(108)), [(300, 108)]);
        assert_eq!(seen(&off(107)), []);
    }
}

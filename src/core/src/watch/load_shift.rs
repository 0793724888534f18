//! Keeping the load in its place: what slides, and what comes off.

use std::collections::VecDeque;

use crate::finding::{Finding, JustBefore, Unit};
use crate::load::event::Happened;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::ticks;
use crate::time::{TICK_RATE, Tick};
use crate::watch::{Handle, Report, Watcher};
use crate::yard::loads::CARRIES_ABOVE_M;

/// A tick after the forks have taken the weight of a pallet they stand no higher, m.
const TAKEN_UP_M: f64 = CARRIES_ABOVE_M + 0.002;

/// Tells when something comes off.
#[derive(Clone, Debug, Default)]
struct Fallen {
    cases_before: Option<u32>,
    carried_before: bool,
}

impl Fallen {
    /// Cases that have come off in this tick; a whole load without cases counts as one. None when
    /// nothing fell. What tips off the forks in the tick in which they take its weight was never lifted.
    fn see(&mut self, m: &Moment) -> Option<u32> {
        let carried = core::mem::replace(&mut self.carried_before, m.load.pallets > 0);
        let off = m.load.cases_off;
        let grown = off.saturating_sub(self.cases_before.replace(off).unwrap_or(off));
        let whole = m.load.events.iter().any(|e| matches!(e.what, Happened::LoadFell { .. }));
        let never_lifted = whole && !carried && m.truck.fork_height <= TAKEN_UP_M;
        ((grown > 0 || whole) && !never_lifted).then_some(grown.max(1))
    }
}

/// How the truck was driven in the last second.
#[derive(Clone, Debug, Default)]
struct LastSecond(VecDeque<(f64, f64, f64)>);

impl LastSecond {
    fn see(&mut self, m: &Moment) {
        if self.0.len() == TICK_RATE as usize {
            self.0.pop_front();
        }
        let t = &m.truck;
        self.0.push_back((t.speed.abs(), t.accel_side.abs(), t.accel_long.abs()));
    }

    fn told(&self, m: &Moment) -> JustBefore {
        let most = |of: fn(&(f64, f64, f64)) -> f64| self.0.iter().map(of).fold(0.0, f64::max);
        JustBefore {
            speed: most(|t| t.0),
            side: most(|t| t.1),
            along: most(|t| t.2),
            fork_height: m.truck.fork_height,
        }
    }
}

struct Sliding {
    from: Tick,
    worst: f64,
    handle: Handle,
}

struct Shifted {
    y: Yardstick,
    limit: f64,
    spill_within: Tick,
    fallen: Fallen,
    last_second: LastSecond,
    sliding: Option<Sliding>,
    /// After a spill, what is left has slid already: told anew only once it lies right again.
    spilled: bool,
}

/// Something slid on what is under it.
pub(super) fn shifted(y: Yardstick) -> Box<dyn Watcher> {
    let (limit, spill_within) = (y.limit("slide"), ticks(y.limit("spill-within")));
    let fallen = Fallen::default();
    let last_second = LastSecond::default();
    Box::new(Shifted { y, limit, spill_within, fallen, last_second, sliding: None, spilled: false })
}

impl Watcher for Shifted {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.last_second.see(m);
        if self.fallen.see(m).is_some() {
            self.spilled = true;
            if let Some(s) = self.sliding.take()
                && m.tick - s.from <= self.spill_within
            {
                out.take_back(s.handle);
            }
        }
        let slid = m.load.slid;
        if slid <= self.limit {
            (self.sliding, self.spilled) = (None, false);
            return;
        }
        if self.spilled {
            return;
        }
        match &mut self.sliding {
            Some(s) if slid > s.worst => {
                s.worst = slid;
                out.worsen(s.handle, m.tick, slid, self.limit, self.y.severity);
            }
            Some(_) => {}
            None => {
                let found = self.y.finding(m, slid, self.limit, Unit::Metre);
                let before = Some(self.last_second.told(m));
                let handle = out.open(Finding { before, ..found });
                self.sliding = Some(Sliding { from: m.tick, worst: slid, handle });
            }
        }
    }
}

struct Spill {
    last: Tick,
    cases: u32,
    handle: Handle,
}

struct Spilled {
    y: Yardstick,
    together: Tick,
    fallen: Fallen,
    last_second: LastSecond,
    spill: Option<Spill>,
}

/// Cases, or the whole load, came off.
pub(super) fn spilled(y: Yardstick) -> Box<dyn Watcher> {
    let together = ticks(y.limit("together"));
    let last_second = LastSecond::default();
    Box::new(Spilled { y, together, fallen: Fallen::default(), last_second, spill: None })
}

impl Watcher for Spilled {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.last_second.see(m);
        let Some(cases) = self.fallen.see(m) else { return };
        match self.spill.as_mut().filter(|s| m.tick - s.last <= self.together) {
            Some(s) => {
                s.last = m.tick;
                s.cases += cases;
                let measured = f64::from(s.cases);
                out.worsen(s.handle, m.tick, measured, 0.0, self.y.severity_at(measured));
            }
            None => {
                let measured = f64::from(cases);
                let severity = self.y.severity_at(measured);
                let found = self.y.finding(m, measured, 0.0, Unit::Count);
                let before = Some(self.last_second.told(m));
                let handle = out.open(Finding { severity, before, ..found });
                self.spill = Some(Spill { last: m.tick, cases, handle });
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Severity;
    use crate::load::event::{Leaving, LoadEvent};
    use crate::math::Vec2;
    use crate::rules::duty;
    use crate::watch::test_support::{Drive, watch, watch_all};

    /// So much has slid in these ticks, and so many cases have come off by now.
    fn load(d: Drive, ticks: u32, slid: f64, off: u32) -> Drive {
        d.with(ticks, move |m| {
            m.load.pallets = 1;
            m.load.slid = slid;
            m.load.cases_off = off;
        })
    }

    #[test]
    fn five_centimetres_are_allowed_and_the_farthest_is_told() {
        let found = |d: &Drive| watch("load-shifted", d);
        assert!(found(&load(Drive::new(), 20, 0.05, 0)).is_empty());
        let d = load(load(Drive::new().still(3), 20, 0.06, 0), 5, 0.08, 0);
        let d = load(d, 200, 0.08, 0);
        assert_eq!((found(&d)[0].from, found(&d)[0].to, found(&d)[0].measured), (3, 23, 0.08));
        assert_eq!(found(&load(d.still(5), 9, 0.06, 0)).len(), 2);
    }

    #[test]
    fn what_was_driven_in_the_second_before_is_kept_with_it() {
        let fast = |m: &mut Moment| {
            m.truck.speed = -2.0;
            (m.truck.accel_side, m.truck.accel_long) = (1.5, -0.7);
            m.truck.fork_height = 0.1;
        };
        let d = Drive::new().with(5, |m| m.truck.accel_side = 9.0).with(63, fast);
        let d = load(d, 1, 0.0, 3).all(|m| m.load.pallets = 1);
        let before = watch("load-spilled", &d)[0].before.expect("kept");
        assert_eq!((before.speed, before.side, before.along), (2.0, 1.5, 0.7));
        assert!(watch("load-spilled", &Drive::new().still(3)).is_empty());
    }

    #[test]
    fn cases_that_fall_together_are_one_spill_and_four_are_critical() {
        let fall = |ticks_apart: u32, each: u32| {
            let d = load(Drive::new(), 5, 0.0, 0);
            let d = load(d, ticks_apart, 0.0, each);
            watch("load-spilled", &load(d, 9, 0.0, 2 * each))
        };
        assert_eq!(fall(192, 1).len(), 1);
        assert_eq!(fall(193, 1).len(), 2);
        let three = watch("load-spilled", &load(load(Drive::new(), 5, 0.0, 0), 9, 0.0, 3));
        assert_eq!((three[0].measured, three[0].severity), (3.0, Severity::Major));
        assert_eq!((fall(50, 2)[0].measured, fall(50, 2)[0].severity), (4.0, Severity::Critical));
        assert!(watch("load-spilled", &load(Drive::new(), 9, 0.0, 5)).is_empty());
    }

    #[test]
    fn a_load_that_falls_as_a_whole_is_a_spill() {
        let leaving = Leaving { at: Vec2::default(), height: 0.1, velocity: Vec2::default() };
        let d = load(Drive::new(), 9, 0.0, 0).with(1, move |m| {
            m.load
                .events
                .push(LoadEvent { pallet: 0, what: Happened::LoadFell { leaving, over: None } });
        });
        assert_eq!(watch("load-spilled", &d).len(), 1);
    }

    #[test]
    fn a_slide_that_ends_in_a_spill_is_the_spill() {
        let duties = ["load-shifted", "load-spilled"].map(|c| duty(c).expect("a code"));
        let codes = |slides: u32| -> Vec<String> {
            let d = load(load(Drive::new().still(3), slides, 0.1, 0), 90, 0.2, 1);
            watch_all(&duties, &d).into_iter().map(|f| f.code).collect()
        };
        assert_eq!(codes(192), ["load-spilled"]);
        assert_eq!(codes(193), ["load-shifted", "load-spilled"]);
    }
}

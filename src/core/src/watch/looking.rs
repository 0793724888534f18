//! Looking where the truck goes, and to both sides before it goes in somewhere.

use std::collections::{BTreeMap, VecDeque};

use crate::finding::Unit;
use crate::math::{DEG, wrap_angle};
use crate::moment::{Moment, WayKind};
use crate::rules::Yardstick;
use crate::rules::{over, seconds, ticks};
use crate::time::Tick;
use crate::watch::entries::Entries;
use crate::watch::lines::Lines;
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct NotLooking {
    y: Yardstick,
    off_deg: f64,
    speed: f64,
    /// Looking aside more than this share of the last ticks is not looking either: a head that swings to
    /// and fro sees nothing.
    share: f64,
    lately: Lately,
    spell: Spell,
}

/// Whether something was so, tick by tick, for so many ticks back.
struct Lately {
    ticks: usize,
    was_so: VecDeque<bool>,
    count: usize,
}

impl Lately {
    fn new(ticks: Tick) -> Self {
        let ticks = ticks.max(1) as usize;
        Self { ticks, was_so: VecDeque::with_capacity(ticks + 1), count: 0 }
    }

    /// Takes in one tick; the share of the last ticks in which it was so, 0 until there are enough.
    fn see(&mut self, is_so: bool) -> f64 {
        self.was_so.push_back(is_so);
        self.count += usize::from(is_so);
        if self.was_so.len() > self.ticks {
            self.count -= usize::from(self.was_so.pop_front().unwrap_or(false));
            self.count as f64 / self.ticks as f64
        } else {
            0.0
        }
    }

    fn forget(&mut self) {
        self.was_so.clear();
        self.count = 0;
    }
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (off_deg, speed, may_last) = (y.limit("off-path"), y.limit("speed"), y.limit("for"));
    let (share, lately) = (y.limit("share"), Lately::new(ticks(y.limit("lately"))));
    let spell = Spell::new(Unit::Degree, may_last);
    Box::new(NotLooking { y, off_deg, speed, share, lately, spell })
}

impl Watcher for NotLooking {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let off = m.rider.off_path / DEG;
        let drives = m.rider.aboard && m.truck.speed.abs() > self.speed;
        if !drives {
            self.lately.forget();
        }
        let away = drives && over(off, self.off_deg);
        let mostly = drives && over(self.lately.see(away), self.share);
        // Swinging the head is told by the angle to which it swings.
        let told = if mostly { off.max(self.off_deg) } else { off };
        let seen = (away || mostly).then(|| Seen::of(told, self.off_deg, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

/// When the rider looked to the left and to the right, lately.
#[derive(Default)]
struct Looks([VecDeque<Tick>; 2]);

impl Looks {
    fn see(&mut self, now: Tick, looked: [bool; 2], within: Tick) {
        for (ticks, looked) in self.0.iter_mut().zip(looked) {
            if looked {
                ticks.push_back(now);
            }
            while ticks.front().is_some_and(|t| now - t > within) {
                ticks.pop_front();
            }
        }
    }

    /// How long the rider looked to the side that was looked to less, s.
    fn less(&self) -> f64 {
        seconds(self.0.iter().map(|ticks| ticks.len() as Tick).min().unwrap_or(0))
    }
}

struct BeforeEntry {
    y: Yardstick,
    glance: f64,
    within: Tick,
    look_deg: f64,
    /// By turning the head, wherever that was.
    turned: Looks,
    stops: Lines<Looks>,
    blind: Lines<Looks>,
    crossings: BTreeMap<u32, Looks>,
    entries: Entries,
}

/// Gone over a stop line, past a hidden place or onto a crossing without a look to each side. A look is one
/// that shows where someone would come from, or a head that is turned there.
pub(super) fn before_entry(y: Yardstick) -> Box<dyn Watcher> {
    let (glance, within) = (y.limit("glance"), ticks(y.limit("within")));
    let look_deg = y.limit("look");
    Box::new(BeforeEntry {
        y,
        glance,
        within,
        look_deg,
        turned: Looks::default(),
        stops: Lines::new(WayKind::Stop),
        blind: Lines::new(WayKind::Blind),
        crossings: BTreeMap::new(),
        entries: Entries::default(),
    })
}

impl Watcher for BeforeEntry {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let (now, within) = (m.tick, self.within);
        let ahead = if m.truck.speed < 0.0 { core::f64::consts::PI } else { 0.0 };
        let turned = wrap_angle(m.rider.head - ahead) / DEG;
        let aside = [turned >= self.look_deg, turned <= -self.look_deg];
        self.turned.see(now, aside, within);
        let looked = |by_sight: [bool; 2]| [by_sight[0] || aside[0], by_sight[1] || aside[1]];
        // In every tick on it is the same entry.
        let again_after = self.y.common.again_after.max(1);
        let note = |looks: &mut Looks, _: f64, by: [bool; 2]| looks.see(now, looked(by), within);
        let mut entered = self.stops.see(m, again_after, note);
        entered.append(&mut self.blind.see(m, again_after, note));
        for c in &m.crossings {
            self.crossings.entry(c.crossing).or_default().see(now, looked(c.looked), within);
        }
        let on = m.crossings.iter().map(|c| (c.crossing, c.truck_on));
        let onto = self.entries.see(now, again_after, on);
        let onto = onto.iter().filter_map(|c| self.crossings.get(c)).map(Looks::less);
        let less = entered.iter().map(Looks::less).chain(onto);
        // A head that was turned counts for every place alike, told of by then or not.
        let turned = self.turned.less();
        for less in less.map(|less| less.max(turned)).filter(|less| *less < self.glance) {
            out.open(self.y.finding(m, less, self.glance, Unit::Second));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::moment::{CrossingMoment, WayMoment};
    use crate::watch::test_support::{Drive, crossing, watch, way};

    fn away(ticks: u32, deg: f64, speed: f64) -> Drive {
        Drive::new().with(ticks, move |m| {
            m.rider.off_path = deg * DEG;
            m.truck.speed = speed;
        })
    }

    #[test]
    fn a_second_of_looking_aside_is_allowed() {
        let found = |d: &Drive| watch("not-looking", d);
        assert!(found(&away(64, 90.0, 1.0)).is_empty());
        assert_eq!(found(&away(65, 90.0, 1.0))[0].measured, 90.0);
        assert!(found(&away(200, 59.9, 1.0)).is_empty());
        assert!(found(&away(200, 90.0, 0.3)).is_empty());
        assert_eq!(found(&away(65, 61.0, -0.31)).len(), 1);
        let glance = away(60, 90.0, 1.0).rolling(1, 1.0);
        let mut twice = glance.clone();
        twice = twice.with(60, |m| {
            m.rider.off_path = 1.6;
            m.truck.speed = 1.0;
        });
        assert!(found(&twice).is_empty());
    }

    #[test]
    fn a_head_that_swings_to_and_fro_sees_nothing() {
        // So many ticks aside of every twenty, for six seconds.
        let swings = |aside: u32| {
            let d = Drive::new().rolling(384, 1.0).all(|m| {
                m.rider.off_path = if m.tick % 20 < aside { 1.5 } else { 0.2 };
            });
            watch("not-looking", &d).len()
        };
        assert_eq!(swings(11), 0);
        assert!(swings(14) > 0);
    }

    /// Drives up to a line and over it; looks to either side for so many ticks, this long before.
    fn enters(kind: WayKind, looks: [u32; 2], before: u32) -> usize {
        let d = Drive::new().rolling(401, 1.0).all(|m| {
            let until = 400 - before;
            let looked = looks.map(|ticks| (until - ticks..until).contains(&m.tick));
            let ahead = f64::from(400 - m.tick) / 64.0;
            m.ways.push(WayMoment { looked, ..way(kind, ahead, m.tick == 400) });
        });
        watch("not-looked-before-entry", &d).len()
    }

    #[test]
    fn each_side_is_looked_at_for_a_quarter_of_a_second_in_the_last_three() {
        for kind in [WayKind::Stop, WayKind::Blind] {
            assert_eq!(enters(kind, [16, 16], 0), 0);
            assert_eq!(enters(kind, [15, 16], 0), 1);
            assert_eq!(enters(kind, [16, 0], 0), 1);
            // 192 ticks are three seconds, the present one not counted.
            assert_eq!((enters(kind, [16, 16], 176), enters(kind, [16, 16], 177)), (0, 1));
        }
        // Who yields looks by a rule of its own.
        assert_eq!(enters(WayKind::Yield, [0, 0], 0), 0);
    }

    #[test]
    fn a_head_that_is_turned_looks_as_well() {
        let turned = |deg: f64| {
            let d = Drive::new().rolling(401, 1.0).all(|m| {
                m.rider.head = match m.tick {
                    340..356 => deg * DEG,
                    360..376 => -deg * DEG,
                    _ => 0.0,
                };
                m.ways.push(way(WayKind::Blind, f64::from(400 - m.tick) / 64.0, m.tick == 400));
            });
            watch("not-looked-before-entry", &d).len()
        };
        assert_eq!((turned(45.0), turned(44.9)), (0, 1));
    }

    #[test]
    fn a_crossing_is_looked_at_before_the_truck_is_on_it() {
        let onto = |looked: [bool; 2]| {
            let d = Drive::new().rolling(100, 1.0).all(|m| {
                m.crossings.push(CrossingMoment { looked, ..crossing(m.tick >= 60, false) });
            });
            watch("not-looked-before-entry", &d).len()
        };
        assert_eq!((onto([true; 2]), onto([true, false]), onto([false; 2])), (0, 1, 1));
    }
}

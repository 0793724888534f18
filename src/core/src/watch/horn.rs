//! The horn before moving off where others are about, and the horn that is for nobody.

use std::collections::VecDeque;

use crate::finding::Unit;
use crate::moment::{Moment, WayKind};
use crate::rules::Yardstick;
use crate::rules::{over, seconds, ticks};
use crate::time::Tick;
use crate::watch::rest::{Change, Rest};
use crate::watch::spell::{Seen, Spell};
use crate::watch::{Report, Watcher};

struct Horn {
    y: Yardstick,
    before: f64,
    /// Standing at a line, where one looks as well.
    at_a_line: f64,
    deed: bool,
    last_horn: Option<Tick>,
    rest: Rest,
}

fn horn(y: Yardstick, deed: bool) -> Box<dyn Watcher> {
    let (before, rest) = (y.limit("before"), Rest::new(&y.common));
    let at_a_line = y.limit("at-a-line").max(before);
    Box::new(Horn { y, before, at_a_line, deed, last_horn: None, rest })
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
        let at_a_line = m.ways.iter().any(|w| w.kind != WayKind::Blind && w.ahead <= NEAR_A_LINE);
        let before = if at_a_line { self.at_a_line } else { self.before };
        let in_time = self.last_horn.is_some() && silence <= before;
        if in_time == self.deed {
            out.open(self.y.finding(m, silence, before, Unit::Second));
        }
    }
}

/// Who stands so near to a line stands at it, m.
const NEAR_A_LINE: f64 = 2.0;

struct Misused {
    y: Yardstick,
    held: f64,
    times: f64,
    lately: Tick,
    near: f64,
    /// Ticks in a row in which it sounded without a reason.
    for_nobody: Tick,
    /// When a signal without a reason began, the latest last.
    signals: VecDeque<Tick>,
    sounded: bool,
    moved_off: Option<Tick>,
    rest: Rest,
    spell: Spell,
}

/// Held for long, or sounded again and again, with nobody whom it could tell anything.
pub(super) fn misused(y: Yardstick) -> Box<dyn Watcher> {
    let rest = Rest::new(&y.common);
    let (held, times, near) = (y.limit("held"), y.limit("times"), y.limit("near"));
    let lately = ticks(y.limit("lately"));
    Box::new(Misused {
        y,
        held,
        times,
        lately,
        near,
        for_nobody: 0,
        signals: VecDeque::new(),
        sounded: false,
        moved_off: None,
        rest,
        spell: Spell::new(Unit::Second, 0.0),
    })
}

impl Misused {
    /// Somebody may need it: the truck is about to move or has just moved off, a line or a hidden place
    /// lies ahead, someone or another truck is near.
    fn has_a_reason(&self, m: &Moment) -> bool {
        let just = self.moved_off.is_some_and(|t| m.tick - t <= self.lately / 4);
        let somebody = m.people.iter().any(|p| p.gap <= self.near)
            || m.others.iter().any(|o| o.gap <= self.near);
        self.rest.at_rest() || just || !m.ways.is_empty() || somebody
    }
}

impl Watcher for Misused {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        if self.rest.see(m) == Change::MovedOff {
            self.moved_off = Some(m.tick);
        }
        let sounds = m.truck.horn_sounds;
        let before = core::mem::replace(&mut self.sounded, sounds);
        let begins = sounds && !before;
        let (now, lately) = (m.tick, self.lately);
        self.signals.retain(|t| now - *t <= lately);
        let reason = self.has_a_reason(m);
        // Who holds it holds it, whatever comes meanwhile; for a reason it may be as long again.
        self.for_nobody = if sounds { self.for_nobody + 1 } else { 0 };
        if begins && !reason {
            self.signals.push_back(m.tick);
        }
        let may = if reason { 2.0 * self.held } else { self.held };
        let long = seconds(self.for_nobody);
        let often = sounds && self.signals.len() as f64 > self.times;
        let seen = (over(long, may) || often).then(|| {
            let told = if often { long.max(self.held) } else { long };
            Seen { badness: long, ..Seen::of(told, self.held, self.y.severity) }
        });
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use crate::moment::WayKind;
    use crate::watch::test_support::{Drive, person, watch, way};

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

    #[test]
    fn who_stands_at_a_line_has_time_to_look() {
        let at_a_line = |ticks, ahead: f64| {
            both(&horn_then(ticks).all(|m| m.ways.push(way(WayKind::Stop, ahead, false))))
        };
        // Eight seconds are 512 ticks.
        assert_eq!((at_a_line(511, 2.0), at_a_line(512, 2.0)), ((0, 1), (1, 0)));
        assert_eq!(at_a_line(511, 2.001), (1, 0));
    }

    /// Drives for long, and then sounds the horn for so many ticks.
    fn sounds(ticks: u32) -> Drive {
        Drive::new().still(3).rolling(300, 1.0).with(ticks, |m| {
            m.truck.speed = 1.0;
            m.truck.horn_sounds = true;
        })
    }

    fn misused(d: &Drive) -> usize {
        watch("horn-misused", d).len()
    }

    #[test]
    fn two_seconds_are_a_signal_and_a_held_horn_counts_again_and_again() {
        assert_eq!((misused(&sounds(128)), misused(&sounds(129))), (0, 1));
        assert!(misused(&sounds(64 * 30)) >= 5);
        // With someone near it may be as long again, and no longer.
        let near = |ticks| sounds(ticks).all(|m| m.people.push(person(10.0)));
        assert_eq!((misused(&near(256)), misused(&near(257))), (0, 1));
        let far = sounds(129).all(|m| m.people.push(person(10.1)));
        assert_eq!(misused(&far), 1);
    }

    #[test]
    fn two_horns_are_care_and_three_for_nobody_are_not() {
        let signals = |times: u32, apart: u32| {
            (0..times).fold(Drive::new().still(3).rolling(300, 1.0), |d, _| {
                d.with(8, |m| {
                    m.truck.speed = 1.0;
                    m.truck.horn_sounds = true;
                })
                .rolling(apart, 1.0)
            })
        };
        assert_eq!((misused(&signals(2, 100)), misused(&signals(3, 100))), (0, 1));
        // Two of them within eight seconds, however many in all.
        assert_eq!(misused(&signals(9, 300)), 0);
        let hidden = signals(9, 60).all(|m| m.ways.push(way(WayKind::Blind, 6.0, false)));
        assert_eq!(misused(&hidden), 0);
    }
}

//! Hidden places: the horn on the way up to them, and slow past them.

use crate::finding::Unit;
use crate::moment::{Moment, WayKind};
use crate::rules::Yardstick;
use crate::watch::lines::Lines;
use crate::watch::{Report, Watcher};

/// Distances from the hidden place at which the horn last sounded, m: in time, and too late.
#[derive(Default)]
struct Sounded {
    in_time: Option<f64>,
    late: Option<f64>,
}

struct Horn {
    y: Yardstick,
    far: f64,
    near: f64,
    deed: bool,
    lines: Lines<Sounded>,
}

fn horn(y: Yardstick, deed: bool) -> Box<dyn Watcher> {
    let (far, near) = (y.limit("from"), y.limit("until"));
    Box::new(Horn { y, far, near, deed, lines: Lines::new(WayKind::Blind) })
}

/// Past it without the horn.
pub(super) fn silent(y: Yardstick) -> Box<dyn Watcher> {
    horn(y, false)
}

/// Past it with the horn.
pub(super) fn sounded(y: Yardstick) -> Box<dyn Watcher> {
    horn(y, true)
}

impl Watcher for Horn {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let sounds = m.truck.horn_sounds;
        // Who stands before it may sound it from there.
        let stands = m.truck.speed.abs() <= self.y.common.rest_speed;
        let (far, near) = (self.far, if stands { 0.0 } else { self.near });
        let crossed = self.lines.see(m, self.y.common.again_after, |s, ahead, _| {
            if sounds && (near..=far).contains(&ahead) {
                s.in_time = Some(ahead);
            } else if sounds && ahead >= 0.0 && ahead < near {
                s.late = Some(ahead);
            }
        });
        for s in crossed {
            if s.in_time.is_some() == self.deed {
                let measured = s.in_time.or(s.late).unwrap_or(0.0);
                out.open(self.y.finding(m, measured, self.near, Unit::Metre));
            }
        }
    }
}

struct TooFast {
    y: Yardstick,
    speed: f64,
    lines: Lines<()>,
}

/// Past it too fast.
pub(super) fn too_fast(y: Yardstick) -> Box<dyn Watcher> {
    let speed = y.limit("speed");
    Box::new(TooFast { y, speed, lines: Lines::new(WayKind::Blind) })
}

impl Watcher for TooFast {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let speed = m.truck.speed.abs();
        for () in self.lines.see(m, self.y.common.again_after, |(), _, _| {}) {
            if speed > self.speed {
                out.open(self.y.finding(m, speed, self.speed, Unit::MetrePerSecond));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch, way};

    fn go(ahead: f64, horn: bool, speed: f64) -> impl Fn(&mut Moment) {
        move |m| {
            m.truck.speed = speed;
            m.truck.horn_sounds = horn;
            m.ways.push(way(WayKind::Blind, ahead, ahead < 0.0));
        }
    }

    fn past(d: Drive, horn_at: f64, speed: f64) -> Drive {
        d.with(1, go(9.0, false, 1.0))
            .with(1, go(horn_at, true, speed))
            .with(1, go(-0.01, false, 1.0))
    }

    fn both(d: &Drive) -> (usize, usize) {
        (watch("no-horn-at-blind-spot", d).len(), watch("horn-at-blind-spot", d).len())
    }

    #[test]
    fn between_eight_metres_and_one_it_is_heard_in_time() {
        for (at, in_time) in [(8.01, false), (8.0, true), (1.0, true), (0.99, false)] {
            let d = past(Drive::new(), at, 1.0);
            assert_eq!(both(&d), (usize::from(!in_time), usize::from(in_time)), "{at}");
        }
        assert_eq!(watch("no-horn-at-blind-spot", &past(Drive::new(), 0.5, 1.0))[0].measured, 0.5);
        assert_eq!(both(&past(Drive::new(), 0.5, 0.0)), (0, 1));
        let mute = past(Drive::new(), 3.0, 1.0).all(|m| m.truck.horn_sounds = false);
        assert_eq!(both(&mute), (1, 0));
        assert_eq!(both(&Drive::new().rolling(99, 2.0)), (0, 0));
    }

    #[test]
    fn each_time_past_it_needs_its_own() {
        let twice = |apart| past(past(Drive::new(), 3.0, 1.0).rolling(apart, 1.0), 9.0, 1.0);
        assert_eq!(both(&twice(40)), (1, 1));
        assert_eq!(both(&twice(10)), (0, 1));
    }

    #[test]
    fn slow_past_it() {
        let at = |v| Drive::new().with(1, go(1.0, true, v)).with(1, go(-0.01, false, v));
        assert!(watch("too-fast-at-blind-spot", &at(1.2)).is_empty());
        assert_eq!(watch("too-fast-at-blind-spot", &at(-1.21))[0].measured, 1.21);
    }
}

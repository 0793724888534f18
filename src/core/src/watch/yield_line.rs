//! Yield lines: slow, and a look to both sides.

use std::collections::VecDeque;

use crate::finding::Unit;
use crate::math::{DEG, wrap_angle};
use crate::moment::{Moment, WayKind};
use crate::rules::Yardstick;
use crate::rules::{over, ticks};
use crate::time::Tick;
use crate::watch::lines::Lines;
use crate::watch::{Report, Watcher};

struct YieldLine {
    y: Yardstick,
    speed: f64,
    look_deg: f64,
    lately: Tick,
    /// Where the head was turned from the way power unit first, rad, left positive. Which end leads
    /// is known for certain only when the line is crossed.
    looks: VecDeque<(Tick, f64)>,
    lines: Lines<()>,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (speed, look_deg, lately) = (y.limit("speed"), y.limit("look"), ticks(y.limit("within")));
    let (looks, lines) = (VecDeque::new(), Lines::new(WayKind::Yield));
    Box::new(YieldLine { y, speed, look_deg, lately, looks, lines })
}

impl Watcher for YieldLine {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        self.looks.push_back((m.tick, m.rider.head));
        while self.looks.front().is_some_and(|(t, _)| m.tick - t > self.lately) {
            self.looks.pop_front();
        }
        let speed = m.truck.speed.abs();
        for () in self.lines.see(m, self.y.common.again_after, |(), _, _| {}) {
            let ahead = if m.truck.speed < 0.0 { core::f64::consts::PI } else { 0.0 };
            let turned = self.looks.iter().map(|(_, head)| wrap_angle(head - ahead) / DEG);
            let left = turned.clone().fold(0.0, f64::max);
            let right = turned.map(|t| -t).fold(0.0, f64::max);
            let less = left.min(right);
            if speed > self.speed {
                out.open(self.y.finding(m, speed, self.speed, Unit::MetrePerSecond));
            } else if !over(less, self.look_deg) {
                out.open(self.y.finding(m, less, self.look_deg, Unit::Degree));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Finding;
    use crate::watch::test_support::{Drive, watch, way};

    /// Looks left and right by so much, so many ticks before the line, and crosses it.
    fn over(speed: f64, left: f64, right: f64, ago: u32) -> Vec<Finding> {
        let turned = |deg: f64| {
            move |m: &mut Moment| {
                m.truck.speed = speed;
                m.rider.head = deg * DEG;
            }
        };
        let d = Drive::new()
            .with(1, turned(left))
            .with(1, turned(-right))
            .with(ago - 1, turned(0.0))
            .with(1, |m| {
                m.truck.speed = speed;
                m.ways.push(way(WayKind::Yield, -0.01, true));
            });
        watch("yield-not-slowed", &d)
    }

    #[test]
    fn one_metre_a_second_and_a_look_to_both_sides() {
        assert!(over(1.0, 46.0, 46.0, 20).is_empty());
        assert_eq!(over(1.01, 46.0, 46.0, 20)[0].unit, Unit::MetrePerSecond);
        assert_eq!(over(1.0, 45.0, 90.0, 20)[0].measured, 45.0);
        assert_eq!(over(1.0, 46.0, 0.0, 20)[0].measured, 0.0);
    }

    #[test]
    fn a_look_of_four_seconds_ago_is_too_old() {
        assert!(over(0.8, 90.0, 90.0, 255).is_empty());
        assert_eq!(over(0.8, 90.0, 90.0, 256)[0].measured, 0.0);
    }

    #[test]
    fn forks_first_the_sides_are_told_from_behind() {
        let d = Drive::new()
            .with(2, |m| m.rider.head = 120.0 * DEG)
            .with(2, |m| m.rider.head = -120.0 * DEG)
            .with(1, |m| m.ways.push(way(WayKind::Yield, 0.0, true)))
            .all(|m| m.truck.speed = -0.5);
        assert!(watch("yield-not-slowed", &d).is_empty());
        assert_eq!(watch("yield-not-slowed", &d.all(|m| m.rider.head = 3.1)).len(), 1);
    }

    #[test]
    fn looking_where_the_forks_point_while_standing_is_no_look_to_the_side() {
        let head = |deg: f64, speed: f64| {
            move |m: &mut Moment| {
                m.rider.head = deg * DEG;
                m.truck.speed = speed;
            }
        };
        let go = |first: f64, then: f64| {
            Drive::new().with(2, head(first, 0.0)).with(2, head(then, -0.5)).with(1, move |m| {
                head(180.0, -0.5)(m);
                m.ways.push(way(WayKind::Yield, 0.0, true));
            })
        };
        // At rest, 180 degrees are straight on for who then goes forks first.
        assert_eq!(watch("yield-not-slowed", &go(180.0, 134.0)).len(), 1);
        assert!(watch("yield-not-slowed", &go(134.0, -134.0)).is_empty());
        assert_eq!(watch("yield-not-slowed", &go(136.0, -134.0)).len(), 1);
    }
}

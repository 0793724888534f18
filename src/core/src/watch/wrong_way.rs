//! Which way will it go: the first throttle from rest, against the way that the task asks for.
//!
//! Who looks the way the truck goes means it; that has its own rules.

use core::f64::consts::FRAC_PI_2;

use crate::controls::Look;
use crate::finding::{Finding, Unit};
use crate::math::{Vec2, wrap_angle};
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::over;
use crate::time::{DT, Tick};
use crate::watch::plugging::asked_way;
use crate::watch::rest::{Change, Rest};
use crate::watch::throttle::at_the_motor;
use crate::watch::{Handle, Report, Watcher};

struct Going {
    way: f64,
    from: Tick,
    at: Vec2,
    distance: f64,
    finding: Option<Handle>,
}

struct WrongWay {
    y: Yardstick,
    limit: f64,
    rest: Rest,
    going: Option<Going>,
}

pub(super) fn watcher(y: Yardstick) -> Box<dyn Watcher> {
    let (limit, rest) = (y.limit("distance"), Rest::new(&y.common));
    Box::new(WrongWay { y, limit, rest, going: None })
}

/// The rider looks that way (1 power unit first, -1 forks first), or turns the head to it.
fn looks(m: &Moment, way: f64) -> bool {
    let (asked, behind) = if way > 0.0 { (Look::Ahead, 0.0) } else { (Look::Behind, 1.0) };
    let off = wrap_angle(m.rider.head - behind * core::f64::consts::PI).abs();
    m.controls.look == asked || off < FRAC_PI_2
}

/// The way the task asks for: back, when the mark lies behind.
fn task_way(m: &Moment) -> f64 {
    let past = m.task.mark_ahead.is_some_and(|ahead| ahead < 0.0);
    asked_way(m.task.travel) * if past { -1.0 } else { 1.0 }
}

/// Room to the nearest person whom the truck comes nearer to, m.
fn room_to_people(m: &Moment) -> f64 {
    let closing = m.people.iter().filter(|p| p.time_to_collision.is_some());
    closing.map(|p| p.gap).fold(f64::INFINITY, f64::min)
}

impl Watcher for WrongWay {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let speed = m.truck.speed;
        if self.rest.see(m) == Change::MovedOff {
            let way = speed.signum();
            let commanded = at_the_motor(m) * way > self.y.common.neutral;
            let wrong = commanded && way != task_way(m) && !looks(m, way);
            let (from, at) = (m.tick, m.truck.platform_in_yard);
            self.going = wrong.then_some(Going { way, from, at, distance: 0.0, finding: None });
        }
        let Some(g) = &mut self.going else { return };
        if speed * g.way <= 0.0 || m.task.done {
            self.going = None;
            return;
        }
        g.distance += speed.abs() * DT;
        if !over(g.distance, self.limit) {
            return;
        }
        let severity = self.y.severity_at(room_to_people(m));
        match g.finding {
            Some(h) => out.worsen(h, m.tick, g.distance, self.limit, severity),
            None => {
                let found = self.y.finding(m, g.distance, self.limit, Unit::Metre);
                g.finding = Some(out.open(Finding { from: g.from, at: g.at, severity, ..found }));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::course::Travel;
    use crate::finding::Severity;
    use crate::moment::PersonMoment;
    use crate::watch::test_support::{Drive, person, watch};

    /// From rest for so many ticks at 10 mm a tick.
    fn off(ticks: u32, throttle: i8) -> Drive {
        Drive::new().still(5).with(ticks, move |m| {
            m.truck.speed = 0.64 * f64::from(throttle.signum());
            m.controls.throttle = throttle;
        })
    }

    fn found(d: &Drive) -> Vec<Finding> {
        watch("wrong-way-command", d)
    }

    #[test]
    fn five_centimetres_the_wrong_way_are_allowed() {
        assert!(found(&off(5, -30)).is_empty());
        let one = found(&off(6, -30));
        assert_eq!((one[0].from, one[0].severity), (5, Severity::Minor));
        assert!(found(&off(60, 30)).is_empty());
        // Corrected at once and off again without a rest in between.
        let mut d = off(20, -30).rolling(20, 0.5);
        d = d.with(20, |m| {
            m.truck.speed = -0.5;
            m.controls.throttle = -30;
        });
        assert_eq!(found(&d).len(), 1);
    }

    #[test]
    fn who_looks_that_way_means_it() {
        assert!(found(&off(60, -30).all(|m| m.controls.look = Look::Behind)).is_empty());
        assert!(found(&off(60, -30).all(|m| m.rider.head = 3.0)).is_empty());
        let forks = |d: Drive| d.all(|m| m.task.travel = Travel::ForksFirst);
        assert!(found(&forks(off(60, 30))).is_empty());
        let behind = forks(off(60, 30)).all(|m| {
            m.controls.look = Look::Behind;
            m.rider.head = 3.1;
        });
        assert_eq!(found(&behind).len(), 1);
    }

    #[test]
    fn back_to_a_mark_and_rolling_by_itself_are_not_the_wrong_way() {
        assert!(found(&off(60, -30).all(|m| m.task.mark_ahead = Some(-0.4))).is_empty());
        assert!(found(&off(60, -30).all(|m| m.controls.throttle = 0)).is_empty());
    }

    #[test]
    fn towards_a_person_within_two_metres_it_is_critical() {
        let near = |gap, closing: bool| {
            let d = off(10, -30).all(|m| {
                let time_to_collision = closing.then_some(3.0);
                m.people.push(PersonMoment { time_to_collision, ..person(gap) });
            });
            found(&d)[0].severity
        };
        assert_eq!(near(1.99, true), Severity::Critical);
        assert_eq!(near(2.0, true), Severity::Minor);
        assert_eq!(near(1.0, false), Severity::Minor);
    }
}

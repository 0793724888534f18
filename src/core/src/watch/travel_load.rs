//! Travelling with forks and load as they should be: off the floor, uphill on grades, and not
//! before the eyes.

use crate::course::Travel;
use crate::finding::{Finding, Unit};
use crate::math::Vec2;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::rules::over;
use crate::time::{DT, Tick};
use crate::watch::spell::{Again, Seen, Spell};
use crate::watch::{Handle, Report, Watcher};

/// Metres driven while something is wrong; a finding from more than a limit on.
#[derive(Default)]
struct Stretch {
    began: Option<(Tick, Vec2)>,
    metres: f64,
    finding: Option<(Handle, Again)>,
}

impl Stretch {
    /// Drives on with it: `measured` against `limit` in `unit` is told once it was more than
    /// `metres`; without a value the metres themselves are told.
    fn on(
        &mut self,
        m: &Moment,
        y: &Yardstick,
        metres: f64,
        told: Option<(f64, f64)>,
        out: &mut Report,
    ) {
        let (from, at) = *self.began.get_or_insert((m.tick, m.truck.platform_in_yard));
        self.metres += m.truck.speed.abs() * DT;
        if !over(self.metres, metres) {
            return;
        }
        let (mut from, mut at) = (from, at);
        if let Some((_, again)) = &mut self.finding
            && again.counts(m, &y.common)
        {
            (from, at, self.finding) = (m.tick, m.truck.platform_in_yard, None);
        }
        let (measured, limit) = told.unwrap_or((self.metres, metres));
        match self.finding {
            Some((h, _)) => out.worsen(h, m.tick, measured, limit, y.severity),
            None => {
                let found = y.finding(m, measured, limit, Unit::Metre);
                let handle = out.open(Finding { from, at, ..found });
                self.finding = Some((handle, Again::new(m.tick)));
            }
        }
    }
}

struct Dragged {
    y: Yardstick,
    height: f64,
    distance: f64,
    speed: f64,
    lowest: f64,
    low: Stretch,
}

/// The forks scrape over the floor.
pub(super) fn dragged(y: Yardstick) -> Box<dyn Watcher> {
    let (height, distance, speed) = (y.limit("height"), y.limit("distance"), y.limit("speed"));
    Box::new(Dragged { y, height, distance, speed, lowest: height, low: Stretch::default() })
}

impl Watcher for Dragged {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let height = m.truck.fork_height;
        if height >= self.height {
            (self.low, self.lowest) = (Stretch::default(), self.height);
        } else if m.truck.speed.abs() > self.speed {
            self.lowest = self.lowest.min(height);
            let told = Some((self.lowest, self.height));
            self.low.on(m, &self.y, self.distance, told, out);
        }
    }
}

struct HidesView {
    y: Yardstick,
    distance: f64,
    hidden: Stretch,
}

/// Driven with the load before the eyes.
pub(super) fn hides_view(y: Yardstick) -> Box<dyn Watcher> {
    let distance = y.limit("distance");
    Box::new(HidesView { y, distance, hidden: Stretch::default() })
}

impl Watcher for HidesView {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let speed = m.truck.speed;
        // Into a bay the load has to go first.
        let asked = m.task.travel == Travel::ForksFirst && speed < 0.0;
        if !m.sight.load_hides || asked {
            self.hidden = Stretch::default();
        } else if speed.abs() > self.y.common.rest_speed {
            self.hidden.on(m, &self.y, self.distance, None, out);
        }
    }
}

struct NotUpgrade {
    y: Yardstick,
    grade: f64,
    spell: Spell,
}

/// Loaded on a grade with the load downhill. The forks are at -x: a floor that rises towards +x
/// has them downhill.
pub(super) fn not_upgrade(y: Yardstick) -> Box<dyn Watcher> {
    let (grade, may_last) = (y.limit("grade"), y.limit("for"));
    Box::new(NotUpgrade { y, grade, spell: Spell::new(Unit::Share, may_last) })
}

impl Watcher for NotUpgrade {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let moves = m.truck.speed.abs() > self.y.common.rest_speed;
        let downhill = m.load.pallets > 0 && m.load.grade > self.grade;
        let seen = (moves && downhill).then(|| Seen::of(m.load.grade, self.grade, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

struct GradeTooFast {
    y: Yardstick,
    grade: f64,
    speed: f64,
    spell: Spell,
}

/// Faster than slowly on a grade, up or down, loaded or not.
pub(super) fn grade_too_fast(y: Yardstick) -> Box<dyn Watcher> {
    let (grade, speed, may_last) = (y.limit("grade"), y.limit("speed"), y.limit("for"));
    Box::new(GradeTooFast { y, grade, speed, spell: Spell::of_way(Unit::MetrePerSecond, may_last) })
}

impl Watcher for GradeTooFast {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let speed = m.truck.speed.abs();
        let fast = over(m.load.grade.abs(), self.grade) && over(speed, self.speed);
        let seen = fast.then(|| Seen::of(speed, self.speed, self.y.severity));
        self.spell.see(m, &self.y, seen, out);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::watch::test_support::{Drive, watch};

    #[test]
    fn ten_millimetres_over_a_metre() {
        let found = |ticks, speed, height| {
            let d = Drive::new().rolling(ticks, speed).all(|m| m.truck.fork_height = height);
            watch("forks-dragged", &d)
        };
        assert!(found(300, 1.0, 0.010).is_empty());
        assert!(found(64, 1.0, 0.009).is_empty());
        assert!(found(900, 0.3, 0.0).is_empty());
        let one = found(65, -1.0, 0.009);
        assert_eq!((one.len(), one[0].from, one[0].measured), (1, 0, 0.009));
        let raised = Drive::new().rolling(120, 1.0).all(|m| {
            m.truck.fork_height = if m.tick == 60 { 0.02 } else { 0.0 };
        });
        assert!(watch("forks-dragged", &raised).is_empty());
    }

    #[test]
    fn a_metre_with_the_view_hidden() {
        let found = |ticks, speed, travel| {
            let d = Drive::new().rolling(ticks, speed).all(|m| {
                m.sight.load_hides = true;
                m.task.travel = travel;
            });
            watch("load-hides-view", &d)
        };
        assert!(found(64, 1.0, Travel::PowerUnitFirst).is_empty());
        assert_eq!(found(65, -1.0, Travel::PowerUnitFirst)[0].measured, 1.0156);
        assert!(found(300, -1.0, Travel::ForksFirst).is_empty());
        assert_eq!(found(128, 1.0, Travel::ForksFirst)[0].measured, 2.0);
        assert!(watch("load-hides-view", &Drive::new().rolling(300, -1.0)).is_empty());
    }

    #[test]
    fn above_a_tenth_the_load_is_uphill() {
        let found = |grade, pallets, speed, ticks| {
            let d = Drive::new().rolling(ticks, speed).all(|m| {
                (m.load.grade, m.load.pallets) = (grade, pallets);
            });
            watch("load-not-upgrade", &d)
        };
        assert!(found(0.10, 1, 1.0, 99).is_empty());
        assert!(found(0.11, 1, 1.0, 32).is_empty());
        assert_eq!(found(0.11, 1, 1.0, 33)[0].measured, 0.11);
        assert_eq!(found(0.11, 1, -1.0, 33).len(), 1);
        assert!(found(-0.2, 1, 1.0, 99).is_empty());
        assert!(found(0.2, 0, 1.0, 99).is_empty());
        assert!(found(0.2, 1, 0.05, 99).is_empty());
    }

    #[test]
    fn slowly_on_a_slope_either_way() {
        let found = |grade, speed, ticks| {
            let d = Drive::new().rolling(ticks, speed).all(|m| m.load.grade = grade);
            watch("grade-too-fast", &d).len()
        };
        assert_eq!((found(0.05, 2.7, 99), found(0.051, 2.7, 33)), (0, 1));
        assert_eq!((found(-0.12, 1.2, 99), found(-0.12, -1.201, 33)), (0, 1));
        assert_eq!(found(0.12, 2.0, 32), 0);
    }
}

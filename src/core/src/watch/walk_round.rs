//! The walk-round: what was overlooked, left out or made up, and what was done with the truck then.

use crate::checks::walk::{Decision, Walked};
use crate::finding::{Finding, Severity, Unit};
use crate::moment::Moment;
use crate::rules::{Yardstick, over};
use crate::time::DT;
use crate::watch::{Report, Watcher};

/// Sees when a walk-round is over: once, when the truck is taken or tagged out.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Over {
    was: bool,
}

impl Over {
    /// The walk-round, in the tick in which it is over.
    pub(super) fn see<'a>(&mut self, m: &'a Moment) -> Option<&'a Walked> {
        let walk = m.walk.as_ref().filter(|w| w.decided.is_some())?;
        (!core::mem::replace(&mut self.was, true)).then_some(walk)
    }
}

/// A finding about one point of the list.
pub(super) fn about(point: usize, finding: Finding) -> Finding {
    Finding { point: u8::try_from(point).ok(), ..finding }
}

/// A point with something the matter, said to be fine or not answered.
fn is_missed(walk: &Walked, point: usize) -> bool {
    walk.truck.defect_of(point).is_some() && !walk.is_reported(point)
}

struct BadTruckTaken {
    y: Yardstick,
    may_go: f64,
    gone: f64,
    told: bool,
}

/// Driven farther than this with something that must not run.
pub(super) fn bad_truck_taken(y: Yardstick) -> Box<dyn Watcher> {
    let may_go = y.limit("distance");
    Box::new(BadTruckTaken { y, may_go, gone: 0.0, told: false })
}

impl Watcher for BadTruckTaken {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let Some(walk) = &m.walk else { return };
        let drives = m.rider.aboard && !walk.reported;
        if self.told || !drives || !walk.truck.must_not_run() {
            return;
        }
        self.gone += m.truck.speed.abs() * DT;
        if over(self.gone, self.may_go) {
            self.told = true;
            out.open(self.y.finding(m, self.gone, self.may_go, Unit::Metre));
        }
    }
}

struct Missed {
    y: Yardstick,
    over: Over,
}

/// Something was the matter, and was not reported.
pub(super) fn defect_missed(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(Missed { y, over: Over::default() })
}

impl Watcher for Missed {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let Some(walk) = self.over.see(m) else { return };
        for point in walk.points().filter(|p| is_missed(walk, *p)) {
            let Some((_, defect)) = walk.truck.defect_of(point) else { continue };
            let grave = walk.truck.missed(defect) == Severity::Major;
            let severity = self.y.severity_at(if grave { 1.0 } else { 0.0 });
            let found = self.y.finding(m, 1.0, 0.0, Unit::Count);
            out.open(about(point, Finding { severity, ..found }));
        }
    }
}

struct NotChecked {
    y: Yardstick,
    over: Over,
}

/// A point was not looked at or tried, or not answered. One that was missed for it is told as that.
pub(super) fn not_checked(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(NotChecked { y, over: Over::default() })
}

impl Watcher for NotChecked {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let Some(walk) = self.over.see(m) else { return };
        // Who has found that the truck must not run need not look on.
        if walk.is_rightly_tagged_out() && walk.points().any(|p| is_grave_and_found(walk, p)) {
            return;
        }
        for point in walk.points().filter(|p| !walk.is_checked(*p) && !is_missed(walk, *p)) {
            out.open(about(point, self.y.finding(m, 1.0, 0.0, Unit::Count)));
        }
    }
}

/// What must not run was found at this point.
fn is_grave_and_found(walk: &Walked, point: usize) -> bool {
    let grave =
        walk.truck.defect_of(point).is_some_and(|(_, d)| !walk.truck.list.grades[d.grade].may_run);
    grave && walk.is_reported(point)
}

struct TaggedOut {
    y: Yardstick,
    over: Over,
}

/// Tagged out though it may run; graver when nothing at all was the matter.
pub(super) fn tagged_out_sound(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(TaggedOut { y, over: Over::default() })
}

impl Watcher for TaggedOut {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let Some(walk) = self.over.see(m) else { return };
        if walk.decided != Some(Decision::TaggedOut) || walk.truck.must_not_run() {
            return;
        }
        let sound = walk.truck.drawn.has.is_empty();
        let severity = self.y.severity_at(if sound { 1.0 } else { 0.0 });
        let found = self.y.finding(m, 1.0, 0.0, Unit::Count);
        out.open(Finding { severity, ..found });
    }
}

struct Settings {
    y: Yardstick,
    before: u32,
}

/// The buttons that set the truck's parameters were touched.
pub(super) fn settings_touched(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(Settings { y, before: 0 })
}

impl Watcher for Settings {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let Some(walk) = &m.walk else { return };
        if self.before == 0 && walk.settings_touched > 0 {
            out.open(self.y.finding(m, f64::from(walk.settings_touched), 0.0, Unit::Count));
        }
        self.before = walk.settings_touched;
    }
}

struct Found {
    y: Yardstick,
    over: Over,
}

/// Something was the matter, was looked at or tried, and reported.
pub(super) fn defect_found(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(Found { y, over: Over::default() })
}

impl Watcher for Found {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let Some(walk) = self.over.see(m) else { return };
        let found = |p: &usize| {
            walk.truck.defect_of(*p).is_some() && walk.is_checked(*p) && walk.is_reported(*p)
        };
        for point in walk.points().filter(found) {
            out.open(about(point, self.y.finding(m, 1.0, 0.0, Unit::Count)));
        }
    }
}

struct Refused {
    y: Yardstick,
    over: Over,
    told: bool,
}

/// A truck that must not run was tagged out for what it has, or given up on the drive.
pub(super) fn bad_truck_refused(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(Refused { y, over: Over::default(), told: false })
}

impl Watcher for Refused {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let over = self.over.see(m);
        // By guess is no good deed: the reason must have been found.
        let tagged = over.is_some_and(|w| {
            w.is_rightly_tagged_out()
                && w.points().any(|p| is_grave_and_found(w, p) && w.is_checked(p))
        });
        let given_up = m.walk.as_ref().is_some_and(Walked::is_rightly_reported);
        if !self.told && (tagged || given_up) {
            self.told = true;
            out.open(self.y.finding(m, 1.0, 0.0, Unit::Count));
        }
    }
}

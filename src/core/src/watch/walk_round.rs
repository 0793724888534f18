//! The walk-round: what was overlooked, left out or made up, and what was done with the truck then.

use crate::checks::walk::{Answer, Decision, Walk};
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
    pub(super) fn see<'a>(&mut self, m: &'a Moment) -> Option<&'a Walk> {
        let walk = m.walk.as_ref().filter(|w| w.decided.is_some())?;
        (!core::mem::replace(&mut self.was, true)).then_some(walk)
    }
}

/// A finding about one point of the list.
pub(super) fn about(point: usize, finding: Finding) -> Finding {
    Finding { point: u8::try_from(point).ok(), ..finding }
}

/// A truck was tagged out for something that must not run: who has found that need not look on.
fn has_done_enough(walk: &Walk) -> bool {
    walk.is_rightly_tagged_out() && walk.points().any(|p| is_grave_and_found(walk, p))
}

/// What must not run was found at this point.
fn is_grave_and_found(walk: &Walk, point: usize) -> bool {
    let defect = walk.truck.defect_of(point);
    let grave = defect.is_some_and(|(_, d)| !walk.truck.list.grades[d.grade].may_run);
    grave && walk.is_checked(point) && walk.is_reported(point)
}

/// Left without an answer by somebody who should have gone on.
fn is_left_out(walk: &Walk, point: usize) -> bool {
    walk.said[point].is_none() && !has_done_enough(walk)
}

/// A point with something the matter, said to be fine or left out.
fn is_missed(walk: &Walk, point: usize) -> bool {
    let passed = walk.said[point] == Some(Answer::Fine) || is_left_out(walk, point);
    walk.truck.defect_of(point).is_some() && passed
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

/// A point was answered without a look or a try, or left out. One that was missed for it is told as that.
pub(super) fn not_checked(y: Yardstick) -> Box<dyn Watcher> {
    Box::new(NotChecked { y, over: Over::default() })
}

impl Watcher for NotChecked {
    fn see(&mut self, m: &Moment, out: &mut Report) {
        let Some(walk) = self.over.see(m) else { return };
        let unchecked = |p: &usize| match walk.said[*p] {
            Some(_) => !walk.is_checked(*p),
            None => is_left_out(walk, *p),
        };
        for point in walk.points().filter(|p| unchecked(p) && !is_missed(walk, *p)) {
            out.open(about(point, self.y.finding(m, 1.0, 0.0, Unit::Count)));
        }
    }
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
        let tagged = over.is_some_and(has_done_enough);
        let given_up = m.walk.as_ref().is_some_and(Walk::is_rightly_reported);
        if !self.told && (tagged || given_up) {
            self.told = true;
            out.open(self.y.finding(m, 1.0, 0.0, Unit::Count));
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::checks::POINTS_MOST;
    use crate::checks::draw::{Drawn, Mode};
    use crate::checks::list::CheckList;
    use crate::checks::walk::Truck;
    use crate::watch::test_support::{Drive, watch};

    /// Point and defect of the shipped list by their names.
    fn at(list: &CheckList, point: &str, defect: &str) -> (usize, usize) {
        let p = list.points.iter().position(|p| p.id == point).expect("a point");
        let d = list.points[p].defects.iter().position(|d| d.id == defect).expect("a defect");
        (p, d)
    }

    /// A truck with these defects, every point of which was looked at and said to be fine.
    fn truck(has: &[(&str, &str)]) -> Walk {
        let list = CheckList::shipped();
        let has = has.iter().map(|(p, d)| at(&list, p, d)).collect();
        let points = list.points.len();
        let mut said = [None; POINTS_MOST];
        said[..points].fill(Some(Answer::Fine));
        let truck =
            Truck { list: Arc::new(list), mode: Mode::Daily, drawn: Drawn { has, hours: 11_874 } };
        Walk {
            truck: Arc::new(truck),
            shown: None,
            done: u64::MAX,
            said,
            decided: None,
            settings_touched: 0,
            hours_read: None,
            reported: false,
        }
    }

    fn point(walk: &Walk, id: &str) -> usize {
        walk.truck.list.points.iter().position(|p| p.id == id).expect("a point")
    }

    fn say(walk: &mut Walk, id: &str, answer: Option<Answer>) {
        let p = point(walk, id);
        walk.said[p] = answer;
    }

    const STOP: Option<Answer> = Some(Answer::Grade(2));

    /// The walk-round goes on for a while, then this is decided.
    fn decided(walk: &Walk, decision: Decision) -> Drive {
        let during = walk.clone();
        let after = Walk { decided: Some(decision), ..walk.clone() };
        Drive::new()
            .with(5, move |m| m.walk = Some(during.clone()))
            .with(5, move |m| m.walk = Some(after.clone()))
    }

    fn found(code: &str, walk: &Walk, decision: Decision) -> Vec<Finding> {
        watch(code, &decided(walk, decision))
    }

    const BAR: (&str, &str) = ("grab-bar", "loose");
    const GAUGE: (&str, &str) = ("battery-gauge", "dead");

    #[test]
    fn a_sound_truck_that_was_looked_at_leaves_nothing_to_say() {
        let walk = truck(&[]);
        for code in ["defect-missed", "not-checked", "false-report", "tagged-out-sound"] {
            assert!(found(code, &walk, Decision::Taken).is_empty(), "{code}");
        }
        assert!(found("bad-truck-refused", &walk, Decision::TaggedOut).is_empty());
    }

    #[test]
    fn what_is_missed_is_as_grave_as_the_list_says() {
        let missed = |has| {
            let found = found("defect-missed", &truck(&[has]), Decision::Taken);
            assert_eq!(found.len(), 1);
            (found[0].severity, found[0].point)
        };
        let list = CheckList::shipped();
        assert_eq!(missed(BAR), (Severity::Major, Some(at(&list, BAR.0, BAR.1).0 as u8)));
        assert_eq!(missed(GAUGE).0, Severity::Minor);
        let mut walk = truck(&[BAR]);
        say(&mut walk, BAR.0, Some(Answer::Grade(0)));
        assert!(found("defect-missed", &walk, Decision::Taken).is_empty());
        assert_eq!(found("defect-found", &walk, Decision::Taken).len(), 1);
    }

    #[test]
    fn each_point_without_a_look_or_an_answer_is_told_once() {
        let mut walk = truck(&[]);
        walk.done = !0b101;
        say(&mut walk, "horn", None);
        assert_eq!(found("not-checked", &walk, Decision::Taken).len(), 3);
        // A point that was missed for it is told as that.
        let mut walk = truck(&[GAUGE]);
        say(&mut walk, GAUGE.0, None);
        assert!(found("not-checked", &walk, Decision::Taken).is_empty());
        assert_eq!(found("defect-missed", &walk, Decision::Taken).len(), 1);
    }

    #[test]
    fn who_has_found_what_must_not_run_need_not_look_on_but_must_not_sign_for_the_rest() {
        let mut walk = truck(&[BAR, GAUGE]);
        let bar = point(&walk, BAR.0);
        walk.said = [None; POINTS_MOST];
        walk.said[bar] = STOP;
        for code in ["not-checked", "defect-missed", "tagged-out-sound"] {
            assert!(found(code, &walk, Decision::TaggedOut).is_empty(), "{code}");
        }
        assert_eq!(found("bad-truck-refused", &walk, Decision::TaggedOut).len(), 1);
        // Said to be fine without a look.
        walk.done = 1 << bar;
        say(&mut walk, "horn", Some(Answer::Fine));
        say(&mut walk, GAUGE.0, Some(Answer::Fine));
        assert_eq!(found("not-checked", &walk, Decision::TaggedOut).len(), 1);
        assert_eq!(found("defect-missed", &walk, Decision::TaggedOut).len(), 1);
        // By guess: nothing was looked at.
        walk.done = 0;
        assert!(found("bad-truck-refused", &walk, Decision::TaggedOut).is_empty());
    }

    #[test]
    fn tagging_out_what_may_run_is_graver_when_nothing_is_the_matter() {
        let tagged = |has: &[(&str, &str)]| -> Vec<Severity> {
            let found = found("tagged-out-sound", &truck(has), Decision::TaggedOut);
            found.iter().map(|f| f.severity).collect()
        };
        assert_eq!(tagged(&[]), [Severity::Major]);
        assert_eq!(tagged(&[GAUGE]), [Severity::Minor]);
        assert!(tagged(&[GAUGE, BAR]).is_empty());
    }

    #[test]
    fn what_was_made_up_is_a_false_report_each() {
        let mut walk = truck(&[GAUGE]);
        for id in ["horn", "key", GAUGE.0] {
            say(&mut walk, id, Some(Answer::Grade(1)));
        }
        let made_up = found("false-report", &walk, Decision::Taken);
        assert_eq!(made_up.iter().map(|f| f.measured).collect::<Vec<_>>(), [1.0, 2.0]);
    }

    #[test]
    fn a_bad_truck_is_taken_from_the_first_metre_on() {
        let driven = |has: &[(&str, &str)], ticks: u32, reported: bool| {
            let walk = Walk { decided: Some(Decision::Taken), reported, ..truck(has) };
            let drive = Drive::new().rolling(ticks, 1.0);
            watch("bad-truck-taken", &drive.all(move |m| m.walk = Some(walk.clone()))).len()
        };
        // One metre a second: 64 ticks are the metre.
        assert_eq!((driven(&[BAR], 64, false), driven(&[BAR], 65, false)), (0, 1));
        assert_eq!((driven(&[GAUGE], 640, false), driven(&[BAR], 640, true)), (0, 0));
        // Without any decision too.
        let walk = truck(&[BAR]);
        let undecided = Drive::new().rolling(65, 1.0).all(move |m| m.walk = Some(walk.clone()));
        assert_eq!(watch("bad-truck-taken", &undecided).len(), 1);
    }

    #[test]
    fn giving_a_bad_truck_up_on_the_drive_is_a_good_deed_once_and_a_false_report_none() {
        let given_up = |has: &[(&str, &str)]| {
            let walk = Walk { decided: Some(Decision::Taken), reported: true, ..truck(has) };
            let drive = Drive::new().still(9).all(move |m| {
                m.walk = Some(walk.clone());
                if m.tick == 3 {
                    m.acts.push(crate::acts::Act::Report);
                }
            });
            ["bad-truck-refused", "false-report"].map(|code| watch(code, &drive).len())
        };
        assert_eq!((given_up(&[BAR]), given_up(&[])), ([1, 0], [0, 1]));
    }

    #[test]
    fn settings_that_were_touched_are_told_once() {
        let drive = Drive::new().still(9).all(|m| {
            m.walk = Some(Walk { settings_touched: m.tick / 3, ..truck(&[]) });
        });
        assert_eq!(watch("speed-settings-touched", &drive).len(), 1);
    }
}

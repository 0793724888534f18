//! How often a drive gives an opportunity to show a skill, counted in one place.
//!
//! | skill | one opportunity is |
//! | --- | --- |
//! | steering | a stretch driven (`stretch`, m); a last one counts from half its length on |
//! | speed and room | the same stretch |
//! | forks and load | the same stretch; a pallet taken up; one set down |
//! | starting and stopping | a start from rest; a stop from more than `stop-from`; an emergency signal, whose stop is not counted again; someone who steps out in sight |
//! | mounting | a turn of the drive wheel beyond `turn` degrees, until it is back within half of that; a step across the platform |
//! | right of way | moving off from rest where others are about; a stop line, yield line or hidden place crossed, again only after a `stretch`; a crossing driven onto; someone who comes into sight or nearer than `near-person` while in sight, once for each time in sight |
//! | leaving | stepping off a truck that stands |
//! | checking | a dock checked; a walk-round |
//!
//! A skill without an opportunity is "not shown".

use std::collections::{BTreeMap, BTreeSet};

use crate::finding::Skill;
use crate::math::DEG;
use crate::moment::{CourseEvent, Moment, WayKind};
use crate::rules::Common;
use crate::rules::SiteRules;
use crate::time::{DT, Tick};
use crate::watch::Report;
use crate::watch::entries::Entries;
use crate::watch::rest::{Change, Rest};
use crate::watch::surprise::{Surprises, Who};

/// Counts opportunities.
#[derive(Clone, Debug)]
pub struct Exposure {
    stretch_m: f64,
    turn: f64,
    stop_from: f64,
    traffic: bool,
    rest_speed: f64,
    rest: Rest,
    in_stretch: f64,
    /// Metres of the whole drive.
    driven: f64,
    stretch_from: Tick,
    start_from: Option<Tick>,
    /// The last tick of the present roll above `stop_from`.
    slowing_since: Option<Tick>,
    signal_from: Option<Tick>,
    /// The stop after a signal belongs to the signal.
    stop_is_signals: bool,
    turn_from: Option<Tick>,
    stepping_from: Option<Tick>,
    common: Common,
    near_person: f64,
    /// Metres driven when each line was crossed last.
    lines: BTreeMap<(WayKind, u32), f64>,
    crossings: Entries,
    surprises: Surprises,
    /// People near and in sight: who, and since when in sight.
    near: BTreeSet<(u32, Tick)>,
    aboard: bool,
}

impl Exposure {
    /// Nothing counted yet, by the terms of the site rules.
    pub fn new(rules: &SiteRules, common: Common, traffic: bool) -> Self {
        Self {
            stretch_m: rules.term("stretch"),
            turn: rules.term("turn") * DEG,
            stop_from: rules.term("stop-from"),
            traffic,
            rest_speed: common.rest_speed,
            rest: Rest::new(&common),
            in_stretch: 0.0,
            driven: 0.0,
            stretch_from: 0,
            start_from: None,
            slowing_since: None,
            signal_from: None,
            stop_is_signals: false,
            turn_from: None,
            stepping_from: None,
            common,
            near_person: rules.term("near-person"),
            lines: BTreeMap::new(),
            crossings: Entries::default(),
            surprises: Surprises::default(),
            near: BTreeSet::new(),
            aboard: false,
        }
    }

    /// Looks at one tick.
    pub fn see(&mut self, m: &Moment, out: &mut Report) {
        self.stretches(m, out);
        self.starts_and_stops(m, out);
        self.stance(m, out);
        self.people_and_ways(m, out);
        self.handling(m, out);
    }

    /// Metres driven so far.
    pub fn driven(&self) -> f64 {
        self.driven
    }

    /// The drive is over: what was begun and is worth counting, counts.
    pub fn end(&mut self, last: Tick, out: &mut Report) {
        if self.in_stretch >= 0.5 * self.stretch_m {
            self.stretch_done(last, out);
        }
        for (from, skill) in [
            (self.start_from.take(), Skill::StartingAndStopping),
            (self.signal_from.take(), Skill::StartingAndStopping),
            (self.turn_from.take(), Skill::Mounting),
            (self.stepping_from.take(), Skill::Mounting),
        ] {
            if let Some(from) = from {
                out.chance(skill, from, last);
            }
        }
    }

    fn stretch_done(&mut self, tick: Tick, out: &mut Report) {
        for skill in [Skill::Steering, Skill::SpeedAndRoom, Skill::ForksAndLoad] {
            out.chance(skill, self.stretch_from, tick);
        }
        self.in_stretch = 0.0;
        self.stretch_from = tick + 1;
    }

    fn stretches(&mut self, m: &Moment, out: &mut Report) {
        let speed = m.truck.speed.abs();
        if speed <= self.rest_speed {
            return;
        }
        self.in_stretch += speed * DT;
        self.driven += speed * DT;
        if self.in_stretch >= self.stretch_m {
            self.stretch_done(m.tick, out);
        }
    }

    fn starts_and_stops(&mut self, m: &Moment, out: &mut Report) {
        let speed = m.truck.speed.abs();
        let skill = Skill::StartingAndStopping;
        if m.events.contains(&CourseEvent::SignalOn) {
            self.signal_from = Some(m.tick);
            self.stop_is_signals = true;
        }
        let stopped = m.events.iter().any(|e| matches!(e, CourseEvent::EmergencyStopped { .. }));
        if stopped && let Some(from) = self.signal_from.take() {
            out.chance(skill, from, m.tick);
            self.stop_is_signals = self.slowing_since.is_some();
        }
        if self.rest.see(m) == Change::MovedOff {
            self.start_from = Some(m.tick);
            if self.traffic {
                out.chance(Skill::RightOfWay, m.tick, m.tick);
            }
        }
        if speed > self.stop_from {
            self.slowing_since = Some(m.tick);
            if let Some(from) = self.start_from.take() {
                out.chance(skill, from, m.tick);
            }
        } else if speed <= self.rest_speed {
            // A start that never came up to speed was one all the same.
            if let Some(from) = self.start_from.take() {
                out.chance(skill, from, m.tick);
            }
            if let Some(from) = self.slowing_since.take() {
                if !self.stop_is_signals {
                    out.chance(skill, from, m.tick);
                }
                self.stop_is_signals = false;
            }
        }
    }

    fn people_and_ways(&mut self, m: &Moment, out: &mut Report) {
        let now = |skill, out: &mut Report| out.chance(skill, m.tick, m.tick);
        for w in m.ways.iter().filter(|w| w.crossed) {
            // To and fro over a line is one opportunity: another one needs a new way up to it.
            let at = self.driven;
            if self.lines.get(&(w.kind, w.index)).is_none_or(|last| at - last >= self.stretch_m) {
                self.lines.insert((w.kind, w.index), at);
                now(Skill::RightOfWay, out);
            }
        }
        let on = m.crossings.iter().map(|c| (c.crossing, c.truck_on));
        for _ in self.crossings.see(m.tick, self.common.again_after, on) {
            now(Skill::RightOfWay, out);
        }
        for p in m.people.iter().filter(|p| p.gap <= self.near_person) {
            if let Some(since) = p.seen_since
                && self.near.insert((p.person, since))
            {
                now(Skill::RightOfWay, out);
            }
        }
        for s in self.surprises.see(m, &self.common, 0) {
            if s.moving && matches!(s.who, Who::Person(_)) {
                now(Skill::StartingAndStopping, out);
            }
        }
    }

    fn handling(&mut self, m: &Moment, out: &mut Report) {
        for event in &m.events {
            let skill = match event {
                CourseEvent::PickedUp { .. } | CourseEvent::SetDown { .. } => Skill::ForksAndLoad,
                CourseEvent::DockChecked { .. } => Skill::Checking,
                CourseEvent::WalkRoundDone => Skill::Checking,
                _ => continue,
            };
            out.chance(skill, m.tick, m.tick);
        }
        let before = core::mem::replace(&mut self.aboard, m.rider.aboard);
        let stands = m.truck.speed.abs() <= self.rest_speed;
        if before && !m.rider.aboard && stands {
            out.chance(Skill::Leaving, m.tick, m.tick);
        }
    }

    fn stance(&mut self, m: &Moment, out: &mut Report) {
        let steer = m.truck.steer.abs();
        if steer > self.turn {
            self.turn_from.get_or_insert(m.tick);
        } else if steer < 0.5 * self.turn
            && let Some(from) = self.turn_from.take()
        {
            out.chance(Skill::Mounting, from, m.tick);
        }
        if m.truck.stepping {
            self.stepping_from.get_or_insert(m.tick);
        } else if let Some(from) = self.stepping_from.take() {
            out.chance(Skill::Mounting, from, m.tick);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::SiteRules;
    use crate::watch::test_support::Drive;

    fn count(skill: Skill, drive: &Drive) -> usize {
        let rules = SiteRules::shipped();
        let mut exposure = Exposure::new(&rules, rules.common(0.05), true);
        let mut out = Report::default();
        drive.0.iter().for_each(|m| exposure.see(m, &mut out));
        exposure.end(drive.0.len() as Tick - 1, &mut out);
        assert!(out.chances.iter().all(|c| c.from <= c.to));
        out.chances.iter().filter(|c| c.skill == skill).count()
    }

    #[test]
    fn a_stretch_is_ten_metres_either_way_and_half_of_one_at_the_end_counts() {
        // One metre a second: 640 ticks are exactly 10 m.
        let stretches = |ticks, speed| count(Skill::Steering, &Drive::new().rolling(ticks, speed));
        assert_eq!(stretches(319, 1.0), 0);
        assert_eq!(stretches(320, 1.0), 1);
        assert_eq!(stretches(640, 1.0), 1);
        assert_eq!(stretches(640 + 319, -1.0), 1);
        assert_eq!(stretches(640 + 320, -1.0), 2);
        assert_eq!(stretches(1280, 1.0), 2);
        // Creeping at no more than what counts as rest is no driving.
        assert_eq!(stretches(20_000, 0.05), 0);
    }

    #[test]
    fn a_stop_counts_from_more_than_half_a_metre_a_second_either_way() {
        let drive = |speed| Drive::new().still(1).rolling(100, speed).still(80);
        let stops = |speed| count(Skill::StartingAndStopping, &drive(speed));
        assert_eq!(stops(0.05), 0);
        assert_eq!(stops(0.5), 1);
        assert_eq!(stops(0.51), 2);
        assert_eq!(stops(-0.51), 2);
        // Standing is no faster than 5 cm/s: slowing down to that is the stop.
        let creep = Drive::new().rolling(100, 1.0).rolling(80, 0.05).rolling(80, 1.0);
        assert_eq!(count(Skill::StartingAndStopping, &creep), 3);
        assert_eq!(count(Skill::RightOfWay, &creep), 2);
    }

    #[test]
    fn a_turn_is_beyond_its_angle_and_over_at_half_of_it() {
        let steered = |angles: &[f64]| {
            let mut d = Drive::new();
            for a in angles {
                d = d.with(3, |m| m.truck.steer = a * DEG);
            }
            count(Skill::Mounting, &d)
        };
        assert_eq!(steered(&[19.9, 0.0]), 0);
        assert_eq!(steered(&[20.1, 0.0, -20.1, 0.0]), 2);
        assert_eq!(steered(&[20.1, 10.1, 20.1]), 1);
        assert_eq!(steered(&[20.1, 9.9, 20.1]), 2);
    }

    #[test]
    fn lines_crossings_and_people_are_opportunities_of_the_right_of_way() {
        use crate::moment::PersonMoment;
        use crate::watch::test_support::{crossing, person, way};
        let ways = |d: Drive| count(Skill::RightOfWay, &d);
        assert_eq!(ways(Drive::new().still(9)), 0);
        let line = |crossed| {
            Drive::new().still(3).with(1, move |m| {
                m.ways.push(way(WayKind::Blind, 0.0, crossed));
            })
        };
        assert_eq!((ways(line(true)), ways(line(false))), (1, 0));
        // To and fro is one; after ten metres, 64 a second, it is another one.
        let twice = |ticks: u32| {
            let over = |m: &mut crate::moment::Moment| {
                m.ways.push(way(WayKind::Stop, 0.0, true));
                m.truck.speed = 1.0;
            };
            Drive::new().rolling(3, 1.0).with(1, over).rolling(ticks, 1.0).with(1, over)
        };
        assert_eq!((ways(twice(638)), ways(twice(639))), (2, 3), "and the start");
        let crossing = Drive::new().still(9).all(|m| {
            let truck_on = m.tick > 3;
            m.crossings.push(crossing(truck_on, false));
        });
        assert_eq!(ways(crossing), 1);
        let comes = |gap, seen: fn(Tick) -> Option<Tick>| {
            Drive::new().still(9).all(move |m| {
                m.people.push(PersonMoment { seen_since: seen(m.tick), ..person(gap) });
            })
        };
        assert_eq!(ways(comes(10.0, |_| Some(0))), 1);
        assert_eq!(ways(comes(10.1, |_| Some(0))), 0);
        assert_eq!(ways(comes(5.0, |_| None)), 0);
        assert_eq!(ways(comes(5.0, |t| Some(t / 5 * 5))), 2);
    }

    #[test]
    fn someone_who_steps_out_is_an_opportunity_to_stop() {
        use crate::moment::PersonMoment;
        use crate::watch::test_support::person;
        let out = |speed| {
            Drive::new().rolling(20, speed).all(|m| {
                let stepped_out = (m.tick > 9).then_some(9);
                m.people.push(PersonMoment { stepped_out, ..person(20.0) });
            })
        };
        let stops = |d: &Drive| count(Skill::StartingAndStopping, d);
        // Beside the start, which the end cuts off.
        assert_eq!((stops(&out(0.4)), stops(&out(0.0))), (2, 0));
    }

    #[test]
    fn handling_leaving_and_checking_have_their_own() {
        let once = |skill, event| count(skill, &Drive::new().still(3).event(event));
        let load = Skill::ForksAndLoad;
        assert_eq!(once(load, CourseEvent::PickedUp { pallet: 0 }), 1);
        assert_eq!(once(load, CourseEvent::SetDown { bay: 0, off: 0.0, turned: 0.0 }), 1);
        assert_eq!(once(load, CourseEvent::TaskDone), 0);
        let dock = CourseEvent::DockChecked { dock: 0, refused: false };
        assert_eq!(once(Skill::Checking, dock), 1);
        assert_eq!(once(Skill::Checking, CourseEvent::WalkRoundDone), 1);
        let off = |speed| {
            let d = Drive::new().rolling(20, speed);
            count(Skill::Leaving, &d.all(|m| m.rider.aboard = !(5..15).contains(&m.tick)))
        };
        assert_eq!((off(0.05), off(0.06)), (1, 0));
    }
}

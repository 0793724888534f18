//! Hand-made drives for the watchers' tests: a row of Moments in which only what a test is about
//! differs from a truck that stands still.

use crate::controls::Controls;
use crate::course::Travel;
use crate::finding::Finding;
use crate::floor::Surface;
use crate::math::{Pose, Vec2, vec2};
use crate::moment::{
    Contact, CourseEvent, CrossingMoment, Moment, OtherMoment, PersonMoment, Place, SightMoment,
    TaskMoment, Touched, TruckMoment, WayKind, WayMoment,
};
use crate::rules::SiteRules;
use crate::rules::{Duty, duty};
use crate::watch::{Report, watcher};

/// A truck at rest in a step that asks for power unit first.
pub(crate) fn still(tick: u32) -> Moment {
    Moment {
        tick,
        controls: Controls::default(),
        truck: TruckMoment {
            platform_in_yard: vec2(1.32, 0.0),
            nose_in_yard: vec2(2.65, 0.0),
            tips_in_yard: vec2(-0.25, 0.0),
            arm: 1.0,
            fork_height: 0.035,
            wheel_loads: [8000.0, 2000.0, 2000.0],
            ..TruckMoment::default()
        },
        place: Place {
            outside_lane: false,
            zone_limit: None,
            surface: Surface::Dry,
            from_hidden: None,
        },
        contacts: Vec::new(),
        task: TaskMoment {
            step: 0,
            travel: Travel::PowerUnitFirst,
            next_gate: None,
            laps_done: 0,
            signal_since: None,
            signal_brake: None,
            pick_at: None,
            mark_ahead: None,
            done: false,
            failed: false,
        },
        sight: SightMoment { clear_ahead: 50.0, ..Moment::at_rest().sight },
        ..Moment::at_rest()
    }
}

/// Someone who stands in sight with so much room to the truck, m.
pub(crate) fn person(gap: f64) -> PersonMoment {
    PersonMoment {
        person: 0,
        at: vec2(5.0, 0.0),
        velocity: Vec2::default(),
        seen_since: Some(0),
        first_seen: Some(0),
        gap,
        time_to_collision: None,
        passing_speed: 0.0,
        place_speed: 1.0,
        stepped_out: None,
        pushed: 0.0,
    }
}

/// Another truck in sight, so far ahead on the way, m, that drives the same way.
pub(crate) fn other(ahead: f64) -> OtherMoment {
    OtherMoment {
        other: 0,
        pose: Pose::default(),
        speed: 1.0,
        gap: ahead,
        seen_since: Some(0),
        set_off: None,
        ahead: Some(ahead),
        oncoming: false,
    }
}

/// The first line of a kind.
pub(crate) fn way(kind: WayKind, ahead: f64, crossed: bool) -> WayMoment {
    WayMoment { kind, index: 0, ahead, crossed, speed: 0.0, looked: [false; 2] }
}

/// The first crossing.
pub(crate) fn crossing(truck_on: bool, wanted: bool) -> CrossingMoment {
    CrossingMoment { crossing: 0, truck_on, wanted, in_the_way: None, looked: [false; 2] }
}

/// The truck itself touches something.
pub(crate) fn contact(with: Touched, closing_speed: f64) -> Contact {
    Contact { with, closing_speed, by_load: false }
}

/// Moments in a row, from tick 0 on.
#[derive(Clone, Default)]
pub(crate) struct Drive(pub(crate) Vec<Moment>);

impl Drive {
    pub(crate) fn new() -> Self {
        Self::default()
    }

    /// So many ticks in which this is so.
    pub(crate) fn with(mut self, ticks: u32, so: impl Fn(&mut Moment)) -> Self {
        for _ in 0..ticks {
            let mut m = still(self.0.len() as u32);
            so(&mut m);
            self.0.push(m);
        }
        self
    }

    /// So many ticks at rest.
    pub(crate) fn still(self, ticks: u32) -> Self {
        self.with(ticks, |_| {})
    }

    /// So many ticks at this speed, m/s.
    pub(crate) fn rolling(self, ticks: u32, speed: f64) -> Self {
        self.with(ticks, |m| m.truck.speed = speed)
    }

    /// One tick at rest in which this happens.
    pub(crate) fn event(self, event: CourseEvent) -> Self {
        self.with(1, |m| m.events.push(event))
    }

    /// The same drive with something changed in every tick.
    pub(crate) fn all(mut self, so: impl Fn(&mut Moment)) -> Self {
        self.0.iter_mut().for_each(so);
        self
    }
}

/// What these duties, with the shipped site rules, find in a drive.
pub(crate) fn watch_all(duties: &[&Duty], drive: &Drive) -> Vec<Finding> {
    let rules = SiteRules::shipped();
    let mut out = Report::default();
    let mut watchers: Vec<_> =
        duties.iter().filter_map(|d| watcher(d, rules.yardstick(d, 0.05))).collect();
    for m in &drive.0 {
        watchers.iter_mut().for_each(|w| w.see(m, &mut out));
    }
    let last = drive.0.last().map_or(0, |m| m.tick);
    watchers.iter_mut().for_each(|w| w.end(last, &mut out));
    out.findings().to_vec()
}

/// What the watcher of one code finds.
pub(crate) fn watch(code: &str, drive: &Drive) -> Vec<Finding> {
    let found = watch_all(&[duty(code).expect("a code of the table")], drive);
    assert!(found.iter().all(|f| f.code == code && f.from <= f.to));
    found
}

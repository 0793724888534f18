//! The riders on a small kinematic truck: the real rig and travel control on wheels that never
//! slip. What they do on the simulated one is tested where the simulation is.

use proptest::prelude::*;

use super::faults;
use super::{MODEL, Rider, by_name, names};
use crate::acts::Input;
use crate::controls::{Controls, Look};
use crate::course::CONE_RADIUS;
use crate::course::Course;
use crate::course::place::place;
use crate::course::shipped;
use crate::debrief::{Debrief, Ending};
use crate::finding::Severity;
use crate::floor::Surface;
use crate::geometry::{convex_overlap, disc_overlaps, rectangle};
use crate::math::{Pose, Vec2, cos, sin, vec2, wrap_angle};
use crate::moment::{Contact, Moment, RiderMoment, SightMoment, Touched, TruckMoment};
use crate::rules::SiteRules;
use crate::run::record;
use crate::score::Judge;
use crate::task::Progress;
use crate::task::facts::Around;
use crate::task::facts::Facts;
use crate::time::{DT, TICK_RATE};
use crate::truck::rig::Rig;
use crate::truck::spec::TruckSpec;
use crate::truck::spec::shipped as trucks;

struct Yard {
    course: Course,
    truck: TruckSpec,
    rig: Rig,
    pose: Pose,
    /// Of the drive wheel along its heading, m/s.
    wheel_speed: f64,
    progress: Progress,
    judge: Judge,
    moment: Moment,
}

impl Yard {
    fn new(course: &Course, truck: &TruckSpec, seed: u64) -> Self {
        let mut yard = Self {
            rig: Rig::new(truck, course.spawn_stance),
            pose: course.spawn,
            wheel_speed: 0.0,
            progress: Progress::new(course, seed),
            judge: Judge::new(course, &SiteRules::shipped(), truck),
            moment: Moment::at_rest(),
            course: course.clone(),
            truck: truck.clone(),
        };
        yard.observe(Controls::default());
        yard
    }

    fn step(&mut self, controls: Controls) {
        let wheelbase = self.truck.geometry.wheelbase_m;
        let ask = self.rig.step(&controls, self.wheel_speed, 0.0, &self.truck);
        let mean = 0.5 * (self.wheel_speed + ask.speed);
        self.wheel_speed = ask.speed;
        let steer = self.rig.tiller.angle;
        let turn = mean * sin(steer) / wheelbase * DT;
        let ahead = Vec2::from_angle(self.pose.heading + 0.5 * turn) * (mean * cos(steer) * DT);
        self.pose =
            Pose { at: self.pose.at + ahead, heading: wrap_angle(self.pose.heading + turn) };
        self.moment.tick += 1;
        self.observe(controls);
    }

    fn observe(&mut self, controls: Controls) {
        let (pose, g, rig) = (self.pose, &self.truck.geometry, &self.rig);
        let steer = rig.tiller.angle;
        let speed = self.wheel_speed * cos(steer);
        let yaw_rate = self.wheel_speed * sin(steer) / g.wheelbase_m;
        let truck = TruckMoment {
            pose,
            platform_in_yard: pose.to_yard(self.truck.platform()),
            nose_in_yard: pose.to_yard(vec2(g.nose_x_m, 0.0)),
            tips_in_yard: pose.to_yard(vec2(g.fork_tips_x_m, 0.0)),
            speed,
            yaw_rate,
            accel_side: speed * yaw_rate,
            steer,
            steer_rate: rig.tiller.rate,
            arm: rig.arm.angle,
            arm_zone: rig.arm.zone,
            braking: rig.travel.braking,
            plugging: rig.travel.plugging,
            fork_height: rig.fork_height,
            stance: rig.stance,
            stepping: rig.stepping(),
            arm_strength: rig.tiller.arm_strength,
            horn_sounds: controls.horn,
            ..Moment::at_rest().truck
        };
        let outline: Vec<Vec2> =
            self.truck.outline().concat().into_iter().map(|p| pose.to_yard(p)).collect();
        let facts = Facts {
            tick: self.moment.tick,
            truck: &truck,
            throttle: controls.throttle,
            key_on: controls.key_on,
            outline_in_yard: &outline,
            around: Around { aboard: controls.aboard, ..Around::default() },
        };
        let (task, events) = self.progress.tick(&self.course, &facts);
        self.moment = Moment {
            tick: self.moment.tick,
            controls,
            place: place(&self.course, &pose, &self.truck),
            truck,
            contacts: self.contacts(),
            task,
            events,
            rider: RiderMoment {
                off_path: off_path(controls.look, speed),
                ..Moment::at_rest().rider
            },
            sight: SightMoment { clear_ahead: 50.0, ..Moment::at_rest().sight },
            ..Moment::at_rest()
        };
        self.judge.see(&self.moment);
    }

    fn contacts(&self) -> Vec<Contact> {
        let parts = self.truck.outline().map(|part| part.map(|p| self.pose.to_yard(p)));
        let closing_speed = self.wheel_speed.abs();
        let cones = self.course.cones.iter().enumerate().filter_map(|(i, c)| {
            let hit = parts.iter().any(|p| disc_overlaps(*c, CONE_RADIUS, p));
            hit.then_some(Contact { with: Touched::Cone(i as u32), closing_speed, by_load: false })
        });
        let solid = self.course.structures.iter().enumerate().filter_map(|(i, s)| {
            let shape = rectangle(s.pose, s.size);
            let hit = parts.iter().any(|p| convex_overlap(p, &shape));
            hit.then_some(Contact {
                with: Touched::Structure(i as u32),
                closing_speed,
                by_load: false,
            })
        });
        cones.chain(solid).collect()
    }
}

struct Ride {
    debrief: Debrief,
    seconds: f64,
    spans: usize,
}

fn ride(name: &str, course: &str, truck: &TruckSpec, seed: u64) -> Ride {
    ride_on(name, &shipped::parse(course), truck, seed)
}

fn ride_on(name: &str, course: &Course, truck: &TruckSpec, seed: u64) -> Ride {
    let mut rider: Box<dyn Rider> =
        by_name(name, course, truck, &SiteRules::shipped(), seed).unwrap();
    let mut yard = Yard::new(course, truck, seed);
    let mut spans = Vec::new();
    let most = (course.time_limit_s * f64::from(TICK_RATE)) as u32;
    while !yard.moment.task.done && !yard.moment.task.failed && yard.moment.tick < most {
        let Input { controls, .. } = rider.ride(&yard.moment);
        assert_eq!(controls, controls.clamped());
        record(&mut spans, controls);
        yard.step(controls);
    }
    let m = &yard.moment;
    let ending = match (m.task.done, m.task.failed) {
        (true, _) => Ending::Done,
        (_, true) => Ending::Failed,
        _ => Ending::TimeOut,
    };
    Ride {
        debrief: yard.judge.finish(ending, m.tick),
        seconds: f64::from(m.tick) * DT,
        spans: spans.len(),
    }
}

fn faults(d: &Debrief) -> Vec<&str> {
    d.findings.iter().filter(|f| f.severity != Severity::Good).map(|f| f.code.as_str()).collect()
}

/// Every shipped course with every truck that it has a model rider's time for.
fn all_drives() -> Vec<(&'static str, TruckSpec)> {
    let fleet = [trucks::single(), trucks::double()];
    let listed = |name: &str, t: &TruckSpec| shipped::parse(name).par_s.contains_key(&t.id);
    shipped::ALL
        .iter()
        .flat_map(|(name, _)| fleet.iter().map(move |t| (*name, t.clone())))
        .filter(|(name, t)| listed(name, t))
        .collect()
}

/// Angle between look and travel, rad, of a head that turns at once.
fn off_path(look: Look, speed: f64) -> f64 {
    use core::f64::consts::{FRAC_PI_2, PI};
    match look {
        _ if speed == 0.0 => 0.0,
        Look::Ahead if speed > 0.0 => 0.0,
        Look::Behind if speed < 0.0 => 0.0,
        Look::Left | Look::Right => FRAC_PI_2,
        Look::Ahead | Look::Behind => PI,
    }
}

#[test]
fn the_model_drives_every_course_clean_whatever_the_seed() {
    for (course, truck) in all_drives() {
        for seed in 0..6 {
            let r = ride(MODEL, course, &truck, seed);
            let at = format!("{course}, {}, seed {seed}, {:.1} s", truck.id, r.seconds);
            assert_eq!(r.debrief.ending, Ending::Done, "{at}: {:?}", r.debrief.findings);
            assert!(faults(&r.debrief).is_empty(), "{at}: {:?}", r.debrief.findings);
        }
    }
}

/// The par times in the courses are the model rider's with seed 1 in the simulation; wheels that
/// never slip are hardly quicker.
#[test]
fn par_times_are_the_models() {
    for (course, truck) in all_drives() {
        let par = shipped::parse(course).par_s[&truck.id];
        let seconds = ride(MODEL, course, &truck, 1).seconds;
        assert!((seconds / par - 1.0).abs() < 0.02, "{course}, {}: {seconds} for {par}", truck.id);
    }
}

#[test]
fn the_model_earns_the_good_deeds_that_a_course_offers() {
    for (course, deed, times) in [
        ("straight", "clean-plug", 3),
        ("straight", "gentle-start", 4),
        ("straight", "horn-before-moving", 4),
        ("emergency-stops", "quick-emergency-stop", 4),
        ("laps-clockwise", "clean-lap", 3),
        ("figure-eight", "full-task", 1),
    ] {
        let r = ride(MODEL, course, &trucks::single(), 1);
        let found = r.debrief.findings.iter().filter(|f| f.code == deed).count();
        assert_eq!(found, times, "{course} {deed}: {:?}", r.debrief.findings);
    }
}

#[test]
fn the_same_seed_drives_the_same() {
    let drive = || ride(MODEL, "figure-eight", &trucks::single(), 5);
    assert_eq!(drive().debrief, drive().debrief);
    let other = ride(MODEL, "figure-eight", &trucks::single(), 6);
    assert_ne!(drive().debrief, other.debrief);
}

/// A change of controls costs a few bytes of the run file, so hands should be quiet.
#[test]
fn hands_are_quiet() {
    for (course, truck) in all_drives() {
        let r = ride(MODEL, course, &truck, 1);
        let a_second = r.spans as f64 / r.seconds;
        assert!(a_second < 10.0, "{course}, {}: {a_second:.1} changes a second", truck.id);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Whatever a course asks for, a rider answers with controls and does not panic.
    #[test]
    fn no_course_makes_a_rider_panic(
        which in 0..shipped::ALL.len(),
        changes in proptest::collection::vec((any::<prop::sample::Index>(), b'0'..=b'9'), 0..30),
        seed: u64,
    ) {
        let mut text = shipped::ALL[which].1.as_bytes().to_vec();
        let digits: Vec<usize> = (0..text.len()).filter(|i| text[*i].is_ascii_digit()).collect();
        for (at, to) in changes {
            text[digits[at.index(digits.len())]] = to;
        }
        let Ok(course) = Course::parse("c.json", &text) else { return Ok(()) };
        let truck = trucks::single();
        let mut yard = Yard::new(&course, &truck, seed);
        let mut rider = by_name(MODEL, &course, &truck, &SiteRules::shipped(), seed).unwrap();
        for _ in 0..1500 {
            let Input { controls, .. } = rider.ride(&yard.moment);
            prop_assert_eq!(controls, controls.clamped());
            yard.step(controls);
        }
    }
}

/// Standing where the task ends: the way there has no length.
#[test]
fn a_rider_who_is_there_already_parks() {
    let mut course = shipped::parse("straight");
    course.steps.drain(..3);
    let g = trucks::single().geometry;
    let middle = 0.5 * (g.nose_x_m + g.fork_tips_x_m);
    course.spawn = Pose { at: course.boxes[0].pose.at - vec2(middle, 0.0), heading: 0.0 };
    let r = ride_on(MODEL, &course, &trucks::single(), 1);
    assert_eq!(r.debrief.ending, Ending::Done, "{:?}", r.debrief.findings);
}

#[test]
fn riders_have_names_of_their_own_and_strangers_are_not_known() {
    let mut all: Vec<String> = names().collect();
    let course = shipped::parse("straight");
    for name in &all {
        let rules = SiteRules::shipped();
        assert!(by_name(name, &course, &trucks::single(), &rules, 1).is_some());
    }
    assert!(by_name("nobody", &course, &trucks::single(), &SiteRules::shipped(), 1).is_none());
    let count = all.len();
    all.sort_unstable();
    all.dedup();
    assert_eq!(all.len(), count);
    for way in faults::all().flat_map(|f| [&f.over, &f.inside]) {
        for (course, truck) in way.on {
            assert!(shipped::text_of_any(course).is_some(), "{course}");
            assert!(["single", "double"].contains(truck), "{truck}");
        }
    }
    assert_eq!(course.surface, Surface::Dry);
}

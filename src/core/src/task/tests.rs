//! The task as it is driven: a truck of points is led along and the events are read off.

use crate::controls::Controls;
use crate::course::shipped::parse;
use crate::course::{BrakeZone, Course, StepKind};
use crate::math::{Pose, Vec2, vec2};
use crate::moment::{CourseEvent, TaskMoment, TruckMoment};
use crate::task::Progress;
use crate::task::facts::Around;
use crate::task::facts::Facts;
use crate::time::{DT, TICK_RATE};
use crate::truck::arm::ArmZone;
use crate::truck::spec::TruckSpec;
use crate::truck::spec::shipped::single;

struct Yard {
    course: Course,
    spec: TruckSpec,
    progress: Progress,
    truck: TruckMoment,
    tick: u32,
    events: Vec<(u32, CourseEvent)>,
    task: Option<TaskMoment>,
    throttle: i8,
    key_on: bool,
    aboard: bool,
}

impl Yard {
    fn new(course: Course, seed: u64) -> Self {
        let spec = single();
        let progress = Progress::new(&course, seed);
        let truck = TruckMoment {
            pose: course.spawn,
            arm: spec.arm.hold,
            fork_height: 0.035,
            ..TruckMoment::default()
        };
        let throttle = Controls::default().throttle;
        let (key_on, aboard) = (true, true);
        let (tick, events, task) = (0, vec![], None);
        let mut yard =
            Self { course, spec, progress, truck, tick, events, task, throttle, key_on, aboard };
        let pose = yard.truck.pose;
        yard.to(pose, 0.0);
        yard
    }

    /// One tick that ends at a pose.
    fn to(&mut self, pose: Pose, speed: f64) {
        let g = &self.spec.geometry;
        self.truck.pose = pose;
        self.truck.speed = speed;
        self.truck.platform_in_yard = pose.to_yard(self.spec.platform());
        self.truck.nose_in_yard = pose.to_yard(vec2(g.nose_x_m, 0.0));
        self.truck.tips_in_yard = pose.to_yard(vec2(g.fork_tips_x_m, 0.0));
        let outline: Vec<Vec2> =
            self.spec.outline().into_iter().flatten().map(|p| pose.to_yard(p)).collect();
        let facts = Facts {
            tick: self.tick,
            truck: &self.truck,
            throttle: self.throttle,
            key_on: self.key_on,
            outline_in_yard: &outline,
            around: Around { aboard: self.aboard, ..Around::default() },
        };
        let (task, events) = self.progress.tick(&self.course, &facts);
        self.events.extend(events.into_iter().map(|e| (self.tick, e)));
        self.task = Some(task);
        self.tick += 1;
    }

    /// Straight ahead along the heading, with a speed (negative: forks first), so many metres.
    fn drive(&mut self, metres: f64, speed: f64) {
        let ticks = (metres / speed.abs() / DT).round() as u32;
        for _ in 0..ticks {
            let mut pose = self.truck.pose;
            pose.at = pose.at + Vec2::from_angle(pose.heading) * (speed * DT);
            self.to(pose, speed);
        }
    }

    fn wait(&mut self, seconds: f64) {
        for _ in 0..(seconds / DT).round() as u32 {
            self.to(self.truck.pose, 0.0);
        }
    }

    /// Puts the platform a metre before the middle of a gate and drives it through, there or back.
    fn through(&mut self, gate: &str, right_way: bool) {
        let gate = self.course.gates.iter().find(|g| g.id == gate).unwrap();
        let ahead = if right_way { gate.direction() } else { -gate.direction() };
        let at = gate.middle() - ahead * (1.0 + self.spec.geometry.platform_x_m);
        self.set_down(Pose { at, heading: ahead.angle() });
        self.drive(2.0, 1.0);
    }

    /// Sets the truck down elsewhere without moving through what lies between.
    fn set_down(&mut self, pose: Pose) {
        self.progress.lift();
        self.to(pose, 0.0);
    }

    fn task(&self) -> TaskMoment {
        self.task.unwrap()
    }

    fn happened(&self) -> Vec<CourseEvent> {
        self.events.iter().map(|(_, e)| *e).collect()
    }
}

fn gate(course: &Course, id: &str) -> u32 {
    course.gates.iter().position(|g| g.id == id).unwrap() as u32
}

#[test]
fn rounds_are_counted_and_the_task_goes_on_to_the_box() {
    let mut y = Yard::new(parse("laps-counter-clockwise"), 1);
    assert_eq!(y.task().next_gate, Some(gate(&y.course, "east")));
    for lap in 1..=3 {
        for id in ["east", "north", "west", "south"] {
            y.through(id, true);
        }
        assert!(y.happened().contains(&CourseEvent::LapDone { laps: lap }));
    }
    assert_eq!(y.task().step, 1);
    assert!(
        !y.happened().iter().any(|e| matches!(
            e,
            CourseEvent::GateMissed { .. } | CourseEvent::GateWrongWay { .. }
        ))
    );
    let mut park = y.course.boxes[0].pose;
    park.at = park.at - Vec2::from_angle(park.heading) * 1.2;
    y.set_down(park);
    y.wait(2.0);
    assert!(!y.task().done, "the forks are up");
    y.truck.fork_height = 0.0;
    y.throttle = 20;
    y.wait(2.0);
    assert!(!y.task().done, "the throttle is not in neutral");
    y.throttle = 0;
    y.wait(1.0);
    assert!(y.task().done);
    let end: Vec<CourseEvent> = y.happened().into_iter().rev().take(3).collect();
    assert_eq!(
        end,
        [CourseEvent::TaskDone, CourseEvent::StepDone { step: 1 }, CourseEvent::Parked]
    );
}

#[test]
fn a_gate_out_of_turn_is_missed_and_the_due_one_stays_due() {
    let mut y = Yard::new(parse("laps-counter-clockwise"), 1);
    let (east, north) = (gate(&y.course, "east"), gate(&y.course, "north"));
    y.through("north", true);
    assert_eq!(y.happened(), [CourseEvent::GateMissed { gate: east }]);
    assert_eq!(y.task().next_gate, Some(east));
    // Back over it: the error is undone, and nothing is added.
    y.drive(2.0, -1.0);
    assert_eq!(y.happened().len(), 1);
    y.through("east", true);
    y.through("north", true);
    assert_eq!(
        y.happened()[1..],
        [CourseEvent::GatePassed { gate: east }, CourseEvent::GatePassed { gate: north }]
    );
    assert!(!y.task().failed);
}

#[test]
fn to_and_fro_over_the_gate_that_counted_is_no_error() {
    let mut y = Yard::new(parse("laps-counter-clockwise"), 1);
    y.through("east", true);
    for _ in 0..3 {
        y.drive(2.0, -1.0);
        y.drive(2.0, 1.0);
    }
    assert_eq!(y.happened().len(), 1);
}

#[test]
fn the_third_error_fails_the_task() {
    let mut y = Yard::new(parse("laps-counter-clockwise"), 1);
    let east = gate(&y.course, "east");
    for n in 1..=3 {
        y.through("east", false);
        assert_eq!(y.happened().len(), n);
        assert_eq!(y.happened()[n - 1], CourseEvent::GateWrongWay { gate: east });
        assert_eq!(y.task().failed, n == 3);
    }
    y.through("east", true);
    assert_eq!(y.happened().len(), 3, "a failed task goes no further");
}

/// Both roads of the figure-eight cross in the middle, each with a gate of its own there.
#[test]
fn the_crossing_of_the_figure_eight_counts_only_the_road_that_is_driven() {
    let mut y = Yard::new(parse("figure-eight"), 1);
    for _ in 0..2 {
        for id in [
            "cross-to-right",
            "right-top",
            "right-far",
            "right-bottom",
            "cross-to-left",
            "left-top",
            "left-far",
            "left-bottom",
        ] {
            y.through(id, true);
        }
    }
    assert_eq!(y.task().step, 1);
    assert!(y.happened().iter().all(|e| matches!(
        e,
        CourseEvent::GatePassed { .. } | CourseEvent::LapDone { .. } | CourseEvent::StepDone { .. }
    )));
}

#[test]
fn a_stop_at_the_mark_is_measured_from_the_nose() {
    let mut y = Yard::new(parse("straight"), 1);
    let nose = y.course.spawn.at.x + y.spec.geometry.nose_x_m;
    assert!((y.task().mark_ahead.unwrap() - (18.0 - nose)).abs() < 1e-9);
    y.wait(1.0);
    assert!(y.events.is_empty(), "standing at the start is no stop");
    // Far short of the mark is not yet the stop; then close enough.
    y.drive(18.0 - nose - 3.0, 2.0);
    y.wait(1.0);
    assert!(y.events.is_empty());
    y.drive(2.95, 1.0);
    y.wait(0.2);
    assert!(y.events.is_empty());
    y.wait(0.1);
    let CourseEvent::StoppedAtMark { short_by, within, .. } = y.happened()[0] else { panic!() };
    assert!((short_by - 0.05).abs() < 0.02 && within, "{short_by}");
    assert_eq!(y.happened()[1], CourseEvent::StepDone { step: 0 });
    // Past the second mark.
    y.drive(14.35, 2.0);
    y.wait(0.3);
    let CourseEvent::StoppedAtMark { short_by, within, .. } = y.happened()[2] else { panic!() };
    assert!(short_by < -0.25 && !within, "{short_by}");
}

#[test]
fn an_emergency_stop_is_measured_from_the_signal() {
    let mut y = Yard::new(parse("emergency-stops"), 7);
    y.drive(4.0, 2.0);
    assert_eq!(y.task().signal_since, None);
    let mut ticks = 0;
    while y.task().signal_since.is_none() {
        y.drive(2.0 * DT, 2.0);
        ticks += 1;
        assert!(ticks < 64 * 6, "no signal");
    }
    assert_eq!(y.task().signal_brake, Some(BrakeZone::Upper));
    let signal = y.tick - 1;
    y.drive(1.0, 2.0);
    y.truck.arm_zone = ArmZone::UpperBrake;
    y.drive(0.5, 2.0);
    y.wait(0.3);
    let CourseEvent::EmergencyStopped { distance, reaction_s, used } = y
        .happened()
        .into_iter()
        .find(|e| matches!(e, CourseEvent::EmergencyStopped { .. }))
        .unwrap()
    else {
        panic!()
    };
    assert!((distance - 1.5).abs() < 1e-9, "{distance}");
    assert_eq!(reaction_s, Some(0.5 + DT));
    assert_eq!(used, Some(BrakeZone::Upper));
    assert_eq!(y.task().step, 1);
    assert!(y.events.iter().any(|(t, e)| *t == signal && *e == CourseEvent::SignalOn));
}

/// Tick of the signal after the trigger line, for a seed and a speed.
fn signal_tick(seed: u64, speed: f64, braked_early: bool) -> Option<u32> {
    let mut y = Yard::new(parse("emergency-stops"), seed);
    for _ in 0..(20.0 / speed / DT) as u32 {
        let crossed = y.truck.nose_in_yard.x > -2.0;
        if crossed && braked_early {
            y.truck.arm_zone = ArmZone::LowerBrake;
        }
        y.drive(speed * DT, speed);
        if let Some(t) = y.task().signal_since {
            return Some(t);
        }
    }
    None
}

#[test]
fn the_signal_hangs_on_the_seed_and_on_the_speed() {
    assert_eq!(signal_tick(1, 2.0, false), signal_tick(1, 2.0, false));
    let drawn: std::collections::BTreeSet<u32> =
        (0..40).filter_map(|s| signal_tick(s, 2.0, false)).collect();
    assert!(drawn.len() > 15, "{drawn:?}");
    let spread = f64::from(drawn.last().unwrap() - drawn.first().unwrap()) / f64::from(TICK_RATE);
    assert!((0.8..=1.2).contains(&spread), "{spread} s of 1.2 s");
    assert_eq!(signal_tick(1, 1.4, false), None, "too slow at the trigger");
    assert_eq!(signal_tick(1, 2.0, true), None, "braked before the signal");
}

#[test]
fn a_stop_without_the_arm_is_reported_and_may_be_tried_again() {
    let mut y = Yard::new(parse("emergency-stops"), 3);
    while y.task().signal_since.is_none() {
        y.drive(2.0 * DT, 2.0);
    }
    y.wait(0.5);
    assert!(matches!(
        y.happened()[1],
        CourseEvent::EmergencyStopped { reaction_s: None, used: None, .. }
    ));
    assert_eq!(y.task().step, 0);
    assert_eq!(y.task().signal_since, None);
    assert!(matches!(y.course.steps[0].what, StepKind::EmergencyStop { .. }));
}

#[test]
fn a_truck_that_is_to_be_left_is_parked_with_the_key_off_and_nobody_aboard() {
    let mut course = parse("pretest-leaving");
    course.steps.remove(0);
    let mut y = Yard::new(course, 1);
    let mut park = y.course.boxes[0].pose;
    park.at = park.at - Vec2::from_angle(park.heading) * 1.2;
    y.set_down(park);
    y.truck.fork_height = 0.0;
    for (key_on, aboard) in [(true, true), (false, true), (true, false)] {
        (y.key_on, y.aboard) = (key_on, aboard);
        y.wait(2.0);
        assert!(!y.task().done, "key {key_on}, aboard {aboard}");
    }
    y.key_on = false;
    y.wait(0.9);
    assert!(!y.task().done, "it stands so for less than a second");
    y.wait(0.2);
    assert!(y.task().done);
}

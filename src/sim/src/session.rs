//! One drive, tick by tick: controls in, a moment out, and everything recorded on the way.

use std::sync::Arc;

use bevy::prelude::World;
use coneyard_core::controls::Controls;
use coneyard_core::course::handling::Around;
use coneyard_core::course::place::place;
use coneyard_core::course::progress::{Facts, Progress};
use coneyard_core::debrief::{Debrief, Ending};
use coneyard_core::desk::DriveSetup;
use coneyard_core::finding::{Finding, TICK_RATE, Tick};
use coneyard_core::math::{Vec2, vec2};
use coneyard_core::moment::{Moment, TruckMoment};
use coneyard_core::outside::BadInput;
use coneyard_core::run::digest::{Chain, Digest};
use coneyard_core::run::file::SIMULATION;
use coneyard_core::run::state::State;
use coneyard_core::run::{FULL_PACE, Run, Span, TICKS_MOST, record};
use coneyard_core::score::Judge;
use coneyard_core::truck::rig::Rig;

use crate::Setting;
use crate::frame::{ConeFrame, Frame};
use crate::motion::{Hands, Motion, RigState, Scene, Ticking, prepare};
use crate::spawn::build;
use crate::surroundings::Surroundings;

/// A drive in progress.
pub struct Session {
    setup: DriveSetup,
    world: World,
    tick: Ticking,
    around: Surroundings,
    outline: Vec<Vec2>,
    progress: Progress,
    judge: Judge,
    chain: Chain,
    spans: Vec<Span>,
    digests: Vec<Digest>,
    moment: Moment,
    cones: Arc<[ConeFrame]>,
    ending: Option<Ending>,
    time_limit: Tick,
}

impl Session {
    /// Sets the yard up at the start of a drive.
    ///
    /// # Errors
    /// One sentence with the file and the place that cannot be used.
    pub fn new(setup: &DriveSetup) -> Result<Self, BadInput> {
        let setting = Setting::open(setup)?;
        let (mut world, init) = build(&setting);
        let rig = Rig::new(&setting.truck, setting.course.spawn_stance);
        let progress = Progress::new(&setting.course, u64::from(setup.seed));
        let judge = Judge::new(&setting.course, &setting.rules, &setting.truck);
        let time_limit =
            ((setting.course.time_limit_s * f64::from(TICK_RATE)) as Tick).min(TICKS_MOST);
        let outline = setting.truck.outline().concat();
        let around = Surroundings::new(&mut world, init, &setting, u64::from(setup.seed));
        let tick = prepare(&mut world, setting, rig);
        let mut session = Self {
            setup: setup.clone(),
            world,
            tick,
            around,
            outline,
            progress,
            judge,
            chain: Chain::new(setup, SIMULATION),
            spans: Vec::new(),
            digests: Vec::new(),
            moment: Moment::at_rest(),
            cones: Arc::from([]),
            ending: None,
            time_limit,
        };
        session.cones = session.around.cones(&session.world).collect();
        session.observe(0, Controls::default());
        Ok(session)
    }

    /// One tick of 1/64 s. A drive that has ended stays as it is.
    pub fn step(&mut self, controls: Controls) -> &Moment {
        if self.ending.is_some() {
            return &self.moment;
        }
        let controls = controls.clamped();
        self.world.resource_mut::<Hands>().0 = controls;
        self.around.before(&mut self.world, &self.moment);
        self.tick.ask.run(&mut self.world);
        self.around.touch(&mut self.world);
        self.tick.go.run(&mut self.world);
        self.around.handle(&mut self.world, &controls);
        record(&mut self.spans, controls);
        self.chain.controls(controls);

        let now = self.moment.tick + 1;
        if !self.around.cones(&self.world).eq(self.cones.iter().copied()) {
            self.cones = self.around.cones(&self.world).collect();
        }
        self.observe(now, controls);
        if now.is_multiple_of(TICK_RATE) {
            self.close_second();
        }
        self.ending = self.ending_now();
        &self.moment
    }

    /// What is true now.
    pub fn moment(&self) -> &Moment {
        &self.moment
    }

    /// How the drive ended, once it has.
    pub fn ending(&self) -> Option<Ending> {
        self.ending
    }

    /// Findings so far, in order of their first tick.
    pub fn findings(&self) -> &[Finding] {
        self.judge.findings()
    }

    /// Course, truck and rules.
    pub fn setting(&self) -> &Setting {
        &self.world.resource::<Scene>().0
    }

    /// What is driven, by whom.
    pub fn setup(&self) -> &DriveSetup {
        &self.setup
    }

    /// The controls recorded so far.
    pub fn spans(&self) -> &[Span] {
        &self.spans
    }

    /// The picture of this tick.
    pub fn frame(&self) -> Frame {
        let rig = &self.world.resource::<RigState>().0;
        let (m, spec) = (&self.moment, &self.setting().truck);
        let step_phase = 1.0 - rig.step_left / spec.tiller.step_across_s;
        let mut frame = Frame {
            tick: m.tick,
            truck: m.truck.pose,
            speed: m.truck.speed,
            deceleration: 0.0,
            steer: m.truck.steer,
            arm: m.truck.arm,
            arm_zone: m.truck.arm_zone,
            fork_height: m.truck.fork_height,
            stance: m.truck.stance,
            step_phase,
            look: m.controls.look,
            horn: m.controls.horn && m.controls.key_on,
            braking: m.truck.braking,
            plugging: m.truck.plugging,
            drive_wheel_slips: m.truck.drive_wheel_slips,
            load_wheels_slip: m.truck.load_wheels_slip,
            throttle: m.controls.throttle,
            cones: self.cones.clone(),
            aboard: m.rider.aboard,
            head: m.rider.head,
            eye: m.truck.platform_in_yard,
            view: Arc::from([]),
            people: Arc::from([]),
            others: Arc::from([]),
            pallets: Arc::from([]),
            cases: Arc::from([]),
            docks: Arc::from([]),
        };
        self.around.fill(&self.world, &mut frame);
        frame
    }

    /// Ends a drive at full pace where it is. `time_ratio` is the simulated time over the time on the
    /// wall.
    pub fn finish(self, time_ratio: f64) -> Run {
        self.finish_at(time_ratio, FULL_PACE)
    }

    /// The same for a drive whose slowest pace was `pace`, simulated seconds for one on the wall.
    pub fn finish_at(mut self, time_ratio: f64, pace: f64) -> Run {
        let (last, debrief) = self.close(time_ratio, pace);
        self.digests.push(last);
        Run {
            setup: self.setup,
            time_ratio,
            pace,
            controls: self.spans,
            digests: self.digests,
            claimed: debrief,
        }
    }

    /// The last digest and the debrief.
    pub(crate) fn close(&mut self, time_ratio: f64, pace: f64) -> (Digest, Debrief) {
        self.chain.f64(time_ratio);
        self.chain.f64(pace);
        self.hash_state();
        let last = self.chain.close_second();
        let ending = self.ending.unwrap_or(Ending::Broken);
        (last, self.judge.finish(ending, self.moment.tick))
    }

    /// The digests of all full seconds so far.
    pub(crate) fn digests(&self) -> &[Digest] {
        &self.digests
    }

    fn ending_now(&self) -> Option<Ending> {
        let m = &self.moment;
        if m.truck.tipped {
            Some(Ending::Tipped)
        } else if m.task.done {
            Some(Ending::Done)
        } else if m.task.failed {
            Some(Ending::Failed)
        } else if m.tick >= self.time_limit {
            Some(Ending::TimeOut)
        } else {
            None
        }
    }

    /// Fills the moment from the world, lets the task and the judge see it.
    fn observe(&mut self, tick: Tick, controls: Controls) {
        let truck = self.truck_now();
        let outline: Vec<Vec2> = self.outline.iter().map(|p| truck.pose.to_yard(*p)).collect();
        let scene = &self.world.resource::<Scene>().0;
        let mut moment = Moment {
            controls,
            place: place(&scene.course, &truck.pose, &scene.truck),
            truck,
            ..Moment::at_rest()
        };
        let step = scene.course.steps.get(self.moment.task.step as usize);
        let travel = step.map_or(self.moment.task.travel, |s| s.travel);
        self.around.observe(&self.world, tick, travel, &mut moment);
        let floor = self.around.loads.on_floor();
        let facts = Facts {
            tick,
            truck: &moment.truck,
            throttle: controls.throttle,
            key_on: controls.key_on,
            outline_in_yard: &outline,
            around: Around {
                aboard: controls.aboard,
                carried: &self.around.loads.carried,
                floor: &floor,
                docks: &moment.docks,
            },
        };
        let (task, events) = self.progress.tick(&scene.course, &facts);
        self.moment = Moment { task, events, ..moment };
        self.judge.see(&self.moment);
    }

    fn truck_now(&self) -> TruckMoment {
        let Setting { truck: spec, .. } = self.setting();
        let motion = self.world.resource::<Motion>();
        let body = &motion.body;
        let rig = &self.world.resource::<RigState>().0;
        let pose = motion.pose;
        let axle = motion.twist.at(Vec2::default(), body.com);
        let wheel = motion.twist.at(vec2(spec.geometry.wheelbase_m, 0.0), body.com);
        let surface = coneyard_core::course::place::surface_at(
            &self.setting().course,
            pose.to_yard(vec2(spec.geometry.wheelbase_m, 0.0)),
        );
        let torque = coneyard_core::truck::tiller::scrub_torque(
            motion.loads.drive,
            spec.friction_on(surface),
            spec.geometry.drive_wheel_width_m,
            wheel.length(),
            spec.tiller.scrub_fade_mps,
        );
        TruckMoment {
            pose,
            platform_in_yard: pose.to_yard(spec.platform()),
            nose_in_yard: pose.to_yard(vec2(spec.geometry.nose_x_m, 0.0)),
            tips_in_yard: pose.to_yard(vec2(spec.geometry.fork_tips_x_m, 0.0)),
            speed: axle.x,
            yaw_rate: motion.twist.yaw_rate,
            accel_long: motion.acceleration.x,
            accel_side: motion.acceleration.y,
            steer: rig.tiller.angle,
            steer_rate: rig.tiller.rate,
            arm: rig.arm.angle,
            arm_zone: rig.arm.zone,
            braking: rig.travel.braking,
            plugging: rig.travel.plugging,
            high_speed_on: rig.travel.high_speed_on,
            fork_height: rig.fork_height,
            stance: rig.stance,
            stepping: rig.stepping(),
            arm_strength: rig.tiller.arm_strength,
            arm_torque: if rig.tiller.arm_works { torque } else { 0.0 },
            drive_wheel_slips: motion.solved.is_some_and(|s| s.drive_slips),
            load_wheels_slip: motion.solved.is_some_and(|s| s.load_slips),
            wheel_loads: [motion.loads.drive, motion.loads.left, motion.loads.right],
            tipped: motion.tipped,
        }
    }

    fn close_second(&mut self) {
        self.hash_state();
        let digest = self.chain.close_second();
        self.digests.push(digest);
    }

    /// The bits of everything the next tick depends on.
    fn hash_state(&mut self) {
        let chain = &mut self.chain;
        self.moment.tick.digest(chain);
        self.world.resource::<Motion>().digest(chain);
        self.world.resource::<RigState>().0.digest(chain);
        self.progress.digest(chain);
        self.around.digest(&self.world, chain);
    }
}

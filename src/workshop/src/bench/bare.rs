//! The whole tick beside the bare step of the engine: the same bodies, carried along in the same way, in
//! the same run, by turns of a second, so that whatever else the computer does meets both.

use std::cell::RefCell;
use std::time::{Duration, Instant};

use coneyard::trouble::Trouble;
use coneyard_core::acts::Input;
use coneyard_core::course::Course;
use coneyard_core::drive::Drive;
use coneyard_core::math::{Pose, Vec2};
use coneyard_core::run::Run;
use coneyard_core::state::chain::Chain;
use coneyard_core::truck::loads::RigidBody;
use coneyard_core::yard::Setting;
use coneyard_core::yard::contacts::{Carried, Contacts, Given, Met};
use coneyard_core::yard::loads::{Fallen, Loads};
use coneyard_core::yard::trucks::Others;
use coneyard_sim::{Engine, Session};

/// Ticks of each turn.
const TURN: usize = 64;
/// Measured for at least this long.
const AT_LEAST: Duration = Duration::from_millis(3000);

/// What was measured.
pub(super) struct Beside {
    ticks: f64,
    whole: Duration,
    bare: Duration,
    /// How often memory is asked for in a tick after the first second: in all of it, and by the
    /// engine's step alone.
    pub(super) allocations: [f64; 2],
}

impl Beside {
    /// The whole tick, microseconds.
    pub(super) fn tick_us(&self) -> f64 {
        self.whole.as_secs_f64() / self.ticks * 1e6
    }

    /// The engine's step alone, microseconds.
    pub(super) fn bare_us(&self) -> f64 {
        self.bare.as_secs_f64() / self.ticks * 1e6
    }
}

/// Drives a run again and again, and the engine's bodies alone beside it.
///
/// # Errors
/// One sentence when the run cannot be driven, or the bodies alone do not go where they went in it:
/// where the engine has more to do than to carry and to push, this is no measure of it.
pub(super) fn measure(run: &Run) -> Result<Beside, Trouble> {
    let inputs: Vec<Input> = run.each_tick().collect();
    let (_, calls) = noted(run, &inputs)?;
    let mut beside =
        Beside { ticks: 0.0, whole: Duration::ZERO, bare: Duration::ZERO, allocations: [0.0; 2] };
    beside.allocations = allocations(run, &inputs, &calls)?;
    while beside.whole + beside.bare < AT_LEAST {
        let mut session = Session::new(&run.setup)?;
        // Only its bodies at the start are wanted.
        let (mut bare, _) = noted(run, &[])?;
        let mut last = Pose::default();
        for (inputs, calls) in inputs.chunks(TURN).zip(calls.chunks(TURN)) {
            let begun = Instant::now();
            for input in inputs {
                session.step(input.clone());
            }
            let between = Instant::now();
            for (given, met) in calls {
                last = bare.carry(*given, met).pose;
            }
            beside.whole += between - begun;
            beside.bare += between.elapsed();
        }
        beside.ticks += inputs.len() as f64;
        if last != session.moment().truck.pose {
            return Err(Trouble::Here(
                "the engine's bodies alone did not go where they went in the drive, so its step \
                 cannot be measured beside it"
                    .to_owned(),
            ));
        }
    }
    Ok(beside)
}

/// How often memory is asked for in a tick, on average, after the first second.
fn allocations(run: &Run, inputs: &[Input], calls: &[Call]) -> Result<[f64; 2], Trouble> {
    let mut session = Session::new(&run.setup)?;
    let (first, rest) = inputs.split_at(TURN.min(inputs.len()));
    for input in first {
        session.step(input.clone());
    }
    let counted = allocation_counter::measure(|| {
        for input in rest {
            session.step(input.clone());
        }
    });
    let (mut bare, _) = noted(run, &[])?;
    let (first, calls) = calls.split_at(TURN.min(calls.len()));
    for (given, met) in first {
        bare.carry(*given, met);
    }
    let by_engine = allocation_counter::measure(|| {
        for (given, met) in calls {
            bare.carry(*given, met);
        }
    });
    let ticks = rest.len().max(1) as f64;
    Ok([counted, by_engine].map(|count| count.count_total as f64 / ticks))
}

/// One tick's call of the engine.
type Call = (Given, Vec<Met>);

thread_local! {
    /// What the drive on this thread hands to its engine, and a second engine as it was at the start.
    static NOTES: RefCell<(Option<Engine>, Vec<Call>)> = const { RefCell::new((None, Vec::new())) };
}

/// Drives with an engine that takes notes: the bodies at the start, and each tick's call.
fn noted(run: &Run, inputs: &[Input]) -> Result<(Engine, Vec<Call>), Trouble> {
    NOTES.take();
    let mut drive = Drive::<Noting>::new(&run.setup)?;
    for input in inputs {
        drive.step(input.clone());
    }
    let (bare, calls) = NOTES.take();
    let bare = bare.ok_or_else(|| Trouble::Here("the drive had no engine".to_owned()))?;
    Ok((bare, calls))
}

/// An engine that notes what it is given.
struct Noting(Engine);

impl Contacts for Noting {
    fn new(setting: &Setting, loads: &Loads, others: &Others) -> Self {
        let bare = Engine::new(setting, loads, others);
        NOTES.with_borrow_mut(|(at_the_start, _)| *at_the_start = Some(bare));
        Self(Engine::new(setting, loads, others))
    }

    fn weigh(&mut self, body: &RigidBody) {
        self.0.weigh(body);
    }

    fn arrange(&mut self, course: &Course, loads: &Loads) {
        self.0.arrange(course, loads);
    }

    fn drop(&mut self, fallen: &Fallen) {
        self.0.drop(fallen);
    }

    fn move_others(&mut self, others: &Others) {
        self.0.move_others(others);
    }

    fn rub(&mut self) {
        self.0.rub();
    }

    fn carry(&mut self, given: Given, met: &[Met]) -> Carried {
        NOTES.with_borrow_mut(|(_, calls)| calls.push((given, met.to_vec())));
        self.0.carry(given, met)
    }

    fn cone(&self, index: usize) -> Option<Vec2> {
        self.0.cone(index)
    }

    fn pallet(&self, index: usize) -> Option<(Pose, f64)> {
        self.0.pallet(index)
    }

    fn cases(&self) -> impl Iterator<Item = (Pose, Vec2)> {
        self.0.cases()
    }

    fn digest(&self, chain: &mut Chain) {
        self.0.digest(chain);
    }
}

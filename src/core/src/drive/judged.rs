//! A run judged by other rules than its own. Nothing of it moves otherwise: people step out where they did, by the
//! limits of the run's own rules, and only what is measured and what is found goes by the others.
//!
//! Where a rule reaches into the task (how a check at a dock or a point of the truck is made), the drive by its own rules
//! goes along, and as soon as anybody moves otherwise there, the answer is that there is none.

use super::Drive;
use crate::acts::Input;
use crate::debrief::Ending;
use crate::math::{Pose, Vec2};
use crate::moment::Moment;
use crate::outside::BadInput;
use crate::rules::SiteRules;
use crate::run::{CannotJudge, JudgedBy, Run};
use crate::yard::Setting;
use crate::yard::contacts::Contacts;

/// Shared numbers that decide when a step of a task is done.
const IN_THE_TASK: [&str; 4] = ["check-reach", "check-time", "check-aside", "look-closer"];

/// A run that is being judged by other rules, in as many pieces as one likes.
pub struct JudgingBy<C> {
    drive: Drive<C>,
    /// The same by the run's own rules, where it could come otherwise.
    beside: Option<Drive<C>>,
    inputs: std::vec::IntoIter<Input>,
    ticks: u32,
    time_ratio: f64,
    pace: f64,
    /// It ended by itself, not by its rider.
    ended: bool,
}

impl<C: Contacts> JudgingBy<C> {
    /// Sets the yard up.
    ///
    /// # Errors
    /// One sentence with the file and the place that cannot be used.
    pub fn new(run: &Run, rules: SiteRules) -> Result<Self, BadInput> {
        let own = Setting::open(&run.setup)?;
        let differs = |name: &str| rules.term(name) != own.rules.term(name);
        let beside = match IN_THE_TASK.iter().copied().any(differs) {
            true => Some(Drive::again(run)?),
            false => None,
        };
        let by = own.judged_by(&run.setup, rules)?;
        let drive = Drive { format: run.format, ..Drive::of(&run.setup, by) };
        let inputs: Vec<Input> = run.each_tick().collect();
        Ok(Self {
            drive,
            beside,
            inputs: inputs.into_iter(),
            ticks: run.ticks(),
            time_ratio: run.time_ratio,
            pace: run.pace,
            ended: run.claimed.ending != Ending::Broken,
        })
    }

    /// Drives so many ticks of it; says how far it is, or what came of it.
    pub fn go_on(&mut self, ticks: u32) -> JudgedBy {
        for _ in 0..ticks {
            if self.drive.ending().is_some() {
                return self.done();
            }
            let Some(input) = self.inputs.next() else {
                return self.done();
            };
            self.drive.step(input.clone());
            if let Some(beside) = &mut self.beside {
                beside.step(input);
                if places(beside.moment()) != places(self.drive.moment()) {
                    return JudgedBy::Cannot(CannotJudge::WouldBeOtherwise);
                }
            }
        }
        JudgedBy::Working(1.0 - self.inputs.len() as f64 / f64::from(self.ticks.max(1)))
    }

    fn done(&mut self) -> JudgedBy {
        if self.ended && self.drive.ending().is_none() {
            return JudgedBy::Cannot(CannotJudge::WouldGoOn);
        }
        let (_, debrief) = self.drive.close(self.time_ratio, self.pace);
        JudgedBy::Done(debrief)
    }

    /// How it stands by the other rules.
    pub fn moment(&self) -> &Moment {
        self.drive.moment()
    }
}

/// Where the truck and everybody is, and how fast the truck is.
fn places(m: &Moment) -> (Pose, f64, Vec<Vec2>) {
    (m.truck.pose, m.truck.speed, m.people.iter().map(|p| p.at).collect())
}

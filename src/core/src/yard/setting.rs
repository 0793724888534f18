//! What a drive takes place in: course, truck and site rules, read from their texts.

use crate::checks::draw::{Drawn, Mode};
use crate::checks::list::CheckList;
use crate::checks::walk::Truck;
use crate::controls::{ArmAsk, Controls};
use crate::course::check::check;
use crate::course::{Course, Zone};
use crate::outside::BadInput;
use crate::rules::SiteRules;
use crate::run::DriveSetup;
use crate::truck::condition::{Condition, Machine};
use crate::truck::loads::RigidBody;
use crate::truck::spec::TruckSpec;

/// Course, truck and rules of one drive, checked against each other.
#[derive(Clone, Debug)]
pub struct Setting {
    /// The course.
    pub course: Course,
    /// The truck as its plate has it.
    pub truck: TruckSpec,
    /// And what has become of it.
    pub condition: Condition,
    /// The truck as it stands there to be inspected, where the course begins with a walk-round.
    pub inspected: Option<Truck>,
    /// The site rules.
    pub rules: SiteRules,
    /// The speed limits by which people step out: those of the drive itself, whatever it is judged by.
    pub reckoned: Reckoned,
    /// Truck and rider as one body.
    pub body: RigidBody,
}

/// The speed limits that somebody who steps out reckons with, so that a rider who keeps them can stop.
#[derive(Clone, Debug)]
pub struct Reckoned {
    /// Where no zone has its own, m/s.
    pub speed_limit: f64,
    /// The zones.
    pub zones: Vec<Zone>,
}

impl Setting {
    /// The same drive to be judged by other rules. Nobody steps out elsewhere than they did: what is asked is what
    /// these rules say of what was driven.
    ///
    /// # Errors
    /// One sentence when the course in the set-up cannot be read.
    pub fn judged_by(self, setup: &DriveSetup, rules: SiteRules) -> Result<Self, BadInput> {
        let course = Course::parse("the course", setup.course.as_bytes())?;
        Ok(Self { course: rules.add_zones(course), rules, ..self })
    }

    /// Reads the three texts of a set-up.
    ///
    /// # Errors
    /// One sentence with the file and the place that cannot be used.
    pub fn open(setup: &DriveSetup) -> Result<Self, BadInput> {
        let course = Course::parse("the course", setup.course.as_bytes())?;
        let truck = TruckSpec::parse("the truck", setup.truck.as_bytes())?;
        let rules = SiteRules::parse("the site rules", setup.rules.as_bytes())?;
        if let Some(problem) = check(&course, &truck).into_iter().next() {
            return Err(problem);
        }
        let course = rules.add_zones(course);
        let body = RigidBody::of(&truck, &[]);
        let inspected = match course.walk_round() {
            Some(mode) => Some(inspected(setup, mode, &truck)?),
            None => None,
        };
        let condition = inspected.as_ref().map_or(Condition::SOUND, |t| t.drawn.condition(&t.list));
        let reckoned =
            Reckoned { speed_limit: rules.speed_limit.value, zones: course.zones.clone() };
        Ok(Self { course, truck, condition, inspected, rules, reckoned, body })
    }

    /// What the rider holds before anything is done: who inspects a truck stands beside it, and its key is
    /// off.
    pub fn at_first(&self) -> Controls {
        let off = self.inspected.is_some();
        Controls {
            aboard: !off,
            key_on: !off,
            arm: if off { ArmAsk::LetGo } else { ArmAsk::Hold },
            stance: self.course.spawn_stance,
            ..Controls::default()
        }
    }

    /// The truck that moves.
    pub fn machine(&self) -> Machine<'_> {
        Machine { plate: &self.truck, condition: &self.condition }
    }
}

fn inspected(setup: &DriveSetup, mode: Mode, truck: &TruckSpec) -> Result<Truck, BadInput> {
    if setup.checks.is_empty() {
        let reason = "this begins with a walk-round, and there is no check list with it; add one";
        return Err(BadInput::new("the course", "steps[0]", reason));
    }
    let list = CheckList::parse("the check list", setup.checks.as_bytes())?;
    let drawn = Drawn::new(&list, mode, &truck.id, u64::from(setup.seed));
    Ok(Truck { list: list.into(), mode, drawn })
}

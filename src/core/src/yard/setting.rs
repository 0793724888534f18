//! What a drive takes place in: course, truck and site rules, read from their texts.

use crate::course::Course;
use crate::course::check::check;
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
    /// The site rules.
    pub rules: SiteRules,
    /// Truck and rider as one body.
    pub body: RigidBody,
}

impl Setting {
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
        Ok(Self { course, truck, condition: Condition::SOUND, rules, body })
    }

    /// The truck that moves.
    pub fn machine(&self) -> Machine<'_> {
        Machine { plate: &self.truck, condition: &self.condition }
    }
}

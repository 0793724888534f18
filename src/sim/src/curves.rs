//! How points fall: drives of a course, or of a whole pre-test, by riders who are late or in a hurry by
//! so much, and nothing else.

use coneyard_core::course::shipped;
use coneyard_core::debrief::Debrief;
use coneyard_core::outside::BadInput;
use coneyard_core::pretest::{Outcome, TRUCKS, draw, join};
use coneyard_core::rider::late_and_hurried;
use coneyard_core::rules::{SHIPPED, SiteRules};
use coneyard_core::run::DriveSetup;
use coneyard_core::score::points::passes;
use coneyard_core::truck::spec;

use crate::ride_by;

/// Delays that are added to the model rider's reaction, s.
pub const DELAYS_S: [f64; 9] = [0.0, 0.25, 0.5, 0.75, 1.0, 1.25, 1.5, 1.75, 2.0];
/// Speeds, as shares of the model rider's.
pub const SPEEDS: [f64; 8] = [0.5, 0.65, 0.8, 1.0, 1.2, 1.4, 1.6, 1.8];

/// What is driven.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    /// A shipped course with a shipped truck.
    Course {
        /// Its name.
        name: &'static str,
        /// The truck's.
        truck: String,
    },
    /// All parts of a pre-test.
    Pretest {
        /// The truck that it is taken on.
        truck: &'static str,
    },
}

/// How much worse than the model rider.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Worse {
    /// Knows of everything around so much later, s.
    pub delay_s: f64,
    /// Drives so many times as fast.
    pub speed: f64,
}

/// What came of one drive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Came {
    /// 0 to 100.
    pub points: f64,
    /// It is passed, or would be as a pre-test.
    pub passes: bool,
}

/// Mean of several drives that are as bad as each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// How bad, in the unit of the axis.
    pub at: f64,
    /// Mean of the points, 0 to 100.
    pub points: f64,
    /// Share of the drives that pass, 0 to 1.
    pub passes: f64,
}

impl Worse {
    /// Late by so much, at the model's speed.
    pub fn late(delay_s: f64) -> Self {
        Self { delay_s, speed: 1.0 }
    }

    /// So many times as fast, and not late.
    pub fn hurried(speed: f64) -> Self {
        Self { delay_s: 0.0, speed }
    }
}

impl What {
    /// Every shipped course with its first truck, and the pre-test with every truck it is taken on.
    pub fn all() -> Vec<Self> {
        let courses = shipped::ALL.iter().filter_map(|(name, _)| {
            let truck = shipped::parse(name).trucks.into_iter().next()?;
            Some(Self::Course { name, truck })
        });
        courses.chain(TRUCKS.map(|truck| Self::Pretest { truck })).collect()
    }

    /// Drives it once.
    ///
    /// # Errors
    /// One sentence when it cannot be driven.
    pub fn drive(&self, seed: u32, worse: Worse) -> Result<Came, BadInput> {
        let rules = SiteRules::shipped();
        match self {
            Self::Course { name, truck } => {
                let unknown =
                    |what: &str| BadInput::new("the curves", what, "there is none of this name");
                let course = shipped::text(name).ok_or_else(|| unknown(name))?;
                let setup = DriveSetup {
                    course: course.to_owned(),
                    truck: spec::shipped::text(truck).ok_or_else(|| unknown(truck))?.to_owned(),
                    rules: SHIPPED.to_owned(),
                    checks: shipped::checks_of(course),
                    seed,
                    who: String::new(),
                    started: String::new(),
                };
                let debrief = driven(&setup, seed, worse)?;
                let points = debrief.total.unwrap_or(0.0);
                Ok(Came { points, passes: passes(&debrief, &rules) })
            }
            Self::Pretest { truck } => {
                let parts = draw("curves", seed, truck);
                let debriefs = parts
                    .iter()
                    .map(|part| driven(&part.setup("", "", SHIPPED)?, seed, worse))
                    .collect::<Result<Vec<Debrief>, BadInput>>()?;
                let driven: Vec<(&Debrief, f64)> = debriefs.iter().map(|d| (d, 1.0)).collect();
                let joined = join(&driven, 0, &rules);
                let passes = joined.result == Outcome::Passed;
                Ok(Came { points: joined.total.unwrap_or(0.0), passes })
            }
        }
    }
}

fn driven(setup: &DriveSetup, hand: u32, worse: Worse) -> Result<Debrief, BadInput> {
    let how = (worse.delay_s, worse.speed);
    let run =
        ride_by(setup, |s| late_and_hurried(&s.course, &s.truck, &s.rules, u64::from(hand), how))?;
    Ok(run.claimed)
}

/// The mean of some drives.
pub fn mean(at: f64, drives: &[Came]) -> Point {
    let n = drives.len().max(1) as f64;
    Point {
        at,
        points: drives.iter().map(|d| d.points).sum::<f64>() / n,
        passes: drives.iter().filter(|d| d.passes).count() as f64 / n,
    }
}

/// Where worse driving gets more points than less bad driving did, by more than so much: from, to and
/// by how many points. The points come in order, the least bad first.
pub fn rises(curve: &[Point], most: f64) -> Vec<(f64, f64, f64)> {
    let mut list = Vec::new();
    let mut least: Option<&Point> = None;
    for point in curve {
        if let Some(lower) = least.filter(|l| point.points > l.points + most) {
            list.push((lower.at, point.at, point.points - lower.points));
        }
        if least.is_none_or(|l| point.points < l.points) {
            least = Some(point);
        }
    }
    list
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rise_is_one_from_the_lowest_point_so_far() {
        let curve = |points: &[f64]| -> Vec<Point> {
            let at = |(i, p): (usize, &f64)| Point { at: i as f64, points: *p, passes: 0.0 };
            points.iter().enumerate().map(at).collect()
        };
        assert!(rises(&curve(&[100.0, 99.8, 100.2, 60.0, 60.5]), 0.5).is_empty());
        assert_eq!(rises(&curve(&[100.0, 60.0, 80.0, 50.0]), 0.5), [(1.0, 2.0, 20.0)]);
        let slowly = rises(&curve(&[70.0, 70.4, 70.8]), 0.5);
        assert_eq!(slowly.len(), 1, "{slowly:?}");
    }

    #[test]
    fn the_mean_is_of_all_drives() {
        let drives = [(100.0, true), (50.0, false), (75.0, true), (75.0, false)];
        let drives = drives.map(|(points, passes)| Came { points, passes });
        assert_eq!(mean(0.25, &drives), Point { at: 0.25, points: 75.0, passes: 0.5 });
    }
}

//! The labelled corpus: rides on which it is known beforehand what must be found.
//!
//! Every fault on every course and truck where it comes out, the near side of each, on which nothing
//! may be found, and the model rider on all shipped courses.

use super::{MODEL, faults};
use crate::course::shipped;

/// One ride and its label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Labelled {
    /// Name of the course: shipped, or a yard of the corpus.
    pub course: &'static str,
    /// Name of the truck.
    pub truck: String,
    /// Name of the rider.
    pub rider: String,
    /// Seed of the course's draws, of the rider's ways and of the amount.
    pub seed: u32,
    /// Codes of all faults that must be found, and no other.
    pub codes: &'static [&'static str],
}

/// Rides with this many seeds each.
pub fn rides(seeds: u32) -> Vec<Labelled> {
    let mut list = Vec::new();
    for fault in faults::all() {
        let inside = fault.name.to_owned() + faults::INSIDE;
        let sides: [(String, &faults::LimitSide, &[&str]); 2] =
            [(fault.name.to_owned(), &fault.over, fault.codes), (inside, &fault.inside, &[])];
        for (rider, way, codes) in sides {
            let some = fault.seeds.filter(|_| !codes.is_empty());
            let seeds = some.map_or_else(|| (1..=seeds).collect(), <[u32]>::to_vec);
            for (course, truck) in way.on {
                let ride = |seed: &u32| Labelled {
                    course,
                    truck: (*truck).to_owned(),
                    rider: rider.clone(),
                    seed: *seed,
                    codes,
                };
                list.extend(seeds.iter().map(ride));
            }
        }
    }
    for (course, _) in shipped::ALL {
        for truck in shipped::parse(course).trucks {
            let rider = MODEL.to_owned();
            list.extend((1..=seeds).map(|seed| Labelled {
                course,
                truck: truck.clone(),
                rider: rider.clone(),
                seed,
                codes: &[],
            }));
        }
    }
    list
}

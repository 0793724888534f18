//! A lesson: what a class is told, shown, asked and given to drive, topic by topic, and what is shown at the
//! real truck. It is the site's own file (`levels/lessons`), so that a topic or a sentence is changed without
//! code. Every class covers all of it, each time; the record of that is `class::taught`.
//!
//! `scene` is what is shown: two drives side by side in few numbers, which pages play without an engine.

mod file;
mod known;
pub mod scene;
#[cfg(test)]
mod tests;

use serde::{Deserialize, Serialize};

use crate::outside::{BadInput, Said};

pub use known::Known;

/// A lesson, read and checked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lesson {
    /// Its name.
    pub name: Said,
    /// What holds for all of it: who decides, and what it is not.
    pub caution: Said,
    /// In the order in which they are taught. Never empty.
    pub topics: Vec<Topic>,
}

/// One topic.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Topic {
    /// Its name in the file, in addresses and in records.
    pub id: String,
    /// What it is called.
    pub title: Said,
    /// What to say: three short points.
    pub say: Vec<Said>,
    /// What to beware of, where it can hurt someone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub caution: Option<Said>,
    /// What to show, in order.
    pub shows: Vec<Show>,
    /// What to ask aloud.
    pub ask: Vec<Question>,
    /// What people then drive: ids of exercises.
    pub drive: Vec<String>,
    /// What is shown at the real truck.
    pub at_truck: Vec<Said>,
}

/// A question to the class, with what is to be heard.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Question {
    /// What is asked.
    pub ask: Said,
    /// A good answer has this in it.
    pub hear: Said,
}

/// Two pictures side by side.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Show {
    /// The right way and the wrong one.
    Ways(Ways),
    /// The same drive with two trucks.
    Trucks(Trucks),
    /// A part of the truck as it should be, and with a defect.
    Part {
        /// Id of a point of the check list.
        point: String,
        /// Id of one of its defects.
        defect: String,
    },
}

/// The right way and the wrong one.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ways {
    /// Name of the course, shipped or of the corpus.
    pub course: String,
    /// Name of the truck.
    pub truck: String,
    /// Seed of both drives.
    pub seed: u32,
    /// So much of each drive is shown, s.
    pub for_s: f64,
    /// What an eye should be kept on, beside the yard.
    pub watch: Vec<Gauge>,
    /// Nothing is found at fault on it.
    pub right: Way,
    /// What is to be seen of a fault.
    pub wrong: Way,
}

/// One way of driving.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Way {
    /// Name of the scripted rider.
    pub rider: String,
    /// Another course than the other way's, where the rider has something else before the forks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub course: Option<String>,
    /// The drive is shown from here on, s.
    pub from_s: f64,
    /// What to look at.
    pub says: Said,
    /// Codes of the faults that show in it. Empty where it is the right way.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub finds: Vec<String>,
}

/// The same drive with two trucks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Trucks {
    /// Name of the course.
    pub course: String,
    /// Name of the scripted rider.
    pub rider: String,
    /// Seed of both drives.
    pub seed: u32,
    /// So much of each drive is shown, s.
    pub for_s: f64,
    /// What an eye should be kept on.
    pub watch: Vec<Gauge>,
    /// The two.
    pub trucks: [OneTruck; 2],
}

/// One of two trucks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OneTruck {
    /// Name of the truck.
    pub truck: String,
    /// The drive is shown from here on, s.
    pub from_s: f64,
    /// What to look at.
    pub says: Said,
}

/// What can be watched beside the yard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Gauge {
    /// How fast the truck is.
    Speed,
    /// How far the throttle is turned, and which way.
    Throttle,
    /// Where on its swing the arm is.
    Arm,
    /// How high the forks are.
    Forks,
    /// Whether the horn sounds.
    Horn,
    /// Where the rider looks.
    Look,
    /// On which side the rider stands, or not on the truck at all.
    Stance,
}

impl Lesson {
    /// Reads a lesson.
    ///
    /// # Errors
    /// One sentence with file, place and reason.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        file::read(file, text)
    }

    /// The topic of this id, and its place in order.
    pub fn topic(&self, id: &str) -> Option<(usize, &Topic)> {
        self.topics.iter().enumerate().find(|(_, t)| t.id == id)
    }

    /// Everything that is shown of driving, with the name of its scene.
    pub fn scenes(&self) -> impl Iterator<Item = (String, [scene::Asked; 2])> + '_ {
        self.topics.iter().flat_map(|topic| {
            let shows = topic.shows.iter().enumerate();
            shows.filter_map(|(n, show)| Some((scene_name(&topic.id, n), show.asks()?)))
        })
    }
}

/// Name of the scene that is a topic's show of this number, from 0.
pub fn scene_name(topic: &str, show: usize) -> String {
    format!("{topic}-{}", show + 1)
}

impl Show {
    /// The two drives that it takes; None where nothing is driven.
    pub fn asks(&self) -> Option<[scene::Asked; 2]> {
        match self {
            Self::Ways(ways) => Some([&ways.right, &ways.wrong].map(|way| scene::Asked {
                course: way.course.as_ref().unwrap_or(&ways.course).clone(),
                truck: ways.truck.clone(),
                rider: way.rider.clone(),
                seed: ways.seed,
                from_s: way.from_s,
                for_s: ways.for_s,
            })),
            Self::Trucks(both) => Some([0, 1].map(|n| scene::Asked {
                course: both.course.clone(),
                truck: both.trucks[n].truck.clone(),
                rider: both.rider.clone(),
                seed: both.seed,
                from_s: both.trucks[n].from_s,
                for_s: both.for_s,
            })),
            Self::Part { .. } => None,
        }
    }

    /// What is to be watched beside the yard.
    pub fn watch(&self) -> &[Gauge] {
        match self {
            Self::Ways(ways) => &ways.watch,
            Self::Trucks(both) => &both.watch,
            Self::Part { .. } => &[],
        }
    }
}

/// Text of the lesson that is shipped.
pub const SHIPPED: &str = include_str!("../../../../levels/lessons/pallet-trucks.json");

/// The lesson that is shipped.
#[expect(clippy::unwrap_used, reason = "the shipped file is tested")]
pub fn shipped() -> Lesson {
    Lesson::parse("the lesson", SHIPPED.as_bytes()).unwrap()
}

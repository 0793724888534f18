//! Walk-rounds of somebody in a hurry: all points answered in a few moments, and nothing looked at.

use coneyard_core::acts::{Act, Input};
use coneyard_core::checks::draw::{Drawn, Mode};
use coneyard_core::checks::list::CheckList;
use coneyard_core::controls::{ArmAsk, Controls};
use coneyard_core::moment::Moment;
use coneyard_core::rider::Rider;
use coneyard_core::run::DriveSetup;
use coneyard_sim::ride_by;

use crate::drives::setup;

/// The course and the truck of these walk-rounds.
const COURSE: &str = "walk-round";
const TRUCK: &str = "single";
/// What is noted at the point that is reported without cause; it is a text, and nothing else.
pub const NOTE: &str = "<b>Ask & wait</b>";

/// Does one thing a tick, beside the truck.
struct Hasty(std::vec::IntoIter<Act>);

impl Rider for Hasty {
    fn ride(&mut self, _: &Moment) -> Input {
        let controls =
            Controls { aboard: false, key_on: false, arm: ArmAsk::LetGo, ..Controls::default() };
        Input { controls, acts: self.0.next().into_iter().collect() }
    }
}

/// The truck of this seed.
pub fn drawn(list: &CheckList, seed: u32) -> Drawn {
    Drawn::new(list, Mode::Practice, TRUCK, seed.into())
}

/// The seed of the first truck from this one on that has so many defects, one of which must not run.
pub fn truck_with(list: &CheckList, defects: usize, from: u32) -> u32 {
    let must_not = |at: &(usize, usize)| {
        list.defect(*at).and_then(|d| list.grades.get(d.grade)).is_some_and(|g| !g.may_run)
    };
    let fits = |seed: &u32| {
        let drawn = drawn(list, *seed);
        drawn.has.len() == defects && drawn.has.iter().any(must_not)
    };
    (from..).find(fits).expect("such trucks are drawn")
}

/// The points of a truck with nothing the matter.
pub fn sound(list: &CheckList, seed: u32) -> Vec<usize> {
    let has = drawn(list, seed).has;
    (0..list.points.len()).filter(|p| has.iter().all(|(bad, _)| bad != p)).collect()
}

/// The run of somebody who calls all fine but the first sound point, leaves out the last one, and takes the
/// truck.
pub fn hasty(list: &CheckList, seed: u32) -> String {
    let sound = sound(list, seed);
    let (first, last) = (sound[0], sound[sound.len() - 1]);
    let mut acts = vec![Act::Shift { number: 2 }, Act::ReadHours { tenths: 12_345 }];
    for point in (0..list.points.len()).filter(|p| *p != last) {
        let (answer, reason) = if point == first { (2, Some(0)) } else { (0, None) };
        acts.push(Act::Answer { point: point as u8, answer, reason });
    }
    acts.push(Act::Note { point: first as u8, text: NOTE.to_owned() });
    acts.push(Act::Take);
    // Each on a morning of its own, or two of them would be told to be the same drive.
    let started = format!("2026-01-05T08:{:02}:{:02}Z", seed / 60 % 60, seed % 60);
    let setup = DriveSetup { started, ..setup(COURSE, TRUCK, seed) };
    let run = ride_by(&setup, |_| Box::new(Hasty(acts.into_iter())));
    run.expect("a shipped course can be driven").to_text()
}

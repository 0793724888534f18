//! A rider who is late and in a hurry, by so much: for seeing how points fall with either.
//!
//! Late is whatever others do: people, trucks and signals are known as they were some time ago. The
//! rider's own truck is felt at once, as by somebody who can drive but does not attend.

use std::collections::VecDeque;

use super::Rider;
use super::habits::Habits;
use super::model::Model;
use crate::acts::Input;
use crate::controls::Controls;
use crate::course::{BrakeZone, Course};
use crate::moment::{CrossingMoment, Moment, OtherMoment, PersonMoment};
use crate::rules::SiteRules;
use crate::time::{TICK_RATE, Tick};
use crate::truck::spec::TruckSpec;

/// A model rider who knows of everything around them so many seconds late, and drives everything so
/// many times as fast as the model does. The seed gives them their own pace, reaction and hand.
pub fn late_and_hurried(
    course: &Course,
    truck: &TruckSpec,
    rules: &SiteRules,
    seed: u64,
    (delay_s, speed): (f64, f64),
) -> Box<dyn Rider> {
    let mut habits = Habits::of_a_model(seed);
    habits.keep_to(rules);
    habits.hurries = speed;
    // Nobody is faster than the truck without its button.
    habits.high_speed |= speed > 1.0;
    let rider = Box::new(Model::new(course, truck, rules, habits));
    let late = (delay_s * f64::from(TICK_RATE)).round() as Tick;
    if late == 0 { rider } else { Box::new(Late { rider, late, known: VecDeque::new() }) }
}

/// What others did in one tick.
struct Around {
    people: Vec<PersonMoment>,
    others: Vec<OtherMoment>,
    crossings: Vec<CrossingMoment>,
    signal_since: Option<Tick>,
    signal_brake: Option<BrakeZone>,
}

struct Late {
    rider: Box<dyn Rider>,
    late: Tick,
    /// The last ticks, the oldest first.
    known: VecDeque<Around>,
}

impl Around {
    fn of(m: &Moment) -> Self {
        Self {
            people: m.people.clone(),
            others: m.others.clone(),
            crossings: m.crossings.clone(),
            signal_since: m.task.signal_since,
            signal_brake: m.task.signal_brake,
        }
    }

    /// This tick, but with what others did so long ago as if it were now.
    fn known_in(&self, m: &Moment, late: Tick) -> Moment {
        let later = |tick: Option<Tick>| tick.map(|t| t + late);
        let mut now = m.clone();
        now.people.clone_from(&self.people);
        for p in &mut now.people {
            (p.seen_since, p.first_seen) = (later(p.seen_since), later(p.first_seen));
            p.stepped_out = later(p.stepped_out);
        }
        now.others.clone_from(&self.others);
        for o in &mut now.others {
            (o.seen_since, o.set_off) = (later(o.seen_since), later(o.set_off));
        }
        for (known, now) in self.crossings.iter().zip(&mut now.crossings) {
            now.wanted = known.wanted;
        }
        now.task.signal_since = later(self.signal_since);
        now.task.signal_brake = self.signal_brake;
        now
    }
}

impl Rider for Late {
    fn ride(&mut self, m: &Moment) -> Input {
        self.known.push_back(Around::of(m));
        if self.known.len() > self.late as usize + 1 {
            self.known.pop_front();
        }
        let Some(known) = self.known.front() else { return Controls::default().into() };
        let late = m.tick.min(self.late);
        self.rider.ride(&known.known_in(m, late))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Records since when, as it is told, the signal is on.
    struct Told(std::sync::Arc<std::sync::Mutex<Vec<Option<Tick>>>>);

    impl Rider for Told {
        fn ride(&mut self, m: &Moment) -> Input {
            self.0.lock().unwrap().push(m.task.signal_since);
            Controls::default().into()
        }
    }

    #[test]
    fn a_signal_comes_late_by_the_delay_and_as_if_it_were_new() {
        let told = std::sync::Arc::default();
        let rider = Box::new(Told(std::sync::Arc::clone(&told)));
        let mut late = Late { rider, late: 5, known: VecDeque::new() };
        for tick in 0..20 {
            let mut m = Moment::at_rest();
            m.tick = tick;
            m.task.signal_since = (tick >= 7).then_some(7);
            late.ride(&m);
        }
        let told = told.lock().unwrap();
        assert_eq!(told.iter().position(Option::is_some), Some(12));
        assert_eq!(told[12], Some(12));
    }
}

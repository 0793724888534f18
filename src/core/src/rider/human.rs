//! A rider as people are: takes time to notice, drives at a pace of their own, trembles, and now and then
//! forgets to look aside. Otherwise the model rider.

use std::collections::VecDeque;

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::Rng;

use super::Rider;
use super::habits::Habits;
use super::model::Model;
use crate::acts::Input;
use crate::controls::{Look, TillerAsk};
use crate::course::Course;
use crate::dice::{Stream, dice};
use crate::moment::{CrossingMoment, Moment, OtherMoment, PersonMoment};
use crate::rules::SiteRules;
use crate::time::{TICK_RATE, Tick};
use crate::truck::spec::TruckSpec;

/// Name of the rider who is drawn from the seed as people are.
pub const HUMAN: &str = "human";

/// Time that the hand needs once something is noticed, s: part of the delay.
const HAND_S: f64 = 0.15;
/// Pace above which nobody slows down for what cannot be seen.
const HURRIES: f64 = 1.2;
/// A trembling hand changes its push after so many ticks.
const TREMBLES: u32 = 5;
/// The strongest tremor, percent of the throttle and of the tiller's swing.
const THROTTLE_SHAKES: f64 = 30.0;
const TILLER_SHAKES: f64 = 40.0;

/// How one person differs from the model rider.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Human {
    /// From when something happens until the hand moves, s.
    pub delay_s: f64,
    /// Times the model rider's speeds.
    pub pace: f64,
    /// 0 a steady hand to 1.
    pub tremor: f64,
    /// How likely it is that a glance aside is left out, 0 to 1.
    pub drops_glance: f64,
}

impl Human {
    /// Someone drawn from a seed: delay 0.2 to 1.5 s, pace 0.5 to 1.8, any tremor up to half of the
    /// strongest, and up to every second glance left out.
    pub fn drawn(seed: u64) -> Self {
        let mut dice = dice(seed, Stream::Human);
        let mut between = |least: f64, most: f64| least + (most - least) * share(&mut dice);
        Self {
            delay_s: between(0.2, 1.5),
            pace: between(0.5, 1.8),
            tremor: between(0.0, 0.5),
            drops_glance: between(0.0, 0.5),
        }
    }

    /// This person as a rider; the seed gives them the model rider's hand and their tremor.
    pub fn rider(
        self,
        course: &Course,
        truck: &TruckSpec,
        rules: &SiteRules,
        seed: u64,
    ) -> Box<dyn Rider> {
        let mut habits = Habits::of_a_model(seed);
        habits.keep_to(rules);
        self.spoil(&mut habits);
        let late = ((self.delay_s - HAND_S).max(0.0) * f64::from(TICK_RATE)).round() as usize;
        Box::new(Late {
            rider: Model::new(course, truck, rules, habits),
            human: self,
            late,
            around: VecDeque::with_capacity(late + 1),
            dice: dice(seed, Stream::Human),
            shakes: (0.0, 0.0),
            glances: None,
            along: Look::Ahead,
        })
    }

    fn spoil(self, habits: &mut Habits) {
        let pace = self.pace;
        habits.pace = pace;
        habits.reaction_s = HAND_S.min(self.delay_s);
        for speed in [
            &mut habits.at_yields,
            &mut habits.at_blind_spots,
            &mut habits.on_wet,
            &mut habits.on_grade.0,
            &mut habits.on_dock,
            &mut habits.share_of_limit,
        ] {
            *speed *= pace;
        }
        habits.side_acceleration *= pace * pace;
        habits.high_speed = pace > HURRIES;
        habits.minds_sight = pace <= HURRIES;
    }
}

/// What a person notices late.
type Around = (Vec<PersonMoment>, Vec<OtherMoment>, Vec<CrossingMoment>);

/// The rider.
struct Late {
    rider: Model,
    human: Human,
    /// Ticks until something is noticed.
    late: usize,
    /// What was around in the last ticks, the oldest first.
    around: VecDeque<Around>,
    dice: ChaCha8Rng,
    /// Percent of throttle and of the tiller's swing that the hand adds now.
    shakes: (f64, f64),
    /// The head is to be turned aside: whether it is.
    glances: Option<bool>,
    /// Where it was turned before.
    along: Look,
}

/// A number from 0 to 1.
fn share(dice: &mut ChaCha8Rng) -> f64 {
    f64::from(dice.next_u32()) / f64::from(u32::MAX)
}

impl Late {
    /// The moment as it is noticed: one's own truck now, what is around some ticks late.
    fn noticed(&mut self, m: &Moment) -> Moment {
        self.around.push_back((m.people.clone(), m.others.clone(), m.crossings.clone()));
        let mut noticed = m.clone();
        if self.around.len() > self.late + 1 {
            self.around.pop_front();
        }
        if let Some((people, others, crossings)) = self.around.front() {
            noticed.people.clone_from(people);
            noticed.others.clone_from(others);
            noticed.crossings.clone_from(crossings);
        }
        let since = m.task.signal_since.map(|t| t + self.late as Tick);
        noticed.task.signal_since = since.filter(|t| m.tick >= *t);
        noticed
    }

    /// Leaves the glance out that is about to begin, with the person's chance.
    fn forget(&mut self, look: &mut Look) {
        if !matches!(look, Look::Left | Look::Right) {
            (self.glances, self.along) = (None, *look);
            return;
        }
        let drawn =
            self.glances.unwrap_or_else(|| share(&mut self.dice) >= self.human.drops_glance);
        self.glances = Some(drawn);
        if !drawn {
            *look = self.along;
        }
    }

    fn tremble(&mut self, tick: Tick, input: &mut Input) {
        if tick.is_multiple_of(TREMBLES) {
            let mut push =
                |most: f64| most * self.human.tremor * (2.0 * share(&mut self.dice) - 1.0);
            self.shakes = (push(THROTTLE_SHAKES), push(TILLER_SHAKES));
        }
        let c = &mut input.controls;
        // A hand that lets go does not shake what it does not hold.
        if c.throttle != 0 {
            c.throttle = (f64::from(c.throttle) + self.shakes.0).clamp(-100.0, 100.0) as i8;
        }
        if let TillerAsk::Swing(swing) = c.tiller {
            c.tiller =
                TillerAsk::Swing((f64::from(swing) + self.shakes.1).clamp(-100.0, 100.0) as i8);
        }
    }
}

impl Rider for Late {
    fn ride(&mut self, m: &Moment) -> Input {
        let noticed = self.noticed(m);
        let mut input = self.rider.ride(&noticed);
        self.forget(&mut input.controls.look);
        self.tremble(m.tick, &mut input);
        input
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn people_differ_within_what_is_promised() {
        let all: Vec<Human> = (0..500).map(Human::drawn).collect();
        let within = |of: fn(&Human) -> f64, least: f64, most: f64| {
            let values: Vec<f64> = all.iter().map(of).collect();
            let (low, high) = values.iter().fold((f64::MAX, f64::MIN), |(l, h), v| {
                assert!((least..=most).contains(v), "{v}");
                (l.min(*v), h.max(*v))
            });
            let (room, span) = (most - least, high - low);
            assert!(span > 0.95 * room, "{low} to {high} of {least} to {most}");
        };
        within(|h| h.delay_s, 0.2, 1.5);
        within(|h| h.pace, 0.5, 1.8);
        within(|h| h.tremor, 0.0, 0.5);
        within(|h| h.drops_glance, 0.0, 0.5);
    }
}

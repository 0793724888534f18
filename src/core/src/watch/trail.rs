//! Where people were a moment ago, to see how soon after them a truck comes there.

use std::collections::VecDeque;

use crate::math::Vec2;
use crate::moment::Moment;
use crate::people::encounter::{Mover, circle_round, gap};
use crate::time::{DT, Tick};
use crate::yard::foot::PERSON_RADIUS;

/// Nobody on foot is faster, m/s: who is farther from the truck than that takes them was nowhere near it.
const FASTEST: f64 = 3.0;

/// The places of everybody, for so many ticks back.
pub(super) struct Trails {
    keeps: Tick,
    /// By their index among the people of the course.
    people: Vec<VecDeque<(Tick, Vec2)>>,
}

impl Trails {
    /// Nothing seen yet; places are kept for so many ticks.
    pub(super) fn new(keeps: Tick) -> Self {
        Self { keeps, people: Vec::new() }
    }

    /// Looks at one tick. Ticks come in order, each once.
    pub(super) fn see(&mut self, m: &Moment) {
        for p in &m.people {
            let person = p.person as usize;
            if self.people.len() <= person {
                self.people.resize_with(person + 1, VecDeque::new);
            }
            let trail = &mut self.people[person];
            while trail.front().is_some_and(|(t, _)| m.tick - t >= self.keeps) {
                trail.pop_front();
            }
            trail.push_back((m.tick, p.at));
        }
    }

    /// For how many ticks those have been away who stood last where truck or load are now; None when
    /// nobody did lately. Who touches the truck is not away.
    pub(super) fn since(&self, m: &Moment) -> Option<Tick> {
        let (middle, radius) = circle_round(&m.outline);
        let reach = radius + PERSON_RADIUS;
        let near = reach + FASTEST * f64::from(self.keeps) * DT;
        let people = m.people.iter().filter(|p| p.gap > 0.0 && (p.at - middle).length() < near);
        let was_here = |at: Vec2| {
            let place = Mover { at, velocity: Vec2::default(), radius: PERSON_RADIUS };
            (at - middle).length() < reach && gap(&m.outline, &place) <= 0.0
        };
        let last = people.filter_map(|p| {
            let trail = self.people.get(p.person as usize)?;
            trail.iter().rev().find(|(_, at)| was_here(*at)).map(|(t, _)| m.tick - t)
        });
        last.min()
    }
}

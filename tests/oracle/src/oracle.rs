//! Looks at a drive, tick by tick.

use coneyard_core::course::Course;
use coneyard_core::math::Vec2;
use coneyard_core::time::{DT, TICK_RATE, Tick};
use coneyard_core::truck::spec::TruckSpec;

use crate::floor::Stood;
use crate::load::{Load, too_heavy};
use crate::morning::Morning;
use crate::notes::{Kind, Note, Notes};
use crate::people::{NONE, People, moved, near};
use crate::room::{BRAKES, before_contacts};
use crate::seen::{Fixed, Seen};
use crate::shapes::Shape;
use crate::{floor, overhead, struck};

/// Looks at one drive.
#[derive(Clone, Debug)]
pub struct Oracle {
    fixed: Fixed,
    history: Vec<Seen>,
    parts: Vec<Shape>,
    people: People,
    load: Load,
    morning: Morning,
    stood: Stood,
    notes: Notes,
}

impl Oracle {
    /// For a drive on this course with this truck.
    pub fn new(course: &Course, truck: &TruckSpec) -> Self {
        Self {
            fixed: Fixed::new(course, truck),
            history: Vec::new(),
            parts: Vec::new(),
            people: People::default(),
            load: Load::default(),
            morning: Morning::default(),
            stood: Stood::new(),
            notes: Notes::default(),
        }
    }

    /// Looks at the next tick.
    pub fn see(&mut self, here: Seen) {
        let parts = self.fixed.parts(&here);
        if let Some(before) = self.history.last() {
            let (fixed, notes, both) = (&self.fixed, &mut self.notes, (before, &here));
            self.people.look(both, &parts, notes);
            struck::look(fixed, both, &parts, notes);
            floor::look(fixed, both, (&self.parts, &parts), (&mut self.stood, notes));
            self.load.look(both, notes);
            self.morning.look(both, notes);
            overhead::look(fixed, &here, notes);
            if here.tipped {
                notes.add(Kind::Tipped, 0, here.tick, (1.0, true));
            }
        }
        self.parts = parts;
        self.history.push(here);
    }

    /// What was seen, in order.
    pub fn notes(&self) -> Vec<Note> {
        let mut notes = self.notes.clone();
        before_contacts(&self.fixed, &self.history, &self.notes.all(), &mut notes);
        // What was about to be met when the drive ended was not.
        let last = self.history.last().map_or(0, |s| s.tick);
        notes.all().into_iter().filter(|n| n.from <= last).collect()
    }

    /// Whether a place lies on the truck or its load as they stand now.
    #[cfg(test)]
    pub(crate) fn parts_hold(&self, place: Vec2) -> bool {
        self.parts.iter().any(|p| p.holds(place))
    }

    /// The ticks from 2 s before to 2 s after, each with the one before it.
    fn around(&self, from: Tick, to: Tick) -> impl Iterator<Item = (&Seen, &Seen)> {
        let pairs = self.history.windows(2).map(|pair| (&pair[0], &pair[1]));
        pairs.filter(move |(_, here)| {
            here.tick + NEAR >= from && here.tick <= to.saturating_add(NEAR)
        })
    }

    /// Whether in these ticks, give or take 2 s, truck or load came on to a person faster than the
    /// strongest brake, asked for by the quickest hand, could have stopped before them: v^2 over twice the
    /// gap that the hand leaves.
    pub fn cannot_stop_for_somebody(&self, from: Tick, to: Tick) -> bool {
        self.around(from, to).any(|(before, here)| {
            let parts = self.fixed.parts(here);
            here.people.iter().any(|(who, at)| {
                let near = near(&parts, *at);
                let own = moved(before.truck, here.truck, near.place);
                let was = before.people.iter().find(|(other, _)| other == who);
                let their = was.map_or(Vec2::default(), |(_, was)| *at - *was);
                let to = (*at - near.place).normalized();
                let closing = own.dot(to).max((own - their).dot(to)) / DT;
                let left = near.gap - HAND * closing;
                let needs = closing * closing / (2.0 * left.max(1e-3));
                closing > 0.25 && needs > 0.95 * BRAKES
            })
        })
    }

    /// Whether in these ticks, give or take 2 s, somebody was touched by a truck that went on, if only along
    /// them.
    pub fn grazes_somebody(&self, from: Tick, to: Tick) -> bool {
        self.around(from, to).any(|(before, here)| {
            let parts = self.fixed.parts(here);
            here.people.iter().any(|(_, at)| {
                let near = near(&parts, *at);
                let way = moved(before.truck, here.truck, near.place).length();
                near.gap <= NONE && way > MOVES * DT
            })
        })
    }

    /// Whether in these ticks, give or take 2 s, somebody or something stood nearer than so many metres
    /// to the truck or its load.
    pub fn something_within(&self, metres: f64, from: Tick, to: Tick) -> bool {
        self.around(from, to).any(|(_, here)| {
            let parts = self.fixed.parts(here);
            let others = here.others.iter().filter_map(|(i, pose)| {
                Some(Shape::rectangle(*pose, *self.fixed.others.get(*i as usize)?))
            });
            let mut things = self.fixed.solid.iter().map(|(_, s)| s.clone()).chain(others);
            here.people.iter().any(|(_, at)| near(&parts, *at).gap < metres)
                || things.any(|s| {
                    parts.iter().any(|p| p.apart_at_least(&s) < metres && p.apart(&s) < metres)
                })
        })
    }

    /// Whether in these ticks, give or take 2 s, somebody on foot was nearer than so many metres to truck or
    /// load.
    pub fn somebody_within(&self, metres: f64, from: Tick, to: Tick) -> bool {
        self.around(from, to).any(|(_, here)| {
            let parts = self.fixed.parts(here);
            here.people.iter().any(|(_, at)| near(&parts, *at).gap < metres)
        })
    }

    /// Whether in these ticks, give or take 2 s, the forks were asked to lift more than the truck may
    /// carry.
    pub fn lifts_too_much(&self, from: Tick, to: Tick) -> bool {
        self.around(from, to).any(|(_, here)| too_heavy(&self.fixed, here))
    }
}

/// The quickest hand, s (a simple reaction to something seen takes 0.2 to 0.25 s, from memory).
const HAND: f64 = 0.25;

/// Faster than this a truck moves, m/s.
const MOVES: f64 = 0.01;

/// What lies within this belongs together, ticks: 2 s.
pub const NEAR: Tick = 2 * TICK_RATE;

//! One walk-round from tick to tick: what is looked at or tried, what is answered, and whether the truck is
//! taken. What was answered can be changed until the truck is taken or tagged out.

use std::sync::Arc;

use crate::acts::Act;
use crate::checks::POINTS_MOST;
use crate::checks::draw::{Drawn, Mode};
use crate::checks::list::{ASPECTS, Aspect, CheckList, Defect, How, Noise};
use crate::finding::Severity;
use crate::state::State;
use crate::state::chain::Chain;

/// A truck with the list by which it is inspected.
#[derive(Clone, Debug, PartialEq)]
pub struct Truck {
    /// The list.
    pub list: Arc<CheckList>,
    /// What the walk-round is for.
    pub mode: Mode,
    /// What is the matter.
    pub drawn: Drawn,
}

/// What is done with a truck after the walk-round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decision {
    /// It is taken.
    Taken,
    /// It is tagged out of service.
    TaggedOut,
}

/// How a point is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// Closer, from this view.
    Looking(Aspect),
    /// It is tried.
    Trying,
}

/// What the rider has before the eyes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shown {
    /// Index of the point.
    pub point: usize,
    /// How it is looked at.
    pub by: By,
    /// Index of the defect that shows; None when nothing does, whether or not there is one.
    pub defect: Option<usize>,
    /// For so many ticks so far.
    pub ticks: u32,
}

/// An answer to a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Answer {
    /// Nothing is the matter.
    Fine,
    /// Something is, as grave as the grade of this index.
    Grade(usize),
}

impl Answer {
    /// Its code in acts: 0 is fine, then the grades.
    pub fn code(self) -> u8 {
        match self {
            Self::Fine => 0,
            Self::Grade(i) => i as u8 + 1,
        }
    }

    /// The answer of a code, where the list has it.
    pub fn of(code: u8, list: &CheckList) -> Option<Self> {
        match usize::from(code).checked_sub(1) {
            None => Some(Self::Fine),
            Some(i) => (i < list.grades.len()).then_some(Self::Grade(i)),
        }
    }
}

/// A walk-round as it stands in one tick.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    /// The truck; nobody who inspects it may look into what was drawn. It is the same in every tick: copying it
    /// would ask for memory.
    pub truck: Arc<Truck>,
    /// What is before the eyes.
    pub shown: Option<Shown>,
    /// Points that were looked at or tried for long enough, one bit each.
    pub done: u64,
    /// For each point its answer.
    pub said: [Option<Answer>; POINTS_MOST],
    /// What was decided.
    pub decided: Option<Decision>,
    /// How often the truck's own settings were touched.
    pub settings_touched: u32,
    /// What was read off the hour meter, tenths of an hour.
    pub hours_read: Option<u32>,
    /// On the drive, standing and off the truck, it was said that something is the matter.
    pub reported: bool,
}

impl Truck {
    /// The defect that a point has, with its index.
    pub fn defect_of(&self, point: usize) -> Option<(usize, &Defect)> {
        let (_, d) = self.drawn.has.iter().find(|(p, _)| *p == point)?;
        Some((*d, self.list.defect((point, *d))?))
    }

    /// What is the matter, in the order of points.
    pub fn defects(&self) -> impl Iterator<Item = (usize, &Defect)> {
        self.drawn.has.iter().filter_map(|at| Some((at.0, self.list.defect(*at)?)))
    }

    /// It must not run.
    pub fn must_not_run(&self) -> bool {
        self.defects().any(|(_, d)| !self.list.grades[d.grade].may_run)
    }

    /// How grave it is to miss this one.
    pub fn missed(&self, defect: &Defect) -> Severity {
        self.list.grades[defect.grade].missed
    }
}

impl Walk {
    /// Before anything was looked at.
    pub fn new(truck: Truck) -> Self {
        Self {
            truck: Arc::new(truck),
            shown: None,
            done: 0,
            said: [None; POINTS_MOST],
            decided: None,
            settings_touched: 0,
            hours_read: None,
            reported: false,
        }
    }

    /// One tick: what is done in it. `can_report` tells that the rider stands beside the truck; a point
    /// counts as looked at or tried after `needed` ticks.
    pub fn tick(&mut self, acts: &[Act], can_report: bool, needed: u32) {
        if let Some(shown) = &mut self.shown {
            shown.ticks = shown.ticks.saturating_add(1);
            if shown.ticks >= needed {
                self.done |= 1 << shown.point;
            }
        }
        for act in acts {
            self.act(act, can_report);
        }
    }

    fn act(&mut self, act: &Act, can_report: bool) {
        match act {
            Act::Report if self.decided == Some(Decision::Taken) && can_report => {
                self.reported = true;
            }
            Act::TouchSettings => {
                self.settings_touched = self.settings_touched.saturating_add(1);
            }
            // What was decided stands.
            _ if self.decided.is_some() => {}
            Act::LookCloser { point, view } => {
                let view = ASPECTS.get(usize::from(*view)).copied();
                self.show(*point, How::Look, view.map(By::Looking));
            }
            Act::Try { point } => self.show(*point, How::Try, Some(By::Trying)),
            Act::Answer { point, answer, .. } => {
                let answer = Answer::of(*answer, &self.truck.list);
                let point = usize::from(*point);
                if let Some(answer) = answer
                    && point < self.truck.list.points.len()
                {
                    self.said[point] = Some(answer);
                }
            }
            Act::ReadHours { tenths } => self.hours_read = Some(*tenths),
            Act::Take => self.decide(Decision::Taken),
            Act::TagOut => self.decide(Decision::TaggedOut),
            Act::Report | Act::Note { .. } | Act::Shift { .. } => {}
        }
    }

    fn decide(&mut self, decision: Decision) {
        self.decided = Some(decision);
        self.shown = None;
    }

    /// Looks at a point; what is not in the view, or is not to be tried, shows nothing.
    fn show(&mut self, point: u8, how: How, by: Option<By>) {
        let index = usize::from(point);
        let (Some(point), Some(by)) = (self.truck.list.points.get(index), by) else { return };
        let is_there = match by {
            By::Looking(view) => point.is_in(view),
            By::Trying => true,
        };
        if point.how != how || !is_there {
            return;
        }
        let shows = |d: &Defect| match by {
            By::Looking(view) => d.seen_from.contains(&view),
            By::Trying => true,
        };
        let defect = self.truck.defect_of(index).filter(|(_, d)| shows(d)).map(|(i, _)| i);
        self.shown = Some(Shown { point: index, by, defect, ticks: 0 });
    }

    /// What sounds in this tick because a point was just tried; nothing where it is silent, whether or not
    /// it should be.
    pub fn tried(&self) -> Option<Noise> {
        let shown = self.shown.filter(|s| s.by == By::Trying && s.ticks == 0)?;
        match shown.defect {
            Some(defect) => self.truck.list.defect((shown.point, defect))?.noise,
            None => self.truck.list.points.get(shown.point)?.noise,
        }
    }

    /// The points, each with its number.
    pub fn points(&self) -> impl Iterator<Item = usize> {
        0..self.truck.list.points.len()
    }

    /// It was looked at or tried for long enough, and answered.
    pub fn is_checked(&self, point: usize) -> bool {
        self.done >> point & 1 == 1 && self.said[point].is_some()
    }

    /// It was said that something is the matter with this point.
    pub fn is_reported(&self, point: usize) -> bool {
        matches!(self.said[point], Some(Answer::Grade(_)))
    }

    /// The truck was tagged out, as it had to be.
    pub fn is_rightly_tagged_out(&self) -> bool {
        self.decided == Some(Decision::TaggedOut) && self.truck.must_not_run()
    }

    /// It was rightly said on the drive that something is the matter.
    pub fn is_rightly_reported(&self) -> bool {
        self.reported && !self.truck.drawn.has.is_empty()
    }
}

impl State for Answer {
    fn digest(&self, chain: &mut Chain) {
        self.code().digest(chain);
    }
}

impl State for Shown {
    fn digest(&self, chain: &mut Chain) {
        let Self { point, by, defect, ticks } = self;
        point.digest(chain);
        match by {
            By::Looking(view) => (1_u32, *view as u32).digest(chain),
            By::Trying => (2_u32, 0_u32).digest(chain),
        }
        defect.digest(chain);
        ticks.digest(chain);
    }
}

impl State for Walk {
    fn digest(&self, chain: &mut Chain) {
        // The truck follows from the set-up.
        let Self { truck: _, shown, done, said, decided, settings_touched, hours_read, reported } =
            self;
        shown.digest(chain);
        done.digest(chain);
        said.digest(chain);
        decided.map(|d| d as u32).digest(chain);
        settings_touched.digest(chain);
        hours_read.digest(chain);
        reported.digest(chain);
    }
}

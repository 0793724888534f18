//! A trick: what hands, head and feet do in every tick besides what a model rider would.

use super::super::Rider;
use crate::acts::Input;
use crate::controls::Controls;
use crate::moment::Moment;
use crate::time::Tick;

/// What the rider keeps in mind of it.
#[derive(Clone, Copy, Debug, Default)]
pub(in super::super) struct Memory {
    /// Since when the present part of it lasts.
    pub(super) since: Tick,
    /// How many parts are over.
    pub(super) parts: u32,
    /// Where it began, m along the truck's way, or what else there is to remember.
    pub(super) mark: f64,
    /// How it was in the last tick.
    pub(super) was: bool,
}

/// A trick.
#[derive(Clone, Copy, Debug, Default)]
pub(in super::super) struct Trick {
    /// What is done before the model rider in them begins; None when that is over.
    pub(super) first: Option<fn(&mut Memory, &Moment) -> Option<Controls>>,
    /// Changes what the model rider would do.
    pub(super) does: Option<fn(&mut Memory, &Moment, &mut Input)>,
    /// Leaves the drive at that.
    pub(super) leaves: Option<fn(&Moment) -> bool>,
}

/// A rider with a trick.
pub(in super::super) struct Tricky {
    rider: Box<dyn Rider>,
    trick: Trick,
    memory: Memory,
    /// The model rider in them has begun.
    begun: bool,
}

impl Tricky {
    pub(in super::super) fn new(rider: Box<dyn Rider>, trick: Trick) -> Self {
        Self { rider, trick, memory: Memory::default(), begun: false }
    }
}

impl Rider for Tricky {
    fn ride(&mut self, m: &Moment) -> Input {
        if !self.begun
            && let Some(first) = self.trick.first
            && let Some(controls) = first(&mut self.memory, m)
        {
            return controls.into();
        }
        if !self.begun {
            (self.begun, self.memory) = (true, Memory::default());
        }
        let mut input = self.rider.ride(m);
        if let Some(does) = self.trick.does {
            does(&mut self.memory, m, &mut input);
        }
        input
    }

    fn stops(&self, m: &Moment) -> bool {
        self.trick.leaves.is_some_and(|leaves| leaves(m)) || self.rider.stops(m)
    }
}

impl Trick {
    /// Something done in every tick.
    pub(super) const fn always(does: fn(&mut Memory, &Moment, &mut Input)) -> Self {
        Self { first: None, does: Some(does), leaves: None }
    }

    /// Something done at rest before the drive begins.
    pub(super) const fn first(first: fn(&mut Memory, &Moment) -> Option<Controls>) -> Self {
        Self { first: Some(first), does: None, leaves: None }
    }

    /// Leaves the drive as soon as this is so.
    pub(super) const fn leaves(leaves: fn(&Moment) -> bool) -> Self {
        Self { first: None, does: None, leaves: Some(leaves) }
    }
}

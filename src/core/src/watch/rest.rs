//! Rest and motion: when the truck moves off from rest, and when it comes to rest.

use crate::finding::Tick;
use crate::moment::Moment;
use crate::watch::Common;

/// What a tick did to rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Change {
    /// Nothing.
    None,
    /// It stood, and now moves.
    MovedOff,
    /// It has now stood for long enough to be at rest.
    CameToRest,
}

/// Follows rest. A drive begins at rest. Passing through zero speed, as when plugging over into
/// the other direction, is no rest: it takes time.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rest {
    speed: f64,
    hold: Tick,
    still_since: Option<Tick>,
    at_rest: bool,
}

impl Rest {
    /// At rest.
    pub(super) fn new(common: &Common) -> Self {
        Self { speed: common.rest_speed, hold: common.rest_for, still_since: None, at_rest: true }
    }

    /// Whether it is at rest after the last tick seen.
    pub(super) fn at_rest(&self) -> bool {
        self.at_rest
    }

    /// Looks at one tick.
    pub(super) fn see(&mut self, m: &Moment) -> Change {
        if m.truck.speed.abs() > self.speed {
            self.still_since = None;
            if self.at_rest {
                self.at_rest = false;
                return Change::MovedOff;
            }
            return Change::None;
        }
        let since = *self.still_since.get_or_insert(m.tick);
        if !self.at_rest && m.tick - since >= self.hold {
            self.at_rest = true;
            return Change::CameToRest;
        }
        Change::None
    }
}

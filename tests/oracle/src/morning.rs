//! What should not have been driven at all.

use crate::notes::{Kind, Notes};
use crate::seen::Seen;

/// Driven so far, m, a bad truck has been taken; known to that.
const TAKEN: f64 = 1.0;
const TAKEN_ERROR: f64 = 0.02;

/// How far a truck that must not run has been driven.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Morning {
    way: f64,
    told: bool,
}

impl Morning {
    pub(crate) fn look(&mut self, (before, here): (&Seen, &Seen), notes: &mut Notes) {
        if !here.must_not_run || !here.aboard || self.told {
            return;
        }
        self.way += (here.truck.at - before.truck.at).length();
        let sure = self.way > TAKEN + TAKEN_ERROR;
        if self.way > TAKEN - TAKEN_ERROR {
            notes.add(Kind::BadTruckDriven, 0, here.tick, (self.way, sure));
        }
        self.told = sure;
    }
}

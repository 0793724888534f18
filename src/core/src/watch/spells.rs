//! Spells of several things of one kind, each by its index: people, trucks, docks.

use std::collections::BTreeMap;

use crate::finding::Unit;
use crate::moment::Moment;
use crate::rules::Yardstick;
use crate::watch::Report;
use crate::watch::spell::{Seen, Spell};

/// One spell for each index.
pub(crate) struct Spells {
    fresh: Spell,
    of: BTreeMap<u32, Spell>,
}

impl Spells {
    /// Nothing wrong yet; each may last for this many seconds.
    pub(crate) fn new(unit: Unit, may_last_s: f64) -> Self {
        Self { fresh: Spell::new(unit, may_last_s), of: BTreeMap::new() }
    }

    /// Looks at one tick: what is wrong in it, by index.
    pub(crate) fn see(
        &mut self,
        m: &Moment,
        y: &Yardstick,
        seen: &BTreeMap<u32, Seen>,
        out: &mut Report,
    ) {
        for index in seen.keys() {
            self.of.entry(*index).or_insert(self.fresh);
        }
        for (index, spell) in &mut self.of {
            spell.see(m, y, seen.get(index).copied(), out);
        }
    }
}

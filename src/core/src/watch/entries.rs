//! Driving onto something: when the truck comes onto a crossing or a dock's plate.

use std::collections::BTreeMap;

use crate::time::Tick;

/// Follows what the truck is on. Where a drive begins it has not come.
#[derive(Clone, Debug, Default)]
pub(crate) struct Entries {
    last_on: BTreeMap<u32, Tick>,
    began: bool,
}

impl Entries {
    /// Looks at one tick: indices that the truck has just come onto. Off for less than
    /// `again_after` ticks is not off.
    pub(crate) fn see(
        &mut self,
        tick: Tick,
        again_after: Tick,
        on: impl Iterator<Item = (u32, bool)>,
    ) -> Vec<u32> {
        let began = core::mem::replace(&mut self.began, true);
        let on = on.filter_map(|(index, on)| on.then_some(index));
        on.filter(|index| {
            let before = self.last_on.insert(*index, tick);
            began && before.is_none_or(|t| tick - t > again_after)
        })
        .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn coming_on_is_once_until_it_was_off_for_long_enough() {
        let mut e = Entries::default();
        let mut on = |tick, is_on| !e.see(tick, 3, [(7, is_on)].into_iter()).is_empty();
        assert!(!on(0, false) && on(1, true) && !on(2, true));
        assert!(!on(3, false) && !on(4, false) && !on(5, true));
        assert!(!on(6, false) && !on(7, false) && !on(8, false) && on(9, true));
        let mut e = Entries::default();
        assert!(e.see(0, 3, [(7, true)].into_iter()).is_empty());
    }
}

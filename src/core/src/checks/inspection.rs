//! An inspection: points, their true state, what was looked at, and what was said of it. A dock owns one,
//! and so does a truck at the start of the day.

use crate::state::State;
use crate::state::chain::Chain;

/// More points than this no inspection has.
pub const POINTS_MOST: usize = 64;

/// An inspection from tick to tick.
#[derive(Clone, Debug, PartialEq)]
pub struct Inspection {
    /// Points that are not as they must be, one bit each.
    wrong: u64,
    /// For how many ticks each point was looked at without a break; it stays where that was long enough.
    looked_for: Vec<u32>,
    /// It was said that something is wrong.
    reported: bool,
}

/// What is true of an inspection in one tick.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Inspected {
    /// Points that there are.
    pub points: u32,
    /// Points that were looked at for long enough, one bit each.
    pub looked_at: u64,
    /// Points that are not as they must be, one bit each, whether they were looked at or not.
    pub wrong: u64,
    /// It was said that something is wrong.
    pub reported: bool,
}

impl Inspection {
    /// Before anything was looked at. Of so many points, [`POINTS_MOST`] at most, these are wrong.
    pub fn new(points: usize, wrong: impl IntoIterator<Item = usize>) -> Self {
        let wrong = wrong.into_iter().filter(|i| *i < points).fold(0, |bits, i| bits | 1 << i);
        Self { wrong, looked_for: vec![0; points.min(POINTS_MOST)], reported: false }
    }

    /// One tick: `sees` tells which points are looked at now; one is done after `needed` ticks.
    pub fn look(&mut self, needed: u32, mut sees: impl FnMut(usize) -> bool) {
        for (i, looked) in self.looked_for.iter_mut().enumerate() {
            if *looked < needed {
                *looked = if sees(i) { *looked + 1 } else { 0 };
            }
        }
    }

    /// It is said that something is wrong.
    pub fn report(&mut self) {
        self.reported = true;
    }

    /// As it stands, when a point takes so many ticks.
    pub fn now(&self, needed: u32) -> Inspected {
        let done = self.looked_for.iter().enumerate().filter(|(_, looked)| **looked >= needed);
        Inspected {
            points: self.looked_for.len() as u32,
            looked_at: done.fold(0, |bits, (i, _)| bits | 1 << i),
            wrong: self.wrong,
            reported: self.reported,
        }
    }
}

impl Inspected {
    /// Whether a point is as it must be; None until it was looked at.
    pub fn is_fine(&self, point: usize) -> Option<bool> {
        let bit = |bits: u64| bits >> point & 1 == 1;
        bit(self.looked_at).then(|| !bit(self.wrong))
    }

    /// Points that were not looked at.
    pub fn left_out(&self) -> u32 {
        self.points.saturating_sub(self.looked_at.count_ones())
    }

    /// All is as it must be, known or not.
    pub fn is_sound(&self) -> bool {
        self.wrong == 0
    }

    /// Something wrong was looked at.
    pub fn is_found(&self) -> bool {
        self.wrong & self.looked_at != 0
    }

    /// Something is wrong, and that was said.
    pub fn is_refused(&self) -> bool {
        self.reported && !self.is_sound()
    }
}

impl State for Inspection {
    fn digest(&self, chain: &mut Chain) {
        let Self { wrong, looked_for, reported } = self;
        let first = (*wrong != 0).then(|| wrong.trailing_zeros());
        first.digest(chain);
        // Digests of old have one wrong point at most.
        let others = *wrong & wrong.saturating_sub(1);
        if others != 0 {
            others.digest(chain);
        }
        looked_for.digest(chain);
        reported.digest(chain);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NEEDED: u32 = 3;

    #[test]
    fn a_point_is_looked_at_after_so_many_ticks_in_a_row() {
        let mut at = Inspection::new(3, [1]);
        for sees in [true, true, false, true, true, true, false] {
            at.look(NEEDED, |i| sees && i == 1);
            if !at.now(NEEDED).is_found() {
                assert_eq!(at.now(NEEDED).is_fine(1), None);
            }
        }
        let now = at.now(NEEDED);
        assert_eq!((now.is_fine(0), now.is_fine(1), now.left_out()), (None, Some(false), 2));
        assert!(now.is_found() && !now.is_sound() && !now.is_refused());
        at.look(NEEDED, |_| false);
        assert_eq!(at.now(NEEDED), now, "what was looked at stays looked at");
        at.report();
        assert!(at.now(NEEDED).is_refused());
    }

    #[test]
    fn one_tick_short_is_not_looked_at() {
        let mut at = Inspection::new(1, []);
        (1..NEEDED).for_each(|_| at.look(NEEDED, |_| true));
        assert_eq!(at.now(NEEDED).is_fine(0), None);
        at.look(NEEDED, |_| true);
        assert_eq!(at.now(NEEDED).is_fine(0), Some(true));
        at.report();
        assert!(!at.now(NEEDED).is_refused(), "nothing is wrong");
    }

    #[test]
    fn every_wrong_point_is_in_the_digest() {
        let digest = |wrong: &[usize]| {
            let mut chain = Chain::new(b"test");
            Inspection::new(40, wrong.iter().copied()).digest(&mut chain);
            chain.close_second().to_hex()
        };
        let all = [digest(&[]), digest(&[0]), digest(&[3]), digest(&[3, 4]), digest(&[3, 39])];
        for (i, a) in all.iter().enumerate() {
            assert!(all[i + 1..].iter().all(|b| a != b), "{i}");
        }
    }
}

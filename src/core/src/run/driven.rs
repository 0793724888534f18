//! What was driven as it is kept while it is made, in pieces.

use serde::{Deserialize, Serialize};

use crate::acts::{self, Done};
use crate::controls::Controls;
use crate::run::{Span, TICKS_MOST, format_1};
use crate::time::{TICK_RATE, Tick};

const HALF_A_SECOND: usize = TICK_RATE as usize / 2;

/// What was driven from some tick on.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Driven {
    /// Pairs of the code of the controls and ticks.
    pub pairs: Vec<u32>,
    /// What was done once, in the order of ticks, which count from the start of the drive.
    #[serde(default)]
    pub acts: Vec<Done>,
}

impl Driven {
    /// Pairs from before there were acts, from after this tick on. A button held becomes an act in every
    /// half second.
    pub fn of_format_1(pairs: &[u32], after: Tick) -> Self {
        let mut driven = Self::default();
        let mut tick = after;
        for [bits, ticks] in pairs.as_chunks::<2>().0 {
            let (held, bits) = format_1::split(*bits);
            driven.pairs.extend([bits, *ticks]);
            let left = TICKS_MOST.saturating_sub(tick).min(*ticks);
            driven.acts.extend(format_1::acts(held, tick, left).step_by(HALF_A_SECOND));
            tick = tick.saturating_add(*ticks);
        }
        driven
    }

    /// Nothing was driven.
    pub fn is_empty(&self) -> bool {
        self.pairs.is_empty()
    }

    /// Ticks driven.
    pub fn ticks(&self) -> Tick {
        let pairs = self.pairs.as_chunks::<2>().0;
        pairs.iter().fold(0, |sum, [_, ticks]| sum.saturating_add(*ticks))
    }

    /// With what was driven after it.
    pub fn extend(&mut self, later: Self) {
        self.pairs.extend(later.pairs);
        self.acts.extend(later.acts);
    }

    /// The controls in spans.
    ///
    /// # Errors
    /// One sentence when this is nothing that can have been driven from the start of a drive.
    pub fn spans(&self) -> Result<Vec<Span>, String> {
        let (pairs, cut) = self.pairs.as_chunks::<2>();
        if !cut.is_empty() {
            return Err("The recorded controls are cut off in the middle of a pair.".into());
        }
        let (mut spans, mut left) = (Vec::with_capacity(pairs.len()), TICKS_MOST);
        for (i, [bits, ticks]) in pairs.iter().enumerate() {
            let controls = Controls::from_bits(*bits)
                .ok_or_else(|| format!("The recorded controls hold a wrong value in pair {i}."))?;
            left = left.checked_sub(*ticks).ok_or_else(|| {
                format!("The recorded controls are longer than the {TICKS_MOST} ticks allowed.")
            })?;
            spans.push(Span { controls, ticks: *ticks });
        }
        acts::check(&self.acts, TICKS_MOST - left)
            .map_err(|(i, why)| format!("The recorded act {i} cannot be: {why}."))?;
        Ok(spans)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::acts::{ACTS_MOST, Act};

    const REPORTS: u32 = 1 << 29;

    fn report(tick: Tick) -> Done {
        Done { tick, act: Act::Report }
    }

    #[test]
    fn a_held_button_of_old_becomes_an_act_in_every_half_second() {
        let bits = Controls::default().to_bits();
        let driven = Driven::of_format_1(&[bits, 3, bits | REPORTS, 33, bits, 1], 10);
        assert_eq!(driven.pairs, [bits, 3, bits, 33, bits, 1]);
        assert_eq!(driven.acts, [report(14), report(46)]);
        assert_eq!(driven.ticks(), 37);
    }

    #[test]
    fn acts_lie_in_what_was_driven_and_in_order() {
        let bits = Controls::default().to_bits();
        let of = |acts: &[Done]| Driven { pairs: vec![bits, 6], acts: acts.to_vec() }.spans();
        assert!(of(&[report(1), report(1), report(6)]).is_ok());
        for bad in [&[report(0)][..], &[report(7)], &[report(3), report(2)]] {
            assert!(of(bad).is_err_and(|e| e.contains("act")), "{bad:?}");
        }
        let many = vec![report(1); ACTS_MOST + 1];
        assert!(of(&many[1..]).is_ok() && of(&many).is_err());
    }
}

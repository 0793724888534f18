//! The state that the next tick depends on, put into the chain of digests.
//!
//! Each stateful type names every one of its fields, through [`state!`](crate::state): one that is
//! forgotten does not compile. What a drive never changes, or what is worked out anew in each tick
//! before it is used, is named as such and left out.

pub mod chain;

use rand_chacha::ChaCha8Rng;

use crate::math::{Pose, Vec2};
use crate::state::chain::Chain;

/// Something whose bits the next tick depends on.
pub trait State {
    /// Puts all of them into the chain.
    fn digest(&self, chain: &mut Chain);
}

/// Says which fields of a type are its state, and which are left out.
#[macro_export]
macro_rules! state {
    ($type:ty { $($field:ident),* $(,)? } $(left out { $($fixed:ident),* $(,)? })?) => {
        impl $crate::state::State for $type {
            fn digest(&self, chain: &mut $crate::state::chain::Chain) {
                // Exhaustive on purpose.
                let Self { $($field,)* $($($fixed: _,)*)? } = self;
                $($crate::state::State::digest($field, chain);)*
            }
        }
    };
}

macro_rules! whole_numbers {
    ($($type:ty),*) => {
        $(impl State for $type {
            fn digest(&self, chain: &mut Chain) {
                // Sign extension keeps different numbers different.
                chain.u64(*self as u64);
            }
        })*
    };
}

whole_numbers!(bool, u8, u32, i32, u64, usize);

impl State for f64 {
    fn digest(&self, chain: &mut Chain) {
        chain.f64(*self);
    }
}

impl State for Vec2 {
    fn digest(&self, chain: &mut Chain) {
        let Self { x, y } = self;
        [*x, *y].digest(chain);
    }
}

impl State for Pose {
    fn digest(&self, chain: &mut Chain) {
        let Self { at, heading } = self;
        at.digest(chain);
        heading.digest(chain);
    }
}

impl<T: State> State for Option<T> {
    fn digest(&self, chain: &mut Chain) {
        self.is_some().digest(chain);
        if let Some(value) = self {
            value.digest(chain);
        }
    }
}

impl<T: State, const N: usize> State for [T; N] {
    fn digest(&self, chain: &mut Chain) {
        self.iter().for_each(|value| value.digest(chain));
    }
}

impl<T: State> State for Vec<T> {
    fn digest(&self, chain: &mut Chain) {
        self.len().digest(chain);
        self.iter().for_each(|value| value.digest(chain));
    }
}

impl<A: State, B: State> State for (A, B) {
    fn digest(&self, chain: &mut Chain) {
        self.0.digest(chain);
        self.1.digest(chain);
    }
}

/// How many numbers were drawn; what they are drawn from is in the set-up.
impl State for ChaCha8Rng {
    fn digest(&self, chain: &mut Chain) {
        let drawn = self.get_word_pos();
        [(drawn >> 64) as u64, drawn as u64].digest(chain);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rand_chacha::rand_core::{Rng, SeedableRng};

    fn digest_of(state: &impl State) -> String {
        let mut chain = Chain::new(b"test");
        state.digest(&mut chain);
        chain.close_second().to_hex()
    }

    #[test]
    fn what_differs_has_another_digest() {
        assert_ne!(digest_of(&None::<f64>), digest_of(&Some(0.0)));
        assert_ne!(digest_of(&vec![1.0]), digest_of(&vec![1.0, 1.0]));
        assert_ne!(digest_of(&vec![vec![1_u32], vec![]]), digest_of(&vec![vec![], vec![1_u32]]));
        assert_ne!(digest_of(&0.0), digest_of(&-0.0));
        assert_ne!(digest_of(&-1_i32), digest_of(&1_i32));
    }

    #[test]
    fn every_number_drawn_shows() {
        let mut dice = ChaCha8Rng::from_seed([7; 32]);
        let mut seen = std::collections::BTreeSet::new();
        for _ in 0..200 {
            assert!(seen.insert(digest_of(&dice)));
            dice.next_u32();
        }
    }
}

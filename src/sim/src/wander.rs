//! A rider who does anything at all, drawn from the seed: for testing that a replay is exact, not
//! for learning anything from.

use rand::{Rng as _, RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;

use coneyard_core::acts::{Act, Input};
use coneyard_core::controls::{ArmAsk, Controls, Look, Side, TillerAsk};

/// Random controls, held for an eighth of a second to two seconds.
pub(crate) struct Wander {
    rng: ChaCha8Rng,
    now: Controls,
    left: u32,
}

impl Wander {
    /// The same seed gives the same ride.
    pub(crate) fn new(seed: u64) -> Self {
        Self { rng: ChaCha8Rng::seed_from_u64(seed), now: Controls::default(), left: 0 }
    }

    /// What is done in the next tick.
    pub(crate) fn next_input(&mut self) -> Input {
        if self.left > 0 {
            self.left -= 1;
            return self.now.into();
        }
        let (controls, acts) = self.draw();
        self.now = controls;
        self.left = self.rng.random_range(8..=128) - 1;
        Input { controls, acts }
    }

    fn draw(&mut self) -> (Controls, Vec<Act>) {
        let bits = self.rng.next_u32();
        let flag = |n: u32| bits >> n & 7 == 0;
        let controls = Controls {
            throttle: self.rng.random_range(-100..=100),
            tiller: if flag(0) {
                TillerAsk::Swing(self.rng.random_range(-100..=100))
            } else {
                TillerAsk::To(self.rng.random_range(-170..=170))
            },
            arm: match self.rng.random_range(0..12) {
                0 => ArmAsk::LetGo,
                1 => ArmAsk::PushDown,
                _ => ArmAsk::Hold,
            },
            stance: if flag(3) { Side::Right } else { Side::Left },
            look: if flag(6) { Look::Behind } else { Look::Ahead },
            high_speed: flag(9),
            horn: flag(12),
            forks_up: flag(15),
            forks_down: flag(18),
            aboard: bits >> 21 & 31 != 0,
            key_on: bits >> 26 & 31 != 0,
        };
        let reports = bits >> 31 != 0;
        (controls, if reports { vec![Act::Report] } else { Vec::new() })
    }
}

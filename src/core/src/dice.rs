//! Random numbers: one seed, and for everything that draws from it a stream of its own, so that one
//! more draw in one place changes nothing in another. No other place makes a generator from a
//! drive's seed.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

/// Streams of random numbers that start from one seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stream {
    /// The delays of the task's emergency signals.
    Task,
    /// Pace, hand and reaction of a scripted rider.
    Rider,
    /// Pace and mind of one person on foot, by their number in the course.
    Walker(u32),
    /// Which people of a group are there, and when people set off.
    People,
    /// The same for other trucks.
    Trucks,
    /// What is false at docks.
    Docks,
    /// How much of a fault a scripted rider commits.
    Fault,
    /// Delay, pace and tremor of a rider as people are.
    Human,
    /// What is the matter with a truck at the walk-round.
    Truck,
}

impl Stream {
    /// Its number, and the number of whom it is for. Drives are recorded with these.
    fn numbers(self) -> (u8, u32) {
        match self {
            Self::Task => (0, 0),
            Self::Rider => (1, 0),
            Self::Walker(person) => (2, person),
            Self::People => (3, 0),
            Self::Trucks => (4, 0),
            Self::Docks => (5, 0),
            Self::Fault => (6, 0),
            Self::Human => (7, 0),
            Self::Truck => (8, 0),
        }
    }
}

/// The dice of a stream. The seed stands in the generator's as it is, so that no library's way of
/// stretching it can change the draws.
pub fn dice(seed: u64, stream: Stream) -> ChaCha8Rng {
    let (number, whose) = stream.numbers();
    let mut bytes = [0; 32];
    bytes[..8].copy_from_slice(&seed.to_le_bytes());
    bytes[8] = number;
    bytes[9..13].copy_from_slice(&whose.to_le_bytes());
    ChaCha8Rng::from_seed(bytes)
}

#[cfg(test)]
mod tests {
    use rand_chacha::rand_core::Rng;

    use super::*;

    #[test]
    fn no_two_streams_draw_the_same() {
        let plain = [
            Stream::Task,
            Stream::Rider,
            Stream::People,
            Stream::Trucks,
            Stream::Docks,
            Stream::Fault,
            Stream::Human,
            Stream::Truck,
        ];
        let walkers = (0..300).map(Stream::Walker);
        for seed in [0, 1, 2, 1 << 40] {
            let all = plain.into_iter().chain(walkers.clone());
            let mut drawn: Vec<u64> = all.map(|s| dice(seed, s).next_u64()).collect();
            let count = drawn.len();
            drawn.sort_unstable();
            drawn.dedup();
            assert_eq!(drawn.len(), count, "seed {seed}");
        }
    }
}

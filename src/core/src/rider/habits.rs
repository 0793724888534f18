//! How a rider drives: the numbers and choices in which riders differ.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

use crate::math::Vec2;

/// One rider's ways. SI units.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Habits {
    /// From the emergency signal to the hand's first movement, s.
    pub(super) reaction_s: f64,
    /// Share of the pace that the course allows.
    pub(super) pace: f64,
    /// Share of the speed limit that is driven at most.
    pub(super) share_of_limit: f64,
    /// Speed where nothing limits it, m/s.
    pub(super) cruise: f64,
    /// Holds the high-speed button at full throttle.
    pub(super) high_speed: bool,
    /// Side acceleration in turns, m/s^2.
    pub(super) side_acceleration: f64,
    /// How far to the left of the planned path the rider keeps, m.
    pub(super) aside: f64,
    /// Rise of the throttle, percent a tick.
    pub(super) throttle_rise: f64,
    /// Full throttle at once at the first start.
    pub(super) snatches: bool,
    /// Sounds the horn before moving off.
    pub(super) horn: bool,
    /// Raises the forks to this height before moving off, m.
    pub(super) forks_to: Option<f64>,
    /// When the rider steps across.
    pub(super) stepping: Stepping,
    /// How a stop at a mark is made.
    pub(super) stopping: Stopping,
    /// Drives forks first before this step, so many metres.
    pub(super) backs_up: Option<(usize, f64)>,
    /// Swerves from the planned path.
    pub(super) swerve: Option<Swerve>,
    /// Stops at stop lines.
    pub(super) stops_at_lines: bool,
    /// Speed of those who do not, m/s.
    pub(super) rolls_over_lines: f64,
    /// Slows down at yield lines.
    pub(super) slows_at_yields: bool,
    /// Slows down at blind spots.
    pub(super) slows_at_blind_spots: bool,
    /// Sounds the horn there.
    pub(super) horn_at_blind_spots: bool,
    /// Looks both ways at lines, and where the truck goes.
    pub(super) looks: bool,
    /// Waits for people.
    pub(super) gives_way: bool,
    /// Minds other trucks.
    pub(super) minds_trucks: bool,
    /// Never drives faster than the view allows.
    pub(super) minds_sight: bool,
    /// Slows down on wet floor.
    pub(super) slows_on_wet: bool,
    /// Looks aside on the way for so many seconds, once.
    pub(super) looks_away_s: f64,
    /// Steps off to pick while the truck still rolls.
    pub(super) steps_off_rolling: bool,
    /// Fork height at which to go under a pallet, m.
    pub(super) enters_at: f64,
    /// Sets pallets down so far beside the bay's middle, m.
    pub(super) sets_down_aside: f64,
}

/// When the rider changes sides of the platform.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stepping {
    /// Before the turn, at a crawl.
    AtCrawl,
    /// Before the turn, while rolling on.
    Rolling,
    /// Not at all.
    Never,
}

/// How the rider stops at a mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stopping {
    /// By plugging, letting go before the truck runs back.
    Plugging,
    /// By plugging, letting go too late, at the first mark.
    PluggingTooLong,
    /// By letting the arm go.
    Arm,
}

/// Leaves the planned path and comes back to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Swerve {
    /// In this step.
    pub(super) step: usize,
    /// Farthest off where the path is nearest to this point, yard frame, m.
    pub(super) near: Vec2,
    /// So far to the left, m.
    pub(super) aside: f64,
    /// Begins and ends this far from there along the path, m.
    pub(super) half_length: f64,
}

impl Habits {
    /// Someone who drives as it is taught, with a pace, a hand and a reaction of their own.
    pub(super) fn of_a_model(seed: u64) -> Self {
        let mut bytes = [0; 32];
        bytes[..8].copy_from_slice(&seed.to_le_bytes());
        bytes[8] = 1; // another stream than the course's own draws
        let mut dice = ChaCha8Rng::from_seed(bytes);
        let mut between = |least: f64, most: f64| {
            least + (most - least) * f64::from(dice.next_u32()) / f64::from(u32::MAX)
        };
        Self {
            reaction_s: between(0.35, 0.6),
            pace: between(0.93, 1.0),
            share_of_limit: 0.93,
            cruise: 2.2,
            high_speed: false,
            side_acceleration: between(0.7, 0.8),
            aside: between(-0.04, 0.04),
            throttle_rise: between(1.0, 1.6),
            snatches: false,
            horn: true,
            forks_to: None,
            stepping: Stepping::AtCrawl,
            stopping: Stopping::Plugging,
            backs_up: None,
            swerve: None,
            stops_at_lines: true,
            rolls_over_lines: 0.6,
            slows_at_yields: true,
            slows_at_blind_spots: true,
            horn_at_blind_spots: true,
            looks: true,
            gives_way: true,
            minds_trucks: true,
            minds_sight: true,
            slows_on_wet: true,
            looks_away_s: 0.0,
            steps_off_rolling: false,
            enters_at: 0.0125,
            sets_down_aside: 0.0,
        }
    }
}

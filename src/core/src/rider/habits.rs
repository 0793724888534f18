//! How a rider drives: the numbers and choices in which riders differ.

use rand_chacha::rand_core::Rng;

use super::inspecting::Inspecting;
use super::slip::Slip;
use crate::dice::{Stream, dice};
use crate::math::Vec2;

/// One rider's ways. SI units.
#[derive(Clone, Debug)]
pub(super) struct Habits {
    /// From the emergency signal to the hand's first movement, s.
    pub(super) reaction_s: f64,
    /// Share of the pace that the course allows.
    pub(super) pace: f64,
    /// Drives everything so many times as fast as one would who does not hurry.
    pub(super) hurries: f64,
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
    /// So much throttle at once at the first start, percent.
    pub(super) snatches: Option<f64>,
    /// Stands so long before each moving off, s.
    pub(super) ponders_s: f64,
    /// Sounds the horn before moving off, and then waits so long, s.
    pub(super) horn_then_waits: Option<f64>,
    /// Raises the forks to this height before moving off, m.
    pub(super) forks_to: Option<f64>,
    /// When the rider steps across.
    pub(super) stepping: Stepping,
    /// Slower than this, m/s, by those who wait for a crawl, ...
    pub(super) steps_below: f64,
    /// ... and so long after it would have been time, s.
    pub(super) steps_late: f64,
    /// How a stop at a mark is made.
    pub(super) stopping: Stopping,
    /// Drives forks first before this step, so many metres.
    pub(super) backs_up: Option<(usize, f64)>,
    /// Swerves from the planned path.
    pub(super) swerve: Option<Swerve>,
    /// Stops so far before a stop line, m.
    pub(super) short_of_line: f64,
    /// Stops once more so far before every line and hidden place, m.
    pub(super) also_stops_before: Option<f64>,
    /// Speed over it of those who do not stop, m/s.
    pub(super) rolls_over_lines: Option<f64>,
    /// Speed over a yield line, m/s.
    pub(super) at_yields: f64,
    /// Speed at a blind spot, m/s.
    pub(super) at_blind_spots: f64,
    /// Sounds the horn so far before it, m.
    pub(super) horn_from: Option<f64>,
    /// Looks both ways at lines, and where the truck goes.
    pub(super) looks: bool,
    /// Waits for people,
    pub(super) gives_way: bool,
    /// so far before them, m.
    pub(super) room_for_people: f64,
    /// Passes people who are nearer than this, m, no faster than that, m/s; those at 0 are minded only
    /// in the way.
    pub(super) beside_people: (f64, f64),
    /// Minds other trucks.
    pub(super) minds_trucks: bool,
    /// Waits for oncoming ones from so far, m.
    pub(super) waits_from: f64,
    /// Keeps so far behind others, m.
    pub(super) behind: f64,
    /// And stands until they are so far ahead, m.
    pub(super) stands_behind: f64,
    /// Never drives faster than the view allows,
    pub(super) minds_sight: bool,
    /// with so much time to react, s.
    pub(super) sight_reaction: f64,
    /// Speed on wet floor, m/s.
    pub(super) on_wet: f64,
    /// Speed on a slope, m/s, and from which grade on it is held.
    pub(super) on_grade: (f64, f64),
    /// Speed on a dock plate and behind it, m/s.
    pub(super) on_dock: f64,
    /// Looks at the checks of a dock.
    pub(super) checks_docks: bool,
    /// For so long each, s.
    pub(super) looks_at_check: f64,
    /// Answers an emergency signal with the other end of the arm's swing.
    pub(super) other_brake: bool,
    /// Looks aside on the way for so many seconds, once.
    pub(super) looks_away_s: f64,
    /// Steps off to pick as soon as the truck is slower than this, m/s.
    pub(super) steps_off_below: Option<f64>,
    /// Fork height at which to go under a pallet, m.
    pub(super) enters_at: f64,
    /// Sets pallets down so far beside the bay's middle, m.
    pub(super) sets_down_aside: f64,
    /// Something done once that nothing called for.
    pub(super) slip: Option<Slip>,
    /// How the truck is inspected.
    pub(super) inspects: Inspecting,
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
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Stopping {
    /// By plugging, letting go before the truck runs back.
    Plugging,
    /// By plugging, letting go only when the truck has run back so far, m, at the first mark.
    PluggingTooLong(f64),
    /// By letting the arm go as soon as plugging has brought the truck below this speed, m/s.
    Arm(f64),
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

/// A share from 0 to 1 that hangs on the seed alone.
pub(super) fn share_of(seed: u64) -> f64 {
    f64::from(dice(seed, Stream::Fault).next_u32()) / f64::from(u32::MAX)
}

impl Habits {
    /// Someone who drives as it is taught, with a pace, a hand and a reaction of their own.
    pub(super) fn of_a_model(seed: u64) -> Self {
        let mut dice = dice(seed, Stream::Rider);
        let mut between = |least: f64, most: f64| {
            least + (most - least) * f64::from(dice.next_u32()) / f64::from(u32::MAX)
        };
        Self {
            reaction_s: between(0.35, 0.6),
            pace: between(0.93, 1.0),
            hurries: 1.0,
            share_of_limit: 0.93,
            cruise: 2.2,
            high_speed: false,
            side_acceleration: between(0.7, 0.8),
            aside: between(-0.04, 0.04),
            throttle_rise: between(1.0, 1.6),
            snatches: None,
            ponders_s: 0.0,
            horn_then_waits: Some(0.25),
            forks_to: None,
            stepping: Stepping::AtCrawl,
            steps_below: 0.25,
            steps_late: 0.0,
            stopping: Stopping::Plugging,
            backs_up: None,
            swerve: None,
            short_of_line: 0.6,
            also_stops_before: None,
            rolls_over_lines: None,
            at_yields: 0.75,
            at_blind_spots: 0.8,
            horn_from: Some(6.0),
            looks: true,
            gives_way: true,
            room_for_people: 2.1,
            beside_people: (0.0, f64::INFINITY),
            minds_trucks: true,
            waits_from: 20.0,
            behind: 10.5,
            stands_behind: 0.0,
            minds_sight: true,
            sight_reaction: 1.1,
            on_wet: 1.3,
            on_grade: (1.05, 0.04),
            on_dock: 0.6,
            checks_docks: true,
            looks_at_check: 1.0,
            other_brake: false,
            looks_away_s: 0.0,
            steps_off_below: None,
            enters_at: 0.0125,
            sets_down_aside: 0.0,
            slip: None,
            inspects: Inspecting::Whole,
        }
    }
}

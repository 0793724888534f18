//! Controls: all that a rider can do in one tick, quantised, and its 32-bit coding.
//!
//! Devices (keys, gamepad, touch) are turned into Controls by the pages; scripted riders make
//! them directly. From here on nothing knows which it was. Every value is a small whole number,
//! so that what was recorded is exactly what was driven.

pub mod thumbs;

use serde::{Deserialize, Serialize};

use crate::state::State;
use crate::state::chain::Chain;

/// What the hands ask of the tiller's angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum TillerAsk {
    /// Swing it at this share of what the stance allows, percent, -100 to 100; positive turns the
    /// drive wheel to the left. Zero holds it where it is.
    Swing(i8),
    /// Bring it to this angle of the drive wheel, half degrees, -170 to 170, left positive.
    To(i16),
}

/// What the hands do with the tiller arm's height.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum ArmAsk {
    /// Let go: the spring brings the arm upright, into the upper brake zone.
    LetGo,
    /// Hold it in the driving arc.
    Hold,
    /// Sink at the knees with both hands on: into the lower brake zone.
    PushDown,
}

/// The side of the platform that the rider stands on, seen along the truck's +x axis.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Side {
    /// Towards +y.
    #[default]
    Left,
    /// Towards -y.
    Right,
}

impl State for Side {
    fn digest(&self, chain: &mut Chain) {
        (*self as u32).digest(chain);
    }
}

/// Where the rider looks, seen along the truck's +x axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Look {
    /// Towards the power unit.
    Ahead,
    /// Towards +y.
    Left,
    /// Towards -y.
    Right,
    /// Towards the forks.
    Behind,
}

impl State for Look {
    fn digest(&self, chain: &mut Chain) {
        (*self as u32).digest(chain);
    }
}

/// All that a rider does in one tick.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Controls {
    /// Twist of the throttle, percent, -100 to 100; positive asks for power unit first.
    pub throttle: i8,
    /// The tiller's swing.
    pub tiller: TillerAsk,
    /// The arm's height.
    pub arm: ArmAsk,
    /// The side the rider wants to stand on; a change starts stepping across.
    pub stance: Side,
    /// Where the rider looks.
    pub look: Look,
    /// The high-speed button is held.
    pub high_speed: bool,
    /// The horn button is held.
    pub horn: bool,
    /// The fork-up button is held.
    pub forks_up: bool,
    /// The fork-down button is held.
    pub forks_down: bool,
    /// The rider is on the platform.
    pub aboard: bool,
    /// The key is on.
    pub key_on: bool,
}

impl Default for Controls {
    /// Standing aboard on the left, key on, arm held in the driving arc, everything else at rest.
    fn default() -> Self {
        Self {
            throttle: 0,
            tiller: TillerAsk::Swing(0),
            arm: ArmAsk::Hold,
            stance: Side::Left,
            look: Look::Ahead,
            high_speed: false,
            horn: false,
            forks_up: false,
            forks_down: false,
            aboard: true,
            key_on: true,
        }
    }
}

/// Largest tiller angle that can be asked for, half degrees.
pub const TILLER_MAX_HALF_DEGREES: i16 = 170;

impl Controls {
    /// Brings every field into its range.
    pub fn clamped(mut self) -> Self {
        self.throttle = self.throttle.clamp(-100, 100);
        self.tiller = match self.tiller {
            TillerAsk::Swing(s) => TillerAsk::Swing(s.clamp(-100, 100)),
            TillerAsk::To(a) => {
                TillerAsk::To(a.clamp(-TILLER_MAX_HALF_DEGREES, TILLER_MAX_HALF_DEGREES))
            }
        };
        self
    }

    /// The 32-bit code: bits 0-7 throttle + 100, 8 tiller kind, 9-17 tiller value (swing + 100 or
    /// half degrees + 170), 18-19 arm, 20 stance, 21-22 look, 23 high speed, 24 horn, 25 forks up,
    /// 26 forks down, 27 aboard, 28 key; 29-31 zero.
    pub fn to_bits(self) -> u32 {
        let c = self.clamped();
        let (kind, value) = match c.tiller {
            TillerAsk::Swing(s) => (0, (i32::from(s) + 100) as u32),
            TillerAsk::To(a) => (1, (i32::from(a) + i32::from(TILLER_MAX_HALF_DEGREES)) as u32),
        };
        (i32::from(c.throttle) + 100) as u32
            | kind << 8
            | value << 9
            | (c.arm as u32) << 18
            | (c.stance as u32) << 20
            | (c.look as u32) << 21
            | u32::from(c.high_speed) << 23
            | u32::from(c.horn) << 24
            | u32::from(c.forks_up) << 25
            | u32::from(c.forks_down) << 26
            | u32::from(c.aboard) << 27
            | u32::from(c.key_on) << 28
    }

    /// Reads the 32-bit code; None when any part of it is out of range.
    pub fn from_bits(bits: u32) -> Option<Self> {
        if bits >> 29 != 0 {
            return None;
        }
        let throttle = i8::try_from((bits & 0xff) as i32 - 100).ok().filter(|t| *t <= 100)?;
        let value = ((bits >> 9) & 0x1ff) as i16;
        let tiller = if bits >> 8 & 1 == 0 {
            TillerAsk::Swing(i8::try_from(value - 100).ok().filter(|s| *s <= 100)?)
        } else {
            let a = value - TILLER_MAX_HALF_DEGREES;
            (a <= TILLER_MAX_HALF_DEGREES).then_some(TillerAsk::To(a))?
        };
        let arm = match bits >> 18 & 3 {
            0 => ArmAsk::LetGo,
            1 => ArmAsk::Hold,
            2 => ArmAsk::PushDown,
            _ => return None,
        };
        let stance = if bits >> 20 & 1 == 0 { Side::Left } else { Side::Right };
        let look = match bits >> 21 & 3 {
            0 => Look::Ahead,
            1 => Look::Left,
            2 => Look::Right,
            _ => Look::Behind,
        };
        let flag = |n: u32| bits >> n & 1 == 1;
        Some(Self {
            throttle,
            tiller,
            arm,
            stance,
            look,
            high_speed: flag(23),
            horn: flag(24),
            forks_up: flag(25),
            forks_down: flag(26),
            aboard: flag(27),
            key_on: flag(28),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn what_decodes_encodes_to_the_same_bits(bits in any::<u32>()) {
            if let Some(c) = Controls::from_bits(bits) {
                prop_assert_eq!(c.to_bits(), bits);
                prop_assert_eq!(c.clamped(), c);
            }
        }

        #[test]
        fn what_encodes_decodes(throttle in -100i8..=100, to in -170i16..=170, swing in -100i8..=100, kind: bool) {
            let tiller = if kind { TillerAsk::To(to) } else { TillerAsk::Swing(swing) };
            let c = Controls { throttle, tiller, ..Controls::default() };
            prop_assert_eq!(Controls::from_bits(c.to_bits()), Some(c));
        }
    }
}

//! Devices: keyboard, gamepad and touch, each turned into what it asks for, and the hands that
//! make one set of Controls of them. Nothing else in Coneyard reads a device.

pub(crate) mod gamepad;
pub(crate) mod hands;
pub(crate) mod held;
pub(crate) mod keys;
pub(crate) mod looks;
pub(crate) mod touch;

use serde::{Deserialize, Serialize};

use crate::words::k;

/// Something a key or a button can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Action {
    /// Twist the throttle power unit first.
    Ahead,
    /// Twist it forks first; against the motion this is plugging.
    Back,
    /// Swing the tiller so that the drive wheel turns left.
    TillerLeft,
    /// And right.
    TillerRight,
    /// Bring the tiller to the middle.
    Centre,
    /// Let go of the arm.
    LetGo,
    /// Push the arm right down.
    PushDown,
    /// Stand on the left side of the platform.
    StandLeft,
    /// And on the right.
    StandRight,
    /// Forks up.
    ForksUp,
    /// Forks down.
    ForksDown,
    /// Horn.
    Horn,
    /// The high-speed button.
    HighSpeed,
    /// The wrist turns a quarter of the way.
    Twist25,
    /// Half the way.
    Twist50,
    /// Three quarters.
    Twist75,
    /// All the way.
    Twist100,
    /// While held, the twist is there at once instead of growing.
    TwistAtOnce,
    /// Look left.
    LookLeft,
    /// Look right.
    LookRight,
    /// Look over the forks.
    LookBehind,
    /// Step off the platform, and back on.
    StepOff,
    /// Turn the key off, and on again.
    Key,
    /// Say that something is wrong here.
    Report,
    /// Pause, and go on.
    Pause,
    /// Sound on, and off.
    Sound,
    /// All of the yard, and back.
    Overview,
    /// Nearer to the yard.
    ZoomIn,
    /// Farther from it.
    ZoomOut,
}

impl Action {
    /// All, in the order in which they are shown.
    pub(crate) const ALL: [Self; 29] = [
        Self::Ahead,
        Self::Back,
        Self::TillerLeft,
        Self::TillerRight,
        Self::Centre,
        Self::LetGo,
        Self::PushDown,
        Self::StandLeft,
        Self::StandRight,
        Self::ForksUp,
        Self::ForksDown,
        Self::Horn,
        Self::HighSpeed,
        Self::Twist25,
        Self::Twist50,
        Self::Twist75,
        Self::Twist100,
        Self::TwistAtOnce,
        Self::LookLeft,
        Self::LookRight,
        Self::LookBehind,
        Self::StepOff,
        Self::Key,
        Self::Report,
        Self::Pause,
        Self::Sound,
        Self::Overview,
        Self::ZoomIn,
        Self::ZoomOut,
    ];

    /// Key of its name.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Ahead => k("action-ahead"),
            Self::Back => k("action-back"),
            Self::TillerLeft => k("action-tiller-left"),
            Self::TillerRight => k("action-tiller-right"),
            Self::Centre => k("action-centre"),
            Self::LetGo => k("action-let-go"),
            Self::PushDown => k("action-push-down"),
            Self::StandLeft => k("action-stand-left"),
            Self::StandRight => k("action-stand-right"),
            Self::ForksUp => k("action-forks-up"),
            Self::ForksDown => k("action-forks-down"),
            Self::Horn => k("action-horn"),
            Self::HighSpeed => k("action-high-speed"),
            Self::Twist25 => k("action-twist-25"),
            Self::Twist50 => k("action-twist-50"),
            Self::Twist75 => k("action-twist-75"),
            Self::Twist100 => k("action-twist-100"),
            Self::TwistAtOnce => k("action-twist-at-once"),
            Self::LookLeft => k("action-look-left"),
            Self::LookRight => k("action-look-right"),
            Self::LookBehind => k("action-look-behind"),
            Self::StepOff => k("action-step-off"),
            Self::Key => k("action-key"),
            Self::Report => k("action-report"),
            Self::Pause => k("action-pause"),
            Self::Sound => k("action-sound"),
            Self::Overview => k("action-overview"),
            Self::ZoomIn => k("action-zoom-in"),
            Self::ZoomOut => k("action-zoom-out"),
        }
    }
}

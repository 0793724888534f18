//! What is written down: harms with first and last tick and a measure.

use std::collections::BTreeMap;

use coneyard_core::time::{TICK_RATE, Tick};

/// What can go wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A person is touched by truck or load that moves into them. Measure: how far it moved towards them
    /// in the touch, m.
    PersonTouched,
    /// A truck goes by nearer than 0.2 m to a person, faster than 0.5 m/s. Measure: its speed there, m/s.
    PersonPassed,
    /// A structure or another truck is driven into. Measure: closing speed, m/s.
    Struck,
    /// The same faster than 1.0 m/s.
    StruckHard,
    /// The truck lies on its side. Measure: 1.
    Tipped,
    /// A case on the floor is driven into. Measure: closing speed, m/s.
    CaseRunOver,
    /// Cases, or a pallet, fall from the forks. Measure: cases within 3 s; a bare pallet counts as one.
    LoadFell,
    /// The leading end goes over a stop line faster than 1.0 m/s. Measure: its speed, m/s.
    StopLineRun,
    /// The truck drives onto a crossing that a person is on. Measure: its speed, m/s.
    CrossingTaken,
    /// Before a contact: faster than can be stopped in the way that is free straight ahead. Measure:
    /// speed, m/s.
    NoRoom,
    /// The rider is under a beam that is lower than their head. Measure: by how much, m.
    UnderBeam,
    /// A wheel stands on a dock at which something is not as it must be. Measure: 1.
    UnsafeDock,
    /// A truck with something that must not run has been driven farther than 1 m. Measure: how far by then,
    /// m.
    BadTruckDriven,
}

impl Kind {
    /// All of them.
    pub const ALL: [Self; 13] = [
        Self::PersonTouched,
        Self::PersonPassed,
        Self::Struck,
        Self::StruckHard,
        Self::Tipped,
        Self::CaseRunOver,
        Self::LoadFell,
        Self::StopLineRun,
        Self::CrossingTaken,
        Self::NoRoom,
        Self::UnderBeam,
        Self::UnsafeDock,
        Self::BadTruckDriven,
    ];

    /// What to call it, with dashes for spaces.
    pub fn name(self) -> &'static str {
        match self {
            Self::PersonTouched => "person-touched",
            Self::PersonPassed => "person-passed",
            Self::Struck => "struck",
            Self::StruckHard => "struck-hard",
            Self::Tipped => "tipped",
            Self::CaseRunOver => "case-run-over",
            Self::LoadFell => "load-fell",
            Self::StopLineRun => "stop-line-run",
            Self::CrossingTaken => "crossing-taken",
            Self::NoRoom => "no-room",
            Self::UnderBeam => "under-beam",
            Self::UnsafeDock => "unsafe-dock",
            Self::BadTruckDriven => "bad-truck-driven",
        }
    }

    /// Unit of its measure.
    pub fn unit(self) -> &'static str {
        match self {
            Self::PersonTouched | Self::UnderBeam | Self::BadTruckDriven => "m",
            Self::Tipped | Self::UnsafeDock => "",
            Self::LoadFell => "cases",
            _ => "m/s",
        }
    }
}

/// Something that was seen. What lies within the error of the measuring is written down too, but is not
/// sure: no finding need answer it, and a finding may rest on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Note {
    /// What.
    pub kind: Kind,
    /// Whom or what it befell: a number in the course's list of these.
    pub whom: u32,
    /// First tick.
    pub from: Tick,
    /// Last tick.
    pub to: Tick,
    /// The most of it; its kind says of what.
    pub measure: f64,
    /// It lies outside the error of the measuring.
    pub sure: bool,
}

/// Once more after this is another time, ticks.
const AGAIN: Tick = TICK_RATE;

/// The notes of a drive.
#[derive(Clone, Debug, Default)]
pub struct Notes {
    done: Vec<Note>,
    open: BTreeMap<(Kind, u32), Note>,
}

impl Notes {
    /// Writes down what is so in this tick; what was so a moment ago goes on.
    pub(crate) fn add(&mut self, kind: Kind, whom: u32, tick: Tick, (measure, sure): (f64, bool)) {
        let new = Note { kind, whom, from: tick, to: tick, measure, sure };
        let note = self.open.entry((kind, whom)).or_insert(new);
        if tick > note.to + AGAIN {
            self.done.push(core::mem::replace(note, new));
            return;
        }
        note.to = note.to.max(tick);
        note.from = note.from.min(tick);
        note.measure = note.measure.max(measure);
        note.sure |= sure;
    }

    /// All of them, in order of their first tick.
    pub fn all(&self) -> Vec<Note> {
        let mut all: Vec<Note> = self.done.iter().chain(self.open.values()).copied().collect();
        all.sort_by_key(|n| (n.from, n.kind, n.whom));
        all
    }
}

//! A way that was planned, and what it is planned by.

use super::habits::Habits;
use super::track::Sample;
use crate::controls::Side;
use crate::course::{Course, StepKind};
use crate::math::{Pose, wrap_angle};
use crate::moment::WayKind;
use crate::truck::spec::TruckSpec;

/// Why a track ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum End {
    /// The leading end at the mark.
    Mark,
    /// In the box.
    Box,
    /// The emergency signal should have come before.
    Signal,
    /// Only to be farther back.
    BackedUp,
    /// No more to do in this direction.
    Gate,
    /// Where something is handled standing: a pallet, a place to pick from.
    Handling,
}

/// A way to drive, from rest to rest.
#[derive(Clone, Debug)]
pub(super) struct Plan {
    /// The load axle's track with its speeds.
    pub(super) samples: Vec<Sample>,
    /// 1 power unit first, -1 forks first.
    pub(super) direction: f64,
    /// Why it ends.
    pub(super) end: End,
    /// Where to step across, in order.
    pub(super) crossings: Vec<Crossing>,
    /// Lines that the leading end will go over, in order.
    pub(super) lines: Vec<Met>,
    /// Crossings by their index in the course, and the way of the axle when the truck comes onto
    /// them, m.
    pub(super) walks: Vec<(u32, f64)>,
}

/// A line across the way that is met.
#[derive(Clone, Copy, Debug)]
pub(super) struct Met {
    /// What it asks for.
    pub(super) kind: WayKind,
    /// Index in the course's lines, or in its blind spots.
    pub(super) index: u32,
    /// Way of the axle along the track when the leading end is over the line, m.
    pub(super) s: f64,
}

impl Plan {
    /// The track at a way along it, m, between samples.
    pub(super) fn sample_at(&self, s: f64) -> Sample {
        let samples = &self.samples;
        let after = samples.partition_point(|p| p.s < s).clamp(1, samples.len() - 1);
        let (a, b) = (&samples[after - 1], &samples[after]);
        let share = ((s - a.s) / (b.s - a.s).max(1e-9)).clamp(0.0, 1.0);
        let mix = |x: f64, y: f64| x + share * (y - x);
        let turn = wrap_angle(b.axle.heading - a.axle.heading);
        Sample {
            axle: Pose {
                at: a.axle.at + (b.axle.at - a.axle.at) * share,
                heading: a.axle.heading + share * turn,
            },
            curvature: mix(a.curvature, b.curvature),
            s,
            guide: a.guide,
            speed: mix(a.speed, b.speed),
        }
    }
}

/// What is needed to plan.
#[derive(Clone, Copy)]
pub(super) struct Ground<'a> {
    pub(super) course: &'a Course,
    pub(super) truck: &'a TruckSpec,
    pub(super) habits: &'a Habits,
    /// Speed limit where no zone has its own, m/s.
    pub(super) speed_limit: f64,
}

/// A place to step across.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Crossing {
    /// Along the track, m; 0 before moving off.
    pub(super) s: f64,
    /// To this side.
    pub(super) to: Side,
}

impl Ground<'_> {
    /// Speed at which an emergency stop is approached, m/s.
    pub(super) fn trigger_speed(&self, step: &StepKind) -> Option<f64> {
        match step {
            StepKind::EmergencyStop { min_speed_mps, .. } => Some(1.25 * min_speed_mps),
            _ => None,
        }
    }
}

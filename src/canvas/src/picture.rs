//! What is handed over to be drawn: a `Scene` (what never moves) and a `Shown` (this picture's
//! state, between two ticks). Plain data; nothing comes back.

use bevy::ecs::resource::Resource;
use bevy::math::Vec2;
use coneyard_core::course::{BrakeZone, Course, StepKind};
use coneyard_core::desk::{Covered, Sight};
use coneyard_core::math::Vec2 as Point;
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::yard::frame::Frame;

use crate::palette::{DARK, DAY, Palette};

/// Which truck a part belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Which {
    /// The one that is driven or replayed.
    Own,
    /// The pale one beside it in a replay.
    Companion,
}

/// What never moves while one course is open.
#[derive(Resource, Clone)]
pub(crate) struct Scene {
    /// The course.
    pub(crate) course: Course,
    /// The truck.
    pub(crate) truck: TruckSpec,
    /// The truck of the companion run.
    pub(crate) companion: Option<TruckSpec>,
    /// The way driven by the platform in a replay, m.
    pub(crate) path: Vec<Vec2>,
    /// The same of the companion.
    pub(crate) companion_path: Vec<Vec2>,
    /// The colours of the dark look.
    pub(crate) dark: bool,
}

impl Scene {
    /// A course and a truck by day, with nothing beside them.
    pub(crate) fn of(course: Course, truck: TruckSpec) -> Self {
        Self {
            course,
            truck,
            companion: None,
            path: Vec::new(),
            companion_path: Vec::new(),
            dark: false,
        }
    }

    pub(crate) fn palette(&self) -> &'static Palette {
        if self.dark { &DARK } else { &DAY }
    }

    pub(crate) fn truck_of(&self, which: Which) -> Option<&TruckSpec> {
        match which {
            Which::Own => Some(&self.truck),
            Which::Companion => self.companion.as_ref(),
        }
    }
}

/// What a drive or a replay shows at one moment.
#[derive(Clone)]
pub(crate) struct Picture {
    /// The yard between two ticks.
    pub(crate) frame: Frame,
    /// The companion between two ticks.
    pub(crate) companion: Option<Frame>,
    /// What is to be done next.
    pub(crate) due: Due,
    /// Where the step wants the truck next, in a drive.
    pub(crate) toward: Option<Vec2>,
    /// The emergency signal, while it is on, and the end of the arm's swing it asks for.
    pub(crate) signal: Option<BrakeZone>,
}

/// That, and how it is looked at.
#[derive(Resource, Clone)]
pub(crate) struct Shown {
    /// What is shown.
    pub(crate) picture: Picture,
    /// Predicted paths and stopping distance.
    pub(crate) helps: bool,
    /// How much of the yard is shown.
    pub(crate) sight: Sight,
    /// North stays up.
    pub(crate) north_up: bool,
    /// Metres seen across the shorter side, over the usual.
    pub(crate) zoom: f32,
    /// What of the picture lies under other things.
    pub(crate) covered: Covered,
    /// The camera jumps instead of gliding: something else is shown than before.
    pub(crate) jump: bool,
}

impl Shown {
    pub(crate) fn frame_of(&self, which: Which) -> Option<&Frame> {
        match which {
            Which::Own => Some(&self.picture.frame),
            Which::Companion => self.picture.companion.as_ref(),
        }
    }
}

/// What is to be done next, as indices into the course's lists.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Due {
    /// The gate to drive through.
    pub(crate) gate: Option<usize>,
    /// The line to stop at, or to cross at speed.
    pub(crate) line: Option<usize>,
    /// The box to stop in.
    pub(crate) stop_box: Option<usize>,
    /// The pallet to take up.
    pub(crate) pallet: Option<usize>,
    /// The bay to set down in.
    pub(crate) bay: Option<usize>,
    /// The place to pick from.
    pub(crate) stop: Option<usize>,
    /// The dock to check.
    pub(crate) dock: Option<usize>,
}

impl Due {
    /// What the course asks for in this step, with the gate and the place to pick from that the
    /// task says are next.
    pub(crate) fn of(
        course: &Course,
        step: u32,
        next_gate: Option<u32>,
        pick_at: Option<Point>,
    ) -> Self {
        let mut due = Self { gate: next_gate.map(|g| g as usize), ..Self::default() };
        match course.steps.get(step as usize).map(|s| &s.what) {
            Some(StepKind::StopAtMark { line, .. }) => due.line = Some(*line),
            Some(StepKind::EmergencyStop { trigger, .. }) => due.line = Some(*trigger),
            Some(StepKind::Park { stop_box, .. }) => due.stop_box = Some(*stop_box),
            Some(StepKind::PickUp { pallet }) => due.pallet = Some(*pallet),
            Some(StepKind::SetDown { bay }) => due.bay = Some(*bay),
            Some(StepKind::CheckDock { dock }) => due.dock = Some(*dock),
            Some(StepKind::Picks { stops }) => {
                let is_next = |s: &&usize| pick_at == Some(course.warehouse.stops[**s].at);
                due.stop = stops.iter().find(is_next).copied();
            }
            _ => {}
        }
        due
    }
}

/// A point of the simulation as the engine wants it.
pub(crate) fn v(p: coneyard_core::math::Vec2) -> Vec2 {
    Vec2::new(p.x as f32, p.y as f32)
}

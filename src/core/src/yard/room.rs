//! The room beside and over the rider: platform, limbs and tiller belong to the outline that must
//! not be pinched (incidents.md: in 10 of 16 cases it was foot, ankle or leg).

use crate::course::{Course, StructureKind};
use crate::geometry::{distance_to_polygon, rectangle};
use crate::math::{Pose, Vec2, cos, sin, vec2};
use crate::moment::BodyGap;
use crate::moment::reach::BESIDE_THE_RIDER;
use crate::state;
use crate::time::DT;
use crate::truck::spec::TruckSpec;
use crate::yard::touch::Extent;
use crate::yard::trucks::apart;

/// Follows the gap from tick to tick.
#[derive(Clone, Debug, Default)]
pub struct Room {
    solid: Vec<([Vec2; 4], Extent)>,
    beams: Vec<([Vec2; 4], f64)>,
    before: Option<f64>,
}

impl Room {
    /// What stands and hangs in a course.
    pub fn new(course: &Course) -> Self {
        let solid = course.structures.iter().filter(|s| s.kind.is_solid());
        let beams = course.structures.iter().filter(|s| s.kind == StructureKind::Beam);
        Self {
            solid: solid.map(|s| with_extent(rectangle(s.pose, s.size))).collect(),
            beams: beams.filter_map(|s| Some((rectangle(s.pose, s.size), s.underside?))).collect(),
            before: None,
        }
    }

    /// One tick: the nearest solid thing beside platform and tiller. `steer` is the drive wheel's
    /// angle, which the tiller swings with, rad; `moving` are outlines of other trucks.
    pub fn gap(
        &mut self,
        spec: &TruckSpec,
        truck: Pose,
        steer: f64,
        moving: &[[Vec2; 4]],
    ) -> Option<BodyGap> {
        let platform = platform(spec).map(|p| truck.to_yard(p));
        let (reach, wheel) = (spec.geometry.tiller_length_m, spec.geometry.wheelbase_m);
        let tiller = truck.to_yard(vec2(wheel - reach * cos(steer), -reach * sin(steer)));
        // Most things are farther away than is asked.
        let around = platform.iter().chain(core::iter::once(&tiller));
        let around = Extent::of(around).wider(BESIDE_THE_RIDER);
        let gap_to =
            |(o, _): &([Vec2; 4], Extent)| apart(&platform, o).min(distance_to_polygon(tiller, o));
        let near = |(_, extent): &&([Vec2; 4], Extent)| around.meets(extent);
        let moving = moving.iter().map(|outline| with_extent(*outline));
        let moving: Option<f64> = moving.filter(|o| near(&o)).map(|o| gap_to(&o)).reduce(f64::min);
        let gaps = self.solid.iter().filter(near).map(gap_to);
        let nearest = gaps.chain(moving).fold(f64::INFINITY, f64::min);
        let gap = (nearest <= BESIDE_THE_RIDER).then_some(nearest);
        let before = core::mem::replace(&mut self.before, gap);
        let gap = gap?;
        Some(BodyGap { gap, closing: before.map_or(0.0, |b| (b - gap) / DT) })
    }

    /// Room over the rider under the lowest beam over the platform, m.
    pub fn headroom(&self, spec: &TruckSpec, truck: Pose) -> Option<f64> {
        let platform = platform(spec).map(|p| truck.to_yard(p));
        let over = self.beams.iter().filter(|(b, _)| apart(&platform, b) <= 0.0);
        let lowest = over.map(|(_, underside)| *underside).reduce(f64::min)?;
        Some(lowest - spec.rider.top_m)
    }
}

fn with_extent(outline: [Vec2; 4]) -> ([Vec2; 4], Extent) {
    (outline, Extent::of(outline.iter()))
}

/// The platform from the backrest to the power unit, body frame, m: as wide as the truck, which is
/// where feet and elbows are.
fn platform(spec: &TruckSpec) -> [Vec2; 4] {
    let g = &spec.geometry;
    let (rear, front, half) = (g.backrest_x_m, g.power_unit_x_m, 0.5 * g.chassis_width_m);
    [vec2(rear, -half), vec2(front, -half), vec2(front, half), vec2(rear, half)]
}

state!(Room { before } left out { solid, beams });

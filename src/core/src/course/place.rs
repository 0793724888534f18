//! Where on the floor the truck is: inside the lanes or not, under which limit, on what surface.

use crate::course::{Course, Lane, Zone};
use crate::floor::Surface;
use crate::floor::slope::Slope;
use crate::geometry::{distance_to_segment, in_polygon};
use crate::math::{Pose, Vec2, vec2};
use crate::truck::spec::TruckSpec;
use crate::truck::stopping::Footing;

/// Where on the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Any of the wheels stands outside the lanes.
    pub outside_lane: bool,
    /// Lowest limit of the speed zones that hold the platform, m/s.
    pub zone_limit: Option<f64>,
    /// Floor under the drive wheel.
    pub surface: Surface,
    /// From either end of the truck to the nearest hidden place, m; None on a course without any.
    pub from_hidden: Option<f64>,
}

/// Where a truck stands whose load axle's middle is at `pose`.
pub fn place(course: &Course, pose: &Pose, truck: &TruckSpec) -> Place {
    let to_yard = pose.placer();
    let wheels = wheels(truck).map(&to_yard);
    Place {
        outside_lane: wheels.iter().any(|w| !in_lanes(course, *w)),
        zone_limit: limit_at(course, to_yard(truck.platform())),
        surface: surface_at(course, wheels[0]),
        from_hidden: from_hidden(course, truck, to_yard),
    }
}

fn from_hidden(course: &Course, truck: &TruckSpec, to_yard: impl Fn(Vec2) -> Vec2) -> Option<f64> {
    let g = &truck.geometry;
    let ends = [g.nose_x_m, g.fork_tips_x_m].map(|x| to_yard(vec2(x, 0.0)));
    let spots = course.warehouse.blind_spots.iter();
    spots
        .flat_map(|spot| ends.map(|end| distance_to_segment(end, spot.left, spot.right)))
        .min_by(f64::total_cmp)
}

/// Where the wheels that carry stand on the floor, body frame, m: drive wheel, left and right
/// load wheel.
pub fn wheels(truck: &TruckSpec) -> [Vec2; 3] {
    let half_track = 0.5 * truck.geometry.load_wheel_track_m;
    [vec2(truck.geometry.wheelbase_m, 0.0), vec2(0.0, half_track), vec2(0.0, -half_track)]
}

/// Whether a wheel may be at a point: always, when the course has no lanes.
pub fn in_lanes(course: &Course, p: Vec2) -> bool {
    course.lanes.is_empty() || course.lanes.iter().any(|lane| in_lane(lane, p))
}

fn in_lane(lane: &Lane, p: Vec2) -> bool {
    in_polygon(p, &lane.area) && !lane.holes.iter().any(|h| in_polygon(p, h))
}

/// Lowest limit of the speed zones that hold a point, m/s.
pub fn limit_at(course: &Course, p: Vec2) -> Option<f64> {
    limit_in(&course.zones, p)
}

/// The same of any zones.
pub fn limit_in(zones: &[Zone], p: Vec2) -> Option<f64> {
    zones.iter().filter(|z| in_polygon(p, &z.area)).map(|z| z.limit_mps).min_by(f64::total_cmp)
}

/// The floor at a point: the last patch that holds it, or else the course's own surface.
pub fn surface_at(course: &Course, p: Vec2) -> Surface {
    course
        .patches
        .iter()
        .rev()
        .find(|patch| in_polygon(p, &patch.area))
        .map_or(course.surface, |patch| patch.surface)
}

/// The slope at a point: unit vector uphill and grade; the last ramp that holds it.
fn ramp_at(course: &Course, p: Vec2) -> Option<(Vec2, f64)> {
    let ramps = course.warehouse.ramps.iter().rev();
    ramps.filter(|r| in_polygon(p, &r.area)).map(|r| (r.uphill, r.grade)).next()
}

/// What the floor at a point does to the weight of a truck with this heading.
pub fn slope_at(course: &Course, p: Vec2, heading: f64) -> Slope {
    ramp_at(course, p)
        .map_or(Slope::LEVEL, |(up, grade)| Slope::rising(up.rotated(-heading), grade))
}

/// Grade at a point in the direction of a heading, rise over way on the level; 0 on the level.
pub fn grade_at(course: &Course, p: Vec2, heading: f64) -> f64 {
    ramp_at(course, p).map_or(0.0, |(up, grade)| grade * up.dot(Vec2::from_angle(heading)))
}

/// What a stop finds under a truck whose drive wheel stands at `wheel` and whose centre of mass is
/// at `com`, with the heading of its +x axis; `ahead` when the power unit leads.
pub fn footing(
    course: &Course,
    truck: &TruckSpec,
    (wheel, com): (Vec2, Vec2),
    heading: f64,
    ahead: bool,
) -> Footing {
    Footing {
        friction: truck.friction_on(surface_at(course, wheel)),
        grade: grade_at(course, com, heading),
        ahead,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::floor::Patch;
    use crate::truck::spec::shipped;

    fn square(x: f64, y: f64, half: f64) -> Vec<Vec2> {
        vec![
            vec2(x - half, y - half),
            vec2(x + half, y - half),
            vec2(x + half, y + half),
            vec2(x - half, y + half),
        ]
    }

    fn course() -> Course {
        let mut c = crate::course::shipped::parse("straight");
        c.lanes = vec![Lane { area: square(0.0, 0.0, 10.0), holes: vec![square(0.0, 0.0, 2.0)] }];
        c.patches = vec![
            Patch { surface: Surface::Wet, area: square(7.0, 0.0, 2.0) },
            Patch { surface: Surface::Plate, area: square(7.5, 0.0, 1.0) },
        ];
        c.zones = vec![
            Zone { area: square(0.0, 0.0, 20.0), limit_mps: 2.0 },
            Zone { area: square(6.0, 0.0, 1.0), limit_mps: 1.0 },
        ];
        c
    }

    #[test]
    fn a_load_wheel_over_an_island_is_outside_the_lane() {
        let (c, t) = (course(), shipped::single());
        let at = |x: f64, y: f64| Pose { at: vec2(x, y), heading: 0.0 };
        let half_track = 0.5 * t.geometry.load_wheel_track_m;
        assert!(!place(&c, &at(3.0, 0.0), &t).outside_lane);
        assert!(place(&c, &at(0.0, 2.0 + half_track - 0.01), &t).outside_lane);
        assert!(!place(&c, &at(0.0, 2.0 + half_track + 0.01), &t).outside_lane);
        // The drive wheel past the outer edge, the load wheels well inside.
        assert!(place(&c, &at(8.0, 5.0), &t).outside_lane);
    }

    #[test]
    fn the_lowest_limit_and_the_last_patch_win() {
        let (c, t) = (course(), shipped::single());
        let p = place(&c, &Pose { at: vec2(5.0, 0.0), heading: 0.0 }, &t);
        assert_eq!(p.zone_limit, Some(1.0), "platform at 6.32");
        assert_eq!(p.surface, Surface::Plate, "drive wheel at 7.05");
        assert_eq!(surface_at(&c, vec2(5.5, 0.0)), Surface::Wet);
        assert_eq!(surface_at(&c, vec2(0.0, 0.0)), Surface::Dry);
    }
}

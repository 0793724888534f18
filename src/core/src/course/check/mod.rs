//! What a course asks for that cannot be driven with a truck, as far as geometry can say.
//!
//! A course that passes may still be hard; a course that fails would be hopeless or break at the
//! start. It says nothing about whether there is enough room between the cones on the way.

mod found;
mod loads;
mod others;

use core::f64::consts::PI;

use crate::course::check::found::{Found, solid};
use crate::course::place::{in_lanes, wheels};
use crate::course::{CONE_RADIUS, Course, Gate, Step, StepKind, Travel};
use crate::geometry::dubins::shortest;
use crate::geometry::{
    convex_overlap, disc_overlaps, distance_to_polygon, rectangle, segment_meets,
};
use crate::math::{DEG, Pose, Vec2, tan, vec2};
use crate::outside::BadInput;
use crate::truck::spec::TruckSpec;

/// Room that a gate needs beyond the truck's width, m.
const GATE_ROOM: f64 = 0.2;
/// Room that a box needs beyond the truck's length and width, m.
const BOX_ROOM: f64 = 0.1;
/// A way from one gate to the next that turns by more than this in all is no way that anybody
/// would lay out, rad.
const MOST_TURNING: f64 = 4.0 / 3.0 * PI;
/// Time that a rider may need to react to a signal, s, and braking of a laden truck, m/s^2, both
/// on the safe side, for the room behind a trigger line.
const REACTION: f64 = 1.5;
const BRAKING: f64 = 1.5;

/// Everything that is wrong, in the order of the file. The name of the file is not known here: the
/// place is given, and the file is called after the course.
pub fn check(course: &Course, truck: &TruckSpec) -> Vec<BadInput> {
    let mut found = Found { course, problems: Vec::new() };
    if !course.trucks.contains(&truck.id) {
        let listed = course.trucks.join(", ");
        found.say("trucks", format!("the truck {} is not among {listed}", truck.id));
    }
    things(course, &mut found);
    gates_and_boxes(course, truck, &mut found);
    spawn(course, truck, &mut found);
    loads::loads(course, truck, &mut found);
    others::others(course, truck, &mut found);
    for (i, step) in course.steps.iter().enumerate() {
        order(course, truck, i, &mut found);
        if let StepKind::EmergencyStop { .. } = step.what {
            room_to_stop(course, truck, i, step, &mut found);
        }
        if let StepKind::StopAtMark { line, .. } = step.what
            && let Some(before) = i.checked_sub(1)
            && matches!(course.steps[before].what, StepKind::StopAtMark { line: l, .. } if l == line)
        {
            found.say(
                format!("steps[{i}].what.stop-at-mark.line"),
                "the step before stops at the same mark; put something between them",
            );
        }
    }
    found.problems
}

/// Lanes, cones, racks, walls and lines.
fn things(course: &Course, found: &mut Found<'_>) {
    for (i, lane) in course.lanes.iter().enumerate() {
        found.need_floor(format!("lanes[{i}].area_m"), &lane.area);
    }
    for (i, cone) in course.cones.iter().enumerate() {
        let place = format!("cones_m[{i}]");
        found.need_floor(place.as_str(), &[*cone]);
        if let Some(j) = (0..i).find(|j| (course.cones[*j] - *cone).length() < 2.0 * CONE_RADIUS) {
            found.say(place.as_str(), format!("it stands in the cone cones_m[{j}]; move one"));
        }
        if let Some((j, _)) = solid(course).find(|(_, s)| disc_overlaps(*cone, CONE_RADIUS, s)) {
            found.say(place, format!("it stands in structures[{j}]; move one"));
        }
    }
    for (i, s) in course.structures.iter().enumerate() {
        found.need_floor(format!("structures[{i}]"), &[s.pose.at]);
    }
    for (i, line) in course.lines.iter().enumerate() {
        found.need_floor(format!("lines[{i}]"), &[line.from, line.to]);
    }
}
fn gates_and_boxes(course: &Course, truck: &TruckSpec, found: &mut Found<'_>) {
    let g = &truck.geometry;
    for (i, gate) in course.gates.iter().enumerate() {
        let place = format!("gates[{i}]");
        found.need_floor(place.as_str(), &[gate.left, gate.right]);
        let (wide, needs) = ((gate.left - gate.right).length(), g.chassis_width_m + GATE_ROOM);
        if wide < needs {
            found.say(
                place,
                format!("the gate is {wide:.2} m wide, and this truck needs {needs:.2} m"),
            );
            continue;
        }
        if let Some((j, _)) = solid(course).find(|(_, s)| segment_meets(gate.left, gate.right, s)) {
            found.say(place, format!("structures[{j}] stands in the gate; move one"));
            continue;
        }
        let gap = widest_gap(gate, &course.cones);
        if gap < needs {
            found.say(
                place,
                format!(
                    "the cones leave {gap:.2} m of the gate, and this truck needs {needs:.2} m"
                ),
            );
        }
    }
    for (i, b) in course.boxes.iter().enumerate() {
        let place = format!("boxes[{i}]");
        let corners = rectangle(b.pose, b.size);
        found.need_floor(place.as_str(), &corners);
        let (long, wide) = (g.nose_x_m - g.fork_tips_x_m + BOX_ROOM, g.chassis_width_m + BOX_ROOM);
        if b.size.x < long || b.size.y < wide {
            found.say(
                place.as_str(),
                format!(
                    "the box is {:.2} m by {:.2} m, and this truck needs {long:.2} m by {wide:.2} m",
                    b.size.x, b.size.y
                ),
            );
        }
        if let Some((j, _)) = solid(course).find(|(_, s)| convex_overlap(&corners, s)) {
            found.say(place.as_str(), format!("structures[{j}] stands in the box; move one"));
        }
        let in_box = |c: &Vec2| disc_overlaps(*c, CONE_RADIUS, &corners);
        if let Some(j) = course.cones.iter().position(in_box) {
            found.say(place, format!("the cone cones_m[{j}] stands in the box; move one"));
        }
    }
}

/// The widest stretch of a gate that no cone blocks, m. A cone may stand at a post.
fn widest_gap(gate: &Gate, cones: &[Vec2]) -> f64 {
    let along = gate.right - gate.left;
    let length = along.length();
    let unit = along.normalized();
    let mut blocked: Vec<(f64, f64)> = cones
        .iter()
        .filter_map(|c| {
            let (at, off) = ((*c - gate.left).dot(unit), (*c - gate.left).cross(unit).abs());
            let half = (CONE_RADIUS * CONE_RADIUS - off * off).max(0.0).sqrt();
            (half > 0.0).then_some((at - half, at + half))
        })
        .collect();
    blocked.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut free_from, mut widest) = (0.0_f64, 0.0_f64);
    for (from, to) in blocked {
        widest = widest.max(from.min(length) - free_from);
        free_from = free_from.max(to);
    }
    widest.max(length - free_from)
}

fn spawn(course: &Course, truck: &TruckSpec, found: &mut Found<'_>) {
    let parts = truck.outline().map(|part| part.map(|p| course.spawn.to_yard(p)));
    for part in &parts {
        found.need_floor("spawn", part);
        if let Some((j, _)) = solid(course).find(|(_, s)| convex_overlap(part, s)) {
            found.say("spawn", format!("the truck would stand in structures[{j}]; move one"));
            return;
        }
        let hit = |c: &Vec2| distance_to_polygon(*c, part) < CONE_RADIUS;
        if let Some(j) = course.cones.iter().position(hit) {
            found.say("spawn", format!("the truck would stand in the cone cones_m[{j}]; move one"));
            return;
        }
    }
    if wheels(truck).iter().any(|w| !in_lanes(course, course.spawn.to_yard(*w))) {
        found.say("spawn", "a wheel would stand outside the lanes; move the start or the lane");
    }
}

/// Gates that follow each other must be drivable in that order and direction.
fn order(course: &Course, truck: &TruckSpec, step: usize, found: &mut Found<'_>) {
    let StepKind::Gates { gates, laps } = &course.steps[step].what else {
        return;
    };
    let at = format!("steps[{step}].what.gates");
    let radius = tightest(truck);
    let turning = |from: Pose, to: Pose| shortest(from, to, radius).turning();
    let id = |i: usize| &course.gates[i].id;
    let count = gates.len();
    let rounds = if *laps > 1 { count } else { count - 1 };
    for i in 0..rounds {
        let (a, b) = (gates[i], gates[(i + 1) % count]);
        let place = format!("{at}.in_order[{}]", (i + 1) % count);
        if a == b {
            let reason = format!("the gate {} follows itself; put another one between", id(a));
            found.say(place, reason);
            continue;
        }
        let turns = turning(pose_of(&course.gates[a]), pose_of(&course.gates[b]));
        if turns > MOST_TURNING {
            found.say(
                place,
                format!(
                    "from gate {} to gate {} the truck would have to turn by {:.0} degrees; \
                     change the order, swap left and right of a gate, or put a gate between",
                    id(a),
                    id(b),
                    turns / DEG
                ),
            );
        }
    }
    for i in 0..count {
        let before = match i.checked_sub(1) {
            Some(b) => Some(pose_of(&course.gates[gates[b]])),
            None => start_of(course, step),
        };
        let after = match gates.get(i + 1) {
            Some(a) => Some(*a),
            None if *laps > 1 => Some(gates[0]),
            None => match course.steps.get(step + 1).map(|s| &s.what) {
                Some(StepKind::Gates { gates, .. }) => gates.first().copied(),
                _ => None,
            },
        };
        let here = pose_of(&course.gates[gates[i]]);
        let both = |here: Pose| {
            let from = before.map_or(0.0, |b| turning(b, here));
            from + after.map_or(0.0, |a| turning(here, pose_of(&course.gates[a])))
        };
        let saved = both(here) - both(Pose { heading: here.heading + PI, ..here });
        if saved > PI {
            found.say(
                format!("{at}.in_order[{i}]"),
                format!(
                    "driven the other way round, gate {} would save {:.0} degrees of turning; \
                     swap its left and right",
                    id(gates[i]),
                    saved / DEG
                ),
            );
        }
    }
}

fn pose_of(gate: &Gate) -> Pose {
    Pose { at: gate.middle(), heading: gate.direction().angle() }
}

/// The pose from which a step is driven, where the course says it: the start, or the last gate of
/// the step before. The heading is the way of travel.
fn start_of(course: &Course, step: usize) -> Option<Pose> {
    let Some(before) = step.checked_sub(1) else {
        let turned = if course.steps[step].travel == Travel::ForksFirst { PI } else { 0.0 };
        return Some(Pose { at: course.spawn.at, heading: course.spawn.heading + turned });
    };
    match &course.steps[before].what {
        StepKind::Gates { gates, .. } => gates.last().map(|g| pose_of(&course.gates[*g])),
        _ => None,
    }
}

/// Radius of the platform's path with the drive wheel at 60 degrees, m: what a rider turns without
/// nearing the lock.
fn tightest(truck: &TruckSpec) -> f64 {
    let g = &truck.geometry;
    vec2(g.wheelbase_m / tan(60.0 * DEG), g.platform_x_m).length()
}

/// Behind a trigger line there is room to stop after the latest signal.
fn room_to_stop(course: &Course, truck: &TruckSpec, i: usize, step: &Step, found: &mut Found<'_>) {
    let StepKind::EmergencyStop { trigger, min_speed_mps: v, delay_max_s, .. } = step.what else {
        return;
    };
    let place = format!("steps[{i}].what.emergency-stop");
    let top = match step.travel {
        Travel::PowerUnitFirst => truck.travel.top_speed_empty_mps,
        Travel::ForksFirst => truck.travel.top_speed_forks_first_mps,
    };
    if v > top {
        found.say(
            format!("{place}.min_speed_mps"),
            format!("{v} m/s is more than this truck's top speed of {top} m/s"),
        );
    }
    let line = &course.lines[trigger];
    let middle = (line.from + line.to) * 0.5;
    let across = (line.to - line.from).normalized();
    let from = where_step_ends(course, i);
    let ahead = if across.left().dot(middle - from) < 0.0 { -across.left() } else { across.left() };
    let needs = v * (delay_max_s + REACTION) + v * v / (2.0 * BRAKING);
    let way = rectangle(
        Pose { at: middle + ahead * (0.5 * needs), heading: ahead.angle() },
        vec2(needs, truck.geometry.chassis_width_m),
    );
    let blocked = way.iter().any(|p| !found.on_floor(*p))
        || solid(course).any(|(_, s)| convex_overlap(&way, &s))
        || course.cones.iter().any(|c| disc_overlaps(*c, CONE_RADIUS, &way));
    if blocked {
        found.say(
            format!("{place}.trigger"),
            format!(
                "behind the line {} there must be {needs:.1} m of free way to stop after the latest signal",
                line.id
            ),
        );
    }
}

/// About where the truck is when step `i` begins.
fn where_step_ends(course: &Course, i: usize) -> Vec2 {
    let Some(before) = i.checked_sub(1).map(|b| &course.steps[b]) else {
        return course.spawn.at;
    };
    let middle_of = |l: usize| (course.lines[l].from + course.lines[l].to) * 0.5;
    match &before.what {
        StepKind::Gates { gates, .. } => course.gates[gates[gates.len() - 1]].middle(),
        StepKind::StopAtMark { line, .. } => middle_of(*line),
        StepKind::EmergencyStop { trigger, .. } => middle_of(*trigger),
        StepKind::Park { stop_box, .. } => course.boxes[*stop_box].pose.at,
        StepKind::PickUp { pallet } => {
            course.warehouse.pallets[*pallet].floor.map_or(course.spawn.at, |p| p.at)
        }
        StepKind::SetDown { bay } => course.warehouse.bays[*bay].pose.at,
        StepKind::Picks { stops } => {
            stops.last().map_or(course.spawn.at, |s| course.warehouse.stops[*s].at)
        }
        StepKind::CheckDock { .. } | StepKind::WalkRound { .. } => where_step_ends(course, i - 1),
    }
}

//! What a course asks for with pallets that cannot be done with a truck: pallets that do not fit
//! its forks, bays that it cannot reach, and steps that are out of order.

use crate::course::check::found::{Found, solid};
use crate::course::{CONE_RADIUS, Course, StepKind, Travel};
use crate::geometry::{convex_overlap, disc_overlaps, in_polygon, rectangle};
use crate::load::pallet::PalletLoad;
use crate::math::{Pose, Vec2, vec2};
use crate::truck::spec::TruckSpec;

/// How far a pallet may stand out over the fork tips, m (course task).
const OVER_TIPS: f64 = 0.1;
/// A pallet wider than this many times the forks does not stand firmly on them (course task).
const WIDEST: f64 = 2.0;
/// Free way before a pallet or a bay beyond the truck's length, m (course task).
const APPROACH: f64 = 1.5;

pub(super) fn loads(course: &Course, truck: &TruckSpec, found: &mut Found<'_>) {
    pallets(course, truck, found);
    bays(course, truck, found);
    order(course, truck, found);
    docks_before_their_checks(course, found);
}

fn load_of(course: &Course, pallet: usize) -> &PalletLoad {
    &course.warehouse.loads[course.warehouse.pallets[pallet].load]
}

fn size_of(course: &Course, pallet: usize) -> Vec2 {
    let slab = &load_of(course, pallet).pallet;
    vec2(slab.length_m, slab.width_m)
}

/// Mass of a pallet with its load, kg.
fn mass_of(course: &Course, pallet: usize) -> f64 {
    load_of(course, pallet).as_carried(Vec2::default(), 0.0).mass
}

/// Outlines of the pallets on the floor, with their places in the list.
fn on_floor(course: &Course) -> impl Iterator<Item = (usize, [Vec2; 4])> + '_ {
    let all = course.warehouse.pallets.iter().enumerate();
    all.filter_map(|(i, p)| p.floor.map(|at| (i, rectangle(at, size_of(course, i)))))
}

fn is_taken_up(course: &Course, pallet: usize) -> bool {
    let takes = |s: &StepKind| matches!(s, StepKind::PickUp { pallet: p } if *p == pallet);
    course.steps.iter().any(|s| takes(&s.what))
}

fn pallets(course: &Course, truck: &TruckSpec, found: &mut Found<'_>) {
    let (g, most) = (&truck.geometry, truck.forks.pallets as usize);
    let forks = g.backrest_x_m - g.fork_tips_x_m;
    let carried = course.warehouse.pallets.iter().filter(|p| p.floor.is_none()).count();
    if carried > most {
        found.say(
            "pallets",
            format!(
                "{carried} pallets stand on the forks, and this truck takes {most}; put some on the floor"
            ),
        );
    }
    for (i, pallet) in course.warehouse.pallets.iter().enumerate() {
        let place = format!("pallets[{i}]");
        let size = size_of(course, i);
        if pallet.floor.is_none() || is_taken_up(course, i) {
            if size.x > forks + OVER_TIPS {
                found.say(
                    place.as_str(),
                    format!(
                        "the pallet is {:.2} m long, and this truck's forks take {:.2} m",
                        size.x,
                        forks + OVER_TIPS
                    ),
                );
            }
            if !(g.fork_spread_m..=WIDEST * g.fork_spread_m).contains(&size.y) {
                found.say(
                    place.as_str(),
                    format!(
                        "the pallet is {:.2} m wide, and this truck's forks take {:.2} m to {:.2} m",
                        size.y,
                        g.fork_spread_m,
                        WIDEST * g.fork_spread_m
                    ),
                );
            }
        }
        let Some(at) = pallet.floor else { continue };
        let outline = rectangle(at, size);
        found.need_floor(place.as_str(), &outline);
        if let Some((j, _)) = solid(course).find(|(_, s)| convex_overlap(&outline, s)) {
            found.say(place, format!("the pallet stands in structures[{j}]; move one"));
            continue;
        }
        if let Some((j, _)) =
            on_floor(course).find(|(j, other)| *j < i && convex_overlap(&outline, other))
        {
            found.say(place, format!("the pallet stands in pallets[{j}]; move one"));
            continue;
        }
        if !is_taken_up(course, i) {
            continue;
        }
        let turned = Pose { heading: at.heading + core::f64::consts::PI, ..at };
        let blocked = blocked(course, truck, at, size, found);
        if let Some(first) = blocked
            && self::blocked(course, truck, turned, size, found).is_some()
        {
            found.say(place, no_way(truck, "the pallet from either end", &first));
        }
    }
}

fn bays(course: &Course, truck: &TruckSpec, found: &mut Found<'_>) {
    for (i, bay) in course.warehouse.bays.iter().enumerate() {
        let place = format!("bays[{i}]");
        let outline = rectangle(bay.pose, bay.size);
        found.need_floor(place.as_str(), &outline);
        if let Some((j, _)) = solid(course).find(|(_, s)| convex_overlap(&outline, s)) {
            found.say(place, format!("structures[{j}] stands in the bay; move one"));
            continue;
        }
        let stays =
            |(j, p): &(usize, [Vec2; 4])| !is_taken_up(course, *j) && convex_overlap(p, &outline);
        if let Some((j, _)) = on_floor(course).find(stays) {
            found.say(place, format!("pallets[{j}] stands in the bay and nobody takes it away"));
            continue;
        }
        if let Some(what) = blocked(course, truck, bay.pose, bay.size, found) {
            found.say(place, no_way(truck, "the bay along its heading", &what));
        }
    }
}

fn no_way(truck: &TruckSpec, what: &str, blocked: &str) -> String {
    format!(
        "this truck cannot reach {what}: it needs {:.2} m of free way straight before it, and {blocked}",
        approach(truck)
    )
}

fn approach(truck: &TruckSpec) -> f64 {
    truck.geometry.nose_x_m - truck.geometry.fork_tips_x_m + APPROACH
}

/// What is in the way of a truck that backs straight into a place with its forks along `at`.
fn blocked(
    course: &Course,
    truck: &TruckSpec,
    at: Pose,
    size: Vec2,
    found: &Found<'_>,
) -> Option<String> {
    let length = approach(truck);
    let strip = |from: f64, to: f64, width: f64| {
        let middle = at.to_yard(vec2(0.5 * (from + to), 0.0));
        rectangle(Pose { at: middle, ..at }, vec2(to - from, width))
    };
    let half = 0.5 * size.x;
    let before = strip(-half - length, -half, truck.geometry.chassis_width_m);
    let under = strip(-half, half, truck.geometry.fork_spread_m);
    if before.iter().chain(&under).any(|p| !found.on_floor(*p)) {
        return Some("the floor ends there".into());
    }
    let hits = |s: &[Vec2; 4]| convex_overlap(s, &before) || convex_overlap(s, &under);
    if let Some((j, _)) = solid(course).find(|(_, s)| hits(s)) {
        return Some(format!("structures[{j}] stands there"));
    }
    if let Some(j) = course.cones.iter().position(|c| disc_overlaps(*c, CONE_RADIUS, &before)) {
        return Some(format!("the cone cones_m[{j}] stands there"));
    }
    let stays =
        |(j, p): &(usize, [Vec2; 4])| !is_taken_up(course, *j) && convex_overlap(p, &before);
    on_floor(course).find(stays).map(|(j, _)| format!("pallets[{j}] stands there"))
}

/// Pick up with room on the forks, set down with something on them, both forks first.
fn order(course: &Course, truck: &TruckSpec, found: &mut Found<'_>) {
    let most = truck.forks.pallets as usize;
    let pallets = course.warehouse.pallets.iter().enumerate();
    let mut carried: Vec<usize> =
        pallets.filter(|(_, p)| p.floor.is_none()).map(|(i, _)| i).collect();
    too_heavy("pallets", course, truck, &carried, found);
    for (i, step) in course.steps.iter().enumerate() {
        let (what, place) = match step.what {
            StepKind::PickUp { .. } => ("pick-up", format!("steps[{i}].what.pick-up.pallet")),
            StepKind::SetDown { .. } => ("set-down", format!("steps[{i}].what.set-down.bay")),
            _ => continue,
        };
        if step.travel != Travel::ForksFirst {
            found.say(
                format!("steps[{i}].travel"),
                format!("a {what} is driven forks first; write \"forks-first\""),
            );
        }
        match step.what {
            StepKind::PickUp { pallet } if carried.contains(&pallet) => {
                found.say(place, "this pallet is on the forks already; set it down before");
            }
            StepKind::PickUp { .. } if carried.len() >= most => {
                found.say(
                    place,
                    format!("this truck takes {most} on its forks and they are full here; set down before"),
                );
            }
            StepKind::PickUp { pallet } => {
                carried.push(pallet);
                too_heavy(&place, course, truck, &carried, found);
            }
            StepKind::SetDown { bay } => {
                let room = course.warehouse.bays[bay].size;
                let fits = |p: &usize| {
                    let size = size_of(course, *p);
                    size.x <= room.x && size.y <= room.y
                };
                if carried.is_empty() {
                    found.say(place, "nothing is on the forks here; put a pick-up before");
                } else if let Some(p) = carried.iter().find(|p| !fits(p)) {
                    let size = size_of(course, *p);
                    found.say(
                        place,
                        format!(
                            "the bay is {:.2} m by {:.2} m, and pallets[{p}] takes {:.2} m by {:.2} m",
                            room.x, room.y, size.x, size.y
                        ),
                    );
                }
                carried.clear();
            }
            _ => {}
        }
    }
}

fn too_heavy(
    place: &str,
    course: &Course,
    truck: &TruckSpec,
    carried: &[usize],
    found: &mut Found<'_>,
) {
    let mass: f64 = carried.iter().map(|p| mass_of(course, *p)).sum();
    let most = truck.mass.capacity_kg;
    if mass > most {
        found.say(
            place,
            format!("{mass:.0} kg are on the forks, and this truck lifts {most:.0} kg"),
        );
    }
}

/// Nothing is asked for on a dock's plate or behind it before the step that checks it.
fn docks_before_their_checks(course: &Course, found: &mut Found<'_>) {
    for (d, dock) in course.warehouse.docks.iter().enumerate() {
        let checks = |s: &StepKind| matches!(s, StepKind::CheckDock { dock } if *dock == d);
        let Some(checked) = course.steps.iter().position(|s| checks(&s.what)) else { continue };
        let inside = |p: Vec2| in_polygon(p, &dock.area);
        for (i, step) in course.steps[..checked].iter().enumerate() {
            let goes_in = match &step.what {
                StepKind::Gates { gates, .. } => {
                    gates.iter().any(|g| inside(course.gates[*g].middle()))
                }
                StepKind::Park { stop_box, .. } => inside(course.boxes[*stop_box].pose.at),
                StepKind::SetDown { bay } => inside(course.warehouse.bays[*bay].pose.at),
                StepKind::PickUp { pallet } => {
                    course.warehouse.pallets[*pallet].floor.is_some_and(|p| inside(p.at))
                }
                _ => false,
            };
            if goes_in {
                found.say(
                    format!("steps[{i}]"),
                    format!(
                        "it leads over the dock {} before its checks; check the dock first",
                        dock.id
                    ),
                );
            }
        }
    }
}

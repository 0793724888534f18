//! What a course asks for with people, other trucks, blind spots, crossings, docks, beams and
//! places to pick from that cannot be, or that would be unfair.

use crate::course::check::found::{Found, solid};
use crate::course::place::{in_lanes, limit_at};
use crate::course::step_out::Trigger;
use crate::course::warehouse::{BlindSpot, CHECK_REACH_M, OtherTruck, PICK_REACH_M, SetsOff};
use crate::course::{Course, StructureKind};
use crate::geometry::{convex_overlap, distance_to_polygon, in_polygon, rectangle, segment_meets};
use crate::math::{Pose, Vec2, vec2};
use crate::sight::polygon::{Field, HALF_FIELD, Segment, add_facing, view};
use crate::truck::loads::RigidBody;
use crate::truck::spec::TruckSpec;

/// Speed limit where no zone has one, m/s: the shipped site rules'.
const SITE_LIMIT: f64 = 2.7;
/// A blind spot is looked at from so far before the middle of its line, m.
const LOOKED_AT_FROM: f64 = 3.0;
/// What may be hidden lies within this distance of its ends, m, ...
const HIDDEN_WITHIN: f64 = 4.0;
/// ... this far behind the line, m, ...
const BEHIND: f64 = 0.5;
/// ... and is looked for every so many metres.
const EVERY: f64 = 0.25;

pub(super) fn others(course: &Course, truck: &TruckSpec, found: &mut Found<'_>) {
    beams(course, found);
    people(course, truck, found);
    trucks(course, found);
    groups(course, found);
    blind_spots(course, found);
    crossings(course, found);
    areas(course, found);
    docks(course, found);
    stops(course, truck, found);
}

fn beams(course: &Course, found: &mut Found<'_>) {
    for (i, s) in course.structures.iter().enumerate() {
        if s.kind == StructureKind::Beam {
            found.need_floor(format!("structures[{i}]"), &rectangle(s.pose, s.size));
        }
    }
}

/// Truck, rider and as many of the course's heaviest pallets as the forks take.
fn heaviest(course: &Course, truck: &TruckSpec) -> RigidBody {
    let count = course.warehouse.pallets.len().min(truck.forks.pallets as usize);
    let mass = |l: &&crate::load::pallet::PalletLoad| l.as_carried(Vec2::default(), 0.0).mass;
    let used = course.warehouse.pallets.iter().map(|p| &course.warehouse.loads[p.load]);
    let Some(load) = used.max_by(|a, b| mass(a).total_cmp(&mass(b))) else {
        return RigidBody::of(truck, &[]);
    };
    let length = load.pallet.length_m;
    let at = |i: usize| vec2(truck.geometry.backrest_x_m - (i as f64 + 0.5) * length, 0.0);
    let carried: Vec<_> = (0..count).map(|i| load.as_carried(at(i), 0.0)).collect();
    RigidBody::of(truck, &carried)
}

fn people(course: &Course, truck: &TruckSpec, found: &mut Found<'_>) {
    let body = heaviest(course, truck);
    for (i, walker) in course.warehouse.people.iter().enumerate() {
        let places: Vec<Vec2> = walker.route.places().iter().map(|p| p.at).collect();
        let at = format!("people[{i}].route");
        found.need_floor(at.as_str(), &places);
        let hit = walker.route.legs().find_map(|(leg, from, to)| {
            let hit = solid(course).find(|(_, s)| segment_meets(from, to, s));
            hit.map(|(j, _)| (leg, j))
        });
        if let Some((leg, j)) = hit {
            found.say(
                format!("{at}[{leg}]"),
                format!("the way from here goes through structures[{j}]; lead it round"),
            );
        } else if let [only] = places[..]
            && let Some((j, _)) = solid(course).find(|(_, s)| in_polygon(only, s))
        {
            found.say(format!("{at}[0]"), format!("it lies in structures[{j}]; move one"));
        }
        if let SetsOff::InFront { at, distance_m } = walker.sets_off {
            let limit = limit_at(course, at.at).unwrap_or(SITE_LIMIT).min(SITE_LIMIT);
            let trigger = Trigger::either_way(course, (truck, &body), at, limit);
            if let Err(reason) = trigger.placed(distance_m) {
                found.say(format!("people[{i}].sets_off.in-front.distance_m"), reason);
            }
        }
        near_is_on_floor(&format!("people[{i}]"), &walker.sets_off, found);
    }
}

fn near_is_on_floor(at: &str, sets_off: &SetsOff, found: &mut Found<'_>) {
    match sets_off {
        SetsOff::After { .. } => {}
        SetsOff::Near { at: near, .. } => {
            found.need_floor(format!("{at}.sets_off.near.at_m"), &[*near]);
        }
        SetsOff::InFront { at: place, .. } => {
            found.need_floor(format!("{at}.sets_off.in-front.at_m"), &[place.at]);
        }
    }
}

/// What the outline sweeps on a leg of the way, driven straight. It stands out over the very first
/// place and over the last one.
fn swept(other: &OtherTruck, leg: usize) -> [Vec2; 4] {
    let n = other.way.len();
    let (from, to) = (other.way[leg], other.way[(leg + 1) % n]);
    let out = 0.5 * other.size.x;
    let back = if leg == 0 { out } else { 0.0 };
    let on = if leg + 2 == n && !other.starts_over { out } else { 0.0 };
    let along = to - from;
    let unit = along.normalized();
    let pose = Pose { at: (from + to + unit * (on - back)) * 0.5, heading: along.angle() };
    rectangle(pose, vec2(along.length() + on + back, other.size.y))
}

fn trucks(course: &Course, found: &mut Found<'_>) {
    for (i, other) in course.warehouse.others.iter().enumerate() {
        let at = format!("other_trucks[{i}].way_m");
        found.need_floor(at.as_str(), &other.way);
        let n = other.way.len();
        let legs = if other.starts_over { n } else { n - 1 };
        let hit = (0..legs).find_map(|leg| {
            let outline = swept(other, leg);
            solid(course).find(|(_, s)| convex_overlap(&outline, s)).map(|(j, _)| (leg, j))
        });
        if let Some((leg, j)) = hit {
            found.say(
                format!("{at}[{leg}]"),
                format!("the way from here goes through structures[{j}]; lead it round"),
            );
        }
        near_is_on_floor(&format!("other_trucks[{i}]"), &other.sets_off, found);
    }
}

/// A choice between one is none.
fn groups(course: &Course, found: &mut Found<'_>) {
    let people = course.warehouse.people.iter().map(|p| p.one_of.as_deref()).collect::<Vec<_>>();
    let others = course.warehouse.others.iter().map(|o| o.one_of.as_deref()).collect::<Vec<_>>();
    for (list, words) in [("people", people), ("other_trucks", others)] {
        for (i, word) in words.iter().enumerate() {
            let Some(name) = word else { continue };
            if words.iter().filter(|w| *w == word).count() == 1 {
                found.say(
                    format!("{list}[{i}].one_of"),
                    format!(
                        "nobody else here is one of \"{name}\"; add another one or leave it out"
                    ),
                );
            }
        }
    }
}

fn blind_spots(course: &Course, found: &mut Found<'_>) {
    for (i, spot) in course.warehouse.blind_spots.iter().enumerate() {
        let place = format!("blind_spots[{i}]");
        found.need_floor(place.as_str(), &[spot.left, spot.right]);
        if !hides_something(course, spot, found) {
            found.say(
                place,
                format!(
                    "nothing is hidden here: from {LOOKED_AT_FROM} m before it the rider sees all of \
                     the {HIDDEN_WITHIN} m to both sides; move it to a corner or leave it out"
                ),
            );
        }
    }
}

fn hides_something(course: &Course, spot: &BlindSpot, found: &Found<'_>) -> bool {
    let across = (spot.right - spot.left).normalized();
    let ahead = across.left();
    let eye = (spot.left + spot.right) * 0.5 - ahead * LOOKED_AT_FROM;
    let mut opaque: Vec<Segment> = Vec::new();
    let outlines: Vec<[Vec2; 4]> = course
        .structures
        .iter()
        .filter(|s| s.kind.is_opaque())
        .map(|s| rectangle(s.pose, s.size))
        .collect();
    for outline in &outlines {
        add_facing(outline, eye, &mut opaque);
    }
    let field = Field { look: ahead, half: HALF_FIELD };
    let seen = view(eye, &field, (course.floor_min, course.floor_max), &opaque);
    let steps = (HIDDEN_WITHIN / EVERY) as u32;
    let ends = [(spot.left, -across), (spot.right, across)];
    ends.iter().any(|(end, outwards)| {
        (1..=steps)
            .map(|k| *end + *outwards * (f64::from(k) * EVERY) + ahead * BEHIND)
            // Inside a rack nobody stands.
            .filter(|p| found.on_floor(*p) && !outlines.iter().any(|o| in_polygon(*p, o)))
            .any(|p| !seen.holds(p))
    })
}

fn crossings(course: &Course, found: &mut Found<'_>) {
    for (i, crossing) in course.warehouse.crossings.iter().enumerate() {
        let place = format!("crossings[{i}]");
        found.need_floor(format!("{place}.area_m"), &crossing.area);
        let mut walks = course.warehouse.people.iter().flat_map(|w| w.route.legs());
        if !walks.any(|(_, from, to)| segment_meets(from, to, &crossing.area)) {
            found.say(
                place,
                format!("nobody's route goes over the crossing {}; lead one over it", crossing.id),
            );
        }
    }
}

fn areas(course: &Course, found: &mut Found<'_>) {
    for (i, ramp) in course.warehouse.ramps.iter().enumerate() {
        found.need_floor(format!("ramps[{i}].area_m"), &ramp.area);
    }
    for (i, dock) in course.warehouse.docks.iter().enumerate() {
        found.need_floor(format!("docks[{i}].area_m"), &dock.area);
    }
}

fn docks(course: &Course, found: &mut Found<'_>) {
    for (i, dock) in course.warehouse.docks.iter().enumerate() {
        for (k, (_, at)) in dock.checks.iter().enumerate() {
            let place = format!("docks[{i}].checks[{k}].at_m");
            found.need_floor(place.as_str(), &[*at]);
            let away = distance_to_polygon(*at, &dock.area);
            if away > CHECK_REACH_M {
                found.say(
                    place,
                    format!(
                        "it lies {away:.2} m from the dock's area; checks are made from at most \
                         {CHECK_REACH_M} m"
                    ),
                );
            }
        }
    }
}

/// Somewhere within reach the platform can stand.
fn stops(course: &Course, truck: &TruckSpec, found: &mut Found<'_>) {
    let half = 0.5 * truck.geometry.chassis_width_m;
    for (i, stop) in course.warehouse.stops.iter().enumerate() {
        let place = format!("pick_stops[{i}]");
        found.need_floor(format!("{place}.at_m"), &[stop.at]);
        let free = |p: Vec2| {
            found.on_floor(p)
                && in_lanes(course, p)
                && solid(course).all(|(_, s)| distance_to_polygon(p, &s) >= half)
        };
        if !around(stop.at, PICK_REACH_M).any(free) {
            found.say(
                place,
                format!(
                    "no truck can stand within {PICK_REACH_M} m of it; move it to the edge of an aisle"
                ),
            );
        }
    }
}

/// Points of a grid within a distance of a place.
fn around(middle: Vec2, reach: f64) -> impl Iterator<Item = Vec2> {
    let n = (reach / EVERY) as i32;
    let all = (-n..=n).flat_map(move |x| (-n..=n).map(move |y| (x, y)));
    all.map(|(x, y)| vec2(f64::from(x), f64::from(y)) * EVERY)
        .filter(move |d| d.length() <= reach)
        .map(move |d| middle + d)
}

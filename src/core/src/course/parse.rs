//! Reads a course file at the border, once, into a `Course` that cannot hold a wrong value.

use serde::Deserialize;

use super::file::{CourseFile, StepFile, WhatFile};
use super::parse_warehouse::{Sections, warehouse};
use crate::course::warehouse::Warehouse;
use crate::course::{
    Course, Gate, Lane, Line, LineKind, Step, StepKind, StopBox, Structure, StructureKind, Zone,
};
use crate::floor::Patch;
use crate::math::Vec2;
use crate::outside::values::{
    Wrong, each, ends, find, name, no_twins, outline, point, pose, said, short, within, wrong,
};
use crate::outside::{BadInput, read_json};

/// Largest course file that is read, bytes.
pub const MAX_BYTES: usize = 1024 * 1024;
/// The version of the course format that is read.
pub const FORMAT: u32 = 1;
impl Course {
    /// Reads a course file.
    ///
    /// # Errors
    /// One sentence with file and place when anything in it is missing, unknown or out of range.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        // The version first: a later format may have fields that this program does not know.
        #[derive(Deserialize)]
        struct Head {
            format: u64,
        }
        if let Ok(Head { format }) = read_json(file, text, MAX_BYTES)
            && format != u64::from(FORMAT)
        {
            return Err(BadInput::new(
                file,
                "format",
                format!("this is format {format}, and this program reads format {FORMAT}"),
            ));
        }
        let read: CourseFile = read_json(file, text, MAX_BYTES)?;
        course(read).map_err(|w| BadInput::new(file, w.place, w.reason))
    }
}

fn course(f: CourseFile) -> Result<Course, Wrong> {
    name("id", &f.id)?;
    let (floor_min, floor_max) = floor(&f)?;
    let trucks = f.trucks.0;
    if trucks.is_empty() {
        return wrong("trucks", "name at least one truck");
    }
    for (i, t) in trucks.iter().enumerate() {
        let place = format!("trucks[{i}]");
        name(&place, t)?;
        if trucks[..i].contains(t) {
            return wrong(place, format!("the truck {t} is named twice; keep one"));
        }
    }
    let patches = each("patches", f.patches, |at, p| {
        Ok(Patch { surface: p.surface, area: outline(&format!("{at}.area_m"), &p.area_m)? })
    })?;
    let lanes = each("lanes", f.lanes, |at, l| {
        Ok(Lane {
            area: outline(&format!("{at}.area_m"), &l.area_m)?,
            holes: each(&format!("{at}.holes_m"), l.holes_m, |at, h| outline(at, &h))?,
        })
    })?;
    let cones = each("cones_m", f.cones_m, point)?;
    let structures = each("structures", f.structures, |at, s| {
        let (length, depth) = (format!("{at}.length_m"), format!("{at}.depth_m"));
        let underside = match (s.kind, s.underside_m) {
            (StructureKind::Beam, Some(u)) => {
                Some(within(&format!("{at}.underside_m"), u, 0.5, 10.0)?)
            }
            (StructureKind::Beam, None) => {
                return wrong(format!("{at}.underside_m"), "say how high the beam's underside is");
            }
            (_, Some(_)) => {
                return wrong(format!("{at}.underside_m"), "only a beam has one; leave it out");
            }
            (_, None) => None,
        };
        Ok(Structure {
            kind: s.kind,
            underside,
            pose: pose(at, "middle_m", s.middle_m, s.heading_deg)?,
            size: Vec2 {
                x: within(&length, s.length_m, 0.05, 200.0)?,
                y: within(&depth, s.depth_m, 0.05, 200.0)?,
            },
        })
    })?;
    let lines = each("lines", f.lines, |at, l| {
        name(&format!("{at}.id"), &l.id)?;
        let (from, to) = ends(at, ("from_m", l.from_m), ("to_m", l.to_m), 0.2)?;
        Ok(Line { id: l.id, kind: l.kind, from, to })
    })?;
    no_twins("lines", lines.iter().map(|l| l.id.as_str()))?;
    let gates = each("gates", f.gates, |at, g| {
        name(&format!("{at}.id"), &g.id)?;
        let (left, right) = ends(at, ("left_m", g.left_m), ("right_m", g.right_m), 0.5)?;
        Ok(Gate { id: g.id, left, right })
    })?;
    no_twins("gates", gates.iter().map(|g| g.id.as_str()))?;
    let boxes = each("boxes", f.boxes, |at, b| {
        name(&format!("{at}.id"), &b.id)?;
        Ok(StopBox {
            pose: pose(at, "middle_m", b.middle_m, b.heading_deg)?,
            size: Vec2 {
                x: within(&format!("{at}.length_m"), b.length_m, 0.5, 50.0)?,
                y: within(&format!("{at}.width_m"), b.width_m, 0.5, 50.0)?,
            },
            id: b.id,
        })
    })?;
    no_twins("boxes", boxes.iter().map(|b| b.id.as_str()))?;
    let zones = each("zones", f.zones, |at, z| {
        Ok(Zone {
            area: outline(&format!("{at}.area_m"), &z.area_m)?,
            limit_mps: within(&format!("{at}.limit_mps"), z.limit_mps, 0.1, 6.0)?,
        })
    })?;
    if f.steps.0.is_empty() {
        return wrong("steps", "give at least one step");
    }
    let warehouse = warehouse(Sections {
        loads: f.loads,
        pallets: f.pallets,
        bays: f.bays,
        people: f.people,
        other_trucks: f.other_trucks,
        blind_spots: f.blind_spots,
        crossings: f.crossings,
        ramps: f.ramps,
        docks: f.docks,
        pick_stops: f.pick_stops,
    })?;
    let names = Names { lines: &lines, gates: &gates, boxes: &boxes, warehouse: &warehouse };
    let steps = each("steps", f.steps, |at, s| step(at, s, &names))?;
    let walks = |s: &Step| matches!(s.what, StepKind::WalkRound { .. });
    if let Some(i) = steps.iter().skip(1).position(walks) {
        return wrong(
            format!("steps[{}].what", i + 1),
            "a walk-round is made before anything is driven; make it the first step",
        );
    }
    for (truck, par) in &f.par_s.0 {
        let place = format!("par_s.{}", short(truck));
        if !trucks.contains(truck) {
            return wrong(place, "this truck is not in the course's list of trucks");
        }
        within(&place, *par, 1.0, 3600.0)?;
    }
    for weight in f.weights.0.values() {
        within("weights", *weight, 0.0, 10.0)?;
    }
    Ok(Course {
        spawn: pose("spawn", "load_axle_m", f.spawn.load_axle_m, f.spawn.heading_deg)?,
        spawn_stance: f.spawn.stance.into(),
        title: said("title", f.title)?,
        trains: said("trains", f.trains)?,
        time_limit_s: within("time_limit_s", f.time_limit_s, 10.0, 3600.0)?,
        id: f.id,
        part_of: f.part_of,
        trucks,
        floor_min,
        floor_max,
        surface: f.floor.surface,
        patches,
        lanes,
        cones,
        structures,
        lines,
        gates,
        boxes,
        zones,
        traffic: f.traffic,
        warehouse,
        steps,
        par_s: f.par_s.0,
        weights: f.weights.0,
    })
}

struct Names<'a> {
    lines: &'a [Line],
    gates: &'a [Gate],
    boxes: &'a [StopBox],
    warehouse: &'a Warehouse,
}

fn step(at: &str, s: StepFile, names: &Names<'_>) -> Result<Step, Wrong> {
    let what = match s.what {
        WhatFile::Gates { in_order, laps } => {
            let at = format!("{at}.what.gates");
            if in_order.0.is_empty() {
                return wrong(format!("{at}.in_order"), "name at least one gate");
            }
            if !(1..=50).contains(&laps) {
                return wrong(
                    format!("{at}.laps"),
                    format!("{laps} lies outside 1 to 50; ask for at least one round"),
                );
            }
            let gates = each(&format!("{at}.in_order"), in_order, |at, id| {
                find(at, &id, "gate", names.gates.iter().position(|g| g.id == id))
            })?;
            StepKind::Gates { gates, laps }
        }
        WhatFile::StopAtMark { line, within_m } => {
            let at = format!("{at}.what.stop-at-mark");
            StepKind::StopAtMark {
                line: line_of(&format!("{at}.line"), &line, LineKind::Mark, names)?,
                within_m: within(&format!("{at}.within_m"), within_m, 0.01, 2.0)?,
            }
        }
        WhatFile::EmergencyStop { trigger, brake, min_speed_mps, delay_min_s, delay_max_s } => {
            let at = format!("{at}.what.emergency-stop");
            let place = |field: &str| format!("{at}.{field}");
            if delay_min_s > delay_max_s {
                return wrong(
                    place("delay_min_s"),
                    format!("{delay_min_s} is more than delay_max_s, {delay_max_s}"),
                );
            }
            StepKind::EmergencyStop {
                trigger: line_of(&place("trigger"), &trigger, LineKind::Trigger, names)?,
                brake,
                min_speed_mps: within(&place("min_speed_mps"), min_speed_mps, 0.3, 6.0)?,
                delay_min_s: within(&place("delay_min_s"), delay_min_s, 0.0, 30.0)?,
                delay_max_s: within(&place("delay_max_s"), delay_max_s, 0.0, 30.0)?,
            }
        }
        WhatFile::Park { stop_box, leave } => StepKind::Park {
            leave,
            stop_box: find(
                &format!("{at}.what.park.stop_box"),
                &stop_box,
                "box",
                names.boxes.iter().position(|b| b.id == stop_box),
            )?,
        },
        WhatFile::PickUp { pallet } => StepKind::PickUp {
            pallet: find(
                &format!("{at}.what.pick-up.pallet"),
                &pallet,
                "pallet",
                names.warehouse.pallets.iter().position(|p| p.id == pallet),
            )?,
        },
        WhatFile::SetDown { bay } => StepKind::SetDown {
            bay: find(
                &format!("{at}.what.set-down.bay"),
                &bay,
                "bay",
                names.warehouse.bays.iter().position(|b| b.id == bay),
            )?,
        },
        WhatFile::Picks { in_order } => {
            let at = format!("{at}.what.picks.in_order");
            if in_order.0.is_empty() {
                return wrong(at, "name at least one place to pick from");
            }
            let stops = each(&at, in_order, |at, id| {
                let found = names.warehouse.stops.iter().position(|s| s.id == id);
                find(at, &id, "place to pick from", found)
            })?;
            StepKind::Picks { stops }
        }
        WhatFile::WalkRound { mode } => StepKind::WalkRound { mode },
        WhatFile::CheckDock { dock } => StepKind::CheckDock {
            dock: find(
                &format!("{at}.what.check-dock.dock"),
                &dock,
                "dock",
                names.warehouse.docks.iter().position(|d| d.id == dock),
            )?,
        },
    };
    Ok(Step { what, say: said(&format!("{at}.say"), s.say)?, travel: s.travel })
}

fn line_of(at: &str, id: &str, kind: LineKind, names: &Names<'_>) -> Result<usize, Wrong> {
    let i = find(at, id, "line", names.lines.iter().position(|l| l.id == id))?;
    if names.lines[i].kind != kind {
        let asked = match kind {
            LineKind::Mark => "mark",
            LineKind::Trigger => "trigger",
            LineKind::Paint => "paint",
            LineKind::Stop => "stop",
            LineKind::Yield => "yield",
        };
        return wrong(at, format!("the line \"{}\" is not of the kind \"{asked}\"", short(id)));
    }
    Ok(i)
}

fn floor(f: &CourseFile) -> Result<(Vec2, Vec2), Wrong> {
    let min = point("floor.south_west_m", f.floor.south_west_m)?;
    let max = point("floor.north_east_m", f.floor.north_east_m)?;
    if max.x - min.x < 2.0 || max.y - min.y < 2.0 {
        return wrong(
            "floor.north_east_m",
            "the floor's north-east corner must lie at least 2 m east and 2 m north of its south-west corner",
        );
    }
    Ok((min, max))
}

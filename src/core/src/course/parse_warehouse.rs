//! Reads loads, people, other trucks and the rest of the warehouse from a course file.

use super::file::{
    AtTheEndFile, CrossingFile, DockFile, OtherFile, PalletFile, RampFile, SetsOffFile, StandsFile,
    WalkerFile,
};
use crate::course::file::{BoxFile, GateFile, PickStopFile};
use crate::course::warehouse::{
    Bay, BlindSpot, Crossing, Dock, OtherTruck, Pallet, PickStop, SetsOff, Walker, Warehouse,
};
use crate::floor::Ramp;
use crate::load::pallet::{LoadFile, PalletLoad};
use crate::math::{DEG, Vec2, vec2};
use crate::outside::bounded::List;
use crate::outside::values::{
    Wrong, each, ends, find, name, no_twins, outline, point, pose, within, wrong,
};
use crate::people::walk::{AtTheEnd, HoldBack, Route, Waypoint};

/// The warehouse's part of a course file.
pub(super) struct Sections {
    pub(super) loads: List<LoadFile, 20>,
    pub(super) pallets: List<PalletFile, 60>,
    pub(super) bays: List<BoxFile, 60>,
    pub(super) people: List<WalkerFile, 40>,
    pub(super) other_trucks: List<OtherFile, 20>,
    pub(super) blind_spots: List<GateFile, 60>,
    pub(super) crossings: List<CrossingFile, 30>,
    pub(super) ramps: List<RampFile, 30>,
    pub(super) docks: List<DockFile, 10>,
    pub(super) pick_stops: List<PickStopFile, 60>,
}

pub(super) fn warehouse(f: Sections) -> Result<Warehouse, Wrong> {
    let loads = each("loads", f.loads, |at, l| {
        PalletLoad::check(&l).map_err(|(place, reason)| Wrong {
            place: if place.is_empty() { at.to_owned() } else { format!("{at}.{place}") },
            reason,
        })
    })?;
    no_twins("loads", loads.iter().map(|l| l.id.as_str()))?;
    let pallets = each("pallets", f.pallets, |at, p| {
        name(&format!("{at}.id"), &p.id)?;
        let load = find(
            &format!("{at}.load"),
            &p.load,
            "load",
            loads.iter().position(|l| l.id == p.load),
        )?;
        let floor = match p.stands {
            StandsFile::OnForks => None,
            StandsFile::Floor { middle_m, heading_deg } => {
                Some(pose(&format!("{at}.stands.floor"), "middle_m", middle_m, heading_deg)?)
            }
        };
        Ok(Pallet { id: p.id, load, floor })
    })?;
    no_twins("pallets", pallets.iter().map(|p| p.id.as_str()))?;
    let bays = each("bays", f.bays, |at, b| {
        name(&format!("{at}.id"), &b.id)?;
        Ok(Bay {
            pose: pose(at, "middle_m", b.middle_m, b.heading_deg)?,
            size: vec2(
                within(&format!("{at}.length_m"), b.length_m, 0.5, 5.0)?,
                within(&format!("{at}.width_m"), b.width_m, 0.5, 5.0)?,
            ),
            id: b.id,
        })
    })?;
    no_twins("bays", bays.iter().map(|b| b.id.as_str()))?;
    let people = each("people", f.people, walker)?;
    no_twins("people", people.iter().map(|p| p.id.as_str()))?;
    let others = each("other_trucks", f.other_trucks, other)?;
    no_twins("other_trucks", others.iter().map(|o| o.id.as_str()))?;
    let blind_spots = each("blind_spots", f.blind_spots, |at, g| {
        name(&format!("{at}.id"), &g.id)?;
        let (left, right) = ends(at, ("left_m", g.left_m), ("right_m", g.right_m), 0.5)?;
        Ok(BlindSpot { id: g.id, left, right })
    })?;
    no_twins("blind_spots", blind_spots.iter().map(|b| b.id.as_str()))?;
    let crossings = each("crossings", f.crossings, |at, c| {
        name(&format!("{at}.id"), &c.id)?;
        Ok(Crossing { area: outline(&format!("{at}.area_m"), &c.area_m)?, id: c.id })
    })?;
    no_twins("crossings", crossings.iter().map(|c| c.id.as_str()))?;
    let ramps = each("ramps", f.ramps, ramp)?;
    let docks = each("docks", f.docks, dock)?;
    no_twins("docks", docks.iter().map(|d| d.id.as_str()))?;
    let stops = each("pick_stops", f.pick_stops, |at, s| {
        name(&format!("{at}.id"), &s.id)?;
        Ok(PickStop { at: point(&format!("{at}.at_m"), s.at_m)?, id: s.id })
    })?;
    no_twins("pick_stops", stops.iter().map(|s| s.id.as_str()))?;
    Ok(Warehouse {
        loads,
        pallets,
        bays,
        people,
        others,
        blind_spots,
        crossings,
        ramps,
        docks,
        stops,
    })
}

fn sets_off(at: &str, f: SetsOffFile) -> Result<SetsOff, Wrong> {
    match f {
        SetsOffFile::After { least_s, most_s } => {
            let at = format!("{at}.after");
            let most_s = within(&format!("{at}.most_s"), most_s, 0.0, 3600.0)?;
            let least_s = within(&format!("{at}.least_s"), least_s, 0.0, most_s)?;
            Ok(SetsOff::After { least_s, most_s })
        }
        SetsOffFile::Near { at_m, within_m } => {
            let at = format!("{at}.near");
            Ok(SetsOff::Near {
                at: point(&format!("{at}.at_m"), at_m)?,
                within_m: within(&format!("{at}.within_m"), within_m, 0.5, 100.0)?,
            })
        }
        SetsOffFile::InFront { at_m, heading_deg, distance_m } => {
            let at = format!("{at}.in-front");
            if let Some(d) = distance_m {
                within(&format!("{at}.distance_m"), d, 0.0, 100.0)?;
            }
            Ok(SetsOff::InFront { at: pose(&at, "at_m", at_m, heading_deg)?, distance_m })
        }
    }
}

fn group(at: &str, one_of: Option<String>) -> Result<Option<String>, Wrong> {
    if let Some(word) = &one_of {
        name(&format!("{at}.one_of"), word)?;
    }
    Ok(one_of)
}

fn walker(at: &str, w: WalkerFile) -> Result<Walker, Wrong> {
    name(&format!("{at}.id"), &w.id)?;
    let places = each(&format!("{at}.route"), w.route, |at, p| {
        Ok(Waypoint {
            at: point(&format!("{at}.at_m"), p.at_m)?,
            wait_s: p.wait_s,
            wait_chance: p.wait_chance,
            crosses: p.crosses,
        })
    })?;
    let at_the_end = match w.at_the_end {
        AtTheEndFile::Stay => AtTheEnd::Stay,
        AtTheEndFile::StartOver => AtTheEnd::StartOver,
    };
    let route = Route::new(places, at_the_end)
        .map_err(|reason| Wrong { place: format!("{at}.route"), reason })?;
    let hold_back = w
        .hold_back
        .map(HoldBack::new)
        .transpose()
        .map_err(|reason| Wrong { place: format!("{at}.hold_back"), reason })?;
    Ok(Walker {
        route,
        sets_off: sets_off(&format!("{at}.sets_off"), w.sets_off)?,
        hold_back,
        one_of: group(at, w.one_of)?,
        id: w.id,
    })
}

fn other(at: &str, o: OtherFile) -> Result<OtherTruck, Wrong> {
    name(&format!("{at}.id"), &o.id)?;
    let way = each(&format!("{at}.way_m"), o.way_m, point)?;
    if way.len() < 2 {
        return wrong(format!("{at}.way_m"), "give at least two places");
    }
    if let Some(i) = way.windows(2).position(|w| (w[1] - w[0]).length() < 0.5) {
        return wrong(
            format!("{at}.way_m[{i}]"),
            "this place and the next one are less than 0.5 m apart; leave one out",
        );
    }
    let sets_off = sets_off(&format!("{at}.sets_off"), o.sets_off)?;
    if matches!(sets_off, SetsOff::InFront { .. }) {
        return wrong(
            format!("{at}.sets_off"),
            "only people step out in front of the truck; use \"near\" for another truck",
        );
    }
    Ok(OtherTruck {
        size: vec2(
            within(&format!("{at}.length_m"), o.length_m, 0.5, 8.0)?,
            within(&format!("{at}.width_m"), o.width_m, 0.3, 3.0)?,
        ),
        way,
        speed: within(&format!("{at}.speed_mps"), o.speed_mps, 0.1, 4.0)?,
        starts_over: matches!(o.at_the_end, AtTheEndFile::StartOver),
        sets_off,
        one_of: group(at, o.one_of)?,
        id: o.id,
    })
}

fn ramp(at: &str, r: RampFile) -> Result<Ramp, Wrong> {
    Ok(Ramp {
        area: outline(&format!("{at}.area_m"), &r.area_m)?,
        uphill: Vec2::from_angle(
            DEG * within(&format!("{at}.uphill_deg"), r.uphill_deg, -360.0, 360.0)?,
        ),
        // Steeper than one in four no pallet truck drives.
        grade: within(&format!("{at}.grade"), r.grade, 0.005, 0.25)?,
    })
}

fn dock(at: &str, d: DockFile) -> Result<Dock, Wrong> {
    name(&format!("{at}.id"), &d.id)?;
    let checks = each(&format!("{at}.checks"), d.checks, |at, c| {
        Ok((c.what, point(&format!("{at}.at_m"), c.at_m)?))
    })?;
    if checks.is_empty() {
        return wrong(format!("{at}.checks"), "give at least one check");
    }
    if let Some(i) = (1..checks.len()).find(|i| checks[..*i].iter().any(|c| c.0 == checks[*i].0)) {
        return wrong(format!("{at}.checks[{i}].what"), "this check comes twice; keep one");
    }
    Ok(Dock {
        area: outline(&format!("{at}.area_m"), &d.area_m)?,
        checks,
        false_chance: within(&format!("{at}.false_chance"), d.false_chance, 0.0, 1.0)?,
        id: d.id,
    })
}

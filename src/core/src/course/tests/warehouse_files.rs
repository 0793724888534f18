//! Every section that makes a yard a warehouse is read, and refused in a sentence when it is wrong.

use serde_json::{Value, json};

use super::files::{refusal, schema, value, with};
use crate::course::warehouse::{DockCheck, SetsOff};
use crate::course::{Course, LineKind, StepKind, StructureKind};
use crate::math::vec2;

fn read(course: &Value) -> Course {
    if let Err(e) = schema().validate(course) {
        panic!("the schema refuses {e} at {}", e.instance_path());
    }
    Course::parse("c.json", course.to_string().as_bytes()).unwrap_or_else(|e| panic!("{e}"))
}

fn says(name: &str, pointer: &str, to: Value) -> String {
    refusal(with(name, pointer, Some(to)).to_string().as_bytes())
}

#[test]
fn loads_pallets_and_bays_are_read() {
    let w = read(&value("full-circuit")).warehouse;
    assert_eq!((w.loads.len(), w.pallets.len(), w.bays.len()), (1, 1, 1));
    assert_eq!((w.loads[0].rows, w.loads[0].across, w.loads[0].cases()), (3, 3, 36));
    assert_eq!(w.pallets[0].floor.unwrap().at, vec2(10.0, -13.9));
    assert_eq!(w.bays[0].size, vec2(1.4, 1.2));
    let w = read(&value("long-truck-turn")).warehouse;
    assert!(w.pallets.len() == 2 && w.pallets.iter().all(|p| p.floor.is_none()));
}

#[test]
fn people_and_other_trucks_are_read() {
    let w = read(&value("tall-load")).warehouse;
    let SetsOff::InFront { at, distance_m: None } = w.people[0].sets_off else { panic!() };
    assert_eq!((at.at, at.heading), (vec2(24.65, 0.0), 0.0));
    assert!(w.people[0].route.places()[0].crosses && !w.people[0].route.places()[1].crosses);
    assert_eq!(w.people[0].one_of.as_deref(), Some("hidden"));
    let far = with("tall-load", "/people/0/sets_off/in-front/distance_m", Some(json!(20)));
    let SetsOff::InFront { distance_m, .. } = read(&far).warehouse.people[0].sets_off else {
        panic!()
    };
    assert_eq!(distance_m, Some(20.0));
    let w = read(&value("cross-aisles")).warehouse;
    assert_eq!(w.people[1].sets_off, SetsOff::After { least_s: 2.0, most_s: 20.0 });
    assert_eq!(w.people[0].route.legs().count(), 6, "there and back");
    let w = read(&value("head-on")).warehouse;
    assert_eq!(w.others.len(), 3);
    assert_eq!(w.others[0].sets_off, SetsOff::Near { at: vec2(4.0, 0.0), within_m: 3.0 });
    assert!(!w.others[0].starts_over && w.others[0].size == vec2(2.9, 0.95));
}

#[test]
fn lines_blind_spots_crossings_ramps_docks_and_stops_are_read() {
    let c = read(&value("cross-aisles"));
    assert_eq!((c.lines[0].kind, c.lines[1].kind), (LineKind::Stop, LineKind::Yield));
    assert_eq!((c.warehouse.blind_spots.len(), c.warehouse.crossings.len()), (4, 1));
    let c = read(&value("dock"));
    let beam = c.structures.iter().find(|s| s.kind == StructureKind::Beam).unwrap();
    assert_eq!(beam.underside, Some(1.85));
    assert!(!beam.kind.is_solid() && !beam.kind.is_opaque());
    assert!((c.warehouse.ramps[0].uphill - vec2(0.0, 1.0)).length() < 1e-12);
    assert_eq!(c.warehouse.ramps[0].grade, 0.12);
    let what: Vec<DockCheck> = c.warehouse.docks[0].checks.iter().map(|c| c.0).collect();
    assert_eq!(what, [DockCheck::VehicleHeld, DockCheck::PlateSeated, DockCheck::EdgeClosed]);
    let c = read(&value("pick-run"));
    assert_eq!(c.steps[0].what, StepKind::Picks { stops: (0..8).collect() });
    for kind in ["rail", "panel", "curtain"] {
        let c = read(&with("rack-end", "/structures/4/kind", Some(json!(kind))));
        assert_eq!(c.structures[4].kind.is_solid(), kind != "curtain");
        assert_eq!(c.structures[4].kind.is_opaque(), kind == "curtain");
    }
}

/// Broken in a way that a schema can say: the schema and the reader both refuse, each with its
/// sentence.
#[test]
fn schema_and_reader_refuse_the_same() {
    let schema = schema();
    let broken = [
        (
            "bays",
            "/loads/0/case/mass_kg",
            json!(0),
            "c.json, at loads[0].case.mass_kg: 0 lies outside 0.1 to 2000",
        ),
        (
            "bays",
            "/loads/0/pallet/mass_kg",
            json!(201),
            "c.json, at loads[0].pallet.mass_kg: 201 lies outside 1 to 200",
        ),
        (
            "bays",
            "/loads/0/layers",
            json!([]),
            "c.json, at loads[0].layers: give at least one row of columns",
        ),
        (
            "bays",
            "/bays/0/width_m",
            json!(6),
            "c.json, at bays[0].width_m: 6 lies outside 0.5 to 5",
        ),
        (
            "bays",
            "/bays/0/id",
            json!("Bay 1"),
            "c.json, at bays[0].id: use 1 to 40 lower-case letters, digits and dashes",
        ),
        (
            "rack-end",
            "/people/0/route",
            json!([]),
            "c.json, at people[0].route: the route has no place; give at least one",
        ),
        (
            "cross-aisles",
            "/people/0/route/0/wait_s",
            json!(601),
            "c.json, at people[0].route: the wait of 601 s at place 0 lies outside 0 to 600",
        ),
        (
            "cross-aisles",
            "/people/0/route/0/wait_chance",
            json!(1.5),
            "c.json, at people[0].route: the chance of 1.5 at place 0 lies outside 0 to 1",
        ),
        (
            "rack-end",
            "/people/0/hold_back",
            json!(1),
            "c.json, at people[0].hold_back: a chance of 1 to hold back at a horn lies outside 0 to 0.95: a horn is never certain to stop anybody",
        ),
        (
            "rack-end",
            "/people/0/one_of",
            json!("A B"),
            "c.json, at people[0].one_of: use 1 to 40 lower-case letters, digits and dashes",
        ),
        (
            "rack-end",
            "/people/0/sets_off/in-front/distance_m",
            json!(101),
            "c.json, at people[0].sets_off.in-front.distance_m: 101 lies outside 0 to 100",
        ),
        (
            "cross-aisles",
            "/people/0/sets_off/after/most_s",
            json!(3601),
            "c.json, at people[0].sets_off.after.most_s: 3601 lies outside 0 to 3600",
        ),
        (
            "wet-stop",
            "/other_trucks/0/sets_off/near/within_m",
            json!(0),
            "c.json, at other_trucks[0].sets_off.near.within_m: 0 lies outside 0.5 to 100",
        ),
        (
            "wet-stop",
            "/other_trucks/0/way_m",
            json!([[1, 1]]),
            "c.json, at other_trucks[0].way_m: give at least two places",
        ),
        (
            "wet-stop",
            "/other_trucks/0/speed_mps",
            json!(5),
            "c.json, at other_trucks[0].speed_mps: 5 lies outside 0.1 to 4",
        ),
        (
            "wet-stop",
            "/other_trucks/0/length_m",
            json!(9),
            "c.json, at other_trucks[0].length_m: 9 lies outside 0.5 to 8",
        ),
        (
            "wet-stop",
            "/other_trucks/0/sets_off",
            json!({ "in-front": { "at_m": [1, 1], "heading_deg": 0 } }),
            "c.json, at other_trucks[0].sets_off: only people step out in front of the truck; use \"near\" for another truck",
        ),
        (
            "wet-stop",
            "/blind_spots/0/id",
            json!(""),
            "c.json, at blind_spots[0].id: use 1 to 40 lower-case letters, digits and dashes",
        ),
        (
            "cross-aisles",
            "/crossings/0/area_m",
            json!([[0, 0], [1, 0]]),
            "c.json, at crossings[0].area_m: an area needs at least 3 corners",
        ),
        (
            "dock",
            "/ramps/0/grade",
            json!(0.3),
            "c.json, at ramps[0].grade: 0.3 lies outside 0.005 to 0.25",
        ),
        (
            "dock",
            "/ramps/0/uphill_deg",
            json!(400),
            "c.json, at ramps[0].uphill_deg: 400 lies outside -360 to 360",
        ),
        (
            "dock",
            "/docks/0/checks",
            json!([]),
            "c.json, at docks[0].checks: give at least one check",
        ),
        (
            "dock",
            "/docks/0/false_chance",
            json!(1.2),
            "c.json, at docks[0].false_chance: 1.2 lies outside 0 to 1",
        ),
        (
            "pick-run",
            "/pick_stops/0/at_m",
            json!([0, 501]),
            "c.json, at pick_stops[0].at_m: 501 lies more than 500 m from the origin",
        ),
        (
            "pick-run",
            "/steps/0/what/picks/in_order",
            json!([]),
            "c.json, at steps[0].what.picks.in_order: name at least one place to pick from",
        ),
        (
            "rack-end",
            "/structures/4/underside_m",
            json!(2),
            "c.json, at structures[4].underside_m: only a beam has one; leave it out",
        ),
        (
            "rack-end",
            "/structures/4/kind",
            json!("beam"),
            "c.json, at structures[4].underside_m: say how high the beam's underside is",
        ),
        (
            "dock",
            "/structures/12/underside_m",
            json!(0.4),
            "c.json, at structures[12].underside_m: 0.4 lies outside 0.5 to 10",
        ),
    ];
    for (name, pointer, to, said) in broken {
        let course = with(name, pointer, Some(to));
        assert!(!schema.is_valid(&course), "the schema accepts {name} {pointer}");
        assert_eq!(refusal(course.to_string().as_bytes()), said, "{name} {pointer}");
    }
}

/// Words that are not known, and fields that are missing.
#[test]
fn unknown_words_and_missing_fields_are_named() {
    let schema = schema();
    for (name, pointer, to, word) in [
        ("bays", "/pallets/0/stands", json!("hanging"), "unknown variant `hanging`"),
        ("bays", "/pallets/0/stands", json!({ "floor": {} }), "missing field `middle_m`"),
        ("bays", "/loads/0/surfaces/case_on_case", json!("ice_on_ice"), "ice_on_ice"),
        ("bays", "/steps/1/what", json!({ "pick-up": {} }), "missing field `pallet`"),
        ("bays", "/steps/3/what", json!({ "set-down": {} }), "missing field `bay`"),
        ("cross-aisles", "/lines/0/kind", json!("halt"), "unknown variant `halt`"),
        ("cross-aisles", "/people/0/sets_off", json!({ "never": {} }), "unknown variant `never`"),
        ("cross-aisles", "/people/0/at_the_end", json!("vanish"), "unknown variant `vanish`"),
        (
            "wet-stop",
            "/blind_spots/0",
            json!({ "id": "b", "left_m": [0, 1] }),
            "missing field `right_m`",
        ),
        ("dock", "/docks/0/checks/0/what", json!("weather"), "unknown variant `weather`"),
        ("dock", "/steps/1/what", json!({ "check-dock": {} }), "missing field `dock`"),
    ] {
        let course = with(name, pointer, Some(to));
        assert!(!schema.is_valid(&course), "the schema accepts {name} {pointer}");
        let said = refusal(course.to_string().as_bytes());
        assert!(said.contains(word), "{name} {pointer}: {said}");
    }
}

/// What only the reader can see.
#[test]
fn names_that_lead_nowhere_and_twins_are_named() {
    for (name, pointer, to, said) in [
        (
            "bays",
            "/pallets/0/load",
            json!("nuts"),
            "c.json, at pallets[0].load: the course has no load named \"nuts\"",
        ),
        (
            "bays",
            "/steps/1/what/pick-up/pallet",
            json!("nuts"),
            "c.json, at steps[1].what.pick-up.pallet: the course has no pallet named \"nuts\"",
        ),
        (
            "bays",
            "/steps/3/what/set-down/bay",
            json!("nowhere"),
            "c.json, at steps[3].what.set-down.bay: the course has no bay named \"nowhere\"",
        ),
        (
            "pick-run",
            "/steps/0/what/picks/in_order/3",
            json!("nowhere"),
            "c.json, at steps[0].what.picks.in_order[3]: the course has no place to pick from named \"nowhere\"",
        ),
        (
            "dock",
            "/steps/1/what/check-dock/dock",
            json!("nowhere"),
            "c.json, at steps[1].what.check-dock.dock: the course has no dock named \"nowhere\"",
        ),
        (
            "dock",
            "/docks/0/checks/1/what",
            json!("vehicle-held"),
            "c.json, at docks[0].checks[1].what: this check comes twice; keep one",
        ),
        (
            "long-truck-turn",
            "/pallets/1/id",
            json!("first"),
            "c.json, at pallets[1].id: the name \"first\" is used twice; rename one",
        ),
        (
            "rack-end",
            "/people/1/id",
            json!("abedul"),
            "c.json, at people[1].id: the name \"abedul\" is used twice; rename one",
        ),
        (
            "rack-end",
            "/people/0/route/1/at_m",
            json!([20.5, 2.7]),
            "c.json, at people[0].route: place 0 of the route and the next one are less than 0.1 m apart; leave one out and let the other have the wait",
        ),
        (
            "head-on",
            "/other_trucks/0/way_m/1",
            json!([59.8, 0]),
            "c.json, at other_trucks[0].way_m[0]: this place and the next one are less than 0.5 m apart; leave one out",
        ),
        (
            "wet-stop",
            "/blind_spots/0/left_m",
            json!([20, -2]),
            "c.json, at blind_spots[0]: its ends are 0.00 m apart; use 0.5 m to 200 m",
        ),
        (
            "cross-aisles",
            "/people/0/sets_off/after/least_s",
            json!(9),
            "c.json, at people[0].sets_off.after.least_s: 9 lies outside 0 to 8",
        ),
        (
            "bays",
            "/loads/0/layers/1",
            json!([4, 4]),
            "c.json, at loads[0].layers[1]: this row has 2 columns and the first has 3; give every row as many",
        ),
    ] {
        assert_eq!(says(name, pointer, to), said);
    }
}

//! The heaviest course that is measured: a hall of 300 things to run into and 30 people.
//!
//! It is made here and not shipped: it teaches nothing. A long aisle leads through rows of parked
//! goods; pallets that can be pushed and cones stand along it, and people walk to and fro between
//! the rows behind.

use coneyard_core::rules::SHIPPED;
use coneyard_core::run::DriveSetup;
use coneyard_core::truck::spec::shipped;
use serde_json::{Value, json};

/// Walls and goods that stand still.
const STANDING: usize = 200;
/// Pallets that can be pushed.
const PALLETS: usize = 60;
/// Cones.
const CONES: usize = 40;
/// People.
pub(super) const PEOPLE: usize = 30;
/// Things that a truck can run into.
pub(super) const BODIES: usize = STANDING + PALLETS + CONES;

/// A drive through it with the single truck.
pub(super) fn setup() -> DriveSetup {
    DriveSetup {
        course: course().to_string(),
        truck: shipped::SINGLE.to_owned(),
        rules: SHIPPED.to_owned(),
        checks: String::new(),
        seed: 1,
        who: String::new(),
        started: String::new(),
    }
}

/// Parked goods in five rows on each side of the aisle.
fn goods() -> impl Iterator<Item = Value> {
    let rows = [5.0, 8.0, 11.0, 14.0, 17.0].into_iter().flat_map(|y| [y, -y]);
    let places = rows.flat_map(|y| (0..20).map(move |i| [4.0 + 3.5 * f64::from(i), y]));
    places.take(STANDING).map(|at| {
        json!({ "kind": "load", "middle_m": at, "heading_deg": 0, "length_m": 1.2, "depth_m": 1 })
    })
}

/// Pallets along both sides of the aisle.
fn pallets() -> impl Iterator<Item = Value> {
    (0..PALLETS).map(|i| {
        let (along, side) = (4.0 + 2.3 * (i / 2) as f64, if i % 2 == 0 { 1.0 } else { -1.0 });
        let place = json!({ "middle_m": [along, 2.9 * side], "heading_deg": 90 });
        json!({ "id": format!("pallet-{i}"), "load": "cases", "stands": { "floor": place } })
    })
}

/// Cones nearer to it.
fn cones() -> impl Iterator<Item = Value> {
    let side = |i: usize| if i.is_multiple_of(2) { 1.9 } else { -1.9 };
    (0..CONES).map(move |i| json!([5.0 + 3.4 * (i / 2) as f64, side(i)]))
}

/// People between the rows, who walk back at each end.
fn people() -> impl Iterator<Item = Value> {
    let between = [6.5, 9.5, 12.5, 15.5, 18.5].into_iter().flat_map(|y| [y, -y]);
    let starts = between.flat_map(|y| [4.0, 24.0, 44.0].map(|x| (x, y)));
    starts.take(PEOPLE).enumerate().map(|(i, (x, y))| {
        json!({
            "id": format!("walker-{i}"),
            "route": [{ "at_m": [x, y] }, { "at_m": [x + 18.0, y] }],
            "at_the_end": "start-over",
            "sets_off": { "after": { "least_s": 0, "most_s": 5 } }
        })
    })
}

fn course() -> Value {
    json!({
        "format": 1,
        "id": "heaviest",
        "title": { "en": "Heaviest", "es": "La más pesada" },
        "trains": { "en": "Nothing: it is for measuring.", "es": "Nada: es para medir." },
        "trucks": ["single"],
        "floor": { "south_west_m": [-5, -22], "north_east_m": [80, 22], "surface": "dry" },
        "cones_m": cones().collect::<Vec<_>>(),
        "structures": goods().collect::<Vec<_>>(),
        "gates": [{ "id": "far", "left_m": [66, 1.5], "right_m": [66, -1.5] }],
        "boxes": [{
            "id": "parking", "middle_m": [74, 0], "heading_deg": 0, "length_m": 5.4, "width_m": 1.9
        }],
        "loads": [{
            "id": "cases",
            "source": "Invented, for measuring.",
            "pallet": { "length_m": 1.2, "width_m": 1.0, "height_m": 0.14, "mass_kg": 25 },
            "case": { "length_m": 0.4, "width_m": 0.33, "height_m": 0.3, "mass_kg": 12 },
            "layers": [[3, 3, 3], [3, 3, 3], [3, 3, 3]],
            "wrapped": false,
            "surfaces": {
                "pallet_on_forks": "wooden_pallet_on_forks",
                "case_on_pallet": "cardboard_on_wooden_pallet",
                "case_on_case": "cardboard_on_cardboard"
            }
        }],
        "pallets": pallets().collect::<Vec<_>>(),
        "people": people().collect::<Vec<_>>(),
        "spawn": { "load_axle_m": [-2, 0], "heading_deg": 0, "stance": "left" },
        "traffic": true,
        "steps": [
            {
                "say": { "en": "Drive to the end.", "es": "Conduzca hasta el final." },
                "travel": "power-unit-first",
                "what": { "gates": { "in_order": ["far"], "laps": 1 } }
            },
            {
                "say": { "en": "Park.", "es": "Estacione." },
                "travel": "power-unit-first",
                "what": { "park": { "stop_box": "parking" } }
            }
        ],
        "time_limit_s": 240
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use coneyard_core::course::Course;

    #[test]
    fn it_has_what_it_says() {
        let course = Course::parse("heaviest", course().to_string().as_bytes()).expect("valid");
        let w = &course.warehouse;
        assert_eq!(course.structures.len() + course.cones.len() + w.pallets.len(), BODIES);
        assert_eq!((BODIES, w.people.len()), (300, PEOPLE));
        assert!(w.people.iter().all(|p| p.route.places().len() == 2));
    }
}

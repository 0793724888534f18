//! Files of the repository, and an empty floor to measure the truck on.

use std::path::PathBuf;

use coneyard_core::desk::DriveSetup;
use serde_json::{Value, json};

use crate::drives::setup;

/// A file of the repository.
pub fn repo_file(path: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..").join(path)
}

/// The text of a file of the repository.
///
/// # Panics
/// When there is no such file: a test cannot go on without it.
#[allow(clippy::panic)]
pub fn repo_text(path: &str) -> String {
    std::fs::read_to_string(repo_file(path)).unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// A wide empty floor of one kind for the single truck, which starts in its middle heading east.
pub fn empty_floor(surface: &str) -> DriveSetup {
    floor_with(&json!({}), surface)
}

/// The same with a wrapped pallet of 27 cases of 12 kg, three columns by three by three layers, on
/// the forks.
pub fn with_a_pallet_on_the_forks(surface: &str) -> DriveSetup {
    let load = json!({
        "id": "cases",
        "source": "Invented, for measuring.",
        "pallet": { "length_m": 1.2, "width_m": 1.0, "height_m": 0.14, "mass_kg": 25 },
        "case": { "length_m": 0.4, "width_m": 0.33, "height_m": 0.3, "mass_kg": 12 },
        "layers": [[3, 3, 3], [3, 3, 3], [3, 3, 3]],
        "wrapped": true,
        "surfaces": {
            "pallet_on_forks": "wooden_pallet_on_forks",
            "case_on_pallet": "cardboard_on_wooden_pallet",
            "case_on_case": "cardboard_on_cardboard"
        }
    });
    let pallets = json!([{ "id": "goods", "load": "cases", "stands": "on-forks" }]);
    floor_with(&json!({ "loads": [load], "pallets": pallets }), surface)
}

/// The empty floor with more fields of a course file, which take the place of its own.
pub fn floor_with(more: &Value, surface: &str) -> DriveSetup {
    let mut course = json!({
        "format": 1,
        "id": "empty-floor",
        "title": { "en": "Empty floor", "es": "Suelo vacío" },
        "trains": { "en": "Nothing: it is for measuring.", "es": "Nada: es para medir." },
        "trucks": ["single", "double"],
        "floor": { "south_west_m": [-100, -100], "north_east_m": [100, 100], "surface": surface },
        "gates": [{ "id": "far", "left_m": [90, 92], "right_m": [90, 88] }],
        "spawn": { "load_axle_m": [0, 0], "heading_deg": 0, "stance": "left" },
        "steps": [{
            "say": { "en": "Drive.", "es": "Conduzca." },
            "travel": "power-unit-first",
            "what": { "gates": { "in_order": ["far"], "laps": 1 } }
        }],
        "time_limit_s": 600
    });
    for (key, value) in more.as_object().into_iter().flatten() {
        course[key] = value.clone();
    }
    DriveSetup { course: course.to_string(), ..setup("straight", "single", 1) }
}

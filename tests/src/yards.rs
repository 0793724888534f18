//! Files of the repository, and an empty floor to measure the truck on.

use std::path::PathBuf;

use coneyard_core::run::DriveSetup;
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

/// A wide floor of one kind to measure a truck on, which starts in its middle heading east.
#[derive(Clone, Debug)]
pub struct Floor {
    surface: String,
    truck: String,
    more: Value,
}

impl Floor {
    /// Level and empty, for the single truck.
    pub fn new(surface: &str) -> Self {
        Self { surface: surface.to_owned(), truck: "single".to_owned(), more: json!({}) }
    }

    /// For another truck.
    #[must_use]
    pub fn of_truck(mut self, truck: &str) -> Self {
        truck.clone_into(&mut self.truck);
        self
    }

    /// Rises eastwards by this grade, rise over way; falls where it is negative.
    #[must_use]
    pub fn rising(self, grade: f64) -> Self {
        let uphill = if grade < 0.0 { 180 } else { 0 };
        let all = [[-99, -99], [99, -99], [99, 99], [-99, 99]];
        let ramp = json!({ "area_m": all, "uphill_deg": uphill, "grade": grade.abs() });
        if grade == 0.0 { self } else { self.with("ramps", json!([ramp])) }
    }

    /// So many wrapped pallets on the forks, each of 25 kg with 27 cases of `case_kg`: three columns
    /// by three, three layers.
    #[must_use]
    pub fn laden(self, pallets: u32, case_kg: f64) -> Self {
        let load = json!({
            "id": "cases",
            "source": "Invented, for measuring.",
            "pallet": { "length_m": 1.2, "width_m": 1.0, "height_m": 0.14, "mass_kg": 25 },
            "case": { "length_m": 0.4, "width_m": 0.33, "height_m": 0.3, "mass_kg": case_kg },
            "layers": [[3, 3, 3], [3, 3, 3], [3, 3, 3]],
            "wrapped": true,
            "surfaces": {
                "pallet_on_forks": "wooden_pallet_on_forks",
                "case_on_pallet": "cardboard_on_wooden_pallet",
                "case_on_case": "cardboard_on_cardboard"
            }
        });
        let goods =
            |i| json!({ "id": format!("goods-{i}"), "load": "cases", "stands": "on-forks" });
        let pallets: Vec<Value> = (0..pallets).map(goods).collect();
        self.with("loads", json!([load])).with("pallets", json!(pallets))
    }

    /// Something else of a course file, by its name there.
    #[must_use]
    pub fn with(mut self, name: &str, value: Value) -> Self {
        self.more[name] = value;
        self
    }

    /// What to drive.
    pub fn setup(&self) -> DriveSetup {
        let mut course = json!({
            "format": 1,
            "id": "empty-floor",
            "title": { "en": "Empty floor", "es": "Suelo vacío" },
            "trains": { "en": "Nothing: it is for measuring.", "es": "Nada: es para medir." },
            "trucks": ["single", "double"],
            "floor": {
                "south_west_m": [-100, -100], "north_east_m": [100, 100], "surface": self.surface
            },
            "gates": [{ "id": "far", "left_m": [90, 92], "right_m": [90, 88] }],
            "spawn": { "load_axle_m": [0, 0], "heading_deg": 0, "stance": "left" },
            "steps": [{
                "say": { "en": "Drive.", "es": "Conduzca." },
                "travel": "power-unit-first",
                "what": { "gates": { "in_order": ["far"], "laps": 1 } }
            }],
            "time_limit_s": 3600
        });
        for (key, value) in self.more.as_object().into_iter().flatten() {
            course[key] = value.clone();
        }
        DriveSetup { course: course.to_string(), ..setup("straight", &self.truck, 1) }
    }
}

/// A wide empty floor of one kind for the single truck, which starts in its middle heading east.
pub fn empty_floor(surface: &str) -> DriveSetup {
    Floor::new(surface).setup()
}

/// The same with a wrapped pallet of 25 kg and 27 cases of 12 kg on the forks.
pub fn with_a_pallet_on_the_forks(surface: &str) -> DriveSetup {
    Floor::new(surface).laden(1, 12.0).setup()
}

//! A pallet load: cases in columns and layers on a pallet, wrapped or not, and its file.
//!
//! Pallet frame: origin in the middle of the pallet at its underside, +x towards the backrest, +y
//! left. Rows of columns count from the backrest to the tips, and in a row from left to right.

use serde::{Deserialize, Serialize};

use crate::load::friction::{Friction, Pair};
use crate::math::{Vec2, vec2};
use crate::outside::{BadInput, read_json};
use crate::truck::loads::Carried;

/// Largest load file that is read, bytes.
pub const MAX_BYTES: usize = 64 * 1024;
/// The version of the load format that is read.
pub const FORMAT: u32 = 1;
/// Most cases of one load.
pub const MOST_CASES: usize = 400;
/// Most columns of one load.
pub const MOST_COLUMNS: usize = 64;
/// How far cases may stand out over the pallet on a side, m.
const OVERHANG_M: f64 = 0.05;
/// Highest load with its pallet, m.
const HIGHEST_M: f64 = 3.0;
/// Heaviest load with its pallet, kg.
const HEAVIEST_KG: f64 = 5000.0;

/// A load as its file describes it. The names carry the units.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LoadFile {
    /// The schema this file follows.
    #[serde(rename = "$schema", default, skip_serializing_if = "Option::is_none")]
    pub schema: Option<String>,
    /// Version of the file format: 1. A load inside a course has none of its own.
    #[serde(default = "this_format")]
    pub format: u32,
    /// Short name.
    pub id: String,
    /// Where the numbers come from, in a sentence.
    pub source: String,
    /// The pallet.
    pub pallet: Slab,
    /// One case; all are alike.
    pub case: Slab,
    /// How many cases stand in each column: rows from the backrest to the tips, in a row from
    /// left to right. 0 leaves the place empty.
    pub layers: Vec<Vec<u8>>,
    /// Stretch film holds cases and pallet together as one block.
    pub wrapped: bool,
    /// What lies on what.
    pub surfaces: Surfaces,
}

/// A box: length along x, width along y.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the names say what and in which unit
pub struct Slab {
    pub length_m: f64,
    pub width_m: f64,
    pub height_m: f64,
    pub mass_kg: f64,
}

/// Rows of the friction table.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Surfaces {
    /// Pallet on forks.
    pub pallet_on_forks: Pair,
    /// Case on pallet.
    pub case_on_pallet: Pair,
    /// Case on case.
    pub case_on_case: Pair,
}

fn this_format() -> u32 {
    FORMAT
}

/// What holds what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grip {
    /// Pallet on forks.
    pub on_forks: Friction,
    /// Case on pallet.
    pub on_pallet: Friction,
    /// Case on case.
    pub on_case: Friction,
}

/// A load with every value checked.
#[derive(Clone, Debug, PartialEq)]
pub struct PalletLoad {
    /// Short name.
    pub id: String,
    /// The pallet.
    pub pallet: Slab,
    /// One case.
    pub case: Slab,
    /// Rows of columns.
    pub rows: usize,
    /// Columns in a row.
    pub across: usize,
    /// Cases in each column, row by row.
    pub layers: Vec<u8>,
    /// Cases and pallet are one block.
    pub wrapped: bool,
    /// What holds what, dry.
    pub grip: Grip,
}

impl Slab {
    fn yaw_inertia(&self) -> f64 {
        self.mass_kg * (self.length_m * self.length_m + self.width_m * self.width_m) / 12.0
    }
}

impl PalletLoad {
    /// Reads a load file.
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
        let read: LoadFile = read_json(file, text, MAX_BYTES)?;
        Self::check(&read).map_err(|(place, reason)| BadInput::new(file, place, reason))
    }

    /// Checks a load that was read as a part of another file.
    ///
    /// # Errors
    /// The place in it and the reason, when anything is out of range.
    pub fn check(file: &LoadFile) -> Result<Self, (String, String)> {
        check(file)
    }

    /// Middle of a column that has not moved, pallet frame, m.
    pub fn place_of(&self, row: usize, across: usize) -> Vec2 {
        let from_middle = |i: usize, n: usize| 0.5 * (n as f64 - 1.0) - i as f64;
        vec2(
            from_middle(row, self.rows) * self.case.length_m,
            from_middle(across, self.across) * self.case.width_m,
        )
    }

    /// Height of the middle of the case in a layer, from 0, over the pallet's underside, m.
    pub fn height_of(&self, layer: usize) -> f64 {
        self.pallet.height_m + (layer as f64 + 0.5) * self.case.height_m
    }

    /// How many cases.
    pub fn cases(&self) -> usize {
        self.layers.iter().map(|&n| usize::from(n)).sum()
    }

    /// Height of the highest column over the pallet's underside, m.
    pub fn height(&self) -> f64 {
        let most = self.layers.iter().copied().max().unwrap_or(0);
        self.pallet.height_m + f64::from(most) * self.case.height_m
    }

    /// Mass, middle of mass and yaw inertia of the untouched load with the middle of its pallet at
    /// `at` in the body frame, m, and its underside `underside` m over the floor.
    pub fn as_carried(&self, at: Vec2, underside: f64) -> Carried {
        let still = (0..self.layers.len()).flat_map(|c| {
            let place = self.place_of(c / self.across, c % self.across);
            (0..usize::from(self.layers[c])).map(move |layer| (place, self.height_of(layer)))
        });
        self.carried_with(still, at, underside)
    }

    /// The same for cases that stand elsewhere: each one's place in the pallet frame and height
    /// over the pallet's underside, m.
    pub fn carried_with(
        &self,
        cases: impl Iterator<Item = (Vec2, f64)>,
        at: Vec2,
        underside: f64,
    ) -> Carried {
        let m = self.case.mass_kg;
        let mut mass = self.pallet.mass_kg;
        let mut moment = Vec2::default();
        let mut lifted = 0.5 * self.pallet.height_m * self.pallet.mass_kg;
        // Yaw inertia about the pallet's middle.
        let mut inertia = self.pallet.yaw_inertia();
        for (place, height) in cases {
            mass += m;
            moment = moment + place * m;
            lifted += m * height;
            inertia += self.case.yaw_inertia() + m * place.dot(place);
        }
        let com = moment * (1.0 / mass);
        Carried {
            mass,
            at: at + com,
            height: underside + lifted / mass,
            yaw_inertia: inertia - mass * com.dot(com),
        }
    }
}

type Wrong = (String, String);

fn wrong<T>(place: impl Into<String>, reason: impl Into<String>) -> Result<T, Wrong> {
    Err((place.into(), reason.into()))
}

fn slab(place: &str, s: &Slab, mass: (f64, f64)) -> Result<(), Wrong> {
    let ranges = [
        ("length_m", s.length_m, 0.05, 3.0),
        ("width_m", s.width_m, 0.05, 3.0),
        ("height_m", s.height_m, 0.02, HIGHEST_M),
        ("mass_kg", s.mass_kg, mass.0, mass.1),
    ];
    for (name, value, least, most) in ranges {
        if !(least..=most).contains(&value) {
            return wrong(
                format!("{place}.{name}"),
                format!("{value} lies outside {least} to {most}"),
            );
        }
    }
    Ok(())
}

fn check(f: &LoadFile) -> Result<PalletLoad, Wrong> {
    if f.id.is_empty()
        || f.id.len() > 40
        || !f.id.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-')
    {
        return wrong("id", "use 1 to 40 lower-case letters, digits and dashes");
    }
    slab("pallet", &f.pallet, (1.0, 200.0))?;
    slab("case", &f.case, (0.1, 2000.0))?;
    let rows = f.layers.len();
    let Some(across) = f.layers.first().map(Vec::len) else {
        return wrong("layers", "give at least one row of columns");
    };
    if across == 0 {
        return wrong("layers[0]", "give at least one column in a row");
    }
    if let Some(i) = f.layers.iter().position(|row| row.len() != across) {
        return wrong(
            format!("layers[{i}]"),
            format!(
                "this row has {} columns and the first has {across}; give every row as many",
                f.layers[i].len()
            ),
        );
    }
    if rows * across > MOST_COLUMNS {
        return wrong("layers", format!("{} columns; use at most {MOST_COLUMNS}", rows * across));
    }
    let load = PalletLoad {
        id: f.id.clone(),
        pallet: f.pallet,
        case: f.case,
        rows,
        across,
        layers: f.layers.iter().flatten().copied().collect(),
        wrapped: f.wrapped,
        grip: Grip {
            on_forks: f.surfaces.pallet_on_forks.dry(),
            on_pallet: f.surfaces.case_on_pallet.dry(),
            on_case: f.surfaces.case_on_case.dry(),
        },
    };
    let (cases, height) = (load.cases(), load.height());
    if cases == 0 || cases > MOST_CASES {
        return wrong("layers", format!("{cases} cases; use 1 to {MOST_CASES}"));
    }
    if height > HIGHEST_M {
        return wrong("layers", format!("the load is {height} m high; use at most {HIGHEST_M} m"));
    }
    let mass = load.as_carried(Vec2::default(), 0.0).mass;
    if mass > HEAVIEST_KG {
        return wrong("case.mass_kg", format!("the load has {mass} kg; use at most {HEAVIEST_KG}"));
    }
    let sides = [
        ("length_m", rows as f64 * f.case.length_m, f.pallet.length_m),
        ("width_m", across as f64 * f.case.width_m, f.pallet.width_m),
    ];
    for (name, cases, pallet) in sides {
        if cases > pallet + 2.0 * OVERHANG_M {
            return wrong(
                format!("case.{name}"),
                format!(
                    "the cases take {cases} m and the pallet has {pallet} m; let them stand out \
                     by at most {OVERHANG_M} m on a side"
                ),
            );
        }
    }
    Ok(load)
}
